"""Mends by cleanout: one put where it is wanted, made bigger, turned out of its wall, brought up above the floor."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial
from itertools import islice

from engine.checks.cleanout_places import Place, above, upper_end
from engine.checks.records import Finding
from engine.checks.rodding import rodding
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.mending.joints import stretch_off
from engine.mending.naming import way
from engine.piping.records import Node
from engine.plan import edits
from engine.plan.outline import compass
from engine.plan.records import Cleanout, Exit, Hatch, Plan
from engine.plan.walls import wall_at
from engine.study import Study


def put(study: Study, place: Place, cost: float = costs.CLEANOUT) -> Idea:
    """A cleanout at a place; one in a wall opens to the side where the room is, square to it."""
    make = partial(_added, study.plan, place)
    return Idea(f"Put a cleanout {place.words}", cost, make)


def _added(plan: Plan, place: Place, turn: float | None = None) -> Plan:
    if any(one.at == place.at and one.above_floor == place.above_floor for one in plan.cleanouts):
        raise edits.EditError("", "a cleanout stands there already")
    heading = turn if turn is not None else next(iter(_sides(plan, place)), 0.0)
    return edits.add_new(plan, Cleanout, at=place.at, above_floor=place.above_floor, turn=heading)


def _sides(plan: Plan, place: Place) -> Iterator[float]:
    """The headings square to the wall that a place stands in, the one toward the room first."""
    if place.above_floor is None:
        return
    wall = wall_at(plan, place.at)
    if wall is None:
        return
    line = math.degrees(math.atan2(wall.end[1] - wall.start[1], wall.end[0] - wall.start[0]))
    facing = [fixture.turn for fixture in plan.fixtures if fixture.at == place.at]
    sides = [(line + 90.0) % 360.0, (line - 90.0) % 360.0]
    yield from sorted(
        sides, key=lambda side: min((abs((side - f + 180.0) % 360.0 - 180.0) for f in facing), default=0.0)
    )


def both_sides(study: Study, place: Place, cost: float = costs.CLEANOUT) -> Iterator[Idea]:
    """A cleanout at a place, opening to either side of its wall where it stands in one."""
    yield put(study, place, cost)
    for number, side in enumerate(_sides(study.plan, place)):
        if number:
            yield Idea(f"Put a cleanout {place.words}", cost + 0.5, partial(_added, study.plan, place, side))


def _node(study: Study, finding: Finding) -> Node | None:
    """The node of the drains under the floor at a finding's place."""
    found = rodding(study.model)
    nodes = (*found.onward, *found.into)
    return next((node for node in nodes if (node.x, node.y) == finding.at[:2]), None)


def at_upper_end(study: Study, finding: Finding) -> Iterator[Idea]:
    """A cleanout at the upper end of a line; where a two-way one will do, that told of the exit."""
    for line in rodding(study.model).lines:
        if line.element in finding.elements and _begins(study, line.start, finding):
            yield from both_sides(study, upper_end(study.model, line.start))
            if line.exit is not None:
                yield outside(study, line.exit)


def _begins(study: Study, node: Node, finding: Finding) -> bool:
    spot = upper_end(study.model, node)
    return (node.x, node.y) == finding.at[:2] or spot.at == finding.at[:2]


def outside(study: Study, exit_id: str) -> Idea:
    """It is told that a cleanout will stand outside, where the sewer begins."""
    make = partial(edits.set_field, study.plan, exit_id, "cleanout_outside", True)
    return Idea(f"Say that a cleanout will stand outside {exit_id}", costs.SAY, make)


def at_sewer(study: Study, finding: Finding) -> Iterator[Idea]:
    """A cleanout told of outside, or put no farther up the drain than it may be."""
    exit_ = edits.find(study.plan, finding.elements[0])
    node = study.model.network.exits.get(finding.elements[0])
    if not isinstance(exit_, Exit) or node is None:
        return
    yield outside(study, exit_.id)
    yield from from_node(study, node, finding.limit or 0.0)


PLACES = 4
"""So many places for a cleanout are thought of, the nearest first."""


def from_node(study: Study, node: Node, reach: float) -> Iterator[Idea]:
    """A cleanout at each place from which a cable comes down to a node, nearest first."""
    for number, place in enumerate(islice(above(study.model, node, reach), PLACES)):
        yield from both_sides(study, place, costs.CLEANOUT + 0.1 * number)


def on_the_way(study: Study, finding: Finding) -> Iterator[Idea]:
    """A cleanout at a turn, an upper end or a riser from which the place of a finding is served."""
    node = _node(study, finding) or _start_of(study, finding)
    if node is not None:
        yield from from_node(study, node, math.inf)


def _start_of(study: Study, finding: Finding) -> Node | None:
    """The node at which the drain begins on which a finding lies."""
    nodes = [pipe.start for pipe in rodding(study.model).onward.values() if pipe.element in finding.elements]
    return min(nodes, key=lambda node: math.dist(node[:2], finding.at[:2]), default=None)


def bigger(study: Study, finding: Finding) -> Iterator[Idea]:
    """A cleanout's size left to its pipe."""
    for one in study.plan.cleanouts:
        if one.id in finding.elements and one.size is not None:
            make = partial(edits.set_field, study.plan, one.id, "size", None)
            yield Idea(f"Leave the size of {one.id} to its pipe", costs.UNPIN, make)


