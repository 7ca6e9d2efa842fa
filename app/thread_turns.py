"""Short turns between Python's threads while a window is open.

A thread that works without pause keeps the interpreter for a whole turn. A painting enters Python once for every item
that it draws, and while a worker is busy it may wait a turn at each: with Python's own turns a large plan stands still.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

TURN = 0.0005
"""Seconds: a tenth of Python's own. Measured on the larger cottage while mends are tried: pauses a third as long,
the trying itself a fifth longer."""


@contextmanager
def short_turns() -> Iterator[None]:
    """Threads take short turns inside the block, and those that they took before after it."""
    before = sys.getswitchinterval()
    sys.setswitchinterval(TURN)
    try:
        yield
    finally:
        sys.setswitchinterval(before)
