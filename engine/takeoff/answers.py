"""The answers as plain data, for programs: what was found, and what to buy, cut and hold up. Lengths in inches."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, Protocol

from msgspec.structs import asdict

from engine.checks.model import Model
from engine.checks.records import Finding, NotJudged
from engine.checks.venting import cite_of, distance_of, limit_cite, limit_of
from engine.crossings.limits import judged_by_book
from engine.crossings.records import JoistCut, Window
from engine.joinery.records import Piece
from engine.piping.records import Trap
from engine.plan.records import Plan
from engine.takeoff.buying import buy, routed_length, tube_needed
from engine.takeoff.cutlist import RESTS_ON, part_words
from engine.takeoff.records import Bought, ShoppingLine, Support, Trip, TripLine
from engine.takeoff.shopping import not_counted, shopping
from engine.takeoff.size_rows import drain_rows, unit_rows, vent_size_rows
from engine.takeoff.supports import supports
from engine.takeoff.trimming import Trim, trims
from engine.takeoff.trip import trip
from engine.trade.pipe import label

Answer = dict[str, Any]
_FINE = 6
"""Decimals kept of a length: far below what a tape tells, above what floats blur."""


class Answered(Protocol):
    """What the answers are read off: a study, seen from below."""

    @property
    def plan(self) -> Plan:
        """The plan studied."""

    @property
    def model(self) -> Model:
        """Its pipes in three dimensions."""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the checks found."""

    @property
    def not_judged(self) -> tuple[tuple[str, NotJudged], ...]:
        """What they could not judge, with the rule's id."""

    @property
    def looked_at(self) -> dict[str, dict[str, int]]:
        """The four counts of each rule."""


def check_answer(study: Answered) -> Answer:
    """All that `check --json` prints: findings, exit windows, traps, loads and sizes, joist cuts, and what was looked at."""
    model = study.model
    exits = [_window(window) for window in model.windows if window.exit is not None]
    return {
        "plan": study.plan.name,
        "rulebook": study.plan.rulebook,
        "exit_window": exits[0] if exits else dict.fromkeys(("low", "high", "chosen", "low_set_by", "high_set_by")),
        "exit_windows": exits,
        "findings": [_finding(finding) for finding in study.findings],
        "not_judged": [
            {"rule": rule, "at": _place(case.at), "elements": list(case.elements), "missing": case.missing}
            for rule, case in study.not_judged
        ],
        "looked_at": study.looked_at,
        "traps": [_trap(model, trap) for trap in model.network.traps],
        "fixture_units": [asdict(row) for row in unit_rows(model)],
        "sizes": [asdict(row) for row in (*drain_rows(model), *vent_size_rows(model))],
        "joist_cuts": [_cut(model, made) for made in model.cuts],
        "amendments": [
            {"value": entry.value, "becomes": entry.becomes, "said_by": entry.said_by, "on": entry.on}
            for entry in study.plan.amendments
        ],
        "rulings": [
            {"about": entry.about, "text": entry.text, "said_by": entry.said_by, "on": entry.on}
            for entry in study.plan.rulings
        ],
    }


def parts_answer(study: Answered) -> Answer:
    """Everything that `parts --json` prints: parts, pieces, sticks, supports, and whether the sticks are proven."""
    model = study.model
    bought = buy(model)
    held = supports(model)
    parts = {part.id: part for part in model.joinery.parts}
    longer = trims(model)
    pieces = [
        *(
            _piece(piece, part_words(parts, piece.from_part), part_words(parts, piece.to_part), longer.get(piece.mark))
            for piece in model.joinery.pieces
        ),
        *_tubes(model),
    ]
    lines = shopping(model, held)
    return {
        "parts": [_line(line) for line in lines],
        "pieces": pieces,
        "sticks": [row for entry in bought for row in _sticks(entry, {row["mark"]: row["length"] for row in pieces})],
        "supports": [_support(support) for support in held],
        "cheapest_proven": all(entry.plan.cheapest_proven for entry in bought),
        "too_long": [cut.mark for entry in bought for cut in entry.plan.too_long],
        "trip": _trip(trip(model, lines, bought)),
        "not_counted": list(not_counted(model, held)),
    }


def _window(window: Window) -> Answer:
    return {
        "exit": window.exit,
        "low": _number(window.low),
        "high": _number(window.high),
        "chosen": _number(window.chosen),
        "low_set_by": window.low_set_by,
        "high_set_by": window.high_set_by,
        "pinned": window.pinned,
        "others": [{"z": _number(z), "why": why} for z, why in window.others],
    }


def _finding(finding: Finding) -> Answer:
    return {
        "rule": finding.rule,
        "weight": finding.weight,
        "at": _place(finding.at),
        "elements": list(finding.elements),
        "measured": _number(finding.measured),
        "limit": _number(finding.limit),
        "unit": finding.unit,
        "text": finding.text,
        "cites": finding.cites,
        "mend": finding.mend,
    }


def _trap(model: Model, trap: Trap) -> Answer:
    limit, _ = limit_of(model, trap)
    return {
        "fixture": trap.fixture,
        "size": label(trap.size) if trap.size else None,
        "vented_by": trap.vented_by,
        "method": trap.method,
        "distance": _number(distance_of(model, trap)),
        "limit": _number(limit),
        "fall": _number(trap.fall),
        "recognised": trap.recognised,
        "why": trap.why,
        "told": trap.told,
        "with": [] if trap.way is None else [f for f in model.network.ways[trap.way].members if f != trap.fixture],
        "cites": cite_of(model, trap),
        "limit_cites": limit_cite(model, trap),
    }


