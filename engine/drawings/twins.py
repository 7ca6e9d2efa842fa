"""Lines drawn so close side by side that letters in one would lie on the other: on which side each has room for its own."""

from __future__ import annotations

import math
from collections.abc import Iterable

from engine.plan.records import Point

Stretch = tuple[Point, Point]

_ONE_WAY = math.sin(math.radians(2.0))
"""Sine of the angle up to which two stretches run side by side."""


def bare_side(a: Point, b: Point, others: Iterable[Stretch], near: float) -> float:
    """The side of a stretch on which no other runs along it within `near`: 1 to its left, -1 to its right.

    0 where none runs along it at all, and where they do on both sides. All in paper inches.
    """
    sides = {side for other in others if (side := _side_of(a, b, other, near))}
    return -sides.pop() if len(sides) == 1 else 0.0


def _side_of(a: Point, b: Point, other: Stretch, near: float) -> float:
    """On which side another stretch runs along a-b; 0 where it does not, and where it lies on it."""
    run = math.dist(a, b)
    east, north = (b[0] - a[0]) / run, (b[1] - a[1]) / run
    ends = [(x - a[0], y - a[1]) for x, y in other]
    off = [x * -north + y * east for x, y in ends]
    along = sorted(x * east + y * north for x, y in ends)
    askew = abs(off[1] - off[0]) > _ONE_WAY * math.dist(*other)
    if askew or along[1] <= 0.0 or along[0] >= run or max(map(abs, off)) > near:
        return 0.0
    middle = sum(off)
    return math.copysign(1.0, middle) if middle else 0.0
