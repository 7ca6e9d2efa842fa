"""The sole plate from above: where the studs stand on it, each hole at its width, and the line down from each to its figures."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from engine.drawings.cut_columns import Drop
from engine.drawings.labels import Box
from engine.drawings.linetypes import FINE, MEDIUM, THIN, WIDE
from engine.drawings.strokes import Fill, Line, Stroke, Text
from engine.drawings.walls.records import Shown, WallView
from engine.drawings.walls.side import ASSUMED, HIDDEN, PLATE_FILL, Side, stud_box
from engine.lengths import inches
from engine.plan.records import Point

_CORNERS = 40
_APART = 0.035
_STEP = 0.02
_TRIES = 300
_UNJUDGED = (0.03, 0.025)


def plate(seen: Side, drawn: WallView) -> Iterator[Stroke]:
    """The plate with the studs' feet crossed on it, as they are laid out on the wood, and its holes."""
    length, depth = drawn.hook.length, drawn.hook.depth
    yield Fill(seen.box(0.0, 0.0, length, depth), 0.97)
    for stud in drawn.studs:
        box = seen.box(stud.low, 0.0, stud.high, depth)
        yield Fill(box, PLATE_FILL)
        yield Line(box, FINE, ASSUMED if stud.assumed else (), 0.2, closed=True)
        yield Line((box[0], box[2]), FINE, grey=0.45)
        yield Line((box[1], box[3]), FINE, grey=0.45)
    yield Line(seen.box(0.0, 0.0, length, depth), WIDE, closed=True)
    for cut in drawn.cuts:
        yield from _hole(seen, drawn, cut)


def _hole(seen: Side, drawn: WallView, cut: Shown) -> Iterator[Stroke]:
    """A hole with a cross in its middle; one in the top plates alone is dashed, a stud's cut is the cross alone."""
    x, y = seen.at(cut.at, cut.across)
    illegal = cut.verdict == "NOT LEGAL"
    width = cut.sole if cut.sole is not None else cut.top
    reach_x, reach_y = 0.04, 0.04
    if width is not None:
        outline = _round(seen, drawn, cut, width)
        dashes = HIDDEN if cut.sole is None else _UNJUDGED if cut.verdict == "not judged" else ()
        yield Fill(outline, 0.0 if illegal else 1.0)
        yield Line(outline, MEDIUM, dashes, closed=True)
        reach_x, reach_y = width / 4.0 / seen.along, width / 4.0 / seen.up
    grey = 1.0 if illegal and width is not None else 0.0
    yield Line(((x - reach_x, y), (x + reach_x, y)), THIN, grey=grey)
    yield Line(((x, y - reach_y), (x, y + reach_y)), THIN, grey=grey)


def _round(seen: Side, drawn: WallView, cut: Shown, width: float) -> tuple[Point, ...]:
    points = []
    for n in range(_CORNERS):
        angle = 2.0 * math.pi * n / _CORNERS
        across = cut.across + width / 2.0 * math.sin(angle)
        along = cut.at + width / 2.0 * math.cos(angle)
        points.append(seen.at(min(max(along, 0.0), drawn.hook.length), min(max(across, 0.0), drawn.hook.depth)))
    return tuple(points)


def words(seen: Side, drawn: WallView, height: float) -> Iterator[Stroke]:
    """Which end the tape runs from and which face it is hooked on across the plate; how deep the plate is."""
    big, small = height * 1.15, height * 0.88
    (left, low), (right, top) = seen.at(0.0, 0.0), seen.at(drawn.hook.length, drawn.hook.depth)
    x = left - 0.12
    yield Text((x, top - big), f"{drawn.hook.end.upper()} END", big, "end", bold=True)
    yield Text((x, top - big - small * 1.75), "MEASURE FROM HERE", small, "end")
    yield Fill(((left, low), (left - 0.09, low - 0.045), (left - 0.09, low + 0.045)), 0.0)
    yield Text((right + 0.12, top - small), f"{drawn.hook.far.upper()} FACE", small)
    middle = (low + top) / 2.0
    yield Text((right + 0.12, middle - big / 2.0), f"{drawn.hook.other.upper()} END", big, bold=True)
    yield Text((right + 0.12, low), f"{drawn.hook.near.upper()} FACE", small, bold=True)
    yield Text((left, top + 0.05), f'SOLE PLATE FROM ABOVE, {inches(drawn.hook.depth)}" WIDE', small, halo=True)


def drops(seen: Side, side: Side, drawn: WallView) -> list[Drop[Shown]]:
    """A line down from each cut, clear of the other cuts and of the other lines; from left to right."""
    boxes = [_box(seen, side, drawn, cut) for cut in drawn.cuts]
    found: list[Drop[Shown]] = []
    for n, cut in sorted(enumerate(drawn.cuts), key=lambda pair: (boxes[pair[0]].bottom, pair[1].at)):
        own, others = boxes[n], [box for m, box in enumerate(boxes) if m != n]
        start = seen.at(cut.at, cut.across) if cut.height is None else side.at(cut.at, cut.height)
        x = next((x for x in _ways(start[0], seen.left) if _free(x, start[1], others, found)), start[0])
        inside = own.left <= x <= own.right
        found.append(Drop(cut, ((x, start[1]),) if inside else (start, (x, start[1])), x))
    return sorted(found, key=lambda drop: drop.x)


def _box(seen: Side, side: Side, drawn: WallView, cut: Shown) -> Box:
    if cut.height is not None:
        (left, low), _, (right, high), _ = side.box(*stud_box(drawn, cut))
        return Box(left, low, right, high)
    half = max(cut.sole or 0.0, cut.top or 0.0) / 2.0
    (left, low), _, (right, high), _ = seen.box(cut.at - half, cut.across - half, cut.at + half, cut.across + half)
    return Box(left, low, right, high)


def _ways(x: float, least: float) -> Iterator[float]:
    yield x
    for n in range(1, _TRIES):
        yield x + n * _STEP
        if x - n * _STEP > least:
            yield x - n * _STEP


def _free(x: float, y: float, others: Sequence[Box], taken: Sequence[Drop[Shown]]) -> bool:
    if any(abs(drop.x - x) < _APART for drop in taken):
        return False
    return not any(box.bottom <= y and box.left - 0.012 < x < box.right + 0.012 for box in others)
