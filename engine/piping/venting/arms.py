"""Trap arms: from each fixture's trap down to the first place where another pipe meets its drain."""

from __future__ import annotations

import msgspec

from engine.piping.records import Node
from engine.piping.sticks import Stick
from engine.piping.web import Web
from engine.plan.records import Fixture
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade
from engine.trade.pipe import nominal


class Arm(msgspec.Struct, gc=False):
    """One fixture's own drain: its pipes down to the node `ends`, where another pipe meets it (None: nowhere).

    `level` counts the pipes before the first one that drops, where any does; a closet's own drop is none.
    """

    fixture: Fixture
    spec: trade.FixtureSpec
    sticks: list[Stick]
    ends: Node | None
    level: int

    @property
    def drops(self) -> bool:
        """Whether the drain turns down on its way."""
        return self.level < len(self.sticks)

    @property
    def siphons(self) -> bool:
        """Whether a drop on the way makes an S-trap of it; a closet, which siphons itself, may drop."""
        return self.drops and self.spec.outlet != "closet"


def trap_size(fixture: Fixture, book: RuleBook) -> float:
    """The trap's nominal size: as drawn, else the usual one, never under the book's least for the fixture.

    A shower of several heads needs what the book gives for their water, where it goes by that.
    """
    if fixture.trap is not None:
        return nominal(fixture.trap)
    size = trade.fixture(fixture.kind).trap or 0.0
    key = f"trap.least.{fixture.kind}"
    if book.has(key):
        size = max(size, book.number(key))
    if fixture.kind == "shower" and (fixture.heads > 1 or fixture.flow_gpm is not None):
        one = trade.fixture(fixture.kind).flow if fixture.flow_gpm is None else fixture.flow_gpm
        rows = sorted((nominal(row.rsplit(".", 1)[-1]), book.number(row)) for row in book.keys("trap.shower_flow"))
        size = max(size, next((wide for wide, most in rows if (one or 0.0) * fixture.heads <= most), 0.0))
    return size


def steep(stick: Stick, upright: float) -> bool:
    """Whether a pipe counts as vertical: plumb, or climbing by `upright` degrees or more."""
    return stick.shape == "plumb" or (stick.shape == "inclined" and stick.climb >= upright)


def follow(web: Web, fixture: Fixture, start: Node, upright: float) -> Arm:
    """The arm from a trap to the first node where another pipe meets it, or to the drain's end."""
    spec = trade.fixture(fixture.kind)
    sticks: list[Stick] = []
    level: int | None = None
    node, seen = start, {start}
    ends: Node | None = None
    while node in web.outflow:
        stick = web.outflow[node]
        own_drop = spec.outlet == "closet" and not sticks
        if level is None and steep(stick, upright) and not own_drop:
            level = len(sticks)
        sticks.append(stick)
        node = stick.end
        if web.meeting(node) > 2:
            ends = node
            break
        if node in seen:
            break
        seen.add(node)
    return Arm(fixture, spec, sticks, ends, len(sticks) if level is None else level)
