"""The one place where strokes become PDF: a drawing's paper inches to points on a canvas."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from engine.drawings.strokes import Arc, Dashes, Drawing, Fill, Line, Text
from engine.drawings.typeface import text_width, type_size
from engine.planset.fonts import BOLD, REGULAR
from engine.planset.papers import MILLIMETRE, POINTS
from engine.planset.words import plain

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

_ROUND = 1
_BUTT = 0
_HALO = 0.02


def draw(canvas: Canvas, drawing: Drawing, left: float, bottom: float) -> None:
    """Draw it with its lower left corner at `left`, `bottom`, inches from the page's."""
    canvas.saveState()
    canvas.translate(left * POINTS, bottom * POINTS)
    canvas.setLineJoin(_ROUND)
    for stroke in drawing.strokes:
        if isinstance(stroke, Line):
            _line(canvas, stroke)
        elif isinstance(stroke, Arc):
            _arc(canvas, stroke)
        elif isinstance(stroke, Fill):
            _fill(canvas, stroke)
        else:
            _text(canvas, stroke)
    canvas.restoreState()


def _pen(canvas: Canvas, weight: float, dashes: Dashes, grey: float) -> None:
    canvas.setLineWidth(weight * MILLIMETRE)
    canvas.setStrokeGray(grey)
    canvas.setLineCap(_BUTT if dashes else _ROUND)
    canvas.setDash([dash * POINTS for dash in dashes], 0)


def _line(canvas: Canvas, line: Line) -> None:
    _pen(canvas, line.weight, line.dashes, line.grey)
    path = canvas.beginPath()
    path.moveTo(*_points(line.points[0]))
    for point in line.points[1:]:
        path.lineTo(*_points(point))
    if line.closed:
        path.close()
    canvas.drawPath(path, stroke=1, fill=0)


def _arc(canvas: Canvas, arc: Arc) -> None:
    _pen(canvas, arc.weight, arc.dashes, arc.grey)
    x, y, radius = arc.centre[0] * POINTS, arc.centre[1] * POINTS, arc.radius * POINTS
    if arc.fill is not None:
        canvas.setFillGray(arc.fill)
    if abs(arc.sweep) >= 360.0:
        canvas.circle(x, y, radius, stroke=1, fill=0 if arc.fill is None else 1)
    else:
        canvas.arc(x - radius, y - radius, x + radius, y + radius, arc.start, arc.sweep)


def _fill(canvas: Canvas, fill: Fill) -> None:
    canvas.setFillGray(fill.grey)
    path = canvas.beginPath()
    path.moveTo(*_points(fill.points[0]))
    for point in fill.points[1:]:
        path.lineTo(*_points(point))
    path.close()
    canvas.drawPath(path, stroke=0, fill=1)


def _text(canvas: Canvas, text: Text) -> None:
    words = plain(text.text)
    width = text_width(words, text.height, text.bold) * POINTS
    shift = {"start": 0.0, "middle": -width / 2.0, "end": -width}[text.anchor]
    height, air = text.height * POINTS, _HALO * POINTS
    canvas.saveState()
    canvas.translate(*_points(text.at))
    if text.angle:
        canvas.rotate(math.fmod(text.angle, 360.0))
    if text.halo:
        canvas.setFillGray(1.0)
        canvas.rect(shift - air, -height * 0.12 - air, width + 2.0 * air, height * 1.2 + 2.0 * air, stroke=0, fill=1)
    canvas.setFillGray(text.grey)
    canvas.setFont(BOLD if text.bold else REGULAR, type_size(text.height))
    canvas.drawString(shift, 0.0, words)
    canvas.restoreState()


def _points(point: tuple[float, float]) -> tuple[float, float]:
    return (point[0] * POINTS, point[1] * POINTS)
