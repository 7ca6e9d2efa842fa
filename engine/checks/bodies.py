"""Everything plumb that stands in the floor: where, how wide, and what stands round it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.model import Model
from engine.checks.outcomes import fixtures
from engine.checks.records import Weight
from engine.piping.flow import is_under
from engine.piping.records import Node, Pipe, Trap
from engine.plan.records import Exit, Point
from engine.plan.welds import WALL_OUTLETS
from engine.trade.openings import hole_of, hub
from engine.trade.pipe import drain


class Body(NamedTuple):
    """Something that stands plumb in the floor: in plan, all that lies within a radius of a line (or a point).

    Its plumb pipe of nominal `size` stands at `start` with the radius `pipe`. `room` is the radius of the widest
    thing round it, `round_it` that thing in words, which may reach on to `end`, and `weight` what it means if only
    that lands on wood. `low` and `high` bound the height.
    """

    elements: tuple[str, ...]
    start: Point
    end: Point
    low: float
    high: float
    size: float
    pipe: float
    room: float
    round_it: str
    weight: Weight


def bodies(model: Model) -> Iterator[Body]:
    """Fixtures' drops, traps in the bay, risers, drops between runs and turn-downs at exits, each place once.

    Where a wall outlet has no riser yet, the pipe that will come down there stands for it.
    """
    places: dict[Point, list[Pipe]] = {}
    for pipe in model.network.pipes:
        if pipe.shape == "plumb" and (is_under(pipe.end) or is_under(pipe.start)):
            places.setdefault((pipe.start.x, pipe.start.y), []).append(pipe)
    closets = {fixture.id for fixture in model.plan.fixtures if fixture.kind == "water_closet"}
    traps = {trap.fixture: trap for trap in model.network.traps if is_under(trap.node)}
    for point, pipes in places.items():
        elements = tuple(dict.fromkeys(pipe.element for pipe in pipes))
        heights = [z for pipe in pipes for z in _span(model, pipe.start, pipe.end)]
        body = _plain(elements, point, max(pipe.size for pipe in pipes), min(heights), max(heights))
        for element in elements:
            if element in closets:
                hole = (hole_of("water_closet") or 0.0) / 2.0
                body = body._replace(room=max(body.pipe, hole), round_it="hole for the flange", weight="stop")
            elif element in traps:
                body = _with_trap(model, body, traps[element])
        yield body
    for trap in model.network.traps:
        fixture = fixtures(model).get(trap.fixture)
        if fixture is not None and fixture.kind in WALL_OUTLETS and fixture.at not in places:
            yield _plain((fixture.id,), fixture.at, trap.size, -math.inf, 0.0)
    for exit_ in model.plan.exits:
        yield from _turn_down(model, exit_)


def _plain(elements: tuple[str, ...], point: Point, size: float, low: float, high: float) -> Body:
    """A plumb pipe with nothing but a hub round it."""
    return Body(
        elements=elements,
        start=point,
        end=point,
        low=low,
        high=high,
        size=size,
        pipe=drain(size).od / 2.0,
        room=hub(size) / 2.0,
        round_it="hub",
        weight="look",
    )


def _with_trap(model: Model, body: Body, trap: Trap) -> Body:
    """The same with the trap below it, which reaches from its inlet along the arm to its weir."""
    if not trap.arm:
        return body
    east, north = model.network.by_id[trap.arm[0]].heading
    weir = (body.start[0] + east * trap.weir, body.start[1] + north * trap.weir)
    return body._replace(end=weir, room=max(body.room, hub(trap.size) / 2.0), round_it="trap", weight="stop")


def _turn_down(model: Model, exit_: Exit) -> Iterator[Body]:
    node = model.network.exits.get(exit_.id)
    if node is None or exit_.how != "turn-down":
        return
    sizes = [model.network.graph.edges[above, node]["pipe"].size for above in model.network.graph.predecessors(node)]
    if sizes:
        axis = model.heights[node]
        yield _plain((exit_.id,), exit_.at, max(sizes), min(exit_.tail_z, axis), axis)


def _span(model: Model, *nodes: Node) -> Iterator[float]:
    """Heights that a pipe reaches; where one is not known, the whole depth of the floor."""
    for node in nodes:
        z = model.heights.get(node)
        if z is None:
            yield from (float("-inf"), 0.0)
        else:
            yield z
