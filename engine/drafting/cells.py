"""A floor cut into square cells, so that what lies near a point is found without looking at everything."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Generic, Protocol, TypeVar

from engine.plan.records import Point

SIDE = 24.0
"""Side of a cell, inches: some joist bays, and more than a pointer's reach at any usual zoom."""

T = TypeVar("T")


class Straight(Protocol):
    """What lies along a straight stretch: a wall, a joist, an opening."""

    @property
    def start(self) -> Point:
        """Its first end."""

    @property
    def end(self) -> Point:
        """Its last end."""


L = TypeVar("L", bound=Straight)


class Cells(Generic[T]):
    """Things put into cells by a point or a straight stretch; asked by a point and a distance."""

    __slots__ = ("_cells", "_count")

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], list[tuple[int, T]]] = {}
        self._count = 0

    def put(self, thing: T, start: Point, end: Point | None = None) -> None:
        """Put a thing into the cell of a point, or into all that the stretch to `end` goes through."""
        self._count += 1
        for cell in {_cell(start)} if end is None else set(_through(start, end)):
            self._cells.setdefault(cell, []).append((self._count, thing))

    def near(self, point: Point, reach: float) -> list[T]:
        """Everything in the cells within `reach` inches of a point, each thing once, in the order it was put in."""
        (x0, y0), (x1, y1) = _cell((point[0] - reach, point[1] - reach)), _cell((point[0] + reach, point[1] + reach))
        found: dict[int, T] = {}
        if (x1 - x0 + 1) * (y1 - y0 + 1) < len(self._cells):
            for x in range(x0, x1 + 1):
                for y in range(y0, y1 + 1):
                    found.update(self._cells.get((x, y), ()))
        else:
            for (x, y), things in self._cells.items():
                if x0 <= x <= x1 and y0 <= y <= y1:
                    found.update(things)
        return [found[number] for number in sorted(found)]


def by_place(things: Iterable[L]) -> Cells[L]:
    """Straight things sorted into the cells that they go through, in their order."""
    cells: Cells[L] = Cells()
    for thing in things:
        cells.put(thing, thing.start, thing.end)
    return cells


def _cell(point: Point) -> tuple[int, int]:
    return math.floor(point[0] / SIDE), math.floor(point[1] / SIDE)


def _through(start: Point, end: Point) -> Iterator[tuple[int, int]]:
    """Every cell that a stretch goes through: column by column, the rows that it covers there."""
    (xa, ya), (xb, yb) = sorted((start, end))
    first, last = math.floor(xa / SIDE), math.floor(xb / SIDE)
    for column in range(first, last + 1):
        if xa == xb:
            low, high = sorted((ya, yb))
        else:
            west, east = max(xa, column * SIDE), min(xb, (column + 1) * SIDE)
            low, high = sorted(ya + (yb - ya) * (x - xa) / (xb - xa) for x in (west, east))
        for row in range(math.floor(low / SIDE), math.floor(high / SIDE) + 1):
            yield column, row
