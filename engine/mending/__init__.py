"""Mends: the edits of a plan that put findings right, tried before they are offered."""

from engine.mending.offer import mends_for
from engine.mending.trying import Mend, tried
from engine.mending.unmended import WITHOUT

__all__ = ["WITHOUT", "Mend", "mends_for", "tried"]
