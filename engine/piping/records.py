"""The pipe graph's records: nodes, pipes, traps and what could not be joined. Knows no joist.

Sizes here are nominal inches as floats (1.5 is a 1-1/2 in pipe); `engine.trade.pipe` turns them to and from
the labels of the plan file.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Literal, NamedTuple

import networkx as nx

from engine.plan.records import Point, Record

if TYPE_CHECKING:
    from engine.piping.loads import Loads
    from engine.piping.sizes import DrainSize, VentSize

UNDER = float("-inf")
"""The level of everything under the floor, whatever its height: heights there follow from the falls."""


class Node(NamedTuple):
    """A plan point and a level: `UNDER`, or a height above the joists' top in inches."""

    x: float
    y: float
    level: float


def is_under(node: Node) -> bool:
    """Whether a node lies under the floor: at a main's level, on a drop's ledge or at an island's foot vent above it."""
    return node.level < -1.0e8


class Pipe(Record, frozen=True, gc=False):
    """One straight stretch of pipe between two nodes, directed with the flow (dry ones toward open air).

    `id` names it, `element` the drawn thing it comes from, `segment` which stretch of it. `run` is the plan
    length in inches (0 when plumb), `heading` its plan heading in the flow's direction as a unit vector
    ((0, 0) when plumb). `slope` is the fall in inches per foot along the flow (dry ones: toward the drain).
    `fixture` is the fixture's id while the pipe carries one fixture only, `load` the fixture units it carries.
    `climb` is how steeply an inclined pipe rises against the flow, degrees from level; its `heading` is then
    that of the run it ends, and its plan length follows from the height that it climbs. `island` is the riser of the
    island's vent that a dry pipe belongs to, over the floor or under it; empty for all other pipes.
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
    island: str = ""


Method = Literal[
    "individual vent",
    "common vent at one level",
    "common vent at two levels",
    "horizontal wet vent",
    "vertical wet vent",
    "waste stack vent",
    "circuit vent",
    "combination waste and vent",
    "island vent",
]
"""The ways in which the codes let a trap be vented."""


class VentWay(Record, frozen=True, gc=False):
    """One arrangement that brings air to traps: what kind, from where, through which waste pipes, for whom.

    `source` is the dry element (riser or vent run) that the air comes from, `dry` the node where that vent meets the
    waste; both None where the air is a vented drain's (a combination). `starter` is the fixture whose arm ends at
    `dry`, empty where none does. `members` are the fixtures that it vents, in the order in which their drains join
    from `dry` down; `pipes` the ids of the waste pipes that carry air on the way, in the same order.
    """

    number: int
    method: Method
    source: str | None
    dry: Node | None
    starter: str
    members: tuple[str, ...]
    pipes: tuple[str, ...]


class Trap(Record, frozen=True, gc=False):
    """A fixture's trap (or a closet's own) and the arm that leaves it.

    `weir` is how far the weir lies down the first pipe from `node`, `arm` the pipes' ids from weir to the
    vent's node `ends`, `length` the developed length weir to that node's axis crossing (None when nothing
    meets it), `fall` the arm's total fall. `beyond` are pipes that it shares with one other arm from their meeting
    down to the vent (a common vent below it); `ends`, `length` and `fall` then count them in. `method` is how it is
    vented, None when not vented, `way` the number of its :class:`VentWay`, `told` the whole of it in one sentence.
    `recognised` is False for an arrangement that can't be judged, and `why` then says which. `breaks` is the
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
    method: Method | None
    vented_by: str | None
    recognised: bool
    why: str
    breaks: str = ""
    way: int | None = None
    beyond: tuple[str, ...] = ()
    told: str = ""


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
    that reach's number. `airways` are the waste pipes, by id, through which open air reaches their lower end;
    `ways` the arrangements that vent its traps, by number. `loads` are the fixture units of fixtures and drains,
    `drain_sizes` and `vent_sizes` each pipe's least size with what asks for it, by the pipe's id.
    """

    __slots__ = (
        "aired",
        "airways",
        "by_id",
        "drain_sizes",
        "exit_of",
        "exits",
        "faults",
        "graph",
        "loads",
        "outlets",
        "pipes",
        "reach",
        "reaches",
        "rise",
        "traps",
        "vent_sizes",
        "ways",
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
        self.ways: tuple[VentWay, ...] = ()
        self.loads: Loads
        self.drain_sizes: dict[str, DrainSize] = {}
        self.vent_sizes: dict[str, VentSize] = {}

    def waste_from(self, node: Node) -> Pipe | None:
        """The waste pipe that leaves a node; None at an exit, and where no pipe is."""
        if node not in self.graph:
            return None
        pipes: Iterator[Pipe] = (self.graph.edges[node, after]["pipe"] for after in self.graph.successors(node))
        return next((pipe for pipe in pipes if pipe.system == "waste"), None)


class Reach(Record, frozen=True, gc=False):
    """Pipes under the floor whose heights hang together: all flat joins above one exit or one open rise.

    `foot` is the node its heights are counted from, `parent` the reach below it (None above an exit) and
    `rise_pinned` the climb from `foot` in the parent to its own foot where that is pinned. `over` is the parent's node
    that its foot stands over, `least_rise` how far at least, and `room_for` says for what. A `hung` reach lies as high
    as it can, not midway.
    """

    number: int
    foot: Node
    exit: str | None
    parent: int | None
    element: str | None
    rise_pinned: float | None
    least_rise: float
    over: Node | None = None
    room_for: str = ""
    hung: bool = False
