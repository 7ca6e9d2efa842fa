"""Where a vent can rise from a trap's own drain: on it where it passes under a wall, or up to a wall beside it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.venting import limit_of
from engine.drafting.wall_reach import reach_from
from engine.piping.flow import is_under
from engine.piping.records import Pipe, Trap
from engine.plan.axis import distance, foot
from engine.plan.grid import spot
from engine.plan.records import Point, Wall
from engine.study import Study

EVERY = 3.0
"""Inches between the places along a drain that are looked at for a vent up to a wall beside it."""


class Spot(NamedTuple):
    """A place on a drain from which a vent can rise: on it, or up to a wall beside it at `foot`."""

    run: str
    at: Point
    foot: Point
    wall: str
    along: float


def spots(study: Study, trap: Trap) -> Iterator[Spot]:
    """The places on a trap's drain within its reach from which a vent can rise, nearest to the trap first."""
    limit, _ = limit_of(study.model, trap)
    most = math.inf if limit is None else limit
    done = -trap.weir
    found: list[Spot] = []
    for pipe in _own_drain(study, trap):
        if done > most:
            break
        if pipe.shape == "level" and is_under(pipe.start):
            found += (one for one in _along(study, pipe, done) if _crown(trap, study) <= one.along <= most)
        done += pipe.run
    seen: set[tuple[Point, Point]] = set()
    for one in sorted(found, key=lambda one: (one.along, one.at)):
        if (one.at, one.foot) not in seen:
            seen.add((one.at, one.foot))
            yield one


def _crown(trap: Trap, study: Study) -> float:
    """How near to a trap's weir a vent may be, inches: none at the crown."""
    key = "trap_arm.crown_diameters"
    book = study.model.book
    return trap.size * book.number(key) if book.has(key) and trap.kind != "water_closet" else 0.0


def _own_drain(study: Study, trap: Trap) -> Iterator[Pipe]:
    """The pipes that a trap alone drains through, from its weir on down."""
    pipe = study.model.network.waste_from(trap.node)
    while pipe is not None and pipe.fixture == trap.fixture:
        yield pipe
        pipe = study.model.network.waste_from(pipe.end)


def _along(study: Study, pipe: Pipe, done: float) -> Iterator[Spot]:
    """The places on one level pipe under the floor; `done` is how far its start is from the trap's weir."""
    plan, model = study.plan, study.model
    a, b = (pipe.start.x, pipe.start.y), (pipe.end.x, pipe.end.y)
    for wall in plan.walls:
        met = meeting(a, b, wall)
        if met is not None:
            yield Spot(pipe.element, met, met, wall.id, done + distance(a, met))
    top = model.heights.get(pipe.start)
    if top is None or pipe.run == 0.0:
        return
    upright = model.book.number("slope.vertical_from") if model.book.has("slope.vertical_from") else 45.0
    count = max(1, math.floor(pipe.run / EVERY))
    for step in range(count + 1):
        part = min(pipe.run, step * EVERY)
        at = spot(a[0] + pipe.heading[0] * part, a[1] + pipe.heading[1] * part)
        reach = reach_from(plan, at, top - pipe.slope * part / 12.0, upright)
        for inside in reach.within:
            wall = next(one for one in plan.walls if one.id == inside.wall)
            near = foot(wall.start, wall.end, at)
            if near != at and abs(_cosine(near, at, pipe)) < 1e-3:
                yield Spot(pipe.element, at, near, wall.id, done + part)


def _cosine(near: Point, at: Point, pipe: Pipe) -> float:
    """How far the way from the drain to the wall is from square to the drain."""
    dx, dy = near[0] - at[0], near[1] - at[1]
    return (dx * pipe.heading[0] + dy * pipe.heading[1]) / math.hypot(dx, dy)


def meeting(a: Point, b: Point, wall: Wall) -> Point | None:
    """Where a pipe passes under a wall's centre line, or the middle of where it lies under the wall lengthwise."""
    if wall.start == wall.end or a == b:
        return None
    dx, dy = b[0] - a[0], b[1] - a[1]
    ex, ey = wall.end[0] - wall.start[0], wall.end[1] - wall.start[1]
    cross = dx * ey - dy * ex
    if abs(cross) < 1e-9 * math.hypot(dx, dy) * math.hypot(ex, ey):
        middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)
        on = foot(wall.start, wall.end, middle)
        return foot(a, b, on) if distance(on, middle) < 1.0 else None
    t = ((wall.start[0] - a[0]) * ey - (wall.start[1] - a[1]) * ex) / cross
    u = ((wall.start[0] - a[0]) * dy - (wall.start[1] - a[1]) * dx) / cross
    if not (0.0 <= t <= 1.0 and 0.0 <= u <= 1.0):
        return None
    return foot(a, b, (a[0] + t * dx, a[1] + t * dy))
