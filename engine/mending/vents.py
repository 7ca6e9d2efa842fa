"""Mends by a vent: one more riser where the drain passes a wall within the trap's reach, or the one there brought nearer.

A vent rises plumb from the drain where the drain passes under a wall; else it goes up to the wall under the floor at 45
degrees, which gains no more sideways than it rises.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from itertools import pairwise
from typing import NamedTuple

from engine.checks.records import Finding
from engine.checks.venting import limit_of
from engine.drafting.wall_reach import reach_from
from engine.lengths import inches, up
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.mending.joints import through_roof
from engine.mending.moves import thing_moved
from engine.mending.naming import way
from engine.mending.sizes import sized_up, trap_sizes
from engine.mending.slopes import arm_eased, back, by_its_tangent
from engine.mending.tops import overhead_higher
from engine.piping.flow import is_under
from engine.piping.records import Pipe, Trap
from engine.plan import edits
from engine.plan.axis import distance, foot, share
from engine.plan.grid import spot
from engine.plan.points import Run, runs
from engine.plan.records import Drain, Fixture, PinnedFitting, Plan, Point, Riser, Vent, Wall
from engine.plan.walls import wall_at
from engine.plan.welds import WALL_OUTLETS, level_of
from engine.study import Study

EVERY = 3.0
"""Inches between the places along a drain that are looked at for a vent up to a wall beside it."""

SLANT = 12.0
"""Inches per foot that a vent rises under the floor at 45 degrees."""


class Spot(NamedTuple):
    """A place on a drain from which a vent can rise: on it, or up to a wall beside it at `foot`."""

    run: str
    at: Point
    foot: Point
    wall: str
    along: float


def vented(study: Study, finding: Finding) -> Iterator[Idea]:
    """A trap without a vent, or too far from it: its riser taken through the roof, or a vent within its reach."""
    for trap in _traps(study, finding):
        fixture = next((one for one in study.plan.fixtures if one.id == trap.fixture), None)
        if fixture is not None:
            for riser in study.plan.risers:
                if riser.at == fixture.at:
                    yield from through_roof(study.plan, riser)
            if fixture.kind in WALL_OUTLETS and all(riser.at != fixture.at for riser in study.plan.risers):
                yield Idea(
                    f"Stand a riser through the roof at {fixture.id}",
                    costs.VENT - 1.0,
                    partial(_with_riser, study.plan, fixture.at),
                )
        yield from _raised_beside(study, trap)


def _traps(study: Study, finding: Finding) -> list[Trap]:
    return [trap for trap in study.model.network.traps if trap.fixture in finding.elements]


def _raised_beside(study: Study, trap: Trap) -> Iterator[Idea]:
    """A vent at each place on a trap's own drain from which one can rise into a wall, the nearest to the trap first."""
    for place in spots(study, trap):
        cost = costs.VENT + place.along / 100.0
        if place.at == place.foot:
            words = f"Stand a vent through the roof on {place.run} in {_wall_words(study.plan, place.wall)}"
        else:
            side = way(place.foot[0] - place.at[0], place.foot[1] - place.at[1])
            words = f"Take a vent off {place.run} and {side} up into {_wall_words(study.plan, place.wall)}"
            cost += 2.0
        yield Idea(words, cost, partial(_with_vent, study.plan, place))


def _wall_words(plan: Plan, name: str) -> str:
    wall = next(wall for wall in plan.walls if wall.id == name)
    return wall.name or f"wall {name}"


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
            found += (one for one in _along(study, pipe, done) if trap_reach(trap, study) <= one.along <= most)
        done += pipe.run
    seen: set[tuple[Point, Point]] = set()
    for one in sorted(found, key=lambda one: (one.along, one.at)):
        if (one.at, one.foot) not in seen:
            seen.add((one.at, one.foot))
            yield one


def trap_reach(trap: Trap, study: Study) -> float:
    """How near to a trap's weir a vent may be, inches: none at the crown."""
    key = "trap_arm.crown_diameters"
    book = study.model.book
    return trap.size * book.number(key) if book.has(key) and trap.kind != "water_closet" else 0.0


def _own_drain(study: Study, trap: Trap) -> Iterator[Pipe]:
    """The pipes that a trap alone drains through, from its weir on down."""
    graph, node = study.model.network.graph, trap.node
    while node in graph:
        onward = (graph.edges[node, after]["pipe"] for after in graph.successors(node))
        pipe: Pipe | None = next((one for one in onward if one.system == "waste"), None)
        if pipe is None or pipe.fixture != trap.fixture:
            return
        yield pipe
        node = pipe.end


def _along(study: Study, pipe: Pipe, done: float) -> Iterator[Spot]:
    """The places on one level pipe under the floor; `done` is how far its start is from the trap's weir."""
    plan, model = study.plan, study.model
    a, b = (pipe.start.x, pipe.start.y), (pipe.end.x, pipe.end.y)
    for wall in plan.walls:
        met = _meeting(a, b, wall)
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


def _meeting(a: Point, b: Point, wall: Wall) -> Point | None:
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


