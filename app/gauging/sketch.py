"""A fitting's sketch on the screen: the strokes of the gauge sheet in the window's own inks."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.theme import FAMILY, INK, LINE, RAISED, TIMBER_TINT
from engine.drawings.gauging import sketch
from engine.drawings.strokes import Arc, Drawing, Fill, Line, Stroke, Text
from engine.drawings.typeface import CAP_HEIGHT
from engine.takeoff.gauge import Gauge

PIXELS = 132.0
"""Pixels to an inch of the drawing: larger than on paper, as a screen is read from farther off."""

LETTERING = 0.085
_MILLIMETRE = PIXELS / 25.4
_LEAST_LINE = 1.0


class FittingSketch(QWidget):
    """Draws one fitting with the letters of its legs."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Sketch of the fitting")
        self.setMinimumSize(QSize(250, 200))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        self._gauged: Gauge | None = None

    def sizeHint(self) -> QSize:
        """Wide enough for a branched fitting."""
        return QSize(290, 240)

    def show_fitting(self, gauged: Gauge | None) -> None:
        """Draw this fitting; None leaves the sheet empty."""
        self._gauged = gauged
        legs = ", ".join(f"{leg.letter} {leg.name}" for leg in gauged.legs) if gauged is not None else ""
        self.setAccessibleDescription(f"{gauged.name}, from the side: {legs}" if gauged is not None else "no fitting")
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Sheet, fitting, letters."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(LINE), 1.0))
        painter.setBrush(QColor(RAISED))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 6.0, 6.0)
        if self._gauged is not None:
            drawing = sketch(self._gauged, self.width() / PIXELS, self.height() / PIXELS, LETTERING)
            painter.translate(0.0, self.height())
            _draw(painter, drawing)


def _draw(painter: QPainter, drawing: Drawing) -> None:
    for stroke in drawing.strokes:
        _stroke(painter, stroke)


def _stroke(painter: QPainter, stroke: Stroke) -> None:
    if isinstance(stroke, Text):
        _text(painter, stroke)
        return
    if isinstance(stroke, Fill):
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(TIMBER_TINT))
        painter.drawPolygon(_polygon(stroke.points))
        return
    pen = QPen(QColor(INK), max(_LEAST_LINE, stroke.weight * _MILLIMETRE))
    if stroke.dashes:
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setDashPattern([dash * PIXELS / pen.widthF() for dash in stroke.dashes])
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if isinstance(stroke, Arc):
        if stroke.fill is not None:
            painter.setBrush(QColor(RAISED))
        painter.drawEllipse(_pixel(stroke.centre), stroke.radius * PIXELS, stroke.radius * PIXELS)
    elif isinstance(stroke, Line) and stroke.closed:
        painter.drawPolygon(_polygon(stroke.points))
    else:
        painter.drawPolyline(_polygon(stroke.points))


def _text(painter: QPainter, text: Text) -> None:
    font = QFont(FAMILY)
    font.setPixelSize(round(text.height / CAP_HEIGHT * PIXELS))
    font.setBold(text.bold)
    painter.setFont(font)
    painter.setPen(QColor(INK))
    wide = painter.fontMetrics().horizontalAdvance(text.text)
    at = _pixel(text.at)
    painter.drawText(QPointF(at.x() - (wide / 2.0 if text.anchor == "middle" else 0.0), at.y()), text.text)


def _pixel(point: tuple[float, float]) -> QPointF:
    return QPointF(point[0] * PIXELS, -point[1] * PIXELS)


def _polygon(points: tuple[tuple[float, float], ...]) -> QPolygonF:
    return QPolygonF([_pixel(point) for point in points])
