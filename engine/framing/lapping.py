"""Joists joined of two over a bearing: lapped beside each other, or butted in line where a lap has no room."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from engine.framing.clipping import EXACT
from engine.framing.field import LaidField, Stick
from engine.framing.headed_off import Clear, clear_ways
from engine.plan.records import FloorOpening


def lapped(field: LaidField, running: Sequence[Stick], openings: Sequence[FloorOpening]) -> list[Stick]:
    """A field's joists with those that pass its laps joined there.

    Commons and tails lap. End joists and trimmers, which must stay in their line, what has no room beside it, and what would be
    joined again within a lap, are butted over the middle of the bearing and spliced.
    """
    ways = clear_ways(field, openings)
    made: list[Stick] = []
    for stick in running:
        others = [one for one in running if one.name != stick.name]
        made += _joined(field, stick, others, ways)
    return made


def _joined(field: LaidField, stick: Stick, others: Sequence[Stick], ways: Sequence[Clear]) -> list[Stick]:
    reach = field.field.lap / 2.0
    room = reach + field.thickness
    over = [at for at in sorted(field.field.laps) if stick.first + room < at < stick.last - room]
    if not over:
        return [stick]
    beside = _pieces(field, stick, over, reach)
    crowded = any(b - a < 2.0 * reach - EXACT for a, b in pairwise(over))
    lies = stick.kind in ("common", "tail") and not crowded
    if lies and all(_has_room(field, stick, piece, others, ways) for piece in beside):
        return beside
    return _pieces(field, stick, over, 0.0)


def _pieces(field: LaidField, stick: Stick, over: Sequence[float], reach: float) -> list[Stick]:
    """The sticks that one is joined of; without a reach they are butted in its line."""
    ends = [stick.first, *over, stick.last]
    last = len(ends) - 2
    moved_last = field.field.lap_moves == "north or east"
    aside = stick.plies * field.thickness * (1.0 if field.field.lap_side == "east or north" else -1.0)
    made = []
    for place, (low, high) in enumerate(pairwise(ends)):
        moved = (place if moved_last else last - place) % 2 == 1 and reach > 0.0
        made.append(
            stick._replace(
                t=stick.t + (aside if moved else 0.0),
                first=low if place == 0 else low - reach,
                last=high if place == last else high + reach,
                hung=(stick.hung[0] and place == 0, stick.hung[1] and place == last),
                joined=(place > 0, place < last),
            )
        )
    return made


def _has_room(field: LaidField, whole: Stick, piece: Stick, others: Sequence[Stick], ways: Sequence[Clear]) -> bool:
    """Whether a piece set aside stands clear of all else, and reaches just as far there as its joist does.

    Others stand aside to the same side, if at all, so that it is enough to look at their lines.
    """
    if piece.t == whole.t:
        return True
    half = piece.plies * field.thickness / 2.0
    for one in others:
        apart = half + one.plies * field.thickness / 2.0
        if abs(one.t - piece.t) < apart - EXACT and one.first < piece.last and piece.first < one.last:
            return False
    for way in ways:
        inside = piece.t + half > way.west + EXACT and piece.t - half < way.east - EXACT
        if inside and piece.first < way.north - EXACT and piece.last > way.south + EXACT:
            return False
    middle = (piece.first + piece.last) / 2.0
    here, there = (field.span(t, piece.plies, middle) for t in (whole.t, piece.t))
    return here is not None and there is not None and _alike(here[0], there[0])


def _alike(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return all(abs(a - b) <= EXACT for a, b in zip(one, other, strict=True))
