"""find(network, plan, framing, book): every place where a pipe under the floor passes through wood."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from engine.crossings.limits import allowance, judged_by_book, over
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
    members = framing.members
    asked = [_Asked(line) for line in lines]
    made = _Made(book)
    return tuple(
        made.crossing(stretch, lines[stretch.line], asked[stretch.line], members[stretch.joist])
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


class _Asked:
    """What one line asks of every joist that it passes: its bit, and how high its hole is."""

    __slots__ = ("bit", "cut")

    def __init__(self, line: Line) -> None:
        self.bit: Bit | None = bit_for(line.width) if line.passing == "through" else None
        self.cut = line.width if self.bit is None else self.bit.diameter


class _Made:
    """Crossings in the making: what the book allows is looked up once for each depth of joist."""

    def __init__(self, book: RuleBook) -> None:
        self._book = book
        self._allowed: dict[float, tuple[float, float]] = {}
        self._by_book: dict[str, bool] = {}

    def crossing(self, stretch: Stretch, line: Line, asked: _Asked, joist: Joist) -> Crossing:
        """One stretch as a crossing of a line and a joist."""
        half = joist.thickness / 2.0
        straight = not stretch.bent and stretch.low_v <= EXACT - half and stretch.high_v >= half - EXACT
        bit, cut = (asked.bit, asked.cut) if joist.kind != "beam" else (None, line.width)
        if straight:
            run_along = min(joist.length, (joist.thickness * stretch.lean + cut) / stretch.square)
        else:
            run_along = min(joist.length, stretch.high_u - stretch.low_u + cut)
        by_book = self._by_book.get(joist.id)
        if by_book is None:
            by_book = self._by_book[joist.id] = judged_by_book(joist)
        widest, edge = self._allowance(joist.depth) if by_book else (0.0, 0.0)
        low = high = None
        if bit is not None and by_book and straight and not over(cut, widest):
            low, high = edge - joist.depth + cut / 2.0, -edge - cut / 2.0
        return Crossing(
            f"{line.id}@{joist.id}",
            joist.id,
            line.id,
            line.element,
            line.system,
            (stretch.x, stretch.y),
            stretch.along,
            stretch.position,
            stretch.enters,
            stretch.leaves,
            math.degrees(math.atan2(stretch.lean, stretch.square)),
            line.width,
            line.passing,
            None if bit is None else cut,
            None if bit is None else bit.label,
            widest,
            low,
            high,
            run_along,
            straight,
        )

    def _allowance(self, depth: float) -> tuple[float, float]:
        """The widest bore that a joist so deep may have, and the wood left above and below it."""
        found = self._allowed.get(depth)
        if found is None:
            most = allowance(depth, self._book)
            found = self._allowed[depth] = (most.bore, most.edge)
        return found
