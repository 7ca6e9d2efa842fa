"""How a cable gets into the drains: their lines from the upper ends down, the turns in these, and the ways in.

A *line* runs from an upper end under the floor down to an exit, or to the drain that it joins as a branch. Where
drains meet, the one that runs straight on goes on, else the larger one, else the one that carries more. Lengths are
developed: along the drawn axes, plumb pipe by its height.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Literal, NamedTuple

from engine.checks.model import Model, once_a_model
from engine.drafting.finished import at_riser
from engine.joinery.legs import bend, met
from engine.joinery.pieces import true_length
from engine.piping.flow import is_under
from engine.piping.records import Node, Pipe
from engine.trade.kinds import KINDS
from engine.trade.pipe import DRAIN_SIZES

SUBJECT = "cleanouts"
"""What the rules on ways into the drains are about."""

WAYS_IN = ("cleanout.closet_counts", "cleanout.trap_serves_sizes")
"""What the book says of ways in that are no cleanouts: every rule that looks for a way in may read it."""

_STRAIGHT = 3
"""Decimals to which two headings' cosine is told: what lies in one line is told as 1."""

_TURNS = sorted({kind.turn for kind in KINDS.values() if kind.turn})
"""The angles that are sold, degrees."""


class Line(NamedTuple):
    """A drain from its upper end down: its level pipes and drops in order, how long it is, where it ends.

    `exit` is the exit that it leads to itself; None where it joins another line.
    """

    pipes: tuple[Pipe, ...]
    length: float
    exit: str | None

    @property
    def start(self) -> Node:
        """Its upper end."""
        return self.pipes[0].start

    @property
    def element(self) -> str:
        """The drawn run that it begins with."""
        return self.pipes[0].element


class Turn(NamedTuple):
    """A horizontal change of direction in a line, degrees; `along` is how far it lies from the line's upper end."""

    line: int
    node: Node
    before: Pipe
    after: Pipe
    degrees: float
    along: float


class WayIn(NamedTuple):
    """A place where a cable can be put in: a cleanout, a trap that comes off by hand, or a closet that is pulled.

    `node` is its own place, `foot` the first node under the floor that it leads to, `down` how far that is. `serves`
    is the largest pipe that it counts for, nominal inches.
    """

    element: str
    kind: Literal["cleanout", "trap", "closet"]
    node: Node
    foot: Node
    down: float
    serves: float


class Reached(NamedTuple):
    """A way in, and how far down the drain from it a node lies."""

    way: WayIn
    far: float


class Rodding:
    """A plan's lines, the turns in them, the ways in, and from which of these each node under the floor is reached."""

    __slots__ = ("cleanouts", "into", "lines", "onward", "reached", "turns", "ways")

    def __init__(self, model: Model) -> None:
        self.onward: dict[Node, Pipe] = {}
        self.into: dict[Node, list[Pipe]] = {}
        for pipe in model.network.pipes:
            if pipe.system == "waste" and is_under(pipe.start):
                self.onward[pipe.start] = pipe
                self.into.setdefault(pipe.end, []).append(pipe)
        self.lines = tuple(self._lines(model))
        self.turns = tuple(turn for number in range(len(self.lines)) for turn in self._turns(model, number))
        self.ways = tuple(_ways(model, self.onward))
        self.reached: dict[Node, list[Reached]] = {}
        self.cleanouts: dict[Node, WayIn] = {}
        for way in self.ways:
            self._walk(model, way)
            if way.kind == "cleanout":
                self.cleanouts.setdefault(way.foot, way)

    def cleanout_on(self, node: Node) -> WayIn | None:
        """The cleanout that opens a drain from this node on: at it, or in the riser over it."""
        return self.cleanouts.get(node)

    def nearest(self, node: Node, size: float) -> Reached | None:
        """The nearest way in up the drain that counts for pipe of this size."""
        fit = (one for one in self.reached.get(node, ()) if one.way.serves >= size)
        return min(fit, key=lambda one: one.far, default=None)

    def trunk(self, node: Node) -> Pipe | None:
        """Which of the drains that meet at a node goes on in the one that leaves it."""
        coming, leaving = self.into.get(node, ()), self.onward.get(node)

        def rank(pipe: Pipe) -> tuple[float, float, float]:
            along = 0.0
            if leaving is not None:
                along = pipe.heading[0] * leaving.heading[0] + pipe.heading[1] * leaving.heading[1]
            straight = round(along, _STRAIGHT) == 1.0
            return (1.0 if straight else 0.0, pipe.size, pipe.load)

        return max(coming, key=rank, default=None)

    def _lines(self, model: Model) -> Iterator[Line]:
        exits = model.network.exit_of
        for node in self.onward:
            if node in self.into or node not in exits:
                continue
            pipes: list[Pipe] = []
            at, length = node, 0.0
            while at in self.onward and (not pipes or self.trunk(at) is pipes[-1]):
                pipes.append(self.onward[at])
                length += developed(model, pipes[-1])
                at = pipes[-1].end
            if pipes[0].shape == "level" or len(pipes) > 1:
                ended = exits.get(at) if at not in self.onward else None
                yield Line(tuple(pipes), length, ended)

    def _turns(self, model: Model, number: int) -> Iterator[Turn]:
        pipes, along = self.lines[number].pipes, 0.0
        for before, after in pairwise(pipes):
            along += developed(model, before)
            if before.shape != "level" or after.shape != "level":
                continue
            degrees = bend(before, after)
            if not met(degrees, 0.0):
                sold = next((angle for angle in _TURNS if met(degrees, angle)), degrees)
                yield Turn(number, before.end, before, after, sold, along)

    def _walk(self, model: Model, way: WayIn) -> None:
        at, far = way.foot, way.down
        while True:
            self.reached.setdefault(at, []).append(Reached(way, far))
            pipe = self.onward.get(at)
            if pipe is None:
                return
            at, far = pipe.end, far + developed(model, pipe)


