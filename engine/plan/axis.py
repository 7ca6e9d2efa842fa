"""Points on straight stretches of the plan: how far a point is from one, and where on it that is."""

from __future__ import annotations

import math
from itertools import pairwise

from engine.plan.grid import on_grid, spot
from engine.plan.records import Point


def distance(a: Point, b: Point) -> float:
    """Plan distance between two points, inches."""
    return math.hypot(b[0] - a[0], b[1] - a[1])


def length(points: tuple[Point, ...]) -> float:
    """Plan length along a path, inches."""
    return sum(distance(a, b) for a, b in pairwise(points))


def share(a: Point, b: Point, p: Point) -> float:
    """How far along the line a-b the foot of the perpendicular from `p` lies: 0 at a, 1 at b."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    return ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)


def foot(a: Point, b: Point, p: Point) -> Point:
    """The grid point of the stretch a-b nearest to `p`.

    On stretches at a multiple of 45 degrees it lies exactly on the axis, so that putting a vertex there bends
    nothing; on others within 1/2048 in of it.
    """
    t = min(1.0, max(0.0, share(a, b, p)))
    if t in (0.0, 1.0):
        return b if t else a
    dx, dy = b[0] - a[0], b[1] - a[1]
    x = on_grid(a[0] + t * dx)
    if abs(dx) == abs(dy):
        return (x, a[1] + math.copysign(1.0, dx * dy) * (x - a[0]))
    return spot(x, a[1] + t * dy)
