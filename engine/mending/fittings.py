"""Mends by fitting: the one that was chosen let go or changed, a corner or a branch brought to an angle that is sold."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from typing import get_args

from engine.checks.records import Finding
from engine.lengths import up
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.mending.naming import one, way
from engine.mending.sliding import slid, straights
from engine.plan import edits
from engine.plan.axis import distance
from engine.plan.grid import spot
from engine.plan.outline import listed
from engine.plan.points import Run, runs
from engine.plan.records import Pattern, PinnedFitting, Plan, Point
from engine.plan.welds import level_of
from engine.study import Study
from engine.trade.kinds import KINDS

ANGLES = (90.0, 45.0, 60.0, 22.5)
"""Degrees that fittings turn, those that every store has first."""

PATTERNS: tuple[str, ...] = get_args(Pattern)


def other_fitting(study: Study, finding: Finding) -> Iterator[Idea]:
    """The fitting chosen at a place let go, or another chosen."""
    plan, here = study.plan, finding.at[:2]
    there = [pin for pin in plan.fittings if pin.at == here or pin.id in finding.elements]
    for pin in there:
        make = partial(edits.delete, plan, pin.id)
        yield Idea(f"Leave the fitting at {pin.id} to the program", costs.UNPIN, make)
    for pattern in PATTERNS:
        words = KINDS[pattern].words
        for pin in there:
            if pin.pattern != pattern:
                change = partial(edits.set_field, plan, pin.id, "pattern", pattern)
                yield Idea(f"Make {pin.id} {one(words)}", costs.FITTING, change)
        if not there:
            under = finding.at[2] < 0.0
            where = _where(plan, finding)
            add = partial(
                edits.add_new, plan, PinnedFitting, at=here, pattern=pattern, level="under" if under else "wall"
            )
            yield Idea(f"Use {one(words)} {where}", costs.FITTING, add)


def let_go(study: Study, finding: Finding) -> Iterator[Idea]:
    """A chosen fitting that does not fit, let go."""
    for pin in study.plan.fittings:
        if pin.id in finding.elements:
            make = partial(edits.delete, study.plan, pin.id)
            yield Idea(f"Leave the fitting at {pin.id} to the program", costs.UNPIN, make)


def _where(plan: Plan, finding: Finding) -> str:
    names = [name for name in finding.elements if not any(pin.id == name for pin in plan.fittings)]
    return f"where {' and '.join(names[:2])} meet" if len(names) > 1 else f"on {names[0]}" if names else "there"


def sold_angle(study: Study, finding: Finding) -> Iterator[Idea]:
    """A corner slid along one of its legs, or a branch's end along its main, until the angle is one that is sold."""
    plan, here = study.plan, spot(*finding.at[:2])
    for run in runs(plan):
        if run.id not in finding.elements or here not in run.points or level_of(run)[0] != "waste":
            continue
        index = run.points.index(here)
        inner = 0 < index < len(run.points) - 1
        before = run.points[index - 1] if index else None
        after = run.points[index + 1] if index < len(run.points) - 1 else None
        if inner and before is not None and after is not None:
            yield from _turned(plan, run, index, before, after)
            yield from _turned(plan, run, index, after, before)
        elif before is not None or after is not None:
            yield from _joined(plan, run, index, before or after or here)
    yield from _open_climbs(plan, finding)


def _turned(plan: Plan, run: Run, index: int, along: Point, other: Point) -> Iterator[Idea]:
    """The corner slid on the line through it and `along`, so that the way on to `other` turns by an angle that is sold."""
    here = run.points[index]
    away = distance(along, here)
    if away == 0.0:
        return
    ux, uy = (here[0] - along[0]) / away, (here[1] - along[1]) / away
    for there in _corners(along, (ux, uy), other):
        if distance(there, here) > 0.0:
            yield from _moved(plan, run, index, there, distance(there, here))