def _with_vent(plan: Plan, place: Spot) -> Plan:
    plan = _with_point(plan, place.run, place.at)
    if place.at != place.foot:
        plan = edits.add_new(plan, Vent, points=(place.at, place.foot), slope=SLANT)
    return _with_riser(plan, place.foot, place.wall)


def _with_point(plan: Plan, name: str, at: Point) -> Plan:
    """The run with a point there, on its axis."""
    run = edits.find(plan, name)
    if not isinstance(run, Run):
        raise edits.EditError(name, "expected a run")
    if at in run.points:
        return plan
    for number, (a, b) in enumerate(pairwise(run.points)):
        if 0.0 <= share(a, b, at) <= 1.0 and distance(foot(a, b, at), at) < 1.0 / 256.0:
            return edits.insert_point(plan, name, number, at)
    raise edits.EditError(name, "it does not pass there")


def _with_riser(plan: Plan, at: Point, wall: str | None = None) -> Plan:
    if any(riser.at == at for riser in plan.risers):
        raise edits.EditError("", "a riser stands there already")
    if wall is None:
        standing = wall_at(plan, at)
        wall = None if standing is None else standing.id
    return edits.add_new(plan, Riser, at=at, wall=wall)


def nearer(study: Study, finding: Finding) -> Iterator[Idea]:
    """A trap too far from its vent: the vent moved along its wall, a larger trap, the fixture moved, one more vent."""
    lacks = up((finding.measured or 0.0) - (finding.limit or 0.0)) if finding.unit == "in" else 0.0
    for trap in _traps(study, finding) if lacks > 0.0 else ():
        yield from _vent_along(study, trap, lacks)
        fixture = next((one for one in study.plan.fixtures if one.id == trap.fixture), None)
        if fixture is not None:
            yield from _toward(study, trap, fixture, lacks)
            yield from trap_sizes(study, fixture)
    yield from vented(study, finding)


def _vent_along(study: Study, trap: Trap, lacks: float) -> Iterator[Idea]:
    """The riser that vents a trap moved along its wall, either way."""
    for riser in study.plan.risers:
        if trap.ends is None or riser.at != (trap.ends.x, trap.ends.y):
            continue
        wall = wall_at(study.plan, riser.at, riser.wall)
        if wall is None or wall.start == wall.end:
            continue
        length = distance(wall.start, wall.end)
        ux, uy = (wall.end[0] - wall.start[0]) / length, (wall.end[1] - wall.start[1]) / length
        for by in (lacks, -lacks):
            yield from thing_moved(study, riser.id, ux * by, uy * by)


def _toward(study: Study, trap: Trap, fixture: Fixture, lacks: float) -> Iterator[Idea]:
    """The fixture, or its trap, moved along its first pipe toward the vent; an arm in a wall made shorter."""
    pipe = study.model.network.by_id[trap.arm[0]] if trap.arm else None
    if pipe is None:
        return
    if pipe.element == fixture.id:
        to = pipe.run - lacks
        if to > 0.0 and lacks <= costs.FARTHEST:
            make = partial(edits.set_field, study.plan, fixture.id, "arm", to)
            yield Idea(f"Give {fixture.id} an arm of {inches(to)} in", costs.moved(lacks), make)
    elif lacks < pipe.run:
        dx, dy = pipe.heading[0] * lacks, pipe.heading[1] * lacks
        yield from thing_moved(study, fixture.id, dx, dy)
        if fixture.trap_at is not None and lacks <= costs.FARTHEST:
            at = spot(fixture.trap_at[0] + dx, fixture.trap_at[1] + dy)
            make = partial(edits.move_point, study.plan, fixture.id, 1, at)
            yield Idea(f"Hang the trap of {fixture.id} {way(dx, dy)}", costs.moved(lacks), make)


