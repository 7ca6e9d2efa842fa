"""Rows of full-depth blocks between neighbouring joists."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from engine.framing.field import SLACK, LaidField, Stick
from engine.framing.headed_off import clear_ways
from engine.plan.records import FloorOpening


def blocks(
    field: LaidField, running: Sequence[Stick], across: Sequence[Stick], openings: Sequence[FloorOpening]
) -> list[Stick]:
    """The blocks of a field's rows, each from face to face of two neighbours.

    None stands in an opening, nor where a rim or header lies already.
    """
    ways, half = clear_ways(field, openings), field.thickness / 2.0 - SLACK
    found = []
    for row, at in enumerate(field.field.blocking, 1):
        beside = (stick for stick in running if stick.first < at + half and stick.last > at - half)
        there = sorted(beside, key=lambda stick: stick.t)
        for number, (west, east) in enumerate(pairwise(there), 1):
            first = west.t + west.plies * field.thickness / 2.0
            last = east.t - east.plies * field.thickness / 2.0
            middle = (first + last) / 2.0
            inside = any(way.west < middle < way.east and way.south < at < way.north for way in ways)
            taken = any(_lies_over(field, other, at, middle) for other in across)
            if last - first > SLACK and not inside and not taken:
                name = f"{field.field.id}.block-{row}-{number}"
                found.append(Stick(name, row, "block", at, first, last, across=True))
    return found


def _lies_over(field: LaidField, other: Stick, at: float, middle: float) -> bool:
    """Whether a rim or header would share its wood with a block at this place."""
    apart = (other.plies + 1) * field.thickness / 2.0 - SLACK
    return other.ends is None and abs(other.t - at) < apart and other.first < middle < other.last
