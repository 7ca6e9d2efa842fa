"""Mends by place: a thing moved by the least that clears, a run slid sideways, two fittings set apart."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from engine.checks.bodies import bodies
from engine.checks.landing import least_move
from engine.checks.records import Finding
from engine.lengths import down, up
from engine.mending import costs
from engine.mending.heights import shifted
from engine.mending.ideas import Idea, Maker
from engine.mending.naming import depth, far, way
from engine.mending.out_of_the_way import headed_off, joist_moved
from engine.mending.sliding import Straight, carried, slid, straights
from engine.plan import edits
from engine.plan.axis import distance, foot
from engine.plan.points import Run, runs
from engine.plan.records import Exit, Fixture, Plan, Point, Riser, Supply
from engine.study import Study


def off_the_wood(study: Study, finding: Finding) -> Iterator[Idea]:
    """What lands on a joist moved into the bay beside it with its run kept to its headings, or the joist out of its way."""
    here = finding.at[:2]
    for body in bodies(study.model):
        if body.start != here or body.elements[0] not in finding.elements:
            continue
        move = least_move(study.model, body)
        for dx, dy in dict.fromkeys((move, (move[0], 0.0), (0.0, move[1])) if move is not None else ()):
            if dx or dy:
                yield from thing_moved(study, body.elements[0], dx, dy)
        joist = study.model.joists.get(finding.elements[-1])
        if joist is not None:
            yield from joist_moved(study, body, joist)
            yield from headed_off(study, body, joist)


def thing_moved(study: Study, name: str, dx: float, dy: float) -> Iterator[Idea]:
    """One standing thing moved: with its runs kept to their headings, or with their ends only led after it."""
    if far(dx, dy) > costs.FARTHEST:
        return
    words = f"Move {name} {way(dx, dy)}"
    cost = costs.moved(far(dx, dy))
    yield Idea(words, cost, partial(carried, study.plan, name, dx, dy))
    yield Idea(words, cost + 1.0, partial(edits.move, study.plan, (name,), dx, dy))


def out_of_the_wood(study: Study, finding: Finding) -> Iterator[Idea]:
    """A run whose side is in the wood slid away from it."""
    if finding.measured is not None:
        yield from run_slid(study, finding.elements[0], finding.at[:2], (up(finding.measured),))


def run_slid(study: Study, name: str, near: Point, lengths: tuple[float, ...]) -> Iterator[Idea]:
    """The straight part of a run that lies nearest to a point slid to either side, alone or with what stands on it."""
    run = edits.find(study.plan, name)
    part = nearest_part(run, near) if isinstance(run, Run) else None
    if part is None:
        return
    for by in lengths:
        for side in (by, -by):
            yield from part_slid(study, name, part, side)


def part_slid(study: Study, name: str, part: Straight, by: float) -> Iterator[Idea]:
    """A straight part of a run slid to its left by so much: alone, then with what stands on it."""
    if abs(by) > costs.FARTHEST:
        return
    dx, dy = part.left[0] * by, part.left[1] * by
    cost = costs.moved(by)
    yield Idea(f"Slide {name} {way(dx, dy)}", cost, partial(slid, study.plan, name, part, by))
    words = f"Slide {name} with what stands on it {way(dx, dy)}"
    yield Idea(words, 2.0 * cost, partial(slid, study.plan, name, part, by, True))


def nearest_part(run: Run, near: Point) -> Straight | None:
    """The straight part of a run that passes nearest to a point."""

    def away(part: Straight) -> float:
        return distance(near, foot(run.points[part.first], run.points[part.last], near))

    return min(straights(run), key=away, default=None)


def bores_apart(study: Study, finding: Finding) -> Iterator[Idea]:
    """Two bores, or a bore and a notch, set apart: one of the two runs slid along the joist."""
    if finding.measured is None or finding.limit is None:
        return
    lacks = up(finding.limit - finding.measured)
    for name in finding.elements:
        if any(name == run.id for run in runs(study.plan)):
            yield from run_slid(study, name, finding.at[:2], (lacks, lacks + 1.0, lacks + 2.0, lacks + 4.0))


def fittings_apart(study: Study, finding: Finding) -> Iterator[Idea]:
    """Two fittings too close on a run set apart: by another height of the exit, or by moving what stands at either end."""
    if finding.measured is None or finding.limit is None:
        return
    yield from shifted(study, finding)
    lacks = up(finding.limit - finding.measured)
    if lacks > 0.0:
        yield from _set_apart(study, finding, lacks)


def hub_out_of_bore(study: Study, finding: Finding) -> Iterator[Idea]:
    """A fitting whose hub sits in a bore moved along its run, by moving what stands at either end."""
    if finding.measured is not None:
        yield from _set_apart(study, finding, up(finding.measured))
        for by in (up(finding.measured), 1.0 + up(finding.measured)):
            yield from run_slid(study, finding.elements[0], finding.at[:2], (by,))


def _set_apart(study: Study, finding: Finding, lacks: float) -> Iterator[Idea]:
    plan = study.plan
    for exit_ in plan.exits:
        if exit_.id in finding.elements and exit_.how == "turn-down":
            tail = down(exit_.tail_z - lacks)
            make = partial(edits.set_field, plan, exit_.id, "tail_z", tail)
            yield Idea(f"Let {exit_.id} turn down to {depth(tail)}", costs.HEIGHT, make)
    for name in finding.elements:
        element = next((one for one in _pipes(plan) if one.id == name), None)
        if element is None:
            yield from _along_its_run(study, name, lacks)
            continue
        part = nearest_part(element, finding.at[:2])
        if part is None:
            continue
        for other in straights(element):
            if other == part or (other.first != part.last and part.first != other.last):
                continue
            for by in (lacks, -lacks):
                yield from part_slid(study, name, other, by)
        for end in (element.points[part.first], element.points[part.last]):
            yield from _ends_apart(study, end, part, lacks)


def _ends_apart(study: Study, end: Point, part: Straight, lacks: float) -> Iterator[Idea]:
    """What stands, or joins, at one end of a straight part moved along it."""
    plan = study.plan
    things: tuple[Fixture | Riser | Exit, ...] = (*plan.fixtures, *plan.risers, *plan.exits)
    for sign in (1.0, -1.0):
        dx, dy = part.heading[0] * lacks * sign, part.heading[1] * lacks * sign
        for thing in things:
            if end in (thing.at, getattr(thing, "trap_at", None)):
                yield from thing_moved(study, thing.id, dx, dy)
        for run in _pipes(plan):
            if end in (run.points[0], run.points[-1]):
                parts = straights(run)
                if parts:
                    joined = parts[0] if run.points[0] == end else parts[-1]
                    across = dx * joined.left[0] + dy * joined.left[1]
                    if abs(across) > 1e-6:
                        yield from part_slid(study, run.id, joined, across)


def _pipes(plan: Plan) -> Iterator[Run]:
    """The drains and vents of a plan."""
    return (run for run in runs(plan) if not isinstance(run, Supply))


def _along_its_run(study: Study, name: str, lacks: float) -> Iterator[Idea]:
    things: tuple[Fixture | Riser, ...] = (*study.plan.fixtures, *study.plan.risers)
    thing = next((one for one in things if one.id == name), None)
    if thing is None:
        return
    points = {thing.at, getattr(thing, "trap_at", None)}
    for run in study.plan.drains:
        for at, parts in ((run.points[0], straights(run)[:1]), (run.points[-1], straights(run)[-1:])):
            if at in points and parts:
                yield from _ends_apart(study, at, parts[0], lacks)


def trap_nearer(study: Study, finding: Finding) -> Iterator[Idea]:
    """A tub's trap hung nearer to its outlet, by as much as it is too far."""
    fixture = next((one for one in study.plan.fixtures if one.id == finding.elements[0]), None)
    if fixture is None or fixture.trap_at is None or finding.measured is None or finding.limit is None:
        return
    share = finding.limit / finding.measured
    (x0, y0), (x1, y1) = fixture.at, fixture.trap_at
    dx, dy = (x0 - x1) * (1.0 - share), (y0 - y1) * (1.0 - share)
    lacks = up(far(dx, dy))
    scale = lacks / far(dx, dy)
    to = (x1 + dx * scale, y1 + dy * scale)
    make = partial(edits.move_point, study.plan, fixture.id, 1, to)
    if lacks > costs.FARTHEST:
        return
    yield Idea(f"Hang the trap of {fixture.id} {way(dx * scale, dy * scale)}", costs.moved(lacks), make)
    yield from thing_moved(study, fixture.id, -dx * scale, -dy * scale)


def _out_of_joist(study: Study, finding: Finding) -> Iterator[Idea]:
    """A run that ends, turns or runs along inside a joist slid into the bay."""
    joist = study.model.joists.get(finding.elements[-1])
    if joist is not None:
        lengths = tuple(joist.thickness * share + 1.0 for share in (0.5, 1.0, 2.0))
        run = edits.find(study.plan, finding.elements[0])
        if isinstance(run, Run):
            for part in straights(run):
                for by in lengths:
                    for side in (up(by), -up(by)):
                        yield from part_slid(study, run.id, part, side)


MAKERS: dict[str, Maker] = {
    "hub-in-bore": hub_out_of_bore,
    "lands-on-wood": off_the_wood,
    "little-pipe-showing": fittings_apart,
    "no-room": fittings_apart,
    "no-straight-bore": _out_of_joist,
    "pipe-side-in-wood": out_of_the_wood,
    "trap-too-far-aside": trap_nearer,
}