def turned(study: Study, finding: Finding) -> Iterator[Idea]:
    """A cleanout turned to another side of its wall, taken away, or put elsewhere."""
    plan = study.plan
    for one in plan.cleanouts:
        if one.id not in finding.elements:
            continue
        if one.above_floor is not None:
            for side in _sides(plan, Place(one.at, one.above_floor, 0.0, "", "")):
                make = partial(edits.set_field, plan, one.id, "turn", side)
                yield Idea(f"Turn {one.id} to the {compass(side)}", costs.FITTING, make)
        yield from brought_up(study, one)
        yield Idea(f"Delete {one.id}", costs.DELETE, partial(edits.delete, plan, one.id))


def brought_up(study: Study, cleanout: Cleanout) -> Iterator[Idea]:
    """A cleanout under the floor brought up into a riser that serves the same drain."""
    if cleanout.above_floor is not None:
        return
    plan = study.plan
    without = partial(edits.delete, plan, cleanout.id)
    node = next((one for one in rodding(study.model).onward if (one.x, one.y) == cleanout.at), None)
    if node is None:
        return
    for number, place in enumerate(islice(above(study.model, node, math.inf), PLACES)):
        if place.above_floor is not None:
            words = f"Put {cleanout.id} {place.words}"
            yield Idea(words, costs.CLEANOUT + number, partial(_moved_up, without, place))
            move = {"at": place.at, "above_floor": place.above_floor, "turn": next(iter(_sides(plan, place)), 0.0)}
            yield Idea(words, costs.CLEANOUT + number, partial(edits.set_fields, plan, cleanout.id, **move))


def _moved_up(without: Callable[[], Plan], place: Place) -> Plan:
    return _added(without(), place)


def reached(study: Study, finding: Finding) -> Iterator[Idea]:
    """A cleanout that nobody gets to under the floor: above it, or the way in brought nearer."""
    plan = study.plan
    for one in plan.cleanouts:
        if one.id not in finding.elements:
            continue
        yield from brought_up(study, one)
        for hatch in plan.hatches:
            if hatch.id in finding.elements and finding.measured and finding.limit and finding.unit == "in":
                yield from _nearer(study, hatch, one, finding)
        if finding.weight == "stop":
            yield Idea(f"Delete {one.id}", costs.DELETE, partial(edits.delete, plan, one.id))


def _nearer(study: Study, hatch: Hatch, one: Cleanout, finding: Finding) -> Iterator[Idea]:
    far = math.dist(hatch.at, one.at)
    limit = finding.limit or 0.0
    if far > limit and finding.rule == "cleanout-far-from-hatch":
        share = (far - limit + 1.0) / far
        dx, dy = (one.at[0] - hatch.at[0]) * share, (one.at[1] - hatch.at[1]) * share
        make = partial(edits.move, study.plan, (hatch.id,), dx, dy)
        yield Idea(f"Move {hatch.id} {way(dx, dy)}", costs.moved(far * share), make)
    elif hatch.clear < limit:
        make_wider = partial(edits.set_field, study.plan, hatch.id, "clear", limit)
        yield Idea(f"Make {hatch.id} {limit:g} in wide", costs.SIZE, make_wider)


def end_closed(study: Study, finding: Finding) -> Iterator[Idea]:
    """A dead end closed by a cleanout, or cut off."""
    plan = study.plan
    yield from at_upper_end(study, finding)
    for run in plan.drains:
        if run.id in finding.elements:
            yield Idea(f"Delete {run.id}", costs.DELETE, partial(edits.delete, plan, run.id))
            yield from stretch_off(plan, run)


def in_the_island(study: Study, finding: Finding) -> Iterator[Idea]:
    """A cleanout in an upright part of an island's vent: over the floor where it comes down, or where its foot rises."""
    plan = study.plan
    for riser in plan.risers:
        if riser.id not in finding.elements:
            continue
        ends = {point for vent in plan.vents if riser.returns in vent.points for point in vent.points}
        points = [*([riser.returns] if riser.returns is not None else []), *sorted(ends - {riser.returns})]
        for number, point in enumerate(points):
            for height in LOW:
                where = f"where {riser.id} comes down" if point == riser.returns else "where its foot vent rises"
                place = Place(point, height, 0.0, riser.id, where)
                yield from both_sides(study, place, costs.CLEANOUT + number + height / 100.0)


LOW = (6.0, 8.0, 10.0, 12.0)
"""Inches above the floor at which a cleanout is put in a vent that comes down."""


MAKERS: dict[str, Maker] = {
    "cleanout-concealed": turned,
    "cleanout-far-from-hatch": reached,
    "cleanout-in-low-crawl-space": reached,
    "cleanout-too-small": bigger,
    "cleanout-without-room": turned,
    "cleanouts-far-apart": on_the_way,
    "dead-end": end_closed,
    "island-vent-no-cleanout": in_the_island,
    "no-cleanout-at-sewer": at_sewer,
    "sharp-turn-without-cleanout": on_the_way,
    "turns-without-cleanout": on_the_way,
    "upper-end-without-cleanout": at_upper_end,
}
