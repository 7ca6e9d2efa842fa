"""find(network, plan, framing, book): every place where a pipe under the floor passes through wood."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from engine.crossings.limits import Allowance, allowance, judged_by_book, over
from engine.crossings.meeting import joined
from engine.crossings.records import Crossing
from engine.crossings.stretches import EXACT, Line, Stretch, stretches
from engine.framing.records import Framing, Joist
from engine.piping.flow import is_under
from engine.piping.records import UNDER, Network, Node
from engine.plan.records import Plan
from engine.rulebooks import RuleBook
from engine.trade import pipe as trade
from engine.trade.bits import Bit, bit_for


def find(
    network: Network, plan: Plan, framing: Framing, book: RuleBook, drawn: Sequence[Line] | None = None
) -> tuple[Crossing, ...]:
    """One crossing for each connected stretch of a pipe's axis inside one joist's or beam's wood, faces included.

    They come pipe by pipe, drains and vents before water, and along each pipe. The bore is that of the smallest
    bit that the pipe needs. At an angle the hole is still no higher than the bit is wide; it is longer along
    the joist only, and `run_along` says how long. `drawn` are the lines of :func:`lines_under` where they are
    at hand already.
    """
    lines = list(lines_under(network, plan) if drawn is None else drawn)
    bits: dict[float, Bit | None] = {line.width: None for line in lines}
    bits.update((width, bit_for(width)) for width in bits)
    members = framing.members
    allowances = {depth: allowance(depth, book) for depth in {joist.depth for joist in members}}
    return tuple(
        _crossing(
            stretch,
            lines[stretch.line],
            members[stretch.joist],
            bits[lines[stretch.line].width],
            allowances[members[stretch.joist].depth],
        )
        for stretch in joined(stretches(lines, members), lines)
    )


def lines_under(network: Network, plan: Plan) -> list[Line]:
    """Every level or inclined pipe under the floor: drains and dry vents, then water."""
    ods = {size: trade.drain(size).od for size in {pipe.size for pipe in network.pipes}}
    lines = [
        Line(pipe.id, pipe.element, pipe.system, pipe.start, pipe.end, ods[pipe.size], pipe.passing)
        for pipe in network.pipes
        if pipe.run > 0.0 and is_under(pipe.start) and is_under(pipe.end)
    ]
    for supply in plan.supplies:
        width = trade.tube(trade.nominal(supply.size)).od + 2.0 * supply.insulation
        nodes = [Node(x, y, UNDER) for x, y in supply.points]
        lines += [
            Line(f"{supply.id}.{number}", supply.id, supply.water, start, end, width, supply.passing or "through")
            for number, (start, end) in enumerate(pairwise(nodes))
            if start != end
        ]
    return lines


def _crossing(stretch: Stretch, line: Line, joist: Joist, bit: Bit | None, most: Allowance) -> Crossing:
    half = joist.thickness / 2.0
    straight = not stretch.bent and stretch.low_v <= EXACT - half and stretch.high_v >= half - EXACT
    bored = bit if line.passing == "through" else None
    cut = line.width if bored is None else bored.diameter
    if straight:
        run_along = min(joist.length, (joist.thickness * stretch.lean + cut) / stretch.square)
    else:
        run_along = min(joist.length, stretch.high_u - stretch.low_u + cut)
    by_book = judged_by_book(joist)
    low = high = None
    if bored is not None and by_book and straight and not over(bored.diameter, most.bore):
        low, high = most.edge - joist.depth + bored.diameter / 2.0, -most.edge - bored.diameter / 2.0
    return Crossing(
        id=f"{line.id}@{joist.id}",
        joist=joist.id,
        pipe=line.id,
        element=line.element,
        system=line.system,
        at=(stretch.x, stretch.y),
        along=stretch.along,
        position=stretch.position,
        enters=stretch.enters,
        leaves=stretch.leaves,
        skew=math.degrees(math.atan2(stretch.lean, stretch.square)),
        width=line.width,
        passing=line.passing,
        bore=None if bored is None else bored.diameter,
        bit=None if bored is None else bored.label,
        bore_limit=most.bore if by_book else 0.0,
        low=low,
        high=high,
        run_along=run_along,
        straight=straight,
    )
