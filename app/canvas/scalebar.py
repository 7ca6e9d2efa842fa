"""The scale bar and the north arrow in a corner of the view: they stay put while the sheet moves under them."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QWidget

from app import palette
from engine.lengths import feet_inches

STEPS = (1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 120.0, 240.0, 480.0, 960.0)
"""Lengths that a scale bar may stand for, inches."""

LONGEST = 150.0
"""The bar is never longer than this, pixels."""

SIZE = QSize(210, 58)


class ScaleBar(QWidget):
    """How long a foot is on the screen, and where north is."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFixedSize(SIZE)
        self._scale = 1.0

    def show_scale(self, scale: float) -> None:
        """Show a zoom of `scale` pixels an inch."""
        self._scale = scale
        self.update()

    def length(self) -> float:
        """What the bar stands for now, inches."""
        fitting = [step for step in STEPS if step * self._scale <= LONGEST]
        return fitting[-1] if fitting else STEPS[0]

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the bar in halves, its length in words, and an arrow to the north."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inches = self.length()
        wide, left, base = inches * self._scale, 40.0, 40.0
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(palette.shade(palette.BEYOND, 225))
        painter.drawRoundedRect(QRectF(2.0, 4.0, left + wide + 12.0, 50.0), 5.0, 5.0)
        painter.setPen(palette.pen(palette.INK, 1.0))
        for half, fill in enumerate((palette.INK, palette.GROUND)):
            painter.setBrush(palette.shade(fill))
            painter.drawRect(QRectF(left + half * wide / 2.0, base, wide / 2.0, 5.0))
        painter.setFont(palette.lettering(12))
        painter.drawText(
            QRectF(left, base - 22.0, max(wide, 60.0), 18.0), Qt.AlignmentFlag.AlignLeft, feet_inches(inches)
        )
        painter.setBrush(palette.shade(palette.INK))
        painter.drawPolygon(
            QPolygonF([QPointF(20.0, 26.0), QPointF(14.5, 45.0), QPointF(20.0, 41.0), QPointF(25.5, 45.0)])
        )
        painter.drawText(QRectF(8.0, 8.0, 24.0, 16.0), Qt.AlignmentFlag.AlignHCenter, "N")
        painter.end()