def farther(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent at the trap's crown: the fixture moved away from it, or its arm made longer, by what it lacks."""
    lacks = up((finding.limit or 0.0) - (finding.measured or 0.0))
    for trap in _traps(study, finding):
        pipe = study.model.network.by_id[trap.arm[0]]
        fixture = next(one for one in study.plan.fixtures if one.id == trap.fixture)
        if pipe.element == fixture.id:
            make = partial(edits.set_field, study.plan, fixture.id, "arm", pipe.run + lacks)
            yield Idea(f"Give {fixture.id} an arm of {inches(pipe.run + lacks)} in", costs.moved(lacks), make)
        else:
            yield from thing_moved(study, fixture.id, -pipe.heading[0] * lacks, -pipe.heading[1] * lacks)


def falls_less(study: Study, finding: Finding) -> Iterator[Idea]:
    """An arm that falls too far: less slope, a tee for a combination, larger pipe, or the vent nearer."""
    yield from arm_eased(study, finding)
    for trap in _traps(study, finding):
        if trap.ends is None:
            continue
        here = (trap.ends.x, trap.ends.y)
        for pin in study.plan.fittings:
            if pin.at == here:
                make = partial(edits.delete, study.plan, pin.id)
                yield Idea(f"Leave the fitting at {pin.id} to the program", costs.UNPIN, make)
                tee = partial(edits.set_field, study.plan, pin.id, "pattern", "sanitary_tee")
                yield Idea(f"Make {pin.id} a sanitary tee", costs.FITTING, tee)
        if all(pin.at != here for pin in study.plan.fittings) and not is_under(trap.ends):
            add = partial(edits.add_new, study.plan, PinnedFitting, at=here, pattern="sanitary_tee", level="wall")
            yield Idea(f"Use a sanitary tee for {trap.fixture}", costs.FITTING, add)
        for name in dict.fromkeys(study.model.network.by_id[one].element for one in trap.arm):
            yield from sized_up(study, name)
        first = study.model.network.by_id[trap.arm[0]]
        fixture = next(one for one in study.plan.fixtures if one.id == trap.fixture)
        if first.slope > 0.0 and finding.measured is not None and finding.limit is not None:
            lacks = up(12.0 * (finding.measured - finding.limit) / first.slope)
            yield from _vent_along(study, trap, lacks)
            yield from _toward(study, trap, fixture, lacks)
    yield from vented(study, finding)


def leaves_steeply(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent that leaves or lies too flat: raised overhead, leaning at 45 degrees, its branch rolled up, or taken in a wall."""
    plan = study.plan
    yield from overhead_higher(study, finding)
    yield from by_its_tangent(study, finding)
    for drain in plan.drains:
        if drain.id in finding.elements and drain.join == "rolled":
            for roll in (45.0, 60.0, 90.0):
                make = partial(edits.set_field, plan, drain.id, "roll", roll)
                yield Idea(f"Give {drain.id} a roll of {roll:g} degrees", costs.FITTING, make)
    yield from _upright_instead(study, finding)


def _upright_instead(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent run under the floor taken away, and its riser's vent stood on the drain where that passes a wall."""
    plan = study.plan
    for vent in plan.vents:
        if vent.id not in finding.elements or vent.above_floor is not None:
            continue
        risers = [riser for riser in plan.risers if riser.at in (vent.points[0], vent.points[-1])]
        for riser in risers:
            for drain in plan.drains:
                for number, (a, b) in enumerate(pairwise(drain.points)):
                    wall = wall_at(plan, riser.at, riser.wall)
                    met = _meeting(a, b, wall) if wall is not None else None
                    if wall is not None and met is not None:
                        words = f"Stand {riser.id} on {drain.id} where it passes {_wall_words(plan, wall.id)}"
                        make = partial(_stood_on, plan, vent.id, riser.id, drain.id, number, met)
                        yield Idea(words, costs.moved(distance(riser.at, met)), make)


def _stood_on(plan: Plan, vent: str, riser: str, drain: str, number: int, at: Point) -> Plan:
    if level_of(edits.find(plan, vent)) != ("waste", float("-inf")):  # type: ignore[arg-type]
        raise edits.EditError(vent, "it lies overhead")
    plan = edits.delete(plan, vent)
    plan = edits.set_field(plan, riser, "at", at)
    run = edits.find(plan, drain)
    return plan if isinstance(run, Drain) and at in run.points else edits.insert_point(plan, drain, number, at)


def nearer_wall(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent that goes too far sideways: its riser moved along toward the drain, or stood on it."""
    yield from _upright_instead(study, finding)
    lacks = up((finding.measured or 0.0) - (finding.limit or 0.0))
    for vent in study.plan.vents:
        if vent.id not in finding.elements or vent.above_floor is not None:
            continue
        for riser in study.plan.risers:
            for end, other in ((vent.points[0], vent.points[-1]), (vent.points[-1], vent.points[0])):
                if riser.at == end and distance(end, other) > lacks > 0.0:
                    ux, uy = (other[0] - end[0]) / distance(end, other), (other[1] - end[1]) / distance(end, other)
                    yield from thing_moved(study, riser.id, ux * lacks, uy * lacks)


def falls_back(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent that holds water: its slope turned, or left to the plan's."""
    yield from back(study, finding)
    for run in runs(study.plan):
        if isinstance(run, Vent) and run.id in finding.elements and run.slope == 0.0:
            make = partial(edits.set_field, study.plan, run.id, "slope", study.plan.slope)
            yield Idea(f"Give {run.id} the plan's slope", costs.SLOPE, make)


MAKERS: dict[str, Maker] = {
    "arm-falls-too-far": falls_less,
    "combination-drop-too-long": vented,
    "combination-without-leave": vented,
    "s-trap": vented,
    "trap-too-far-from-vent": nearer,
    "trap-without-vent": vented,
    "vent-at-the-crown": farther,
    "vent-holds-water": falls_back,
    "vent-leaves-drain-flat": leaves_steeply,
    "vent-lies-flat": leaves_steeply,
    "vent-too-far-from-wall": nearer_wall,
    "vertical-wet-vent-takes-too-many": vented,
    "vertical-wet-vent-too-long": vented,
}
