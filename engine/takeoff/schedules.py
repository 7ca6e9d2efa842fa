"""The lists as tables for a spreadsheet: joist cuts, heights, cut list, shopping, sticks, supports, findings."""

from __future__ import annotations

import csv
import io
import unicodedata
from collections.abc import Callable, Iterable
from operator import attrgetter
from typing import Any

from engine.checks.model import Model
from engine.lengths import down, inches, nearest, up
from engine.plan.records import Record
from engine.takeoff.answers import Answered
from engine.takeoff.buying import buy
from engine.takeoff.cutlist import cut_list
from engine.takeoff.heights import height_table
from engine.takeoff.joist_cuts import cut_rows
from engine.takeoff.local import local_rows
from engine.takeoff.records import Bought, Stick, Support, Trip
from engine.takeoff.shopping import shopping
from engine.takeoff.size_rows import drain_rows, unit_rows, vent_size_rows
from engine.takeoff.supports import supports
from engine.takeoff.trip import trip
from engine.takeoff.vent_rows import vent_rows
from engine.takeoff.wall_holes import wall_holes
from engine.trade.pipe import label

Cell = str | float | int | None
Column = tuple[str, Callable[[Any], Cell]]


class Schedule(Record, frozen=True, gc=False):
    """One table: `name` is its file's stem, lengths are inches."""

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


class TakenOff(Record, frozen=True, gc=False):
    """What several lists read and is worked out once: sticks, supports and the shopping list."""

    bought: tuple[Bought, ...]
    held: tuple[Support, ...]
    trip: Trip


def taken_off(model: Model) -> TakenOff:
    """What a model asks to be bought, hung and taken off shelves."""
    held, bought = supports(model), buy(model)
    return TakenOff(bought, held, trip(model, shopping(model, held), bought))


def schedules(study: Answered, taken: TakenOff) -> tuple[Schedule, ...]:
    """Every list of a plan, with its numbers as inches and beside them as a tape shows them."""
    sticks = [(bought, stick) for bought in taken.bought for stick in bought.plan.sticks]
    findings: list[Any] = [(number, found) for number, found in enumerate(study.findings, 1)]
    return (
        _table("joist-cuts", _CUTS, cut_rows(study.model)),
        _table("wall-holes", _WALL_HOLES, wall_holes(study.model)),
        _table("heights", _HEIGHTS, height_table(study.model, taken.held)),
        _table("cut-list", _PIECES, cut_list(study.model)),
        _table("shopping-list", _LINES, [(stop, line) for stop in taken.trip.stops for line in stop.lines]),
        _table("sticks", _STICKS, sticks),
        _table("supports", _SUPPORTS, taken.held),
        _table("traps", _TRAPS, vent_rows(study.model)),
        _table("fixture-units", _UNITS, unit_rows(study.model)),
        _table("pipe-sizes", _SIZES, (*drain_rows(study.model), *vent_size_rows(study.model))),
        _table("findings", _FINDINGS, findings),
        _table("not-judged", _NOT_JUDGED, study.not_judged),
        _table("judged-by", _JUDGED_BY, local_rows(study.model)),
    )


