"""Which bay each piece is slid from: rigid pipe enters bored joists lengthwise, and only where it first finds room.

A piece is slid back towards the hub that waits for it, out of the nearest clear stretch beyond. Where none is long
enough, it is threaded before that hub is there, pushed past its place, and pulled back when the hub has come.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

from engine.lengths import inches
from engine.plan.records import Point
from engine.takeoff.assembling.records import Slide
from engine.takeoff.assembling.rows import Laid, Row

HAIR = 1.0 / 128.0
"""Lengths this close count as equal, inches: below what a tape can tell."""

_WAYS = ("east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east")


@dataclass(slots=True)
class Slides:
    """How every piece that passes bored joists gets there.

    `later` are slid when they are glued; `early` are threaded before anything is glued, in this order; `stuck`
    says why a piece cannot be got to its place; `unjudged` why nothing can be said of it.
    """

    later: dict[str, Slide] = field(default_factory=dict)
    early: dict[str, Slide] = field(default_factory=dict)
    stuck: dict[str, str] = field(default_factory=dict)
    unjudged: dict[str, str] = field(default_factory=dict)

    def speaks_of(self, item: str) -> bool:
        """Whether anything is to be said of how a piece gets in."""
        return any(item in kept for kept in (self.later, self.early, self.stuck, self.unjudged))


@dataclass(slots=True, frozen=True)
class Clear:
    """A clear stretch of a row's line, and the members at its two ends."""

    low: float
    high: float
    joists: tuple[str | None, str | None]


def slides(rows: Iterable[Row]) -> Slides:
    """Every row, looked at from its far end back to the hub that it starts from."""
    found = Slides()
    for row in rows:
        limit = math.inf
        for laid in reversed(row.laid):
            passed = row.passed(laid)
            turned = next((wood for wood in passed if not wood.straight), None)
            if turned is not None:
                found.unjudged[laid.piece.mark] = (
                    f"in {turned.joist} the pipe turns or ends, and no bore makes that hole"
                )
            elif passed:
                limit = _get_in(row, laid, limit, found)
    return found


def _get_in(row: Row, laid: Laid, limit: float, found: Slides) -> float:
    """Find a way in for one piece. Returns up to where the line stays free for the pieces before it."""
    mark, length = laid.piece.mark, laid.high - laid.low
    stretches = sorted(clear_stretches(row, laid), key=lambda clear: abs(clear.low + clear.high - laid.low - laid.high))
    for clear in stretches:
        out = clear.low if laid.rooted else max(clear.low, laid.low + laid.hub)
        if min(clear.high, limit) - out >= length - HAIR:
            found.later[mark] = _slide(row, laid, clear)
            return limit
    room = min(max(clear.high for clear in stretches), limit) - laid.high
    if room >= laid.need - HAIR:
        for clear in stretches:
            if min(clear.high, limit) - clear.low >= length - HAIR:
                found.early[mark] = _slide(row, laid, clear, room)
                return laid.low + room
    found.stuck[mark] = _why(laid, stretches, room)
    return limit


def clear_stretches(row: Row, laid: Laid) -> list[Clear]:
    """The clear stretches of the line that a piece can reach through its row's bores, near ones first."""
    shut = [wood for wood in row.wood if not wood.bored]
    before = max((w for w in shut if w.leaves <= laid.low + HAIR), key=lambda w: w.leaves, default=None)
    after = min((w for w in shut if w.enters >= laid.high - HAIR), key=lambda w: w.enters, default=None)
    at, member = (before.leaves, before.joist) if before is not None else (-math.inf, None)
    end, last = (after.enters, after.joist) if after is not None else (math.inf, None)
    found: list[Clear] = []
    for wood in row.wood:
        if wood.leaves > at and wood.enters < end:
            found.append(Clear(at, wood.enters, (member, wood.joist)))
            at, member = wood.leaves, wood.joist
    found.append(Clear(at, end, (member, last)))
    return found


def _slide(row: Row, laid: Laid, clear: Clear, past: float = 0.0) -> Slide:
    """The move out of a clear stretch to a piece's place, or so far past it."""
    low, high = laid.low + past, laid.high + past
    ahead = clear.low + clear.high < low + high
    if ahead:
        way, through = (
            row.along,
            [w.joist for w in row.wood if w.enters >= clear.high - HAIR and w.enters < high - HAIR],
        )
    else:
        way = (-row.along[0], -row.along[1])
        through = [w.joist for w in row.wood if w.leaves <= clear.low + HAIR and w.leaves > low + HAIR][::-1]
    return Slide(laid.piece.mark, tuple(through), clear.joists, compass(way), past)


def _why(laid: Laid, stretches: list[Clear], room: float) -> str:
    length, longest = laid.high - laid.low, max(clear.high - clear.low for clear in stretches)
    if longest < length - HAIR:
        return (
            f"it is {inches(length)} in long in plan, and the longest clear stretch on its line is {inches(longest)} in"
        )
    return (
        f"no bay on the far side of its hub has {inches(length)} in in line, and threaded beforehand it can be pushed "
        f"only {inches(max(room, 0.0))} in past its place, where {inches(laid.need)} in are needed to set the hub"
    )


def compass(way: Point) -> str:
    """The nearest of eight compass words for a heading in plan."""
    return _WAYS[round(math.degrees(math.atan2(way[1], way[0])) / 45.0) % 8]
