"""Openings framed in a floor: joists cut back to tails on headers, and trimmers beside them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from engine.framing.field import SLACK, LaidField, Stick
from engine.plan.records import FloorOpening


class Clear(NamedTuple):
    """An opening's clear way in a field's frame, kept between its end joists and rims."""

    opening: str
    west: float
    east: float
    south: float
    north: float
    headers: int
    trimmers: int


def clear_ways(field: LaidField, openings: Sequence[FloorOpening]) -> list[Clear]:
    """The openings that lie in a field, as far as they do; one that the rims and end joists leave no width is none."""
    found = []
    for opening in openings:
        (t0, s0), (t1, s1) = field.framed(opening.start), field.framed(opening.end)
        west, east = max(min(t0, t1), field.thickness), min(max(t0, t1), field.across - field.thickness)
        south, north = max(min(s0, s1), field.thickness), min(max(s0, s1), field.along - field.thickness)
        if east - west > SLACK and north - south > SLACK:
            found.append(Clear(opening.id, west, east, south, north, opening.headers, opening.trimmers))
    return found


def headed_off(
    field: LaidField, lines: list[Stick], openings: Sequence[FloorOpening], across: list[Stick]
) -> list[Stick]:
    """The field's joists with its openings framed in them; the headers are added to what lies `across`.

    A trimmer takes the place of a common joist that would stand in its wood. Where an end joist stands at the opening's
    side, or a rim at its end, that does for the trimmer or header.
    """
    for clear in clear_ways(field, openings):
        trimmers = _trimmers(field, clear, lines)
        lines = [stick for stick in lines if not _gives_way(field, stick, trimmers)]
        low, high = clear.south, clear.north
        wood = clear.headers * field.thickness
        if low - wood > field.thickness + SLACK:
            across.append(_header(field, clear, 0, low - wood / 2.0))
            low -= wood
        if high + wood < field.along - field.thickness - SLACK:
            across.append(_header(field, clear, 1, high + wood / 2.0))
            high += wood
        lines = [piece for stick in lines for piece in _cut(field, stick, clear, low, high)] + trimmers
    return lines


def _trimmers(field: LaidField, clear: Clear, lines: list[Stick]) -> list[Stick]:
    half = clear.trimmers * field.thickness / 2.0
    sides = ("west", "east") if field.northward else ("south", "north")
    found = []
    for number, (side, t) in enumerate(zip(sides, (clear.west - half, clear.east + half), strict=True)):
        reach = field.span(t, clear.trimmers, (clear.south + clear.north) / 2.0)
        made = reach and Stick(
            f"{clear.opening}.trimmer-{side}",
            number,
            "trimmer",
            t,
            *reach[0],
            clear.trimmers,
            reach[1],
            opening=clear.opening,
        )
        if made and not any(stick.kind in ("end", "trimmer") and _same_wood(field, stick, made) for stick in lines):
            found.append(made)
    return found


def _header(field: LaidField, clear: Clear, number: int, at: float) -> Stick:
    side = (("south", "north") if field.northward else ("west", "east"))[number]
    name = f"{clear.opening}.header-{side}"
    return Stick(name, number, "header", at, clear.west, clear.east, clear.headers, across=True, opening=clear.opening)


def _gives_way(field: LaidField, stick: Stick, trimmers: list[Stick]) -> bool:
    return stick.kind == "common" and any(_same_wood(field, stick, trimmer) for trimmer in trimmers)


def _cut(field: LaidField, stick: Stick, clear: Clear, low: float, high: float) -> list[Stick]:
    """What an opening leaves of a joist: itself, or tails on the headers. End joists and trimmers are not cut."""
    half = stick.plies * field.thickness / 2.0
    beside = stick.t + half <= clear.west + SLACK or stick.t - half >= clear.east - SLACK
    if stick.kind not in ("common", "tail") or beside or stick.last <= low or stick.first >= high:
        return [stick]
    tails = []
    if low - stick.first > SLACK:
        tails.append(stick._replace(kind="tail", last=low, hung=(stick.hung[0], True)))
    if stick.last - high > SLACK:
        tails.append(stick._replace(kind="tail", first=high, hung=(True, stick.hung[1])))
    return tails


def _same_wood(field: LaidField, one: Stick, other: Stick) -> bool:
    apart = (one.plies + other.plies) * field.thickness / 2.0
    return abs(one.t - other.t) < apart - SLACK and one.first < other.last and other.first < one.last
