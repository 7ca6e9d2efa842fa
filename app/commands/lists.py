"""The parts answer as lists for a reader and as one table for a spreadsheet. Lengths are inches."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

from app.commands.quantity import tape
from app.commands.terminal import clean, table, wrapped
from engine.lengths import down, feet_inches, inches, up

LISTS = ("parts", "pieces", "sticks", "supports")

Row = Mapping[str, Any]


class Column(NamedTuple):
    """One column of a list for a reader: its heading, how a row's cell reads, and whether cells end flush."""

    heading: str
    reads: Callable[[Row], str]
    flush: bool = False


def as_lines(answer: Mapping[str, Any]) -> list[str]:
    """Each list under its title; an empty one says so, and what a list leaves out is named after them."""
    lines: list[str] = []
    for name in LISTS:
        title, columns = READING[name]
        rows: Sequence[Row] = answer[name]
        lines += [*([""] if lines else []), title, ""]
        if name == "parts":
            lines += _trip(answer["trip"])
        else:
            lines += _for_reading(columns, rows) if rows else ["nothing"]
    lines += ["", *wrapped(_proof(bool(answer["cheapest_proven"])))]
    if answer.get("too_long"):
        lines += wrapped(f"Longer than any stick that is sold: {', '.join(answer['too_long'])}.")
    for sentence in answer.get("not_counted", ()):
        lines += wrapped(f"Not counted: {sentence}", "", "  ")
    return lines


def _trip(trip: Mapping[str, Any]) -> list[str]:
    """What to buy in the order in which a store is walked, then what people forget."""
    if not trip["stops"]:
        return ["nothing"]
    _, columns = READING["parts"]
    lines = wrapped(trip["made_under"])
    for stop in trip["stops"]:
        lines += ["", stop["title"], "", *_for_reading(columns, stop["lines"])]
    lines += ["", "What people forget", ""]
    for words in trip["check_list"]:
        lines += wrapped(words, "[ ] ", "    ")
    if trip["on_hand_but_not_needed"]:
        lines += ["", *wrapped(f"On hand, but not asked for: {', '.join(trip['on_hand_but_not_needed'])}.")]
    return lines


def as_csv(answer: Mapping[str, Any]) -> str:
    """One table with a column `list` in front and every key of the four lists as a column after it."""
    columns = list(dict.fromkeys(key for name in LISTS for row in answer[name] for key in row))
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(["list", *columns])
    for name in LISTS:
        for row in answer[name]:
            writer.writerow([name.removesuffix("s"), *(_harmless(row.get(column)) for column in columns)])
    return text.getvalue()


def _for_reading(columns: Sequence[Column], rows: Sequence[Row]) -> list[str]:
    flush = frozenset(number for number, column in enumerate(columns) if column.flush)
    return table(
        [column.heading for column in columns], [[column.reads(row) for column in columns] for row in rows], flush
    )


def _words(key: str) -> Callable[[Row], str]:
    return lambda row: flat(row.get(key))


def _length(key: str) -> Callable[[Row], str]:
    return lambda row: "" if row.get(key) is None else tape(float(row[key]))


def _some(key: str) -> Callable[[Row], str]:
    return lambda row: flat(row.get(key)) if row.get(key) else ""


def _tick(row: Row) -> str:
    return "[x]" if not row["buy"] else "[ ]"


def _first_sawn(row: Row) -> str:
    """The length that a stub or vent is sawn to before it is trimmed."""
    return tape(float(row["length"]) + float(row["extra"])) if row.get("extra") else ""


def flat(value: object) -> str:
    """A cell as text: 'yes' for a truth, a list's members by commas, a list inside a list by plus signs."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list | tuple):
        return ", ".join(
            " + ".join(map(flat, part)) if isinstance(part, list | tuple) else flat(part) for part in value
        )
    return f"{value:g}" if isinstance(value, float) else str(value)


def _harmless(value: object) -> object:
    """A cell that a spreadsheet takes as the text it is, not as a sum to work out."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        return value
    text = clean(flat(value))
    return f"'{text}" if text.startswith(("=", "+", "-", "@")) else text


def _place(row: Row) -> str:
    at = row.get("at")
    return "" if not at else f"{feet_inches(at[0])} east, {feet_inches(at[1])} north"


def _to_cut(row: Row) -> str:
    """The block, the packer and the strap that a support takes: the block rounded down so that it goes in, the strap up."""
    block, strap = row["block"], row["strap"]
    found = [] if block is None else [f"block {inches(down(block))} in"]
    found += [] if row["packer"] is None else [f"packer {inches(row['packer'])} in"]
    return ", ".join([*found, *([] if strap is None else [f"strap {inches(up(strap))} in"])])


def _height(row: Row) -> str:
    depth = row.get("down_from_top")
    return "" if depth is None else f"{tape(abs(depth))} {'down' if depth >= 0 else 'up'}"


def _proof(proven: bool) -> str:
    if proven:
        return "The sticks are proven to be the cheapest that yield these pieces."
    return "The sticks yield these pieces; that no cheaper choice would is not proven."


READING: dict[str, tuple[str, tuple[Column, ...]]] = {
    "parts": (
        "TO BUY",
        (
            Column("", _tick),
            Column("buy", _words("buy"), flush=True),
            Column("unit", _words("unit")),
            Column("part", _words("part")),
            Column("size", _words("size")),
            Column("need", _words("need"), flush=True),
            Column("spare", _some("spares"), flush=True),
            Column("have", _some("on_hand"), flush=True),
        ),
    ),
    "pieces": (
        "TO CUT",
        (
            Column("mark", _words("mark")),
            Column("size", _words("size")),
            Column("of", _words("material")),
            Column("length", _length("length"), flush=True),
            Column("give or take", _length("tolerance"), flush=True),
            Column("saw first", _first_sawn, flush=True),
            Column("rests on", _words("rests_on")),
            Column("from", _words("from")),
            Column("to", _words("to")),
        ),
    ),
    "sticks": (
        "STICKS OF PIPE",
        (
            Column("count", _words("count"), flush=True),
            Column("size", _words("size")),
            Column("of", _words("material")),
            Column("stick", _length("stick_length"), flush=True),
            Column("left over", _length("waste"), flush=True),
            Column("cut from each", _words("cuts")),
        ),
    ),
    "supports": (
        "TO HOLD IT UP",
        (
            Column("mark", _words("mark")),
            Column("run", _words("element")),
            Column("by", _words("kind")),
            Column("size", _words("size")),
            Column("place", _place),
            Column("along the run", _length("along"), flush=True),
            Column("height", _height, flush=True),
            Column("joist or bay", _words("hangs")),
            Column("to cut", _to_cut),
        ),
    ),
}
"""What a reader is shown of each list; the JSON and the CSV hold the rest."""