def _corners(start: Point, heading: tuple[float, float], end: Point) -> Iterator[Point]:
    """The points on a ray from which the way to `end` turns off the ray by 90, 45, 60 or 22-1/2 degrees."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    on = dx * heading[0] + dy * heading[1]
    off = abs(dx * heading[1] - dy * heading[0])
    for angle in ANGLES:
        far = on - off / math.tan(math.radians(angle)) if angle < 90.0 else on
        if far > 0.0:
            yield spot(start[0] + heading[0] * far, start[1] + heading[1] * far)


def _joined(plan: Plan, run: Run, index: int, before: Point) -> Iterator[Idea]:
    """A run's end slid along its main, so that it comes in at an angle that is sold, with the flow or against it."""
    here = run.points[index]
    for other in runs(plan):
        if other is run or here not in other.points or level_of(other) != level_of(run):
            continue
        place = other.points.index(here)
        for step in (-1, 1):
            if not 0 <= place + step < len(other.points):
                continue
            far_end = other.points[place + step]
            away = distance(here, far_end)
            ux, uy = (far_end[0] - here[0]) / away, (far_end[1] - here[1]) / away
            # the joint lies where the way from `before` meets the main's line at the angle: seen from the main's far end
            for angle in (45.0, 90.0):
                on = (before[0] - here[0]) * ux + (before[1] - here[1]) * uy
                off = abs((before[0] - here[0]) * uy - (before[1] - here[1]) * ux)
                for sign in (-1.0, 1.0):
                    along = on + sign * (off / math.tan(math.radians(angle)) if angle < 90.0 else 0.0)
                    if along < away and along != 0.0:
                        there = spot(here[0] + ux * along, here[1] + uy * along)
                        yield from _moved(plan, run, index, there, abs(along))


def _moved(plan: Plan, run: Run, index: int, there: Point, far: float) -> Iterator[Idea]:
    if far > costs.FARTHEST:
        return
    here = run.points[index]
    end = "end" if index in (0, len(run.points) - 1) else "corner"
    words = f"Move the {end} of {run.id} {way(there[0] - here[0], there[1] - here[1])}"
    yield Idea(words, costs.moved(far), partial(edits.move_point, plan, run.id, index, there))


def _open_climbs(plan: Plan, finding: Finding) -> Iterator[Idea]:
    for drain in plan.drains:
        if drain.id in finding.elements and drain.rise is not None:
            make = partial(edits.set_field, plan, drain.id, "rise", None)
            yield Idea(f"Leave the climb of {drain.id} to the program", costs.UNPIN, make)


def apart_on_main(study: Study, finding: Finding) -> Iterator[Idea]:
    """Where more pipes meet than one fitting joins: one run's end moved along another, parallel to itself."""
    plan, here = study.plan, spot(*finding.at[:2])
    yield from other_cleanout(study, finding)
    for run in runs(plan):
        if run.id not in finding.elements or here not in (run.points[0], run.points[-1]):
            continue
        parts = straights(run)
        if not parts:
            continue
        part = parts[0] if run.points[0] == here else parts[-1]
        for by in (4.0, 6.0, 8.0, 10.0, 12.0, 16.0):
            for side in (by, -by):
                dx, dy = part.left[0] * side, part.left[1] * side
                words = f"Slide the end of {run.id} {way(dx, dy)}"
                yield Idea(words, costs.moved(by), partial(slid, plan, run.id, part, side))


def other_cleanout(study: Study, finding: Finding) -> Iterator[Idea]:
    """A cleanout that opens nothing taken away, or set a little higher in its riser."""
    for cleanout in study.plan.cleanouts:
        if cleanout.id not in finding.elements:
            continue
        if cleanout.above_floor is not None:
            for by in (6.0, 10.0, -6.0):
                to = up(cleanout.above_floor + by)
                if to > 0.0:
                    make = partial(edits.set_field, study.plan, cleanout.id, "above_floor", to)
                    yield Idea(
                        f"Put {cleanout.id} {to:g} in above the floor", costs.HEIGHT + costs.INCH * abs(by), make
                    )
        yield Idea(f"Delete {cleanout.id}", costs.DELETE, partial(edits.delete, study.plan, cleanout.id))


def in_the_loop(study: Study, finding: Finding) -> Iterator[Idea]:
    """The fittings chosen where an island's vent rises and comes down let go, or others chosen."""
    for riser in study.plan.risers:
        if riser.id not in finding.elements:
            continue
        pins = [pin for pin in study.plan.fittings if pin.at in (riser.at, riser.returns)]
        for pin in pins:
            make = partial(edits.delete, study.plan, pin.id)
            yield Idea(f"Leave the fitting at {pin.id} to the program", costs.UNPIN, make)
        if len(pins) > 1:
            names = tuple(pin.id for pin in pins)
            yield Idea(
                f"Leave the fittings at {listed(names)} to the program",
                costs.FITTING,
                partial(edits.delete, study.plan, *names),
            )
    yield from other_fitting(study, finding)


MAKERS: dict[str, Maker] = {
    "island-loop-bends": in_the_loop,
    "island-vent-in-vent-fittings": in_the_loop,
    "fitting-does-not-fit": let_go,
    "no-fitting-joins-these": apart_on_main,
    "no-fitting-turns-so": sold_angle,
    "turn-in-wrong-fitting": other_fitting,
}
