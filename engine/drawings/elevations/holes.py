"""Bores and notches on a joist's elevation: their true outlines, their middles, and the line that leads down from each."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from engine.drawings.cut_columns import Drop
from engine.drawings.elevations.figures import Shown
from engine.drawings.elevations.stick import Stick
from engine.drawings.elevations.subjects import Elevation
from engine.drawings.labels import Box
from engine.drawings.linetypes import FINE, MEDIUM, THIN
from engine.drawings.strokes import Fill, Line, Stroke
from engine.plan.records import Point

ARM = 0.035
"""How far a middle's cross reaches past its hole, paper inches."""

UNJUDGED = (0.03, 0.025)
BEHIND = (0.025, 0.02)
"""Dash patterns of what is not judged, and of a hole's other mouth."""

_CORNERS = 48
_APART = 0.035
_CLEAR = 0.012
_STEP = 0.02
_TRIES = 400
_WHITE = 1.0


def mouth(stick: Stick, drawn: Elevation, cut: Shown, middle: float) -> tuple[Point, ...]:
    """The outline of a cut on one face, kept within the wood: a hole's oval, a notch's or a slot's rectangle."""
    half = cut.length / 2.0
    if cut.kind == "notch" or not cut.straight:
        low, high = _within(drawn, cut.low, cut.high)
        left, right = max(cut.at - half, 0.0), min(cut.at + half, drawn.length)
        corners = ((left, low), (right, low), (right, high), (left, high))
        return tuple(stick.at(*corner) for corner in corners)
    half = max(half - abs(cut.near - cut.behind) / 2.0, cut.width / 2.0)
    return _oval(stick, drawn, (middle, cut.height), (half, cut.width / 2.0))


def _oval(stick: Stick, drawn: Elevation, middle: Point, half: Point) -> tuple[Point, ...]:
    """An oval by its middle and half its length and height, kept within the wood."""
    points = []
    for n in range(_CORNERS):
        angle = 2.0 * math.pi * n / _CORNERS
        along, up = middle[0] + half[0] * math.cos(angle), middle[1] + half[1] * math.sin(angle)
        points.append(stick.at(min(max(along, 0.0), drawn.length), min(max(up, 0.0), drawn.depth)))
    return tuple(points)


def cuts(stick: Stick, drawn: Elevation) -> Iterator[Stroke]:
    """Every cut's outline, over the lines down: white where legal, black where not, dashed where not judged; and its middle.

    Tubes that share a hole stand in it as fine rounds.
    """
    for cut in drawn.cuts:
        outline = mouth(stick, drawn, cut, cut.near)
        if cut.behind != cut.near:
            yield Line(mouth(stick, drawn, cut, cut.behind), FINE, BEHIND, closed=True)
        illegal = cut.verdict == "NOT LEGAL"
        yield Fill(outline, 0.0 if illegal else _WHITE)
        yield Line(outline, MEDIUM, UNJUDGED if cut.verdict == "not judged" else (), closed=True)
        for along, height, width in cut.tubes:
            oval = _oval(stick, drawn, (along, height), (width / 2.0, width / 2.0))
            yield Line(oval, FINE, grey=_WHITE if illegal else 0.0, closed=True)
    for cut in drawn.cuts:
        if 0.0 <= cut.height <= drawn.depth:
            yield from _cross(stick, cut)


def box_of(stick: Stick, drawn: Elevation, cut: Shown) -> Box:
    """The rectangle round a cut on paper, both mouths of a hole at an angle counted."""
    points = [point for middle in (cut.near, cut.behind) for point in mouth(stick, drawn, cut, middle)]
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def drops(stick: Stick, drawn: Elevation) -> list[Drop[Shown]]:
    """A line down from each cut, past every other cut, so that no two can be taken for each other; from left to right."""
    boxes = {cut.numbers: box_of(stick, drawn, cut) for cut in drawn.cuts}
    found: list[Drop[Shown]] = []
    for cut in sorted(drawn.cuts, key=lambda cut: (cut.low, cut.at)):
        own = boxes[cut.numbers]
        others = [box for numbers, box in boxes.items() if numbers != cut.numbers]
        middle = stick.at(cut.near, cut.height)
        y = min(max(middle[1], own.bottom), own.top)
        x = next((x for x in _ways(middle[0], stick) if _free(x, y, others, found)), middle[0])
        start = ((x, y),) if own.left <= x <= own.right else ((middle[0], y), (x, y))
        found.append(Drop(cut, start, x))
    return sorted(found, key=lambda drop: drop.x)


def _ways(x: float, stick: Stick) -> Iterator[float]:
    """Uprights to try: through the middle, then farther and farther to either side."""
    yield x
    n = 1
    while n < _TRIES:
        yield x + n * _STEP
        if x - n * _STEP > stick.left:
            yield x - n * _STEP
        n += 1


def _free(x: float, y: float, others: Sequence[Box], taken: Sequence[Drop[Shown]]) -> bool:
    """Whether an upright from a height down meets no other cut and keeps clear of the other uprights."""
    if any(abs(drop.x - x) < _APART for drop in taken):
        return False
    return not any(box.bottom <= y and box.left - _CLEAR < x < box.right + _CLEAR for box in others)


def _cross(stick: Stick, cut: Shown) -> Iterator[Stroke]:
    """A hole's middle on the face seen: a cross that shows white within a black hole, with arms past its edge."""
    x, y = stick.at(cut.near, cut.height)
    half_x, half_y = cut.width / 2.0 / stick.along, cut.width / 2.0 / stick.up
    grey = _WHITE if cut.verdict == "NOT LEGAL" else 0.0
    if cut.kind == "notch":
        yield Line(((x - ARM, y), (x + ARM, y)), FINE, grey=grey)
        yield Line(((x, y - ARM), (x, y + ARM)), FINE, grey=grey)
        return
    yield Line(((x - half_x * 0.5, y), (x + half_x * 0.5, y)), THIN, grey=grey)
    yield Line(((x, y - half_y * 0.5), (x, y + half_y * 0.5)), THIN, grey=grey)


def _within(drawn: Elevation, low: float, high: float) -> tuple[float, float]:
    return max(low, 0.0), min(high, drawn.depth)
