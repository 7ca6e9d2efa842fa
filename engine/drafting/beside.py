"""Hot and cold side by side: the lines along which a tube lies against another one, and what it then has in common with it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache
from itertools import pairwise, product
from typing import Any, NamedTuple

import msgspec

from engine.plan.axis import distance, share
from engine.plan.grid import STEP, on_grid
from engine.plan.record import SupplySize, Water
from engine.plan.records import Plan, Point, Supply
from engine.trade.pipe import nominal, tube

SKEWED = 2.0 * STEP
"""Inches by which tubes that run askew to the plan's grid lie farther apart, so that rounding lays none into the other."""

SHARPEST = 120.0
"""Degrees of a turn past which the lines beside its two stretches are not led on until they meet."""

_SAME = 4.0 * STEP

IN_COMMON = ("insulation", "down", "passing")
"""What a run drawn along another takes over: tubes that lie together are wrapped, hung and led past the joists alike."""


class Lane(NamedTuple):
    """A line beside one stretch of a run, on which another tube lies against it."""

    start: Point
    end: Point


def apart(run: Supply) -> float:
    """How far from a run's axis that of a new run lies which touches it and is insulated like it, inches."""
    return (tube(nominal(run.size)).od + tube(nominal(_new_size())).od) / 2.0 + 2.0 * run.insulation


def lanes(run: Supply) -> Iterator[Lane]:
    """The lines on both sides of a run's stretches; round the outside of a turn they are led on until they meet."""
    legs = [(a, b, _heading(a, b)) for a, b in pairwise(run.points) if a != b]
    for side, (n, (a, b, ahead)) in product((1.0, -1.0), enumerate(legs)):
        east, north = _aside(run, ahead, side)
        before = _led_on(run, legs[n - 1][2], ahead, side) if n else 0.0
        after = _led_on(run, ahead, legs[n + 1][2], side) if n + 1 < len(legs) else 0.0
        yield Lane(
            (a[0] + east - on_grid(ahead[0] * before), a[1] + north - on_grid(ahead[1] * before)),
            (b[0] + east + on_grid(ahead[0] * after), b[1] + north + on_grid(ahead[1] * after)),
        )


def neighbour(plan: Plan, water: Water, points: tuple[Point, ...]) -> Supply | None:
    """The run of the other water that a new run through these points lies against for the longest way, if any."""
    found = [
        (along, run)
        for run in plan.supplies
        if run.water != water
        and (along := sum(_together(run, a, b) for a, b in pairwise(points) if a != b)) > apart(run)
    ]
    return max(found, key=lambda one: one[0], default=(0.0, None))[1]


def in_common(run: Supply) -> dict[str, Any]:
    """What a run drawn along this one takes over from it."""
    return {name: getattr(run, name) for name in IN_COMMON}


def _together(run: Supply, a: Point, b: Point) -> float:
    """How far a new stretch lies on the lines beside a run, inches."""
    whole = 0.0
    for lane in lanes(run):
        near = [share(a, b, end) * distance(a, b) for end in lane]
        if all(_off(lane, end) <= _SAME for end in (a, b)):
            whole += max(0.0, min(distance(a, b), max(near)) - max(0.0, min(near)))
    return whole


def _off(lane: Lane, point: Point) -> float:
    """How far a point lies off a lane's line, inches."""
    ahead = _heading(*lane)
    return abs((point[0] - lane.start[0]) * ahead[1] - (point[1] - lane.start[1]) * ahead[0])


def _aside(run: Supply, ahead: Point, side: float) -> Point:
    """The way from a stretch over to the line beside it."""
    away = (apart(run) + (SKEWED if ahead[0] and ahead[1] else 0.0)) * side
    return on_grid(-ahead[1] * away), on_grid(ahead[0] * away)


def _led_on(run: Supply, ahead: Point, then: Point, side: float) -> float:
    """How far a line goes on past a turn on its outside, inches; nothing on its inside."""
    turn = _turn(ahead, then)
    outside = (ahead[0] * then[1] - ahead[1] * then[0]) * side < 0.0
    return apart(run) * math.tan(math.radians(turn) / 2.0) + _SAME if outside and turn <= SHARPEST else 0.0


def _turn(ahead: Point, then: Point) -> float:
    return math.degrees(math.acos(max(-1.0, min(1.0, ahead[0] * then[0] + ahead[1] * then[1]))))


def _heading(a: Point, b: Point) -> Point:
    away = distance(a, b)
    return (b[0] - a[0]) / away, (b[1] - a[1]) / away


@cache
def _new_size() -> SupplySize:
    """The size that a new run has."""
    size: SupplySize = next(field.default for field in msgspec.structs.fields(Supply) if field.name == "size")
    return size