@once_a_model
def rodding(model: Model) -> Rodding:
    """The lines and ways in of a model."""
    return Rodding(model)


def developed(model: Model, pipe: Pipe) -> float:
    """How long a pipe's axis is, inches: level ones by the plan, others by their height (nothing where unknown)."""
    return pipe.run if pipe.shape == "level" else true_length(pipe, model.heights) or 0.0


def _ways(model: Model, onward: dict[Node, Pipe]) -> Iterator[WayIn]:
    """Every cleanout that could be set, and what else the book counts."""
    plugged = {name for part in model.joinery.parts if part.kind == "cleanout_plug" for name in part.elements}
    below = {pipe.end: pipe for pipe in model.network.pipes if pipe.system == "vent" and pipe.shape == "plumb"}
    under = {(node.x, node.y): node for node in reversed(onward)}
    for cleanout in model.plan.cleanouts:
        if cleanout.id not in plugged:
            continue
        if cleanout.above_floor is not None:
            node = Node(cleanout.at[0], cleanout.at[1], at_riser(model.plan, cleanout.at) + cleanout.above_floor)
        else:
            node = under[cleanout.at]
        yield from _way(model, cleanout.id, "cleanout", node, math.inf, below)
    more = model.book.number("cleanout.trap_serves_sizes") if model.book.has("cleanout.trap_serves_sizes") else None
    closets = model.book.says("cleanout.closet_counts")
    loose = {name for part in model.joinery.parts if part.kind == "tubular_trap" for name in part.elements}
    for trap in model.network.traps:
        if more is not None and trap.fixture in loose:
            ladder = [size for size in DRAIN_SIZES if size >= trap.size][: int(more) + 1]
            yield from _way(model, trap.fixture, "trap", trap.node, max(ladder, default=trap.size), below)
        elif closets and trap.kind == "water_closet":
            yield from _way(model, trap.fixture, "closet", trap.node, math.inf, below)


def _way(
    model: Model,
    element: str,
    kind: Literal["cleanout", "trap", "closet"],
    node: Node,
    serves: float,
    below: dict[Node, Pipe],
) -> Iterator[WayIn]:
    """The way down from a node to the first one under the floor, through a riser's dry part too."""
    graph, at, down = model.network.graph, node, 0.0
    while not is_under(at):
        pipe = next((graph.edges[at, n]["pipe"] for n in graph.successors(at) if _is_waste(graph.edges[at, n])), None)
        if pipe is None:
            pipe = below.get(at)
            if pipe is None:
                return
            at, down = pipe.start, down + developed(model, pipe)
        else:
            at, down = pipe.end, down + developed(model, pipe)
    yield WayIn(element, kind, node, at, down, serves)


def _is_waste(edge: dict[str, Pipe]) -> bool:
    return edge["pipe"].system == "waste"
