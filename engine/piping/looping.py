"""The sticks of an island's vent: over from the riser, down to the drain, and which run under the floor belongs to it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable

from engine.piping import islands
from engine.piping.records import UNDER, Fault, Node
from engine.piping.sticks import Stick, Sticks, plumb
from engine.plan.records import Plan, Riser
from engine.trade.pipe import nominal


def turn_over(made: Sticks, plan: Plan, loop: islands.Loop, riser: Riser, levels: Iterable[float]) -> None:
    """The sticks of a loop from the top of its riser over and down to the foot vent and the drain."""
    size = nominal(riser.vent) if riser.vent is not None else None
    for number, (a, b) in enumerate(itertools.pairwise(loop.way)):
        run = math.dist(a[:2], b[:2])
        level = a.level == b.level
        made.all.append(
            Stick(
                id=f"{riser.id}.over{number}",
                element=riser.id,
                segment=number,
                system="vent",
                shape="level" if level else "inclined",
                start=a,
                end=b,
                run=run,
                slope=plan.slope if level else 0.0,
                size=size,
                passing="through",
                heading=((b.x - a.x) / run, (b.y - a.y) / run),
                climb=0.0 if level else islands.LEAN,
                loops=True,
                island=riser.id,
            )
        )
    below = sorted(level for level in levels if level < loop.falls.level)
    if UNDER not in below:
        made.faults.append(
            Fault(
                "riser-joins-nothing",
                (riser.id,),
                (loop.falls.x, loop.falls.y),
                f"Riser {riser.id} comes down where no drain has a point.",
                mend="Bring the sink's drain through that point, or come down onto a point of it.",
            )
        )
    for segment, (low, high) in enumerate(itertools.pairwise([*below, loop.falls.level])):
        stick = plumb(
            f"{riser.id}.down{segment}",
            riser.id,
            segment,
            "vent",
            Node(loop.falls.x, loop.falls.y, high),
            Node(loop.falls.x, loop.falls.y, low),
            size,
        )
        stick.loops, stick.island = True, riser.id
        made.all.append(stick)


def mark_foot_vents(made: Sticks, plan: Plan) -> None:
    """Name the island of every dry stick under the floor that hangs together with its foot."""
    feet = islands.feet(plan)
    if not feet:
        return
    meeting: dict[Node, list[Node]] = {}
    runs = [stick for stick in made.all if stick.system == "vent" and stick.shape == "level"]
    for stick in runs:
        meeting.setdefault(stick.start, []).append(stick.end)
        meeting.setdefault(stick.end, []).append(stick.start)
    for riser in plan.risers:
        if not islands.returns(riser) or riser.returns is None:
            continue
        reached = islands.under_floor(feet[riser.returns], meeting)
        for stick in runs:
            if stick.start in reached and stick.end in reached:
                stick.island = riser.id
