"""Mends by a vent: one more riser where the drain passes a wall within the trap's reach, or the one there brought nearer.

A vent rises plumb from the drain where the drain passes under a wall; else it goes up to the wall under the floor at 45
degrees, which gains no more sideways than it rises.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from engine.checks.records import Finding
from engine.lengths import inches, up
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.mending.joints import through_roof, with_riser
from engine.mending.moves import thing_moved
from engine.mending.naming import way
from engine.mending.sizes import sized_up, trap_sizes
from engine.mending.slopes import arm_eased, back, by_its_tangent
from engine.mending.tops import overhead_higher
from engine.mending.vent_spots import Spot, meeting, spots
from engine.piping.flow import is_under
from engine.piping.records import Trap
from engine.plan import edits
from engine.plan.axis import distance, foot, share
from engine.plan.grid import spot
from engine.plan.points import Run
from engine.plan.records import Drain, Fixture, PinnedFitting, Plan, Point, Vent
from engine.plan.walls import wall_at
from engine.plan.welds import WALL_OUTLETS, level_of
from engine.study import Study

PAST_JOISTS = (0.0, 2.0, 4.0, 6.0)
"""Inches more than it must that a riser is moved along its wall, so that it comes down clear of a joist."""

SLANT = 12.0
"""Inches per foot that a vent rises under the floor at 45 degrees."""


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
                    partial(with_riser, study.plan, fixture.at),
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


def _with_vent(plan: Plan, place: Spot) -> Plan:
    plan = _with_point(plan, place.run, place.at)
    if place.at != place.foot:
        plan = edits.add_new(plan, Vent, points=(place.at, place.foot), slope=SLANT)
    return with_riser(plan, place.foot, place.wall)


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
        for more in PAST_JOISTS:
            for by in (lacks + more, -lacks - more):
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
            wall = wall_at(plan, riser.at, riser.wall)
            for drain in plan.drains if wall is not None else ():
                for number, (a, b) in enumerate(pairwise(drain.points)):
                    met = meeting(a, b, wall) if wall is not None else None
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


MAKERS: dict[str, Maker] = {
    "arm-falls-too-far": falls_less,
    "combination-drop-too-long": vented,
    "combination-without-leave": vented,
    "s-trap": vented,
    "trap-too-far-from-vent": nearer,
    "trap-without-vent": vented,
    "vent-at-the-crown": farther,
    "vent-holds-water": back,
    "vent-leaves-drain-flat": leaves_steeply,
    "vent-lies-flat": leaves_steeply,
    "vent-too-far-from-wall": nearer_wall,
}
