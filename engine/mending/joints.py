"""Mends of the drawing: ends that nearly meet, pipes drawn twice, rings, exits and risers that join nothing."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from msgspec.structs import replace

from engine.checks.records import Finding
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.mending.naming import way
from engine.plan import edits
from engine.plan.axis import distance, foot
from engine.plan.edits.runs import End
from engine.plan.points import Run, runs
from engine.plan.records import Drain, Element, Exit, Fixture, Plan, Point, Riser, Vent
from engine.plan.walls import wall_at
from engine.plan.welds import WALL_OUTLETS, level_of
from engine.study import Study

WITHIN = 12.0
"""Inches over which an end that joins nothing is still brought to a pipe: farther off the way is for the owner to draw."""


def join_end(study: Study, finding: Finding) -> Iterator[Idea]:
    """The end joined to the pipe that it nearly meets."""
    if len(finding.elements) < 2:
        return
    loose, main = finding.elements[:2]
    element = edits.find(study.plan, loose)
    first: End = "start" if isinstance(element, Run) and element.points[0] == finding.at[:2] else "end"
    for end in (first, *(("start", "end") if isinstance(element, Run) else ())):
        make = partial(edits.join, study.plan, loose, end, main)
        yield Idea(f"Join {loose} to {main}", costs.JOINT + (end != first), make)
    run = edits.find(study.plan, main)
    if isinstance(run, Run) and not isinstance(element, Run):
        yield from _onto(study.plan, element, run)


def _onto(plan: Plan, thing: Element, main: Run) -> Iterator[Idea]:
    """A standing thing moved onto the axis of the pipe that it nearly meets, and joined there."""
    at = _point(thing, "end")
    there = min((foot(a, b, at) for a, b in pairwise(main.points)), key=lambda spot: distance(spot, at))
    dx, dy = there[0] - at[0], there[1] - at[1]
    if dx or dy:
        words = f"Move {thing.id} {way(dx, dy)} onto {main.id}"
        yield Idea(words, costs.moved(distance(there, at)), partial(_moved_onto, plan, thing.id, dx, dy, main.id))


def _moved_onto(plan: Plan, name: str, dx: float, dy: float, main: str) -> Plan:
    return edits.join(edits.move(plan, (name,), dx, dy), name, "end", main)


def join_far(study: Study, finding: Finding) -> Iterator[Idea]:
    """Ends of a finding's runs and risers brought to a pipe a little way off."""
    for name in finding.elements:
        yield from _joined(study.plan, edits.find(study.plan, name))


def _joined(plan: Plan, element: Element) -> Iterator[Idea]:
    ends: tuple[End, ...] = ("end", "start") if isinstance(element, Run) else ("end",)
    for end in ends:
        at = _point(element, end)
        for main, away in _mains(plan, element, at):
            make = partial(edits.join, plan, element.id, end, main, WITHIN)
            yield Idea(f"Join {element.id} to {main}", costs.JOINT + costs.INCH * away, make)


def _point(element: Element, end: str) -> Point:
    if isinstance(element, Run):
        return element.points[0 if end == "start" else -1]
    if isinstance(element, Fixture) and element.trap_at is not None:
        return element.trap_at
    return element.at  # type: ignore[union-attr]


def _mains(plan: Plan, element: Element, at: Point) -> Iterator[tuple[str, float]]:
    """The waste runs within reach of a point, that an element could join, with how far off they are."""
    for run in runs(plan):
        system, level = level_of(run)
        if system != "waste" or run.id == element.id or at in run.points:
            continue
        if isinstance(element, Run) and level_of(element) != (system, level):
            continue
        away = min(distance(at, foot(a, b, at)) for a, b in pairwise(run.points))
        if away <= WITHIN:
            yield run.id, away


def drain_fixture(study: Study, finding: Finding) -> Iterator[Idea]:
    """A fixture's outlet, or the riser that it stands on, brought to a drain a little way off."""
    fixture = edits.find(study.plan, finding.elements[0])
    if not isinstance(fixture, Fixture):
        return
    yield from _joined(study.plan, fixture)
    if fixture.kind in WALL_OUTLETS:
        for riser in study.plan.risers:
            if riser.at == fixture.at:
                yield from _joined(study.plan, riser)
    at = _point(fixture, "end")
    for drain in study.plan.drains:
        for end, point in (("start", drain.points[0]), ("end", drain.points[-1])):
            away = distance(at, point)
            if 0.0 < away <= WITHIN:
                make = partial(edits.move_point, study.plan, drain.id, 0 if end == "start" else -1, at)
                yield Idea(f"Take {drain.id} to {fixture.id}", costs.JOINT + costs.INCH * away, make)


