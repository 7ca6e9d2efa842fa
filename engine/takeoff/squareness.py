"""The rectangle of a floor by whose diagonals its framing is squared, also where the floor is none."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from typing import NamedTuple

from engine.plan.records import Point

_EXACT = 1e-6


class Rectangle(NamedTuple):
    """Its south-west and north-east corners, inches."""

    west: float
    south: float
    east: float
    north: float

    @property
    def diagonal(self) -> float:
        """From corner to corner."""
        return float(((self.east - self.west) ** 2 + (self.north - self.south) ** 2) ** 0.5)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """South-west, south-east, north-east, north-west."""
        return (self.west, self.south), (self.east, self.south), (self.east, self.north), (self.west, self.north)


def largest_rectangle(outline: Sequence[Point]) -> Rectangle | None:
    """The largest rectangle, north up, between the outline's own corners that lies in the floor.

    One whose corners all lie on the outline, where a tape can be held, goes before a larger one. None where none fits.
    """
    from shapely.geometry import Polygon, box
    from shapely.prepared import prep

    floor = prep(Polygon(outline).buffer(_EXACT, join_style="mitre"))
    xs, ys = (sorted(set(values)) for values in zip(*outline, strict=True))
    inside = [[floor.covers(box(a, c, b, d)) for c, d in pairwise(ys)] for a, b in pairwise(xs)]
    edge = Polygon(outline).exterior.buffer(_EXACT)
    reach = prep(edge)

    def rank(one: Rectangle) -> tuple[bool, float]:
        from shapely.geometry import Point as Spot

        held = all(reach.covers(Spot(corner)) for corner in one.corners)
        return held, (one.east - one.west) * (one.north - one.south)

    return max(_tallest(xs, ys, inside), key=rank, default=None)


def _tallest(xs: Sequence[float], ys: Sequence[float], inside: list[list[bool]]) -> Iterator[Rectangle]:
    """For each pair of lines north-south, the longest unbroken rows of cells between them."""
    for first, last in combinations(range(len(xs)), 2):
        start: int | None = None
        for row in range(len(ys)):
            open_ = row < len(ys) - 1 and all(inside[column][row] for column in range(first, last))
            if open_ and start is None:
                start = row
            if not open_ and start is not None:
                yield Rectangle(xs[first], ys[start], xs[last], ys[row])
                start = None
