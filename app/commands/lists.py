"""The parts answer as lists for a reader and as one table for a spreadsheet. Lengths are inches."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from typing import Any

from app.commands.terminal import clean, table, wrapped
from engine.lengths import inches

LISTS = ("parts", "pieces", "sticks", "supports")
TITLES = {"parts": "TO BUY", "pieces": "TO CUT", "sticks": "STICKS OF PIPE", "supports": "TO HOLD IT UP"}
LENGTHS = frozenset({"length", "tolerance", "stick_length", "waste", "spacing", "greatest_spacing", "apart"})
"""Keys whose numbers are inches, printed as fractions for a reader."""

Row = Mapping[str, Any]


def as_lines(answer: Mapping[str, Any]) -> list[str]:
    """Each list under its title; an empty one says so."""
    lines: list[str] = []
    for name in LISTS:
        rows: Sequence[Row] = answer[name]
        lines += [*([""] if lines else []), TITLES[name], ""]
        lines += _for_reading(rows) if rows else ["nothing"]
    return [*lines, "", *wrapped(_proof(bool(answer["cheapest_proven"])))]


def as_csv(answer: Mapping[str, Any]) -> str:
    """One table with a column `list` in front and every key of the four lists as a column after it."""
    columns = list(dict.fromkeys(key for name in LISTS for row in answer[name] for key in row))
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(["list", *columns])
    for name in LISTS:
        for row in answer[name]:
            writer.writerow([name.removesuffix("s"), *(_harmless(row.get(column, "")) for column in columns)])
    return text.getvalue()


def _for_reading(rows: Sequence[Row]) -> list[str]:
    keys = list(dict.fromkeys(key for row in rows for key in row))
    numeric = frozenset(
        column for column, key in enumerate(keys) if all(isinstance(row.get(key, 0), int | float) for row in rows)
    )
    cells = [[_cell(key, row.get(key, "")) for key in keys] for row in rows]
    return table([key.replace("_", " ") for key in keys], cells, numeric)


def _cell(key: str, value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return inches(float(value)) if key in LENGTHS else f"{value:g}"
    if isinstance(value, list | tuple):
        return ", ".join(f"{part:g}" if isinstance(part, int | float) else str(part) for part in value)
    return "" if value is None else str(value)


def _harmless(value: object) -> object:
    """A cell that a spreadsheet takes as the text it is, not as a sum to work out."""
    if isinstance(value, str):
        text = clean(value)
        return f"'{text}" if text.startswith(("=", "+", "-", "@")) else text
    return _cell("", value) if isinstance(value, bool | list | tuple) or value is None else value


def _proof(proven: bool) -> str:
    if proven:
        return "The sticks are proven to be the cheapest that yield these pieces."
    return "The sticks yield these pieces; that no cheaper choice would is not proven."
