"""Where a point stands among the joists: over which one, in which bay, and which wood is near it."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from engine.framing.records import Framing, Joist
from engine.framing.shadow import covers
from engine.plan.records import Point, Record


class Bay(Record, frozen=True, gc=False):
    """The clear space between two neighbouring joists of a field, or a joist and a flush beam along it, rim to rim.

    `joists` are the ids of the west and east (south and north) ones; `corner` and `opposite` the clear
    rectangle's south-west and north-east corners; `width` is clear, joist face to joist face, inches.
    """

    joists: tuple[str, str]
    corner: Point
    opposite: Point
    width: float
    along: tuple[float, float]

    @property
    def middle(self) -> tuple[Point, Point]:
        """The bay's centre line from its south (west) end to the other."""
        (x0, y0), (x1, y1) = self.corner, self.opposite
        if self.along[1]:
            return ((x0 + x1) / 2.0, y0), ((x0 + x1) / 2.0, y1)
        return (x0, (y0 + y1) / 2.0), (x1, (y0 + y1) / 2.0)


Outline = tuple[Joist, float, float, float, float]
"""A joist with its wood's least x and y and greatest x and y."""

CELL = 32.0
"""Edge of the search grid's cells, inches: two bays at the usual spacing."""


class Wood:
    """A floor's joists sorted for questions about places, made once for a framing."""

    __slots__ = ("_cells", "_keys", "_rows", "framing")

    def __init__(self, framing: Framing) -> None:
        self.framing = framing
        running = [joist for joist in framing.joists if joist.runs]
        running += [beam for beam in framing.beams if beam.flush and 0.0 in beam.along]
        rows = [
            sorted((joist for joist in running if _across(joist) == 0), key=lambda one: one.start),
            sorted((joist for joist in running if _across(joist) == 1), key=lambda one: one.start[::-1]),
        ]
        self._rows = rows
        self._keys = [[joist.start[axis] for joist in row] for axis, row in enumerate(rows)]
        self._cells: dict[tuple[int, int], list[Outline]] = {}
        for joist in framing.members:
            outline = _outline(joist)
            for cell in _covered(*outline[1:]):
                self._cells.setdefault(cell, []).append(outline)

    def near(self, low: Point, high: Point) -> list[Joist]:
        """The members whose wood touches a rectangle, edges included; of one that lies aslant, the box round it."""
        x0, y0, x1, y1 = *low, *high
        found: dict[str, Joist] = {}
        for cell in _covered(x0, y0, x1, y1):
            for joist, west, south, east, north in self._cells.get(cell, ()):
                if east >= x0 and west <= x1 and north >= y0 and south <= y1:
                    found[joist.id] = joist
        return list(found.values())

    def joist_at(self, point: Point) -> Joist | None:
        """The joist, or what is framed with joists, whose wood lies under a point, its faces included; None between."""
        return next((joist for joist in self.near(point, point) if joist.kind != "beam" and covers(joist, point)), None)

    def bay_at(self, point: Point) -> Bay | None:
        """The bay that a point stands in; None over wood or a flush beam, and off the floor."""
        if any((joist.kind != "beam" or joist.flush) and covers(joist, point) for joist in self.near(point, point)):
            return None
        for axis, row in enumerate(self._rows):
            other = 1 - axis
            at = bisect_left(self._keys[axis], point[axis])
            before = _beside((row[i] for i in range(at - 1, -1, -1)), other, point)
            after = _beside((row[i] for i in range(at, len(row))), other, point)
            if before is not None and after is not None and _of_one_field(before, after):
                return self._ended(_bay(before, after), other, point)
        return None

    def _ended(self, bay: Bay, other: int, point: Point) -> Bay:
        """The bay as far as the headers and blocks next to a point in it leave it clear."""
        low, high = list(bay.corner), list(bay.opposite)
        for joist in self.near(bay.corner, bay.opposite):
            if joist.kind in ("header", "block") and _across(joist) == other:
                if joist.start[other] < point[other]:
                    low[other] = max(low[other], joist.start[other] + joist.thickness / 2.0)
                else:
                    high[other] = min(high[other], joist.start[other] - joist.thickness / 2.0)
        return replace(bay, corner=(low[0], low[1]), opposite=(high[0], high[1]))


KEPT = 4
"""Floors whose sorted wood is remembered: the layout gives the very same framing while nothing of it changes."""

_kept: list[Wood] = []


def wood_of(framing: Framing) -> Wood:
    """The wood of a framing, sorted once for as long as that framing is among the last asked for."""
    for wood in _kept:
        if wood.framing is framing:
            return wood
    wood = Wood(framing)
    _kept.insert(0, wood)
    del _kept[KEPT:]
    return wood


def _outline(joist: Joist) -> Outline:
    half = joist.thickness / 2.0
    wide, high = abs(joist.along[1]) * half, abs(joist.along[0]) * half
    (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(joist.start, joist.end, strict=True))
    return joist, x0 - wide, y0 - high, x1 + wide, y1 + high


def _covered(x0: float, y0: float, x1: float, y1: float) -> Iterator[tuple[int, int]]:
    """The cells of the search grid that a rectangle touches."""
    columns = range(math.floor(x0 / CELL), math.floor(x1 / CELL) + 1)
    rows = range(math.floor(y0 / CELL), math.floor(y1 / CELL) + 1)
    return ((column, row) for column in columns for row in rows)


def _across(joist: Joist) -> int:
    """The plan axis square to a joist: 0 (x) when it runs north, 1 (y) when it runs east."""
    return 0 if abs(joist.along[1]) > abs(joist.along[0]) else 1


def _beside(row: Iterable[Joist], other: int, point: Point) -> Joist | None:
    """The first joist of a row that runs past a point."""
    return next((joist for joist in row if joist.start[other] <= point[other] <= joist.end[other]), None)


def _of_one_field(before: Joist, after: Joist) -> bool:
    """Whether two make a bay: joists of one field, or a joist and a flush beam."""
    return before.field == after.field or (before.kind == "beam") != (after.kind == "beam")


def _bay(before: Joist, after: Joist) -> Bay:
    axis = _across(before)
    low, high = before.start[axis] + before.thickness / 2.0, after.start[axis] - after.thickness / 2.0
    other = 1 - axis
    first, last = max(before.start[other], after.start[other]), min(before.end[other], after.end[other])
    if axis == 0:
        corner, opposite = (low, first), (high, last)
    else:
        corner, opposite = (first, low), (last, high)
    return Bay((before.id, after.id), corner, opposite, high - low, before.along)
