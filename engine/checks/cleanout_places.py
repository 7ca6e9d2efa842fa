"""Where a cleanout that is wanted could stand, in the order in which one would try the places."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import place
from engine.checks.rodding import Rodding, WayIn, rodding
from engine.drafting.finished import at_riser
from engine.joinery.riser_cleanouts import height_below
from engine.piping.flow import is_under
from engine.piping.records import Node, Pipe
from engine.plan.records import Cleanout, Point, Riser


class Place(NamedTuple):
    """One place for a cleanout: its point, its height above the floor where it is a riser's, and what it opens.

    `z` is inches from the joists' top.
    """

    at: Point
    above_floor: float | None
    z: float
    opens: str
    words: str


def upper_end(model: Model, node: Node) -> Place:
    """Where a drain's upper end is best opened: in the riser that stands over it, else at the end itself."""
    risers, lowest = _risers(model)
    riser = risers.get((node.x, node.y))
    if riser is not None and riser.at in lowest:
        floor = at_riser(model.plan, riser.at)
        height = height_below((lowest[riser.at] - floor,))
        z = floor + height
        return Place(riser.at, height, z, riser.id, f"in riser {riser.id}")
    element = rodding(model).onward[node].element
    return Place((node.x, node.y), None, place(model, node)[2], element, f"at the upper end of {element}")


def above(model: Model, node: Node, reach: float) -> Iterator[Place]:
    """Places from which a cable comes down to a node within `reach` inches: there, then up the drains, nearest first."""
    ways: Rodding = rodding(model)
    waiting = [(0.0, node)]
    while waiting:
        waiting.sort()
        far, at = waiting.pop(0)
        coming = [pipe for pipe in ways.into.get(at, ()) if far + pipe.run <= reach]
        if at in ways.onward and not ways.into.get(at):
            yield upper_end(model, at)
        elif at in ways.onward and _turns_at(ways, at):
            element = ways.onward[at].element
            yield Place((at.x, at.y), None, place(model, at)[2], element, f"where {element} turns")
        waiting.extend((far + pipe.run, pipe.start) for pipe in coming)


def _turns_at(ways: Rodding, node: Node) -> bool:
    """Whether one drain comes in at an angle to the one that leaves: what leaves can then be opened straight on."""
    coming = ways.into.get(node, ())
    return len(coming) == 1 and any(turn.node == node for turn in ways.turns)


@once_a_model
def _risers(model: Model) -> tuple[dict[Point, Riser], dict[Point, float]]:
    """The risers by their points, and the lowest pipe that enters each from the side, inches from the joists' top."""
    risers = {riser.at: riser for riser in model.plan.risers}
    lowest: dict[Point, float] = {}
    for pipe in model.network.pipes:
        for node in (pipe.start, pipe.end):
            at = (node.x, node.y)
            if pipe.shape != "plumb" and at in risers and not is_under(node):
                lowest[at] = min(node.level, lowest.get(at, node.level))
    return risers, lowest


def drawn(model: Model) -> Iterator[tuple[Cleanout, WayIn | None]]:
    """Every drawn cleanout, with where it opens a drain; None where it opens none, which the joints' rules tell."""
    ways = {way.element: way for way in rodding(model).ways if way.kind == "cleanout"}
    return ((cleanout, ways.get(cleanout.id)) for cleanout in model.plan.cleanouts)


def opening(model: Model) -> Iterator[tuple[Cleanout, tuple[WayIn, Pipe] | None]]:
    """Every drawn cleanout, with where it opens a drain and the pipe that it opens; None where it opens none."""
    for cleanout, way in drawn(model):
        pipe = opened(model, way) if way is not None else None
        yield cleanout, (way, pipe) if way is not None and pipe is not None else None


def opened(model: Model, way: WayIn) -> Pipe | None:
    """The pipe that a cleanout opens: the one that leaves it, or stands under it in a riser."""
    graph = model.network.graph
    leaving: list[Pipe] = [graph.edges[way.node, node]["pipe"] for node in graph.successors(way.node)]
    below: list[Pipe] = [graph.edges[node, way.node]["pipe"] for node in graph.predecessors(way.node)]
    wet = [pipe for pipe in leaving if pipe.system == "waste"]
    return next(iter([*wet, *(pipe for pipe in below if pipe.shape == "plumb")]), None)
