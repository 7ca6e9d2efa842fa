"""The window toolkit's build is sound here: one release of it gave None away until the interpreter fell over."""

from __future__ import annotations

import sys

from PySide6.QtCore import QObject, QPointF
from PySide6.QtGui import QTransform

CALLS = 20_000


def test_ordinary_calls_leave_the_count_of_none_alone() -> None:
    """PySide6 6.12.0 under Python 3.11 loses a reference to None at each such call (measured)."""
    thing, transform = QObject(), QTransform()
    before = sys.getrefcount(None)
    for _ in range(CALLS):
        thing.setObjectName("canary")
        thing.parent()
        transform.map(QPointF(1.0, 2.0))
    assert abs(sys.getrefcount(None) - before) < CALLS // 100
