"""Finding room for labels: each goes to the nearest free place round its point, with a leader where that is far."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from engine.drawings.linetypes import FINE
from engine.drawings.strokes import Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.plan.records import Point

_CELL = 0.25
_STEP = 0.07
_DISTANCES = (0.05, 0.11, 0.18, 0.27, 0.38, 0.5, 0.65, 0.85, 1.1, 1.4)
_HEADINGS = tuple(math.radians(22.5 * n) for n in (2, 6, 14, 10, 0, 8, 4, 12, 1, 7, 3, 5, 15, 9, 13, 11))
_LEADER_FROM = 0.16
_AIR = 0.03

SOLID = 1000.0
"""Cost of covering one square inch of something that must stay readable."""

SOFT = 25.0
"""Cost of covering one square inch of a line that may be covered at need."""


class Box(NamedTuple):
    """A rectangle on paper."""

    left: float
    bottom: float
    right: float
    top: float

    def overlap(self, other: Box) -> float:
        """The area that both cover, square inches."""
        wide = min(self.right, other.right) - max(self.left, other.left)
        high = min(self.top, other.top) - max(self.bottom, other.bottom)
        return wide * high if wide > 0.0 and high > 0.0 else 0.0


class Room:
    """What of a sheet is taken, and the search for free places in the rest."""

    __slots__ = ("_cells", "bounds")

    def __init__(self, bounds: Box) -> None:
        self.bounds = bounds
        self._cells: dict[tuple[int, int], list[tuple[Box, float]]] = {}

    def take(self, box: Box, cost: float = SOLID) -> None:
        """Mark a rectangle as taken."""
        for cell in _cells(box):
            self._cells.setdefault(cell, []).append((box, cost))

    def take_line(self, a: Point, b: Point, half: float = 0.02, cost: float = SOFT) -> None:
        """Mark a straight line as taken, `half` its width to each side."""
        steps = max(1, min(4000, math.ceil(math.dist(a, b) / _STEP)))
        for n in range(steps):
            (x0, y0), (x1, y1) = _between(a, b, n / steps), _between(a, b, (n + 1) / steps)
            self.take(Box(min(x0, x1) - half, min(y0, y1) - half, max(x0, x1) + half, max(y0, y1) + half), cost)

    def take_text(self, text: Text) -> None:
        """Mark a text at any angle as taken."""
        for box in text_boxes(text):
            self.take(box)

    def cost(self, box: Box, enough: float = math.inf) -> float:
        """What it costs to cover a rectangle; over `enough` it is not counted to its end."""
        seen: set[int] = set()
        outside = (box.right - box.left) * (box.top - box.bottom) - box.overlap(self.bounds)
        total = outside * SOLID * 4.0
        for cell in _cells(box):
            for entry in self._cells.get(cell, ()):
                if id(entry) not in seen:
                    seen.add(id(entry))
                    other, cost = entry
                    total += box.overlap(other) * cost
                    if total > enough:
                        return total
        return total

    def seat(self, at: Point, width: float, height: float, clear: float = 0.0) -> Box:
        """The best rectangle of a size beside a point: the first free one outward, else the cheapest.

        `clear` is how far the point's own mark reaches.
        """
        best, least = None, math.inf
        for distance in _DISTANCES:
            for heading in _HEADINGS:
                box = _beside(at, width, height, heading, clear + distance)
                roomy = Box(box.left - _AIR, box.bottom - _AIR, box.right + _AIR, box.top + _AIR)
                weighed = distance * 0.4 + self.cost(roomy, least - distance * 0.4)
                if weighed < least:
                    best, least = box, weighed
            if least < distance * 0.4 + 0.02:
                break
        assert best is not None
        return self._within(best)

    def _within(self, box: Box) -> Box:
        """A rectangle pushed back onto the sheet where it stands over its edge; where it is too large, as it is."""
        limit = self.bounds
        right = max(0.0, limit.left - box.left) - max(0.0, box.right - limit.right)
        up = max(0.0, limit.bottom - box.bottom) - max(0.0, box.top - limit.top)
        return Box(box.left + right, box.bottom + up, box.right + right, box.top + up)


def label(
    room: Room, at: Point, text: str, height: float, *, clear: float = 0.0, bold: bool = False, grey: float = 0.0
) -> list[Stroke]:
    """A text beside a point, with a leader to it where it stands off; the room it takes is marked."""
    width = text_width(text, height, bold)
    box = room.seat(at, width, height * 1.25, clear)
    room.take(box)
    strokes: list[Stroke] = []
    nearest = (min(max(at[0], box.left), box.right), min(max(at[1], box.bottom), box.top))
    gap = math.dist(at, nearest)
    if gap > clear + _LEADER_FROM:
        start = _between(at, nearest, clear / gap)
        room.take_line(start, nearest, 0.01)
        strokes.append(Line((start, nearest), FINE, grey=0.25))
    base = (box.left, box.bottom + height * 0.15)
    strokes.append(Text(base, text, height, halo=True, bold=bold, grey=grey))
    return strokes


def text_boxes(text: Text) -> Iterator[Box]:
    """Rectangles that together cover a text as it stands on the sheet."""
    width = text_width(text.text, text.height, text.bold)
    shift = {"start": 0.0, "middle": -width / 2.0, "end": -width}[text.anchor]
    c, s = math.cos(math.radians(text.angle)), math.sin(math.radians(text.angle))
    low, high = -0.2 * text.height, 1.1 * text.height
    straight = min(abs(c), abs(s)) < 0.01
    parts = 1 if straight else max(1, math.ceil(width / (high - low)))
    for n in range(parts):
        u0, u1 = shift + width * n / parts, shift + width * (n + 1) / parts
        xs, ys = zip(
            *(
                (text.at[0] + u * c - v * s, text.at[1] + u * s + v * c)
                for u, v in ((u0, low), (u1, low), (u1, high), (u0, high))
            ),
            strict=True,
        )
        yield Box(min(xs), min(ys), max(xs), max(ys))


def _beside(at: Point, width: float, height: float, heading: float, distance: float) -> Box:
    """A rectangle whose edge lies `distance` from a point in one heading."""
    c, s = math.cos(heading), math.sin(heading)
    half_w, half_h = width / 2.0, height / 2.0
    reach = min(half_w / abs(c) if abs(c) > 1e-9 else math.inf, half_h / abs(s) if abs(s) > 1e-9 else math.inf)
    x, y = at[0] + c * (distance + reach), at[1] + s * (distance + reach)
    return Box(x - half_w, y - half_h, x + half_w, y + half_h)


def _between(a: Point, b: Point, share: float) -> Point:
    return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))


def _cells(box: Box) -> Iterator[tuple[int, int]]:
    for i in range(math.floor(box.left / _CELL), math.floor(box.right / _CELL) + 1):
        for j in range(math.floor(box.bottom / _CELL), math.floor(box.top / _CELL) + 1):
            yield i, j
