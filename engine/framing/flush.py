"""Beams at the joists' level: what they leave of the wood that they meet, in a field's own frame.

Wood that such a beam would share is not there: a joist ends square where both of its faces clear the beam, and goes on at
the beam's other side as a stick of its own.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from engine.framing.shadow import band, clipped
from engine.plan.records import Beam, Point

if TYPE_CHECKING:
    from engine.framing.field import LaidField, Stick

EXACT = 1e-6
Framed = Callable[[Point], Point]


class Part(NamedTuple):
    """What is left of a stick, by inches from its start; `cut_at` and `hung` tell of each end: by which beam, and whether
    it hangs there."""

    first: float
    last: float
    cut_at: tuple[str, str]
    hung: tuple[bool, bool]


def is_flush(one: Beam, depth: float) -> bool:
    """Whether a beam stands up among joists that are `depth` in deep, so that they cannot pass over it."""
    return one.top_z is not None and one.top_z > -depth + EXACT


def cut_back(field: LaidField, sticks: Sequence[Stick]) -> list[Stick]:
    """A field's sticks with the flush beams among them; a piece shorter than the wood is thick is left out."""
    return [piece for stick in sticks for piece in _pieces(field, stick)]


def _pieces(field: LaidField, stick: Stick) -> list[Stick]:
    start, end = stick.reach
    parts = left_of(start, end, stick.plies * field.thickness, field.flush_for(stick), field.framed)
    if parts is None:
        return [stick]
    made = []
    for part in parts:
        if part.last - part.first <= field.thickness:
            continue
        cut_at = part.cut_at
        hung = (part.hung[0] if cut_at[0] else stick.hung[0], part.hung[1] if cut_at[1] else stick.hung[1])
        joined = (stick.joined[0] and not cut_at[0], stick.joined[1] and not cut_at[1])
        cut = stick._replace(cut_at=cut_at, hung=hung, joined=joined)
        if stick.ends is not None:
            run = math.dist(start, end)
            ends = tuple(_between(start, end, at / run) for at in (part.first, part.last))
            made.append(cut._replace(ends=(ends[0], ends[1])))
        else:
            made.append(cut._replace(first=stick.first + part.first, last=stick.first + part.last))
    return made


def left_of(
    start: Point, end: Point, thickness: float, beams: Sequence[Beam], framed: Framed = lambda point: point
) -> list[Part] | None:
    """The parts of a stick from start to end that beams leave of it, in order; None where none of them meets it.

    `framed` brings a beam's ends into the frame that the stick's are given in.
    """
    length = math.dist(start, end)
    parts = [Part(0.0, length, ("", ""), (False, False))]
    met = False
    for beam in beams:
        taken = _taken(start, end, thickness, band(framed(beam.start), framed(beam.end), beam.width))
        if taken is None:
            continue
        met = True
        parts = [left for part in parts for left in _without(part, *taken, beam)]
    return parts if met else None


def _without(part: Part, low: float, high: float, beam: Beam) -> list[Part]:
    """What a beam that takes a stick's wood from `low` to `high` leaves of one of its parts."""
    if high <= part.first or low >= part.last:
        return [part]
    left = []
    if low > part.first:
        left.append(Part(part.first, low, (part.cut_at[0], beam.id), (part.hung[0], beam.bearing)))
    if high < part.last:
        left.append(Part(high, part.last, (beam.id, part.cut_at[1]), (beam.bearing, part.hung[1])))
    return left


def _taken(start: Point, end: Point, thickness: float, corners: Sequence[Point]) -> tuple[float, float] | None:
    """From where to where along a stick a beam takes the place of any of its wood; None where it takes none."""
    length = math.dist(start, end)
    dt, ds = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    own = [((t - start[0]) * dt + (s - start[1]) * ds, (t - start[0]) * ds - (s - start[1]) * dt) for t, s in corners]
    half = thickness / 2.0 - EXACT
    inside = clipped(clipped(own, 1, -half, half), 0, 0.0, length)
    if not inside:
        return None
    low, high = min(u for u, _ in inside), max(u for u, _ in inside)
    return (low, high) if high - low > EXACT else None


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share
