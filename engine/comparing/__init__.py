"""One plan under two rule books: what changes, and why."""

from engine.comparing.compare import compare
from engine.comparing.records import Comparison
from engine.comparing.sides import SameBookError

__all__ = ["Comparison", "SameBookError", "compare"]
