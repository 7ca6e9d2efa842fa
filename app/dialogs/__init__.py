"""What the window asks and tells in windows of its own."""