def _cut(model: Model, made: JoistCut) -> Answer:
    by_book = judged_by_book(model.joists[made.joist])
    return {
        "joist": made.joist,
        "kind": made.kind,
        "pipe": made.pipe,
        "pipes": list(made.pipes),
        "element": made.element,
        "elements": list(made.elements),
        "diameter": _number(made.diameter),
        "bit": made.bit,
        "at": [made.at[0], made.at[1]],
        "from_start": _number(made.from_start),
        "from_end": _number(made.from_end),
        "down_from_top": _number(made.down_from_top),
        "up_from_bottom": _number(made.up_from_bottom),
        "wood_above": _number(made.wood_above),
        "wood_below": _number(made.wood_below),
        "depth": _number(made.depth),
        "length": _number(made.length),
        "limit": _number(made.limit) if by_book else None,
        "legal": made.legal,
        "faults": list(made.faults),
        "not_judged": list(made.unjudged),
    }


def _line(line: ShoppingLine) -> Answer:
    return {
        "part": line.part,
        "size": line.size,
        "count": line.count,
        "system": line.system,
        "unit": line.unit,
        "kind": line.kind,
        "why": line.why,
        "source": line.source,
    }


def _trip(made: Trip) -> Answer:
    return {
        "made_under": made.made_under,
        "stops": [{"title": stop.title, "lines": [_trip_line(line) for line in stop.lines]} for stop in made.stops],
        "check_list": list(made.check_list),
        "on_hand_but_not_needed": list(made.unknown),
    }


def _trip_line(line: TripLine) -> Answer:
    return {
        "part": line.part,
        "size": line.size,
        "unit": line.unit,
        "need": line.need,
        "spares": line.spares,
        "on_hand": line.on_hand,
        "buy": line.buy,
        "price": line.price,
        "systems": list(line.systems),
        "why": line.why,
        "source": line.source,
    }


def _piece(piece: Piece, start: str, end: str, trim: Trim | None) -> Answer:
    return {
        "mark": piece.mark,
        "system": piece.system,
        "size": label(piece.size),
        "material": piece.material,
        "length": _number(piece.cut),
        "tolerance": _number(piece.tolerance),
        "rests_on": RESTS_ON[piece.rests_on],
        "from": start,
        "to": end,
        "note": piece.note,
        "extra": _number(trim.extra) if trim is not None else 0.0,
        "extra_until": trim.why if trim is not None else "",
    }


def _tubes(model: Model) -> list[Answer]:
    return [
        {
            "mark": supply.id,
            "system": supply.water,
            "size": supply.size,
            "material": "PEX",
            "length": _number(tube_needed(model, supply)),
            "tolerance": 0.0,
            "rests_on": "routed length",
            "from": "",
            "to": "",
            "note": f"{routed_length(supply):.1f} in as drawn, with rises, slack and trim",
            "extra": 0.0,
            "extra_until": "",
        }
        for supply in model.plan.supplies
    ]


def _sticks(entry: Bought, lengths: Mapping[str, float]) -> list[Answer]:
    rows = []
    for length, count in entry.plan.counts:
        of_length = [stick for stick in entry.plan.sticks if stick.length == length]
        used = sum(lengths[cut.mark] for stick in of_length for cut in stick.cuts)
        rows.append(
            {
                "size": label(entry.size),
                "material": entry.material,
                "stick_length": length,
                "count": count,
                "waste": _number(length * count - used),
                "proven": entry.plan.cheapest_proven,
                "cuts": [[cut.mark for cut in stick.cuts] for stick in of_length],
                "offcuts": [{"name": stick.offcut, "length": _number(stick.left)} for stick in of_length],
                "judged_by": entry.plan.judged_by,
            }
        )
    return rows


def _support(support: Support) -> Answer:
    return {
        "mark": support.mark,
        "element": support.element,
        "kind": support.kind,
        "system": support.system,
        "size": label(support.size),
        "at": [_number(support.at[0]), _number(support.at[1])],
        "along": _number(support.along),
        "down_from_top": _number(support.down),
        "joist": support.joist,
        "greatest_spacing": support.limit,
        "cites": support.cites,
        "hangs": support.hangs,
        "end": support.end,
        "from_end": _number(support.from_end),
        "across": _number(support.off),
        "across_from": support.off_from,
        "below_joists": _number(support.below),
        "block": _number(support.block),
        "strap": _number(support.strap),
        "packer": _number(support.packer),
        "block_top": _number(support.block_top),
        "block_from": support.block_from,
        "block_aside": _number(support.block_aside),
        "reason": support.reason,
        "remark": support.remark,
    }


def _place(at: tuple[float, ...]) -> list[float | None]:
    return [_number(value) for value in at]


def _number(value: float | None) -> float | None:
    """A number that JSON can hold; None for one that is unknown or endless."""
    if value is None or not math.isfinite(value) or abs(value) > 1.0e8:
        return None
    return round(value, _FINE) + 0.0
