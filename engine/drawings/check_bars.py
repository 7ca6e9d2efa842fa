"""Bars to hold a rule against, so that a print that was scaled is found out before anything is sawn."""

from __future__ import annotations

from itertools import pairwise

from engine.drawings.linetypes import THIN
from engine.drawings.strokes import Fill, Line, Stroke, Text
from engine.plan.records import Point

INCHES = 4
MILLIMETRES = 100

_HIGH = 0.08
_CAPS = 0.075
_INCH = 25.4


def check_bars(at: Point) -> list[Stroke]:
    """A bar of 4 in and under it one of 100 mm, both from the same left end; `at` is the lower bar's lower corner."""
    x, y = at
    strokes = _bar((x, y + _HIGH + 0.06), [float(n) for n in range(INCHES + 1)])
    strokes += _bar(at, [n / _INCH for n in range(0, MILLIMETRES + 1, 10)])
    strokes.append(Text((x + INCHES + 0.08, y + _HIGH + 0.06), f"{INCHES} in", _CAPS, bold=True))
    strokes.append(Text((x + MILLIMETRES / _INCH + 0.08, y), f"{MILLIMETRES} mm", _CAPS, bold=True))
    return strokes


def upright_bar(at: Point) -> list[Stroke]:
    """The bar of 4 in standing up: paper may be scaled along its feed alone."""
    x, y = at
    strokes = [_turned(stroke, at) for stroke in _bar((0.0, 0.0), [float(n) for n in range(INCHES + 1)])]
    strokes.append(Text((x - _HIGH / 2.0, y + INCHES + 0.06), f"{INCHES} in", _CAPS, "middle", bold=True))
    return strokes


def _bar(at: Point, stops: list[float]) -> list[Stroke]:
    x, y = at
    strokes: list[Stroke] = []
    for n, (start, end) in enumerate(pairwise(stops)):
        box = ((x + start, y), (x + end, y), (x + end, y + _HIGH), (x + start, y + _HIGH))
        strokes.append(Fill(box, 0.0 if n % 2 == 0 else 1.0))
    strokes += [Line(((x + stop, y - 0.02), (x + stop, y + _HIGH + 0.02)), THIN) for stop in (stops[0], stops[-1])]
    strokes.append(Line(((x, y), (x + stops[-1], y)), THIN))
    strokes.append(Line(((x, y + _HIGH), (x + stops[-1], y + _HIGH)), THIN))
    return strokes


def _turned(stroke: Stroke, at: Point) -> Stroke:
    """A stroke of a bar turned a quarter to the left about the origin and moved."""
    assert isinstance(stroke, Line | Fill)
    points = tuple((at[0] - y, at[1] + x) for x, y in stroke.points)
    return Line(points, stroke.weight) if isinstance(stroke, Line) else Fill(points, stroke.grey)
