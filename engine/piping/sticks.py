"""The straight stretches of pipe that a plan draws, before anything is known of flow.

Everything drawn becomes *sticks*: undirected stretches between two nodes. Runs give one per segment, risers
and fixtures one per stretch between the levels that meet at their point. Two sticks are welded where a node
of theirs is equal; nothing is joined by nearness.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import msgspec

from engine.piping.records import UNDER, Fault, Node
from engine.plan.records import Fixture, Point
from engine.trade import fixtures as trade


class Stick(msgspec.Struct, gc=False):
    """One stretch of pipe being worked on. `start` and `end` are put in order of flow once that is known.

    `loops` marks the dry pipe above an island's drain, which turns over and comes down again; `island` is its riser,
    also for the foot vent that leaves it under the floor.
    """

    id: str
    element: str
    segment: int
    system: str
    shape: str
    start: Node
    end: Node
    run: float
    slope: float
    size: float | None
    passing: str
    fixture: str | None = None
    directed: bool = False
    load: float = 0.0
    carries: tuple[str, ...] = ()
    final_size: float = 0.0
    heading: tuple[float, float] = (0.0, 0.0)
    climb: float = 0.0
    loops: bool = False
    island: str = ""


@dataclass(slots=True)
class Sticks:
    """All sticks of a plan, the outlets and traps of its fixtures, and the open tops of its vents.

    `refused` are the tops that end in an admittance valve which the rule book does not accept.
    """

    all: list[Stick] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    outlets: dict[str, Node] = field(default_factory=dict)
    trap_starts: dict[str, Node] = field(default_factory=dict)
    air: list[Node] = field(default_factory=list)
    refused: list[Node] = field(default_factory=list)
    exits: dict[str, Node] = field(default_factory=dict)


def under(point: Point) -> Node:
    """The node under the floor at a plan point."""
    return Node(point[0], point[1], UNDER)


def drain_start(fixture: Fixture) -> Point:
    """Where a fixture's drain run starts: under a tub's overflow where its trap hangs there, else its outlet."""
    if fixture.trap_at is not None and trade.fixture(fixture.kind).outlet == "tub":
        return fixture.trap_at
    return fixture.at


def plumb(
    id_: str, element: str, segment: int, system: str, a: Node, b: Node, size: float | None, fixture: str | None = None
) -> Stick:
    """An upright stretch from its upper node down to its lower one."""
    return Stick(id_, element, segment, system, "plumb", a, b, 0.0, 0.0, size, "through", fixture)
