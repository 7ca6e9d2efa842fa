"""The least circle round several circles: how wide a hole must be for what passes through it side by side."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

TINY = 1e-9
"""Inches by which a circle may stand out and still count as within: what floats lose in these sums."""


class Circle(NamedTuple):
    """A circle by its middle and radius, inches."""

    x: float
    y: float
    radius: float

    def reach(self, other: Circle) -> float:
        """How far from this circle's middle another one reaches, inches."""
        return math.hypot(other.x - self.x, other.y - self.y) + other.radius

    def holds(self, other: Circle) -> bool:
        """Whether another circle lies wholly within this one."""
        return self.reach(other) <= self.radius + TINY


def least_round(circles: Sequence[Circle]) -> Circle:
    """The least circle round one or more circles.

    It is held by three of them at most; the one that stands out farthest is taken in, until none does. ValueError where
    none is given.
    """
    if not circles:
        raise ValueError("expected a circle, found none")
    least, holding = circles[0], tuple(circles[:1])
    while True:
        farthest = max(circles, key=least.reach)
        if least.holds(farthest):
            return least
        wider, those = _of_few((*holding, farthest))
        if wider.radius <= least.radius:
            return Circle(least.x, least.y, least.reach(farthest))
        least, holding = wider, those


def _of_few(circles: Sequence[Circle]) -> tuple[Circle, tuple[Circle, ...]]:
    """The least circle round four circles or fewer, and those of them that hold it."""
    found = (
        (touching._replace(radius=max(map(touching.reach, circles))), those)
        for count in (1, 2, 3)
        for those in combinations(circles, count)
        for touching in _touching(those)
    )
    return min(found, key=lambda pair: pair[0].radius)


def _touching(those: Sequence[Circle]) -> Iterable[Circle]:
    """The circles that one to three circles all touch from within."""
    if len(those) == 1:
        return those
    return _round_two(*those) if len(those) == 2 else _round_three(*those)


def _round_two(a: Circle, b: Circle) -> Iterator[Circle]:
    away = math.hypot(b.x - a.x, b.y - a.y)
    if away > abs(a.radius - b.radius):
        radius = (away + a.radius + b.radius) / 2.0
        share = (radius - a.radius) / away
        yield Circle(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share, radius)


def _round_three(a: Circle, b: Circle, c: Circle) -> Iterator[Circle]:
    """The middle lies as far from each as the radius is more than its own: two lines in the radius, and one square."""
    bx, by, cx, cy = b.x - a.x, b.y - a.y, c.x - a.x, c.y - a.y
    across = 2.0 * (bx * cy - by * cx)
    if abs(across) <= TINY:
        return
    b_more, c_more = b.radius - a.radius, c.radius - a.radius
    b_rest = bx * bx + by * by - b_more * b_more - 2.0 * b_more * a.radius
    c_rest = cx * cx + cy * cy - c_more * c_more - 2.0 * c_more * a.radius
    x0, x1 = (b_rest * cy - c_rest * by) / across, 2.0 * (b_more * cy - c_more * by) / across
    y0, y1 = (c_rest * bx - b_rest * cx) / across, 2.0 * (c_more * bx - b_more * cx) / across
    square, middle = x1 * x1 + y1 * y1 - 1.0, x0 * x1 + y0 * y1 + a.radius
    rest = x0 * x0 + y0 * y0 - a.radius * a.radius
    for radius in _roots(square, middle, rest):
        if radius >= max(a.radius, b.radius, c.radius):
            yield Circle(a.x + x0 + x1 * radius, a.y + y0 + y1 * radius, radius)


def _roots(square: float, half: float, rest: float) -> Iterator[float]:
    """The real roots of square x^2 + 2 half x + rest."""
    if abs(square) <= TINY:
        if abs(half) > TINY:
            yield -rest / (2.0 * half)
        return
    under = half * half - square * rest
    if under >= 0.0:
        for sign in (1.0, -1.0):
            yield (-half + sign * math.sqrt(under)) / square
