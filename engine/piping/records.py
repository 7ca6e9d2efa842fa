"""The pipe graph's records: nodes, pipes, traps and what could not be joined. Knows no joist.

Sizes here are nominal inches as floats (1.5 is a 1-1/2 in pipe); `engine.trade.pipe` turns them to and from
the labels of the plan file.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

import networkx as nx

from engine.plan.records import Point, Record

UNDER = float("-inf")
"""The level of everything under the floor, whatever its height: heights there follow from the falls."""


class Node(NamedTuple):
    """A plan point and a level: `UNDER`, or a height above the joists' top in inches."""

    x: float
    y: float
    level: float


class Pipe(Record, frozen=True, gc=False):
    """One straight stretch of pipe between two nodes, directed with the flow (dry ones toward open air).

    `id` names it, `element` the drawn thing it comes from, `segment` which stretch of it. `run` is the plan
    length in inches (0 when plumb), `heading` its plan heading in the flow's direction as a unit vector
    ((0, 0) when plumb). `slope` is the fall in inches per foot along the flow (dry ones: toward the drain).
    `fixture` is the fixture's id while the pipe carries one fixture only, `load` the fixture units it carries.
    `climb` is how steeply an inclined pipe rises against the flow, degrees from level; its `heading` is then
    that of the run it ends, and its plan length follows from the height that it climbs.
    """

    id: str
    element: str
    segment: int
    system: Literal["waste", "vent"]
    shape: Literal["level", "plumb", "inclined"]
    start: Node
    end: Node
    run: float
    heading: tuple[float, float]
    slope: float
    size: float
    pinned_size: bool
    passing: Literal["through", "notched", "under"]
    fixture: str | None
    load: float
    carries: tuple[str, ...]
    climb: float = 0.0


class Trap(Record, frozen=True, gc=False):
    """A fixture's trap (or a closet's own) and the arm that leaves it.

    `weir` is how far the weir lies down the first pipe from `node`, `arm` the pipes' ids from weir to the
    vent's node `ends`, `length` the developed length weir to that node's axis crossing (None when nothing
    meets it), `fall` the arm's total fall. `method` is how it is vented, None when not vented;
    `recognised` is False for an arrangement that is not judged yet, and `why` then says which. `breaks` is the
    rule book's key that an arrangement breaks which air would reach.
    """

    fixture: str
    kind: str
    size: float
    node: Node
    weir: float
    arm: tuple[str, ...]
    ends: Node | None
    length: float | None
    fall: float | None
    drops: bool
    method: str | None
    vented_by: str | None
    recognised: bool
    why: str
    breaks: str = ""


class Fault(Record, frozen=True, gc=False):
    """Something that the graph could not make sense of, for the checks to report: `rule` is the check's id."""

    rule: str
    elements: tuple[str, ...]
    at: Point
    text: str
    measured: float | None = None
    limit: float | None = None
    mend: str = ""
    z: float = 0.0
    unit: str = ""


class Network:
    """The pipe graph of one plan.

    `graph` is a directed networkx graph whose nodes are :class:`Node` and whose edges carry their
    :class:`Pipe` as ``graph.edges[a, b]["pipe"]``. `pipes` is in file order, `exits` maps an exit's id to its
    node, `rise` gives each waste or vent node under the floor its height above its reach's lower end, `reach`
    that reach's number. `airways` are the waste pipes, by id, through which open air reaches their lower end.
    """

    __slots__ = (
        "aired",
        "airways",
        "by_id",
        "exit_of",
        "exits",
        "faults",
        "graph",
        "outlets",
        "pipes",
        "reach",
        "reaches",
        "rise",
        "traps",
    )

    def __init__(self) -> None:
        self.graph: nx.DiGraph[Node] = nx.DiGraph()
        self.pipes: tuple[Pipe, ...] = ()
        self.by_id: dict[str, Pipe] = {}
        self.traps: tuple[Trap, ...] = ()
        self.exits: dict[str, Node] = {}
        self.exit_of: dict[Node, str] = {}
        self.outlets: dict[str, Node] = {}
        self.rise: dict[Node, float] = {}
        self.reach: dict[Node, int] = {}
        self.reaches: tuple[Reach, ...] = ()
        self.faults: tuple[Fault, ...] = ()
        self.aired: frozenset[Node] = frozenset()
        self.airways: frozenset[str] = frozenset()


class Reach(Record, frozen=True, gc=False):
    """Pipes under the floor whose heights hang together: all flat joins above one exit or one open rise.

    `foot` is the node its heights are counted from, `parent` the reach below it (None above an exit) and
    `rise_pinned` the climb from `foot` in the parent to its own foot where that is pinned.
    """

    number: int
    foot: Node
    exit: str | None
    parent: int | None
    element: str | None
    rise_pinned: float | None
    least_rise: float
