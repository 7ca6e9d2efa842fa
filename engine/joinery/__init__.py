"""From the pipe graph and its heights to parts, glued bonds and cut pieces."""