def as_csv(schedule: Schedule) -> str:
    """A table as CSV text. A cell that a spreadsheet would take for a sum gets an apostrophe before it."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(schedule.columns)
    writer.writerows([_harmless(cell) for cell in row] for row in schedule.rows)
    return text.getvalue()


def _table(name: str, columns: tuple[Column, ...], rows: Iterable[Any]) -> Schedule:
    return Schedule(
        name, tuple(title for title, _ in columns), tuple(tuple(cell(row) for _, cell in columns) for row in rows)
    )


def _harmless(cell: Cell) -> Cell:
    if not isinstance(cell, str):
        return "" if cell is None else round(cell, 6)
    kept = "".join(letter for letter in cell if unicodedata.category(letter) not in ("Cc", "Cs"))
    return f"'{kept}" if kept.startswith(("=", "+", "-", "@")) else kept


def _same(*names: str) -> tuple[Column, ...]:
    """Columns that print a field as it is, under its own name."""
    return tuple((name.replace("_", " "), attrgetter(name)) for name in names)


def _tape(name: str, rounded: Callable[[float], float] = nearest) -> tuple[Column, Column]:
    """A length in inches, and as a tape shows it, rounded to the nearest mark or to the side told."""
    read = attrgetter(name)
    title = name.replace("_", " ")

    def shown(row: Any) -> Cell:
        value = read(row)
        return None if value is None else inches(rounded(value))

    return (title, read), (f"{title}, tape", shown)


_SIZE: Column = ("size", lambda row: label(row.size))
_PLACE: tuple[Column, ...] = (("from west", lambda row: row.at[0]), ("from south", lambda row: row.at[1]))

_CUTS: tuple[Column, ...] = (
    *_same("number", "joist", "pipe", "system", "kind", "bit", "diameter", "depth", "length", "end"),
    *_tape("from_end"),
    *_same("other_end"),
    *_tape("from_other"),
    *_tape("down_from_top"),
    *_tape("up_from_bottom"),
    *_same("wood_above", "wood_below"),
    *_tape("limit", down),
    *_same("least_wood", "sleeve"),
    ("legal", lambda row: row.verdict),
    *_same("faults"),
)
_WALL_HOLES: tuple[Column, ...] = (
    *_same("number", "wall", "part", "stud", "kind", "element", "system", "size", "end"),
    *_tape("from_end"),
    *_same("other_end"),
    *_tape("from_other"),
    *_same("face"),
    *_tape("from_face"),
    *_same("other_face"),
    *_tape("from_other_face"),
    *_tape("above_subfloor"),
    *_same("hole"),
    *_tape("deep"),
    *_same("bit", "tie", "shields", "shield_faces", "breaks_out"),
    ("legal", lambda row: row.verdict),
    *_same("faults"),
)
_HEIGHTS: tuple[Column, ...] = (
    *_same("element", "system"),
    _SIZE,
    *_same("along", "what"),
    *_PLACE,
    *_tape("centre_down"),
    *_tape("bottom_down"),
    *_tape("centre_below"),
    *_tape("bottom_below"),
    *_same("held"),
)
_PIECES: tuple[Column, ...] = (
    *_same("mark", "system", "material"),
    _SIZE,
    *_tape("length"),
    *_same("tolerance"),
    *_tape("saw"),
    *_same("extra", "until", "start", "end", "lies", "rests_on", "warning"),
)
_LINES: tuple[Column, ...] = (
    ("done", lambda pair: "x" if pair[1].buy == 0 else ""),
    ("buy", lambda pair: pair[1].buy),
    ("unit", lambda pair: pair[1].unit),
    ("part", lambda pair: pair[1].part),
    ("size", lambda pair: pair[1].size),
    ("where in the store", lambda pair: pair[0].title),
    ("need", lambda pair: pair[1].need),
    ("spares", lambda pair: pair[1].spares),
    ("on hand", lambda pair: pair[1].on_hand),
    ("price", lambda pair: pair[1].price),
    ("system", lambda pair: ", ".join(pair[1].systems)),
    ("why", lambda pair: pair[1].why),
    ("source", lambda pair: pair[1].source),
)
_SUPPORTS: tuple[Column, ...] = (
    *_same("mark", "element", "system"),
    _SIZE,
    *_same("kind", "along"),
    *_PLACE,
    *_tape("down"),
    *_same("joist", "limit", "cites", "hangs", "end"),
    *_tape("from_end"),
    *_same("off_from"),
    *_tape("off"),
    *_tape("below"),
    *_tape("block", down),
    *_tape("strap", up),
    *_tape("packer"),
    *_tape("block_top"),
    *_same("block_from"),
    *_tape("block_aside"),
    *_same("reason", "remark"),
)


def sawing_order(stick: Stick) -> str:
    """A stick's cuts with their lengths as a tape shows them, in the order in which to saw them."""
    return ", ".join(f"{cut.mark} {inches(nearest(cut.length))}" for cut in stick.cuts)


_STICKS: tuple[Column, ...] = (
    ("material", lambda pair: pair[0].material),
    ("size", lambda pair: label(pair[0].size)),
    ("stick length", lambda pair: pair[1].length),
    ("cuts in sawing order", lambda pair: sawing_order(pair[1])),
    ("left over", lambda pair: pair[1].left),
    ("offcut", lambda pair: pair[1].offcut),
    ("proven", lambda pair: "yes" if pair[0].plan.cheapest_proven else "no"),
)
_TRAPS: tuple[Column, ...] = (
    *_same("fixture", "words", "trap", "state", "method", "how", "air"),
    *_tape("distance"),
    *_tape("limit"),
    *_same("section", "limit_section"),
)
_UNITS: tuple[Column, ...] = _same("fixture", "words", "units", "trap", "section", "known", "note")
_SIZES: tuple[Column, ...] = (
    *_same("element", "system", "kind", "fixtures", "load", "told", "size"),
    ("drawn", lambda row: "yes" if row.drawn else "no"),
    *_same("least", "most", "section", "others", "why"),
)
_FINDINGS: tuple[Column, ...] = (
    ("number", lambda pair: pair[0]),
    ("weight", lambda pair: pair[1].weight),
    ("rule", lambda pair: pair[1].rule),
    ("from west", lambda pair: pair[1].at[0]),
    ("from south", lambda pair: pair[1].at[1]),
    ("elements", lambda pair: ", ".join(pair[1].elements)),
    ("measured", lambda pair: pair[1].measured),
    ("limit", lambda pair: pair[1].limit),
    ("unit", lambda pair: pair[1].unit),
    ("text", lambda pair: pair[1].text),
    ("cites", lambda pair: pair[1].cites),
    ("mend", lambda pair: pair[1].mend),
)
_NOT_JUDGED: tuple[Column, ...] = (
    ("rule", lambda pair: pair[0]),
    ("from west", lambda pair: pair[1].at[0]),
    ("from south", lambda pair: pair[1].at[1]),
    ("elements", lambda pair: ", ".join(pair[1].elements)),
    ("missing", lambda pair: pair[1].missing),
)
_JUDGED_BY = (
    *_same("kind", "what"),
    ("becomes", lambda row: row.becomes),
    ("in the book", lambda row: row.was),
    ("section", lambda row: row.section),
    ("how known", lambda row: row.known),
    ("said by", lambda row: row.said_by),
    ("on", lambda row: row.on),
    ("name in the plan file", lambda row: row.key),
)
