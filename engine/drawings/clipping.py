"""What of a convex area lies inside a rectangle."""

from __future__ import annotations

from collections.abc import Sequence

from engine.drawings.labels import Box
from engine.plan.records import Point


def clipped(corners: Sequence[Point], box: Box) -> tuple[Point, ...]:
    """The part of a convex polygon inside a rectangle; empty where none of it is."""
    points = list(corners)
    for axis, bound, sign in ((0, box.left, 1.0), (0, box.right, -1.0), (1, box.bottom, 1.0), (1, box.top, -1.0)):
        kept: list[Point] = []
        for n, point in enumerate(points):
            before = points[n - 1]
            inside, was = sign * (point[axis] - bound) >= 0.0, sign * (before[axis] - bound) >= 0.0
            if inside != was:
                share = (bound - before[axis]) / (point[axis] - before[axis])
                kept.append((before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1])))
            if inside:
                kept.append(point)
        points = kept
    return tuple(points) if len(points) > 2 else ()
