"""The straight stretches of pipe that a plan draws, before anything is known of flow.

Everything drawn becomes *sticks*: undirected stretches between two nodes. Runs give one per segment, risers
and fixtures one per stretch between the levels that meet at their point. Two sticks are welded where a node
of theirs is equal; nothing is joined by nearness.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, field

import msgspec

from engine.piping.records import UNDER, Fault, Node
from engine.plan.grid import spot
from engine.plan.records import Drain, Fixture, Plan, Point, Riser, Vent
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade
from engine.trade.pipe import nominal


class Stick(msgspec.Struct, gc=False):
    """One stretch of pipe being worked on. `start` and `end` are put in order of flow once that is known.

    `loops` marks the dry pipe above an island's drain, which turns over and comes down again.
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


def finished(plan: Plan, above_floor: float) -> float:
    """Height above the joists' top of something so far above the finished floor, inches."""
    return plan.floor.finished_z + above_floor


def drain_start(fixture: Fixture) -> Point:
    """Where a fixture's drain run starts: under a tub's overflow where its trap hangs there, else its outlet."""
    if fixture.trap_at is not None and trade.fixture(fixture.kind).outlet == "tub":
        return fixture.trap_at
    return fixture.at


def collect(plan: Plan, book: RuleBook) -> Sticks:
    """Every stick that the plan's drains, vents, risers and fixtures draw."""
    made = Sticks()
    seen: dict[tuple[Node, Node], str] = {}
    for drain in plan.drains:
        _run(made, seen, drain, "waste", UNDER, plan.slope if drain.slope is None else drain.slope)
    for vent in plan.vents:
        level = UNDER if vent.above_floor is None else finished(plan, vent.above_floor)
        _run(made, seen, vent, "vent", level, plan.slope if vent.slope is None else vent.slope)
    touched = {stick.start for stick in made.all} | {stick.end for stick in made.all}
    for exit_ in plan.exits:
        made.exits[exit_.id] = under(exit_.at)
        touched.add(under(exit_.at))
    _verticals(made, plan, book, touched)
    return made


def _run(
    made: Sticks, seen: dict[tuple[Node, Node], str], run: Drain | Vent, system: str, level: float, slope: float
) -> None:
    size = nominal(run.size) if run.size is not None else None
    for segment, (a, b) in enumerate(zip(run.points, run.points[1:], strict=False)):
        start, end = Node(a[0], a[1], level), Node(b[0], b[1], level)
        if start == end:
            made.faults.append(
                Fault(
                    "drawn-twice", (run.id,), a, f"Run {run.id} has two points at the same place.", mend="Delete one."
                )
            )
            continue
        key = (start, end) if start < end else (end, start)
        if key in seen:
            made.faults.append(
                Fault(
                    "drawn-twice",
                    (run.id, seen[key]) if seen[key] != run.id else (run.id,),
                    a,
                    f"Run {run.id} lies on {seen[key]} from one end of a stretch to the other: one of them is too many.",
                    mend=f"Delete that stretch of {run.id} or of {seen[key]}.",
                )
            )
            continue
        seen[key] = run.id
        made.all.append(
            Stick(
                id=f"{run.id}.{segment}",
                element=run.id,
                segment=segment,
                system=system,
                shape="level",
                start=start,
                end=end,
                run=math.hypot(b[0] - a[0], b[1] - a[1]),
                slope=slope,
                size=size,
                passing=run.passing or "through",
            )
        )


@dataclass(slots=True)
class _Column:
    """What stands at one plan point: a riser, wall outlets, and the heights at which things meet it."""

    riser: Riser | None = None
    wall_outlets: list[tuple[Fixture, float]] = field(default_factory=list)
    levels: set[float] = field(default_factory=set)


def _verticals(made: Sticks, plan: Plan, book: RuleBook, touched: set[Node]) -> None:
    columns: dict[Point, _Column] = {}
    for riser in plan.risers:
        column = columns.setdefault(riser.at, _Column())
        if column.riser is not None:
            made.faults.append(
                Fault(
                    "drawn-twice",
                    (riser.id, column.riser.id),
                    riser.at,
                    f"Risers {column.riser.id} and {riser.id} stand at the same point.",
                    mend=f"Delete {riser.id}.",
                )
            )
            continue
        column.riser = riser
    for fixture in plan.fixtures:
        spec = trade.fixture(fixture.kind)
        if spec.outlet == "none":
            continue
        above = fixture.outlet_above_floor if fixture.outlet_above_floor is not None else spec.outlet_above_floor
        z = finished(plan, above or 0.0)
        if spec.outlet == "wall":
            column = columns.setdefault(fixture.at, _Column())
            column.wall_outlets.append((fixture, z))
            column.levels.add(z)
            _arm(made, fixture, spec.arm if fixture.arm is None else fixture.arm, z, plan.slope)
        else:
            point = drain_start(fixture)
            top = Node(point[0], point[1], z)
            made.outlets[fixture.id] = top
            made.trap_starts[fixture.id] = top if spec.outlet == "closet" else under(point)
            made.all.append(_plumb(f"{fixture.id}.drop", fixture.id, 0, "waste", top, under(point), None, fixture.id))
    for cleanout in plan.cleanouts:
        if cleanout.above_floor is not None and cleanout.at in columns:
            columns[cleanout.at].levels.add(finished(plan, cleanout.above_floor))
    overhead: dict[Point, set[float]] = {}
    for node in touched:
        if node.level != UNDER:
            overhead.setdefault((node.x, node.y), set()).add(node.level)
    for point, column in columns.items():
        column.levels |= overhead.get(point, set())
        if under(point) in touched:
            column.levels.add(UNDER)
        _column(made, plan, book, point, column)


