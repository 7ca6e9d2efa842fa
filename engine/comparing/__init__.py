"""One plan under two rule books: what changes, and why."""
