"""Small shapes that the symbols of an isometric are put together from, on paper."""

from __future__ import annotations

import math
from typing import NamedTuple

from engine.drawings.strokes import Fill, Line, Stroke
from engine.plan.records import Point

LEG = 0.085
"""How far a fitting reaches along each pipe, paper inches at the usual lettering."""

TICK = 0.036
"""Half the length of the tick at a hub's mouth."""

BODY = 0.075
"""How far a mounted part reaches along its direction."""

TRAP_WIDE = 0.12
TRAP_DEEP = 0.11
"""A trap's loop: along its arm, and down."""

_ROUND = 10
_FLAT = 0.577
"""How flat a level circle lies: the ratio of its drawn diameters (an isometric circle)."""


class Leg(NamedTuple):
    """One opening of a symbol: its direction on paper (unit), how far it reaches, whether pipe enters a hub there."""

    way: Point
    long: float
    hub: bool = True


class Site(NamedTuple):
    """Where and how a symbol is drawn: `unit` is 1 at the usual lettering, `weight` its pipe's, in millimetres."""

    at: Point
    legs: tuple[Leg, ...]
    weight: float
    unit: float

    def tip(self, number: int, share: float = 1.0) -> Point:
        """A point along a leg."""
        leg = self.legs[number]
        return along(self.at, leg.way, leg.long * share)

    def off(self, number: int, reach: float, aside: float = 0.0) -> Point:
        """A point so many units along a leg's direction and aside of it to the left."""
        (x, y), (wx, wy) = self.at, self.legs[number].way
        far, side = reach * self.unit, aside * self.unit
        return (x + wx * far - wy * side, y + wy * far + wx * side)


def along(at: Point, way: Point, far: float) -> Point:
    """The point so far from another in a direction."""
    return (at[0] + way[0] * far, at[1] + way[1] * far)


def tick(site: Site, number: int) -> list[Stroke]:
    """The mark of a hub's mouth at the end of a leg; a spigot has none."""
    leg = site.legs[number]
    if not leg.hub:
        return []
    x, y = site.tip(number)
    side = (-leg.way[1] * TICK * site.unit, leg.way[0] * TICK * site.unit)
    return [Line(((x + side[0], y + side[1]), (x - side[0], y - side[1])), site.weight * 0.8)]


def straight(site: Site, *numbers: int) -> list[Stroke]:
    """Legs from the centre outward, each with its tick."""
    strokes: list[Stroke] = []
    for number in numbers:
        strokes += [Line((site.at, site.tip(number)), site.weight), *tick(site, number)]
    return strokes


def swept(site: Site, a: int, b: int, begins: float, ends: float | None = None) -> Line:
    """A line from one leg's tip to another's that rounds the corner from a share of the first leg on."""
    start, stop = site.tip(a, begins), site.tip(b, begins if ends is None else ends)
    curve = [_curved(start, site.at, stop, n / _ROUND) for n in range(_ROUND + 1)]
    return Line((site.tip(a), *curve, site.tip(b)), site.weight)


def ring(centre: Point, radius: float, height: float = _FLAT) -> tuple[Point, ...]:
    """A level circle as it is seen: its outline."""
    turns = [2.0 * math.pi * n / (2 * _ROUND) for n in range(2 * _ROUND)]
    return tuple((centre[0] + radius * math.cos(t), centre[1] + radius * height * math.sin(t)) for t in turns)


def loop(at: Point, way: Point, wide: float, deep: float) -> tuple[Point, ...]:
    """A trap's loop: from a point down, round, and up again farther along its arm."""
    turns = [math.pi * n / _ROUND for n in range(_ROUND + 1)]
    return tuple(
        (
            at[0] + way[0] * wide * (1.0 - math.cos(t)) / 2.0,
            at[1] + way[1] * wide * (1.0 - math.cos(t)) / 2.0 - deep * math.sin(t),
        )
        for t in turns
    )


def plate(points: tuple[Point, ...], weight: float, fill: float = 1.0) -> list[Stroke]:
    """An outlined area."""
    return [Fill(points, fill), Line(points, weight, closed=True)]


def box(site: Site, number: int, begin: float, end: float, half: float) -> tuple[Point, ...]:
    """A rectangle on a leg's axis."""
    return (
        site.off(number, begin, half),
        site.off(number, end, half),
        site.off(number, end, -half),
        site.off(number, begin, -half),
    )


def taper(site: Site, number: int, begin: float, end: float, wide: float, narrow: float) -> tuple[Point, ...]:
    """A trapezoid on a leg's axis, `wide` at its beginning."""
    return (
        site.off(number, begin, wide),
        site.off(number, end, narrow),
        site.off(number, end, -narrow),
        site.off(number, begin, -wide),
    )


def _curved(a: Point, by: Point, b: Point, share: float) -> Point:
    """A point of the curve that leaves `a` toward `by` and arrives in `b` from there."""
    p, q, r = (1.0 - share) ** 2, 2.0 * share * (1.0 - share), share**2
    return (p * a[0] + q * by[0] + r * b[0], p * a[1] + q * by[1] + r * b[1])