def _arm(made: Sticks, fixture: Fixture, arm: float | None, z: float, slope: float) -> None:
    length = arm or 0.0
    angle = math.radians(fixture.turn)
    tee = Node(fixture.at[0], fixture.at[1], z)
    point = spot(fixture.at[0] + length * math.cos(angle), fixture.at[1] + length * math.sin(angle))
    weir = Node(point[0], point[1], z)
    made.outlets[fixture.id] = weir
    made.trap_starts[fixture.id] = weir
    if weir == tee:
        return
    made.all.append(
        Stick(
            id=f"{fixture.id}.arm",
            element=fixture.id,
            segment=0,
            system="waste",
            shape="level",
            start=weir,
            end=tee,
            run=length,
            slope=slope,
            size=None,
            passing="through",
            fixture=fixture.id,
        )
    )


def _plumb(
    id_: str, element: str, segment: int, system: str, a: Node, b: Node, size: float | None, fixture: str | None = None
) -> Stick:
    return Stick(id_, element, segment, system, "plumb", a, b, 0.0, 0.0, size, "through", fixture)


def _column(made: Sticks, plan: Plan, book: RuleBook, point: Point, column: _Column) -> None:
    """The stretches of one riser, or of a wall outlet's drain where no riser is drawn."""
    levels = sorted(column.levels)
    highest_tee = max((z for _, z in column.wall_outlets), default=None)
    riser = column.riser
    top: float | None = None
    if riser is not None and riser.top != "none":
        top = riser_top(plan, book, riser, levels[-1] if levels and levels[-1] != UNDER else None)
        if levels and levels[-1] != UNDER and top <= levels[-1]:
            made.faults.append(
                Fault(
                    "riser-too-short",
                    (riser.id,),
                    point,
                    f"Riser {riser.id} ends below the pipe that meets it.",
                    measured=top - plan.floor.finished_z,
                    limit=levels[-1] - plan.floor.finished_z,
                    mend="Raise its top.",
                )
            )
            top = None
        else:
            levels.append(top)
    if riser is not None and len(levels) < 2:
        made.faults.append(
            Fault(
                "riser-joins-nothing",
                (riser.id,),
                point,
                f"Riser {riser.id} meets no pipe under the floor and no other pipe above it.",
                mend="Draw a run to its point, or move it onto one.",
            )
        )
    element = riser.id if riser is not None else (column.wall_outlets[0][0].id if column.wall_outlets else "")
    waste_size = nominal(riser.size) if riser is not None and riser.size is not None else None
    vent_size = nominal(riser.vent) if riser is not None and riser.vent is not None else None
    for segment, (low, high) in enumerate(itertools.pairwise(levels)):
        waste = highest_tee is not None and high <= highest_tee
        made.all.append(
            _plumb(
                f"{element}.{segment}",
                element,
                segment,
                "waste" if waste else "vent",
                Node(point[0], point[1], high),
                Node(point[0], point[1], low),
                waste_size if waste else vent_size,
            )
        )
    if riser is not None and top is not None and riser.top in ("roof", "valve"):
        refused = riser.top == "valve" and not book.says("valve.allowed")
        (made.refused if refused else made.air).append(Node(point[0], point[1], top))


def riser_top(plan: Plan, book: RuleBook, riser: Riser, highest: float | None) -> float:
    """Height of a riser's upper end above the joists' top, inches.

    Through the roof: the roof covering at the riser plus what the book asks above it, or above the snow. A
    valve or cap without a stated height stands the book's rise above the rim over the highest pipe that meets it.
    """
    if riser.top == "roof":
        covering = plan.floor.roof_above_floor if riser.above_floor is None else riser.above_floor
        return finished(plan, covering) + plan.floor.snow + book.number("vent.roof_above")
    if riser.above_floor is not None:
        return finished(plan, riser.above_floor)
    base = highest if highest is not None else plan.floor.finished_z
    return base + book.number("vent.above_rim")
