"""A picture of the exit window: the joist seen from the side, the room for the drain's axis, the height in force."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from app.theme import INK, PINE, PINE_TINT, RAISED, STOP, TIMBER, TIMBER_TINT

if TYPE_CHECKING:
    from engine.crossings.records import Window

SIZE = QSize(92, 132)
MARGIN = 8.0


class JoistSection(QWidget):
    """The window drawn to scale beside the joist's depth; heights in inches from the joist's top."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFixedSize(SIZE)
        self.setAccessibleName("The exit window beside the joist; the same figures stand in words")
        self._window: Window | None = None
        self._depth = 0.0

    def show_window(self, window: Window | None, depth: float) -> None:
        """Draw this window beside a joist of this depth (0: no joist is drawn yet)."""
        if (window, depth) != (self._window, self._depth):
            self._window, self._depth = window, depth
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Joist, room between the ends, and the axis in force."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        foot = min([-self._depth, *self._heights()], default=0.0)
        top = max([0.0, *self._heights()], default=0.0)
        if top - foot <= 0.0:
            return
        scale = (self.height() - 2.0 * MARGIN) / (top - foot)

        def y(z: float) -> float:
            return MARGIN + (top - z) * scale

        wood = QRectF(20.0, y(0.0), self.width() - 40.0, self._depth * scale)
        painter.setPen(QPen(QColor(TIMBER), 1.2))
        painter.setBrush(QColor(TIMBER_TINT))
        painter.drawRect(wood)
        painter.setPen(QPen(QColor(INK), 2.0))
        painter.drawLine(QPointF(4.0, y(0.0)), QPointF(self.width() - 4.0, y(0.0)))
        if self._window is not None:
            self._draw_room(painter, self._window, y, wood)

    def _heights(self) -> list[float]:
        window = self._window
        if window is None:
            return []
        return [z for z in (window.low, window.high, window.chosen) if z is not None]

    def _draw_room(self, painter: QPainter, window: Window, y: Callable[[float], float], wood: QRectF) -> None:
        high = y(window.high) if window.high is not None else wood.top()
        low = y(window.low) if window.low is not None else max(wood.bottom(), y(window.chosen))
        possible = low >= high
        ink = QColor(PINE if possible else STOP)
        room = QRectF(wood.left() + 4.0, min(high, low), wood.width() - 8.0, max(1.0, abs(low - high)))
        painter.setPen(Qt.PenStyle.NoPen)
        fill = QColor(PINE_TINT if possible else STOP)
        painter.setBrush(QBrush(fill, Qt.BrushStyle.SolidPattern if possible else Qt.BrushStyle.BDiagPattern))
        painter.drawRect(room)
        for line, known in ((high, window.high is not None), (low, window.low is not None)):
            if known:
                painter.setPen(QPen(ink, 1.8))
                painter.drawLine(QPointF(room.left() - 8.0, line), QPointF(room.right() + 8.0, line))
        middle = QPointF(wood.center().x(), y(window.chosen))
        painter.setPen(QPen(QColor(INK), 1.4))
        painter.setBrush(QColor(RAISED))
        painter.drawEllipse(middle, 6.0, 6.0)
        painter.setBrush(QColor(INK))
        painter.drawEllipse(middle, 1.8, 1.8)
