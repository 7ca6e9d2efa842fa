"""A small picture of an empty floor: rims, joists, and its measures along two sides."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.theme import INK, LINE, QUIET, RAISED, TIMBER, TIMBER_TINT
from engine.framing.layout import lay_out
from engine.framing.records import Joist
from engine.lengths import feet_inches
from engine.plan.records import Plan

RIM = 34.0
"""Pixels kept free round the floor for its measures."""


class FloorSketch(QWidget):
    """Draws a plan's joists as they lie, north upward."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Sketch of the floor's joists")
        self.setMinimumSize(QSize(260, 260))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._size: tuple[float, float] | None = None
        self._joists: tuple[Joist, ...] = ()

    def show_plan(self, plan: Plan | None) -> None:
        """Draw this plan's floor; None leaves the sheet empty."""
        self._joists = lay_out(plan).joists if plan is not None else ()
        if plan is None:
            self._size = None
            self.setAccessibleDescription("no floor")
        else:
            xs, ys = zip(*plan.floor.outline, strict=True)
            self._size = (max(xs) - min(xs), max(ys) - min(ys))
            commons = sum(joist.kind == "common" for joist in self._joists)
            self.setAccessibleDescription(
                f"{feet_inches(self._size[0])} by {feet_inches(self._size[1])}, {commons} common joists"
            )
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Sheet, wood, measures."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(LINE), 1.0))
        painter.setBrush(QColor(RAISED))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 6.0, 6.0)
        if self._size is None:
            painter.setPen(QColor(QUIET))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, "no floor yet")
            return
        width, length = self._size
        scale = min((self.width() - 2.0 * RIM) / width, (self.height() - 2.0 * RIM) / length)
        left = (self.width() - width * scale) / 2.0
        foot = (self.height() + length * scale) / 2.0
        floor = QRectF(left, foot - length * scale, width * scale, length * scale)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(TIMBER_TINT))
        painter.drawRect(floor)
        for joist in self._joists:
            painter.setPen(
                QPen(QColor(TIMBER), max(1.0, joist.thickness * scale), Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap)
            )
            ends = [QPointF(left + x * scale, foot - y * scale) for x, y in (joist.start, joist.end)]
            painter.drawLine(*ends)
        painter.setPen(QPen(QColor(INK), 1.2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(floor)
        middle = Qt.AlignmentFlag.AlignCenter
        painter.drawText(
            QRectF(floor.left() - RIM, floor.bottom(), floor.width() + 2 * RIM, RIM), middle, feet_inches(width)
        )
        painter.translate(floor.right() + RIM / 2.0, floor.center().y())
        painter.rotate(-90.0)
        painter.drawText(QRectF(-100.0, -RIM / 2.0, 200.0, RIM), middle, feet_inches(length))