def meet_exit(study: Study, finding: Finding) -> Iterator[Idea]:
    """An exit joined to the drain beside it, moved to a run's end near it, or taken away."""
    exit_ = edits.find(study.plan, finding.elements[0])
    if not isinstance(exit_, Exit):
        return
    yield from _joined(study.plan, exit_)
    for drain in study.plan.drains:
        for point in (drain.points[0], drain.points[-1]):
            away = distance(point, exit_.at)
            if away <= WITHIN:
                make = partial(edits.set_field, study.plan, exit_.id, "at", point)
                yield Idea(f"Move {exit_.id} to the end of {drain.id}", costs.moved(away), make)
    if len(study.plan.exits) > 1:
        yield Idea(f"Delete {exit_.id}", costs.DELETE, partial(edits.delete, study.plan, exit_.id))


def meet_riser(study: Study, finding: Finding) -> Iterator[Idea]:
    """A riser joined to the pipe beside it, or taken away."""
    riser = edits.find(study.plan, finding.elements[0])
    if isinstance(riser, Riser):
        yield from _joined(study.plan, riser)
        yield Idea(f"Delete {riser.id}", costs.DELETE, partial(edits.delete, study.plan, riser.id))


def draw_once(study: Study, finding: Finding) -> Iterator[Idea]:
    """One of two that lie on each other taken away: the whole run or riser, or the point that leads back over it."""
    plan = study.plan
    for name in finding.elements:
        element = edits.find(plan, name)
        yield Idea(f"Delete {name}", costs.DELETE, partial(edits.delete, plan, name))
        if isinstance(element, Run) and len(element.points) > 2:
            for index in range(len(element.points)):
                words = f"Delete point {index + 1} of {name}"
                yield Idea(words, costs.DELETE - 1.0, partial(edits.delete_point, plan, name, index))


def part_ring(study: Study, finding: Finding) -> Iterator[Idea]:
    """A ring opened: one exit, a run of it or its end taken away."""
    plan = study.plan
    for name in finding.elements:
        element = edits.find(plan, name)
        yield Idea(f"Delete {name}", costs.DELETE, partial(edits.delete, plan, name))
        if isinstance(element, Drain):
            yield from stretch_off(plan, element)


def stretch_off(plan: Plan, drain: Drain) -> Iterator[Idea]:
    """A drain's first or last stretch taken away, where it has more than one."""
    if len(drain.points) > 2:
        for index, words in ((0, "first"), (-1, "last")):
            make = partial(edits.delete_point, plan, drain.id, index)
            yield Idea(f"Delete the {words} stretch of {drain.id}", costs.DELETE - 1.0, make)


def air(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent without air: through the roof, up from its loose end, or joined to a vent beside it."""
    plan = study.plan
    for name in finding.elements:
        element = edits.find(plan, name)
        if isinstance(element, Riser):
            yield from through_roof(plan, element)
        if isinstance(element, Vent):
            yield from _joined(plan, element)
            for point in (element.points[-1], element.points[0]):
                if all(riser.at != point for riser in plan.risers):
                    yield Idea(
                        f"Stand a riser through the roof at the end of {name}",
                        costs.VENT,
                        partial(with_riser, plan, point),
                    )


def through_roof(plan: Plan, riser: Riser) -> Iterator[Idea]:
    """A riser's vent taken up through the roof."""
    if riser.top == "roof":
        return
    up = replace(riser, top="roof", above_floor=None, returns=None)
    yield Idea(f"Take {riser.id} up through the roof", costs.TOP, partial(edits.replace, plan, up))


def with_riser(plan: Plan, at: Point, wall: str | None = None) -> Plan:
    """The plan with a riser in a wall, the one that stands there if none is named; EditError where a riser stands already."""
    if any(riser.at == at for riser in plan.risers):
        raise edits.EditError("", "a riser stands there already")
    if wall is None:
        standing = wall_at(plan, at)
        wall = None if standing is None else standing.id
    return edits.add_new(plan, Riser, at=at, wall=wall)


def raise_top(study: Study, finding: Finding) -> Iterator[Idea]:
    """A riser that ends too low: its height left to the program, or through the roof."""
    riser = edits.find(study.plan, finding.elements[0])
    if not isinstance(riser, Riser):
        return
    if riser.above_floor is not None:
        make = partial(edits.set_field, study.plan, riser.id, "above_floor", None)
        yield Idea(f"Leave the height of {riser.id} to the program", costs.UNPIN, make)
    yield from through_roof(study.plan, riser)


MAKERS: dict[str, Maker] = {
    "drain-reaches-no-exit": join_far,
    "drawn-twice": draw_once,
    "end-not-joined": join_end,
    "exit-joins-nothing": meet_exit,
    "fixture-not-drained": drain_fixture,
    "riser-joins-nothing": meet_riser,
    "riser-too-short": raise_top,
    "vent-reaches-no-air": air,
    "waste-ring": part_ring,
}
