"""Sliding a straight part of a run sideways, so that no pipe changes its heading.

Its ends slide along the stretches that they join, a branch's joint along the branch; what stands on it goes with it
where that is asked. So every fitting stays the one that it is, and only lengths change.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import NamedTuple

from engine.plan import edits
from engine.plan.axis import distance
from engine.plan.edits import EditError
from engine.plan.grid import spot
from engine.plan.points import Run, runs
from engine.plan.records import Plan, Point
from engine.plan.welds import Fixed, Grips, level_of, standing

ASKEW = math.sin(math.radians(0.25))
"""Sine of the angle up to which two stretches have one heading: what rounding to the plan's grid may do."""

Vector = tuple[float, float]


class Straight(NamedTuple):
    """A straight part of a run: the indexes of its first and last point, and its heading."""

    first: int
    last: int
    heading: Vector

    @property
    def left(self) -> Vector:
        """The unit vector square to it, to the left of its heading."""
        return (-self.heading[1], self.heading[0])


def straights(run: Run) -> list[Straight]:
    """A run's straight parts in order, however many points each has."""
    found: list[Straight] = []
    for index, (a, b) in enumerate(pairwise(run.points)):
        length = distance(a, b)
        if length == 0.0:
            continue
        heading = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
        if found and found[-1].last == index and _one_way(found[-1].heading, heading):
            found[-1] = found[-1]._replace(last=index + 1)
        else:
            found.append(Straight(index, index + 1, heading))
    return found


def slid(plan: Plan, run_id: str, part: Straight, by: float, carrying: bool = False) -> Plan:
    """The plan with a straight part of a run moved to its left by so many inches.

    `carrying` takes along what stands on it: fixtures, risers, exits. EditError where a pipe would change its heading, or
    where something holds the part that does not go along.
    """
    run = edits.find(plan, run_id)
    if not isinstance(run, Run):
        raise EditError(run_id, "expected a run")
    across = (part.left[0] * by, part.left[1] * by)
    to: dict[int, Point] = {}
    held: dict[str, None] = {}
    system, level = level_of(run)
    hands = [(one.id, Grips((one,))) for one in standing(plan)]
    for index in range(part.first, part.last + 1):
        here = run.points[index]
        things = [name for name, hand in hands if hand.hold(system, here, level)]
        guides = list(_guides(plan, run, part, index))
        if things and not carrying:
            raise EditError(run_id, f"{things[0]} holds it there")
        if things and any(not _one_way(guide, across, either=True) for guide in guides):
            raise EditError(run_id, f"{things[0]} holds it there")
        held.update(dict.fromkeys(things))
        to[index] = _slid_point(run_id, here, part.heading, across, guides)
    after = plan
    if held:
        after = edits.move(after, tuple(held), *across)
    for index, there in to.items():
        now = edits.find(after, run_id)
        if isinstance(now, Run) and now.points[index] != there:
            after = edits.move_point(after, run_id, index, there)
    _require_headings(plan, after)
    return after


def _guides(plan: Plan, run: Run, part: Straight, index: int) -> list[Vector]:
    """The headings of all stretches, but those of the part itself, that end at one of its points."""
    here, found = run.points[index], []
    for other in runs(plan):
        if level_of(other) != level_of(run):
            continue
        for number, (a, b) in enumerate(pairwise(other.points)):
            mine = other is run and part.first <= number < part.last
            if not mine and here in (a, b) and a != b:
                length = distance(a, b)
                found.append(((b[0] - a[0]) / length, (b[1] - a[1]) / length))
    return found


def _slid_point(run_id: str, here: Point, along: Vector, across: Vector, guides: list[Vector]) -> Point:
    """Where a point of the part comes to lie: on the moved line and on every stretch that ends there."""
    there: Point | None = None
    for guide in guides:
        square = guide[0] * along[1] - guide[1] * along[0]
        if abs(square) <= ASKEW:
            raise EditError(run_id, "a pipe that lies in one line with it holds it")
        share = (across[0] * along[1] - across[1] * along[0]) / square
        found = spot(here[0] + guide[0] * share, here[1] + guide[1] * share)
        if there is not None and distance(found, there) > 1.0 / 512.0:
            raise EditError(run_id, "the pipes that meet on it lead different ways")
        there = found
    return there if there is not None else spot(here[0] + across[0], here[1] + across[1])


def _require_headings(before: Plan, after: Plan) -> None:
    """EditError unless every stretch of every run points the way that it did."""
    old = {run.id: run for run in runs(before)}
    for run in runs(after):
        was = old[run.id]
        if run is was:
            continue
        for (a, b), (c, d) in zip(pairwise(was.points), pairwise(run.points), strict=True):
            if not _one_way((b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])):
                raise EditError(run.id, "it would turn another way")


def _one_way(a: Vector, b: Vector, either: bool = False) -> bool:
    """Whether two vectors point one way (or, where asked, one way or the opposite)."""
    size = math.hypot(*a) * math.hypot(*b)
    dot, cross = a[0] * b[0] + a[1] * b[1], a[0] * b[1] - a[1] * b[0]
    return size > 0.0 and abs(cross) <= ASKEW * size and (dot > 0.0 or either)


def carried(plan: Plan, thing_id: str, dx: float, dy: float) -> Plan:
    """The plan with a standing thing moved, and the runs that start at it kept to their headings.

    A run's straight part at the thing goes sideways with it; along that part it is only drawn longer or shorter.
    """
    thing = edits.find(plan, thing_id)
    after = plan
    rest = (dx, dy)
    hands = Grips((thing,)) if isinstance(thing, Fixed) else Grips()
    for run in runs(plan):
        system, level = level_of(run)
        at_start = hands.hold(system, run.points[0], level)
        if not at_start and not hands.hold(system, run.points[-1], level):
            continue
        parts = straights(run)
        if not parts:
            continue
        part = parts[0] if at_start else parts[-1]
        sideways = rest[0] * part.left[0] + rest[1] * part.left[1]
        if abs(sideways) > 1e-9:
            after = slid(after, run.id, part, sideways, carrying=True)
            rest = (rest[0] - part.left[0] * sideways, rest[1] - part.left[1] * sideways)
        break
    if any(abs(one) > 1e-9 for one in rest):
        moved = edits.move(after, (thing_id,), *rest)
        _require_headings(after, moved)
        after = moved
    return after
