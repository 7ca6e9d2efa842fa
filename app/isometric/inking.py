"""Strokes of a drawing as paths, pens and brushes for the screen, in pixels from the drawing's origin."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPainterPath, QPen, QPolygonF

from app import palette
from app.isometric.subject import PIXELS, TYPE_PIXELS
from engine.drawings.labels import text_boxes
from engine.drawings.strokes import Arc, Fill, Line, Stroke, Text
from engine.plan.records import Point

MILLIMETRE = PIXELS / 25.4
"""Pixels in a millimetre of paper."""

LEAST_LINE = 1.0
"""No line is thinner on a screen, pixels."""


class Ink(NamedTuple):
    """One stroke ready to be painted."""

    path: QPainterPath
    pen: QPen
    brush: QBrush


def pixel(at: Point) -> QPointF:
    """A paper point in pixels: y runs down there."""
    return QPointF(at[0] * PIXELS, -at[1] * PIXELS)


def inked(strokes: Iterable[Stroke], colour: str) -> list[Ink]:
    """Lines and areas in a colour; white areas take the ground's, texts are painted apart."""
    return [_ink(stroke, colour) for stroke in strokes if not isinstance(stroke, Text)]


def paint(painter: QPainter, inks: Iterable[Ink]) -> None:
    """Paint strokes in their order."""
    for path, pen, brush in inks:
        painter.setPen(pen)
        painter.setBrush(brush)
        painter.drawPath(path)


def paint_text(painter: QPainter, text: Text, colour: str) -> None:
    """Paint one text at its place and angle."""
    font = palette.lettering(TYPE_PIXELS, text.bold)
    wide = QFontMetricsF(font).horizontalAdvance(text.text)
    shift = {"start": 0.0, "middle": -wide / 2.0, "end": -wide}[text.anchor]
    painter.setFont(font)
    painter.setPen(palette.shade(colour))
    painter.save()
    painter.translate(pixel(text.at))
    painter.rotate(-text.angle)
    painter.drawText(QPointF(shift, 0.0), text.text)
    painter.restore()


def outline(strokes: Iterable[Stroke]) -> QPainterPath:
    """The ink of strokes as one path, to lay a glow along."""
    whole = QPainterPath()
    for stroke in strokes:
        if not isinstance(stroke, Text):
            whole.addPath(_path(stroke))
    return whole


def gap(strokes: Iterable[Stroke], at: Point) -> float:
    """How far a paper point lies from the ink of strokes, paper inches; 0 on an area or a text."""
    least = math.inf
    for stroke in strokes:
        if isinstance(stroke, Line):
            points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
            for a, b in pairwise(points):
                least = min(least, _from_line(at, a, b))
        elif isinstance(stroke, Arc):
            least = min(least, max(0.0, math.dist(at, stroke.centre) - stroke.radius))
        elif isinstance(stroke, Fill):
            xs, ys = zip(*stroke.points, strict=True)
            across = max(min(xs) - at[0], 0.0, at[0] - max(xs))
            least = min(least, math.hypot(across, max(min(ys) - at[1], 0.0, at[1] - max(ys))))
        else:
            for box in text_boxes(stroke):
                across = max(box.left - at[0], 0.0, at[0] - box.right)
                least = min(least, math.hypot(across, max(box.bottom - at[1], 0.0, at[1] - box.top)))
    return least


def _ink(stroke: Line | Arc | Fill, colour: str) -> Ink:
    path = _path(stroke)
    if isinstance(stroke, Fill):
        return Ink(path, QPen(Qt.PenStyle.NoPen), QBrush(_tone(colour, stroke.grey)))
    pen = QPen(
        _tone(colour, stroke.grey if isinstance(stroke, Line) else 0.0), max(LEAST_LINE, stroke.weight * MILLIMETRE)
    )
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if stroke.dashes:
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setDashPattern([dash * PIXELS / pen.widthF() for dash in stroke.dashes])
    filled = isinstance(stroke, Arc) and stroke.fill is not None
    brush = (
        QBrush(_tone(colour, stroke.fill or 0.0))
        if isinstance(stroke, Arc) and filled
        else QBrush(Qt.BrushStyle.NoBrush)
    )
    return Ink(path, pen, brush)


def _tone(colour: str, grey: float) -> QColor:
    """The colour, or the ground where paper would be left white."""
    return QColor(palette.GROUND) if grey >= 1.0 else palette.shade(colour, round(255 * (1.0 - grey)))


def _path(stroke: Line | Arc | Fill) -> QPainterPath:
    path = QPainterPath()
    if isinstance(stroke, Arc):
        reach = stroke.radius * PIXELS
        path.addEllipse(pixel(stroke.centre), reach, reach)
        return path
    path.addPolygon(QPolygonF([pixel(point) for point in stroke.points]))
    if isinstance(stroke, Fill) or stroke.closed:
        path.closeSubpath()
    return path


def _from_line(at: Point, a: Point, b: Point) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    run = dx * dx + dy * dy
    share = 0.0 if run == 0.0 else max(0.0, min(1.0, ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / run))
    return math.hypot(at[0] - a[0] - share * dx, at[1] - a[1] - share * dy)


def rectangle(left: float, bottom: float, right: float, top: float) -> QRectF:
    """A paper rectangle in pixels."""
    return QRectF(pixel((left, top)), pixel((right, bottom)))
