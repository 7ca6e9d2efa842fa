"""The grips of the floor's outline: its corners, and the middles of its sides, each pulled by itself."""

from __future__ import annotations

import math
from typing import NamedTuple

from app.tools.plane import beside, middle
from engine.plan.grid import spot
from engine.plan.records import Point


class EdgeGrip(NamedTuple):
    """One grip: its place, the corner or side it is of by number, and whether it is a side's."""

    at: Point
    number: int
    side: bool


def edge_grips(outline: tuple[Point, ...]) -> tuple[EdgeGrip, ...]:
    """The grips of an outline: corners, then the middles of its sides, each from its corner of the same number."""
    corners = tuple(EdgeGrip(corner, number, False) for number, corner in enumerate(outline))
    return corners + tuple(
        EdgeGrip(middle(corner, outline[(number + 1) % len(outline)]), number, True)
        for number, corner in enumerate(outline)
    )


def nearest_grip(outline: tuple[Point, ...], at: Point, reach: float) -> EdgeGrip | None:
    """The grip within reach of a point, corners first."""
    near = [grip for grip in edge_grips(outline) if math.dist(grip.at, at) <= reach]
    return min(near, key=lambda grip: (grip.side, math.dist(grip.at, at)), default=None)


def pulled_edge(outline: tuple[Point, ...], grip: EdgeGrip, to: Point) -> tuple[Point, ...]:
    """The outline after a grip was pulled to a point: a corner goes there, a side goes out or in as it lies."""
    corners = list(outline)
    if not grip.side:
        corners[grip.number] = to
        return tuple(corners)
    following = (grip.number + 1) % len(outline)
    start, end = outline[grip.number], outline[following]
    run = math.dist(start, end)
    _, out = beside(to, start, end)
    dx, dy = -(end[1] - start[1]) / run * out, (end[0] - start[0]) / run * out
    for number, (x, y) in ((grip.number, start), (following, end)):
        corners[number] = spot(x + dx, y + dy)
    return tuple(corners)
