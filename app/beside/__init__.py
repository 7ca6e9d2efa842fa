"""The plan under another rule book, in a window beside the drawing."""
