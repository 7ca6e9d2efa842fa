"""Python's collector kept to the window's own thread.

The collector runs in whichever thread happens to allocate. Where that is a worker (the live study, the plan set), the
widgets and scene items it finds in dead cycles are taken apart off the window's thread, which ends the process. So the
automatic runs are off while a window is open, and a timer makes them when they are due.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QObject, QTimer

OFTEN = 250
"""Milliseconds between two looks at whether a run is due."""


class Collector(QObject):
    """Collects dead cycles on the thread that it lives in, as often as Python itself would."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        gc.disable()
        self._timer = QTimer(self)
        self._timer.setInterval(OFTEN)
        self._timer.timeout.connect(self.look)
        self._timer.start()

    def look(self) -> None:
        """Collect the oldest generation that is due; nothing when none is."""
        for generation, (count, limit) in reversed(
            list(enumerate(zip(gc.get_count(), gc.get_threshold(), strict=True)))
        ):
            if limit and count > limit:
                gc.collect(generation)
                return

    def let_go(self) -> None:
        """Leave the collecting to Python again."""
        self._timer.stop()
        gc.enable()
