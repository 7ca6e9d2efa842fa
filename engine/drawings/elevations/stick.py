"""The joist itself on its elevation: wood, no-go bands, spans with their middle thirds, supports, and its two ends."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.drawings.elevations.subjects import Elevation, Third
from engine.drawings.linetypes import FINE, THIN, WIDE
from engine.drawings.strokes import Fill, Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.lengths import inches
from engine.plan.records import Point

THIRD_FILL = 0.9
"""Grey of the part of a span that is kept whole."""

HATCH = 0.62
BAND = 0.055
"""Grey of the bands' hatching, and how far its strokes stand apart, paper inches."""

SUPPORT = 0.075
"""Height of a support's block under the joist, paper inches."""

THIRD_LINE = (0.06, 0.04)
_SUPPORT_FILL = 0.45
_TICK = 0.035


class Stick(NamedTuple):
    """Where a joist lies on paper: its lower corner at the hooked end, and how many inches of wood a paper inch shows."""

    left: float
    bottom: float
    along: float
    up: float

    def at(self, along: float, height: float) -> Point:
        """The paper point of a distance from the hooked end and a height from the bottom edge."""
        return (self.left + along / self.along, self.bottom + height / self.up)


def wood(stick: Stick, drawn: Elevation) -> Iterator[Stroke]:
    """The wood with what no hole and no notch may reach into, and what carries it."""
    length, depth = drawn.length, drawn.depth
    for third in drawn.thirds:
        yield Fill(_box(stick, third.low, 0.0, third.high, depth), THIRD_FILL)
    if drawn.edge is not None:
        for low, high in ((0.0, min(drawn.edge, depth)), (max(depth - drawn.edge, 0.0), depth)):
            yield from hatched(stick.at(0.0, low), stick.at(length, high))
            inner = high if low == 0.0 else low
            yield Line((stick.at(0.0, inner), stick.at(length, inner)), FINE, (0.04, 0.03), 0.35)
    for third in drawn.thirds:
        for at in (third.low, third.high):
            yield Line((stick.at(at, 0.0), stick.at(at, depth)), THIN, THIRD_LINE, 0.2)
    yield Line(_box(stick, 0.0, 0.0, length, depth), WIDE, closed=True)
    for low, high in drawn.supports:
        yield from _support(stick, low, high, length)


def hatched(low: Point, high: Point, grey: float = HATCH, apart: float = BAND) -> Iterator[Stroke]:
    """Strokes at 45 degrees across a rectangle between two corners, so far apart, paper inches."""
    tall = high[1] - low[1]
    if tall <= 0.0:
        return
    x = low[0] - tall + apart / 2.0
    while x < high[0]:
        start, end = max(x, low[0]), min(x + tall, high[0])
        if end - start > 0.004:
            yield Line(((start, low[1] + start - x), (end, low[1] + end - x)), FINE, grey=grey)
        x += apart


def measures(stick: Stick, drawn: Elevation, height: float) -> Iterator[Stroke]:
    """Over the wood each clear span with its middle third, both told from the hooked end."""
    y = stick.at(0.0, drawn.depth)[1] + height * 1.1
    for third in drawn.thirds:
        a, low, high, b = (stick.at(at, 0.0)[0] for at in (third.start, third.low, third.high, third.end))
        yield Line(((a, y), (b, y)), THIN)
        for x in (a, low, high, b):
            yield Line(((x - _TICK, y - _TICK), (x + _TICK, y + _TICK)), THIN)
            yield Line(((x, y - height * 0.9), (x, y + _TICK)), FINE, grey=0.4)
        yield from _third_words(third, (low, high), y, height)


def _third_words(third: Third, ends: tuple[float, float], y: float, height: float) -> Iterator[Stroke]:
    """What is kept out of the middle third and where it lies, as much of it as finds room between its ends."""
    room = ends[1] - ends[0] - 0.12
    full = f"{third.ends[0]}  TO  {third.ends[1]}: {third.words}"
    size = height * 0.9
    words = next((words for words in (full, third.words) if text_width(words, size) <= room), None)
    if words is not None:
        middle = (ends[0] + ends[1]) / 2.0
        yield Text((middle, y - size / 2.0), words, size, "middle", halo=True)


def ends(stick: Stick, drawn: Elevation, height: float) -> Iterator[Stroke]:
    """Which end is which, from which the tape runs, how deep the joist is, and how deep the bands are."""
    top, foot = stick.at(0.0, drawn.depth), stick.at(0.0, 0.0)
    big = height * 1.15
    x, y = foot[0] - 0.3, top[1] - big
    yield Text((x, y), f"{drawn.hook.end.upper()} END", big, "end", bold=True)
    small = height * 0.88
    yield Text((x, y - small * 1.75), "MEASURE FROM HERE", small, "end")
    line = foot[0] - 0.14
    for edge in (top[1], foot[1]):
        yield Line(((line - 0.05, edge), (foot[0] - 0.03, edge)), FINE, grey=0.3)
        yield Line(((line - _TICK, edge - _TICK), (line + _TICK, edge + _TICK)), THIN)
    yield Line(((line, foot[1]), (line, top[1])), THIN)
    yield Text((x, foot[1] + 0.01), f'{inches(drawn.depth)}" DEEP', small, "end")
    yield Fill((foot, (foot[0] - 0.09, foot[1] - 0.045), (foot[0] - 0.09, foot[1] + 0.045)), 0.0)
    yield from _far_end(stick, drawn, height)


def _far_end(stick: Stick, drawn: Elevation, height: float) -> Iterator[Stroke]:
    top, foot = stick.at(drawn.length, drawn.depth), stick.at(drawn.length, 0.0)
    big, small = height * 1.15, height * 0.88
    x = foot[0] + 0.13
    middle = (top[1] + foot[1]) / 2.0
    name = Text((x + 0.07, middle - big / 2.0), f"{drawn.hook.other.upper()} END", big, bold=True)
    yield name
    if drawn.edge is None:
        return
    whole = 2.0 * drawn.edge >= drawn.depth
    bands = [(foot[1], stick.at(0.0, drawn.edge)[1]), (stick.at(0.0, drawn.depth - drawn.edge)[1], top[1])]
    for low, high in [(foot[1], top[1])] if whole else bands:
        yield Line(((x - 0.06, low), (x - 0.06, high)), THIN)
        for edge in (low, high):
            yield Line(((x - 0.09, edge), (x - 0.03, edge)), FINE)
        if not whole:
            yield Text((x, (low + high) / 2.0 - small / 2.0), f'{inches(drawn.edge)}" NO HOLE', small)
    if whole:
        yield Text((x + 0.07, middle - big / 2.0 - small * 1.75), "NO HOLE AT ALL", small)


def _support(stick: Stick, low: float, high: float, length: float) -> Iterator[Stroke]:
    """A block under the wood where it bears; a wedge at an end that hangs."""
    if high > low:
        a, b = stick.at(low, 0.0), stick.at(high, 0.0)
        box = (a, b, (b[0], b[1] - SUPPORT), (a[0], a[1] - SUPPORT))
        yield Fill(box, _SUPPORT_FILL)
        yield Line(box, THIN, closed=True)
        return
    x, y = stick.at(low, 0.0)
    inward = 0.07 if low < length / 2.0 else -0.07
    yield Fill(((x, y), (x + inward, y), (x, y - SUPPORT)), _SUPPORT_FILL)


def _box(stick: Stick, left: float, low: float, right: float, high: float) -> tuple[Point, Point, Point, Point]:
    return (stick.at(left, low), stick.at(right, low), stick.at(right, high), stick.at(left, high))
