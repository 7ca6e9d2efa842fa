"""From the bay to the wall: how far a dry vent may go sideways under the floor before it must stand plumb in a wall.

Below the rims a dry vent counts as a vent only while it stands upright, which is 45 degrees or steeper, so it gains no
more sideways than it rises. What it can rise is the way from the drain's axis to the joists' top: through subfloor and
plate it has to go plumb, since a leaning pipe would need a slot wider than the plate. The bend's own size is left to
the fittings; the arithmetic is that of the axes, from the drain's axis to a wall's centre line.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from engine.plan.axis import share
from engine.plan.grid import spot
from engine.plan.records import Plan, Point, Wall

DIGITS = 9
"""Decimals of an inch that a gain is rounded to, so that 4 in at 45 degrees is told as 4."""


class InReach(NamedTuple):
    """The stretch of one wall's centre line that a vent can come up in, by its two ends."""

    wall: str
    start: Point
    end: Point


class Reach(NamedTuple):
    """How far a vent may go sideways from a point, inches, the walls within that, and the nearest wall of all.

    `away` is the distance to the nearest wall's centre line; None, with `nearest`, where no wall is drawn.
    """

    sideways: float
    within: tuple[InReach, ...]
    nearest: str | None
    away: float | None


def sideways_gain(axis_z: float, upright: float = 45.0) -> float:
    """How far a vent may go sideways, inches, that leaves a drain whose axis lies at `axis_z` over the joists' top.

    `upright` is the least angle from level, degrees, at which a pipe counts as vertical. Nothing where the axis does
    not lie under the joists' top.
    """
    return round(max(0.0, -axis_z) / math.tan(math.radians(upright)), DIGITS)


def reach_from(plan: Plan, point: Point, axis_z: float, upright: float = 45.0) -> Reach:
    """What a vent can reach that is taken off a drain at a plan point, with the drain's axis at `axis_z`."""
    sideways = sideways_gain(axis_z, upright)
    within: list[InReach] = []
    nearest: tuple[float, str] | None = None
    for wall in plan.walls:
        if wall.start == wall.end:
            continue
        away = math.dist(point, _foot(wall, point))
        if nearest is None or away < nearest[0]:
            nearest = (away, wall.id)
        stretch = _inside(wall, point, sideways)
        if stretch is not None:
            within.append(InReach(wall.id, *stretch))
    return Reach(sideways, tuple(within), nearest[1] if nearest else None, nearest[0] if nearest else None)


def _foot(wall: Wall, point: Point) -> Point:
    """The place on a wall's centre line that is nearest to a point."""
    return _at(wall, min(1.0, max(0.0, share(wall.start, wall.end, point))))


def _inside(wall: Wall, point: Point, radius: float) -> tuple[Point, Point] | None:
    """The part of a wall's centre line that lies within a circle; None where none of it has a length."""
    run = math.dist(wall.start, wall.end)
    middle = share(wall.start, wall.end, point)
    off = math.dist(point, _at(wall, middle))
    if radius <= off:
        return None
    half = math.sqrt(radius * radius - off * off) / run
    first, last = max(0.0, middle - half), min(1.0, middle + half)
    return (spot(*_at(wall, first)), spot(*_at(wall, last))) if first < last else None


def _at(wall: Wall, along: float) -> Point:
    (x0, y0), (x1, y1) = wall.start, wall.end
    return (x0 + along * (x1 - x0), y0 + along * (y1 - y0))
