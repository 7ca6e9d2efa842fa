"""How much wood stands between the cuts of one joist, seen from its side.

The wood is measured where it is thinnest: between two bores on the line of their centres, so that two bores one
over the other are judged by what is left between them. A bore at an angle is as long as its face on the joist.
"""

from __future__ import annotations

import math
from typing import NamedTuple


class Shape(NamedTuple):
    """One cut's face on the joist: its crossing, and its bounds along the joist and in height, inches."""

    crossing: str
    bore: bool
    start: float
    end: float
    low: float
    high: float


class Neighbour(NamedTuple):
    """The nearest cut and the wood left to it, inches; negative where the two overlap."""

    gap: float
    crossing: str


class Beside(NamedTuple):
    """What stands nearest to a cut: the nearest bore, and the nearest cut of the other kind."""

    bore: Neighbour | None
    other: Neighbour | None


def beside(shapes: list[Shape], reach: float) -> dict[str, Beside]:
    """For each cut of one joist, its nearest bore and its nearest cut of the other kind within `reach`.

    A bore is held against bores and against notches; a notch against bores only. Cuts are taken in order along
    the joist, so that each is compared only with those that begin within `reach` of its end.
    """
    bores: dict[str, Neighbour] = {}
    others: dict[str, Neighbour] = {}
    ordered = sorted(shapes, key=lambda shape: (shape.start, shape.crossing))
    for place, one in enumerate(ordered):
        for following in range(place + 1, len(ordered)):
            two = ordered[following]
            if two.start > one.end + reach:
                break
            if not (one.bore or two.bore):
                continue
            gap = wood_between(one, two)
            if gap > reach:
                continue
            nearest = bores if one.bore and two.bore else others
            for mine, its in ((one, two), (two, one)):
                found = Neighbour(gap, its.crossing)
                if mine.crossing not in nearest or found < nearest[mine.crossing]:
                    nearest[mine.crossing] = found
    return {shape.crossing: Beside(bores.get(shape.crossing), others.get(shape.crossing)) for shape in shapes}


def wood_between(one: Shape, two: Shape) -> float:
    """Wood between two cuts of one joist, inches, negative where they overlap.

    A bore's ends are round, with its height as their width; a notch has corners.
    """
    start_one, end_one, low_one, high_one, round_one = _core(one)
    start_two, end_two, low_two, high_two, round_two = _core(two)
    across = max(0.0, start_two - end_one, start_one - end_two)
    up = max(0.0, low_two - high_one, low_one - high_two)
    return math.hypot(across, up) - round_one - round_two


def _core(shape: Shape) -> tuple[float, float, float, float, float]:
    """A cut as a box swept by a circle: a bore is the line between its two ends' centres, a notch its own box."""
    if not shape.bore:
        return shape.start, shape.end, shape.low, shape.high, 0.0
    radius = (shape.high - shape.low) / 2.0
    middle = (shape.low + shape.high) / 2.0
    return shape.start + radius, shape.end - radius, middle, middle, radius
