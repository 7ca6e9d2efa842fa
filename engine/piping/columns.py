"""What stands upright at a plan point: risers, wall outlets with their arms, the drops of floor outlets, island loops."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, field

from engine.drafting.finished import at_outlet, at_riser
from engine.lengths import inches
from engine.piping import islands
from engine.piping.looping import turn_over
from engine.piping.records import UNDER, Fault, Node
from engine.piping.sticks import Stick, Sticks, drain_start, plumb, under
from engine.plan.grid import spot
from engine.plan.records import Fixture, Plan, Point, Riser
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade
from engine.trade.pipe import nominal


@dataclass(slots=True)
class _Column:
    """What stands at one plan point: a riser, wall outlets, and the heights at which things meet it."""

    riser: Riser | None = None
    wall_outlets: list[tuple[Fixture, float]] = field(default_factory=list)
    levels: set[float] = field(default_factory=set)
    comes_down: Riser | None = None


def stand(made: Sticks, plan: Plan, book: RuleBook, touched: set[Node]) -> None:
    """The sticks of everything upright, and of the arms in walls. `touched` are the nodes that drawn runs reach."""
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
        if spec.outlet == "none" or fixture.through is not None:
            continue
        z = at_outlet(plan, fixture) + (trade.outlet_of(fixture) or 0.0)
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
            made.all.append(plumb(f"{fixture.id}.drop", fixture.id, 0, "waste", top, under(point), None, fixture.id))
    for riser in plan.risers:
        _come_down(made, riser, columns)
    for cleanout in plan.cleanouts:
        if cleanout.above_floor is not None and cleanout.at in columns:
            columns[cleanout.at].levels.add(at_riser(plan, cleanout.at) + cleanout.above_floor)
    there: dict[Point, set[float]] = {}
    for node in touched:
        there.setdefault((node.x, node.y), set()).add(node.level)
    loops: list[islands.Loop] = []
    for point, column in columns.items():
        column.levels |= there.get(point, set())
        if column.comes_down is None:
            _column(made, plan, book, point, column, loops)
    for loop in loops:
        down = columns[loop.falls.x, loop.falls.y]
        if down.comes_down is not None:
            turn_over(made, plan, loop, down.comes_down, down.levels)


def _come_down(made: Sticks, riser: Riser, columns: dict[Point, _Column]) -> None:
    """Give a riser that turns over its column where it comes down, or say why it has none."""
    if riser.top != "loop" or columns[riser.at].riser is not riser:
        return
    if riser.returns is None or riser.returns == riser.at:
        text = f"Riser {riser.id} turns over, and where it comes down is not set."
        mend = "Set the point of its sink's drain at which it comes down."
        made.faults.append(Fault("riser-joins-nothing", (riser.id,), riser.at, text, mend=mend))
        return
    there = columns.get(riser.returns)
    if there is None:
        columns[riser.returns] = _Column(comes_down=riser)
        return
    names = (there.riser, there.comes_down, *(fixture for fixture, _ in there.wall_outlets))
    others = tuple(one.id for one in names if one is not None)
    text = f"Riser {riser.id} comes down where {', '.join(others)} stands."
    mend = "Let it come down beside, on its own sink's drain."
    made.faults.append(Fault("riser-joins-nothing", (riser.id, *others), riser.returns, text, mend=mend))


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


def _column(made: Sticks, plan: Plan, book: RuleBook, point: Point, column: _Column, loops: list[islands.Loop]) -> None:
    """The stretches of one riser, or of a wall outlet's drain where no riser is drawn; its loop is added to `loops`."""
    levels = sorted(column.levels)
    highest_tee = max((z for _, z in column.wall_outlets), default=None)
    riser = column.riser
    top: float | None = None
    highest = levels[-1] if levels and levels[-1] != UNDER else None
    loop: islands.Loop | None = None
    if riser is not None and riser.top == "loop":
        served = (fixture for fixture, _ in column.wall_outlets)
        loop = islands.loop_of(plan, book, riser, served, at_riser(plan, point) if highest is None else highest)
        top = loop.rises.level if loop is not None else None
    elif riser is not None and riser.top != "none":
        top = riser_top(plan, book, riser, highest)
    if riser is not None and top is not None:
        if levels and levels[-1] != UNDER and top <= levels[-1]:
            made.faults.append(_too_short(plan, riser, loop, top, levels[-1]))
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
    turns = loop if top is not None else None
    if turns is not None:
        loops.append(turns)
    for segment, (low, high) in enumerate(itertools.pairwise(levels)):
        waste = highest_tee is not None and high <= highest_tee
        stick = plumb(
            f"{element}.{segment}",
            element,
            segment,
            "waste" if waste else "vent",
            Node(point[0], point[1], high),
            Node(point[0], point[1], low),
            waste_size if waste else vent_size,
        )
        if turns is not None and not waste:
            stick.loops, stick.island = True, turns.riser
        made.all.append(stick)
    if riser is not None and top is not None and riser.top in ("roof", "valve"):
        refused = riser.top == "valve" and not book.says("valve.allowed")
        (made.refused if refused else made.air).append(Node(point[0], point[1], top))


def _too_short(plan: Plan, riser: Riser, loop: islands.Loop | None, top: float, highest: float) -> Fault:
    """That a riser ends, or begins to turn over, below a pipe that meets it."""
    floor = at_riser(plan, riser.at)
    text, mend = f"Riser {riser.id} ends below the pipe that meets it.", "Raise its top."
    if loop is not None:
        text = (
            f"Riser {riser.id} turns over from {inches(top - floor)} in above the floor, below the pipe that meets it."
        )
        near = 2.0 * (loop.over[0].level - highest) if loop.over else 0.0
        if near > 0.0:
            mend = f"Let it come down nearer than {inches(near)} in to it: its legs lean at 45 degrees to their middle."
    return Fault(
        "riser-too-short",
        (riser.id,),
        riser.at,
        text,
        measured=top - floor,
        limit=highest - floor,
        mend=mend,
        unit="in",
    )


def riser_top(plan: Plan, book: RuleBook, riser: Riser, highest: float | None) -> float:
    """Height of a riser's upper end above the joists' top, inches.

    Through the roof: the roof covering at the riser, told from the floor's own finish, plus what the book asks above it,
    or above the snow. A
    valve or cap without a stated height stands the book's rise above the rim over the highest pipe that meets it.
    """
    if riser.top == "roof":
        covering = plan.floor.roof_above_floor if riser.above_floor is None else riser.above_floor
        return plan.floor.finished_z + covering + plan.floor.snow + book.number("vent.roof_above")
    if riser.above_floor is not None:
        return at_riser(plan, riser.at) + riser.above_floor
    base = highest if highest is not None else at_riser(plan, riser.at)
    return base + book.number("vent.above_rim")
