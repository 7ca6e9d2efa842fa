"""collect(plan, book): every stick that a plan draws, level runs first, then what stands upright."""

from __future__ import annotations

import math

from engine.piping import columns, islands, looping
from engine.piping.records import UNDER, Fault, Node, is_under
from engine.piping.sticks import Stick, Sticks, under
from engine.plan.records import Drain, Plan, Point, Vent
from engine.rulebooks import RuleBook
from engine.trade.pipe import nominal

NEARLY = 1e-9
"""What arithmetic loses of an angle, degrees."""


def collect(plan: Plan, book: RuleBook) -> Sticks:
    """Every stick that the plan's drains, vents, risers and fixtures draw."""
    made = Sticks()
    seen: dict[tuple[Node, Node], str] = {}
    feet = islands.feet(plan)
    for drain in plan.drains:
        _run(made, seen, drain, "waste", UNDER, plan.slope if drain.slope is None else drain.slope, {})
    for vent in plan.vents:
        level = UNDER if vent.above_floor is None else plan.floor.finished_z + vent.above_floor
        slope = plan.slope if vent.slope is None else vent.slope
        _run(made, seen, vent, "vent", level, slope, feet if level == UNDER else {})
    _lean(made, book)
    touched = {stick.start for stick in made.all} | {stick.end for stick in made.all}
    for exit_ in plan.exits:
        made.exits[exit_.id] = under(exit_.at)
        touched.add(under(exit_.at))
    columns.stand(made, plan, book, touched)
    looping.mark_foot_vents(made, plan)
    return made


def _lean(made: Sticks, book: RuleBook) -> None:
    """Let vents under the floor whose slope makes them upright lean, so that real fittings take them up.

    A flatter one is drawn as level pipe is, its grade left out.
    """
    upright = book.number("slope.vertical_from")
    for stick in made.all:
        if stick.system == "vent" and is_under(stick.start):
            rises = math.degrees(math.atan2(stick.slope, 12.0))
            if rises >= upright - NEARLY:
                stick.shape, stick.climb = "inclined", rises


def _run(
    made: Sticks,
    seen: dict[tuple[Node, Node], str],
    run: Drain | Vent,
    system: str,
    level: float,
    slope: float,
    feet: dict[Point, Node],
) -> None:
    size = nominal(run.size) if run.size is not None else None
    for segment, (a, b) in enumerate(zip(run.points, run.points[1:], strict=False)):
        start, end = feet.get(a, Node(a[0], a[1], level)), feet.get(b, Node(b[0], b[1], level))
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
