"""What stands on every drawing: the scale bar and the north arrow."""

from __future__ import annotations

from engine.drawings.linetypes import MEDIUM, THIN
from engine.drawings.scales import Scale
from engine.drawings.strokes import Arc, Fill, Line, Stroke, Text
from engine.plan.records import Point

_FEET = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0)
_HIGH = 0.055


def scale_bar(at: Point, scale: Scale, lettering: float, most: float) -> tuple[list[Stroke], float]:
    """A bar of four alternating fields in feet, at most `most` inches long; returns it and where it ends."""
    step = max((feet for feet in _FEET if 4.0 * feet * 12.0 / scale.ratio <= most), default=_FEET[0])
    field = step * 12.0 / scale.ratio
    x, y = at
    strokes: list[Stroke] = []
    for n in range(4):
        left, right = x + n * field, x + (n + 1) * field
        box = ((left, y), (right, y), (right, y + _HIGH), (left, y + _HIGH))
        strokes.append(Fill(box, 0.0 if n % 2 == 0 else 1.0))
        strokes.append(Line(box, THIN, closed=True))
    for n in range(5):
        feet = f"{n * step:g}" + ("'" if n else "")
        strokes.append(Text((x + n * field, y + _HIGH + 0.035), feet, lettering * 0.9, "middle"))
    return strokes, x + 4.0 * field


def north_arrow(centre: Point, radius: float, lettering: float) -> list[Stroke]:
    """A circle with a half-filled arrowhead that points to the top of the sheet, and its letter."""
    x, y = centre
    tip, tail = (x, y + radius), (x, y - radius * 0.35)
    left, right = (x - radius * 0.6, y - radius * 0.8), (x + radius * 0.6, y - radius * 0.8)
    return [
        Arc(centre, radius, MEDIUM),
        Fill((tip, left, tail), 0.0),
        Line((tip, left, tail, right), THIN, closed=True),
        Text((x - radius - 0.05, y - lettering * 0.6), "N", lettering * 1.3, "end", bold=True),
    ]
