"""A hand at the fall strip: it presses, drags and types where the pipe is drawn."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.strip.sheet import StripSheet
from app.workplace import Workplace
from engine.takeoff.levers import Lever
from engine.takeoff.long_section import LongSection

LEFT, NO_KEYS = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


class StripHand:
    """Works one workplace's strip; places are distances from the exit and heights over the joists' top, inches."""

    def __init__(self, work: Workplace, qtbot) -> None:
        self.work, self._qtbot = work, qtbot
        self.rest()

    @property
    def sheet(self) -> StripSheet:
        return self.work.fall.sheet

    @property
    def section(self) -> LongSection:
        found = self.sheet.subject.section
        assert found is not None, self.sheet.subject.words
        return found

    @property
    def lever(self) -> Lever:
        held = self.sheet.subject.lever
        assert held is not None, self.sheet.subject.words
        return held

    def rest(self) -> None:
        """Wait until the plan on show is studied and the strip shows it."""
        self._qtbot.waitUntil(lambda: self.work.document.studied, timeout=20_000)
        self.sheet.grab()

    def select(self, *ids: str) -> None:
        self.work.document.select(ids)
        self.sheet.grab()

    def axis(self, station: float) -> QPointF:
        """The pixel of the pipe's axis at a distance from the exit."""
        return self.sheet.scale.point(station, self.section.leg_at(station).z(station))

    def press(self, at: QPointF, keys: Qt.KeyboardModifier = NO_KEYS) -> None:
        QTest.mousePress(self.sheet, LEFT, keys, at.toPoint())

    def move(
        self, at: QPointF, held: Qt.MouseButton = LEFT, keys: Qt.KeyboardModifier = NO_KEYS, rest: bool = True
    ) -> None:
        event = QMouseEvent(QEvent.Type.MouseMove, at, self.sheet.mapToGlobal(at), Qt.MouseButton.NoButton, held, keys)
        QApplication.sendEvent(self.sheet, event)
        if rest:
            self.rest()

    def release(self, at: QPointF) -> None:
        QTest.mouseRelease(self.sheet, LEFT, NO_KEYS, at.toPoint())
        self.rest()

    def pull(self, station: float, by: float, keys: Qt.KeyboardModifier = NO_KEYS) -> QPointF:
        """Take the pipe at a distance from the exit and pull it up by so many inches; it stays in the hand."""
        start = self.axis(station)
        begun = QPointF(start.toPoint())
        self.press(start, keys)
        pixels = by * self.sheet.scale.up
        for share in (0.5, 1.0):
            self.move(begun - QPointF(0.0, pixels * share), keys=keys)
        return begun - QPointF(0.0, pixels)

    def key(self, key: Qt.Key, keys: Qt.KeyboardModifier = NO_KEYS) -> None:
        QTest.keyClick(self.sheet, key, keys)
        self.rest()
