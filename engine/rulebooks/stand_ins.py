"""What stands in where a book gives no value that drawing, cutting and hanging pipe cannot do without.

A stand-in never judges: to every rule the book is still without that value.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

from engine.rulebooks.book import PRACTICE, Value
from engine.rulebooks.worth import worth

_LIST = Path(__file__).with_name("stand_ins.csv")
_SAID = {"yes": True, "no": False}


@cache
def stand_ins() -> dict[str, Value]:
    """The stand-ins by their keys: common practice, no source."""
    with _LIST.open(encoding="utf-8", newline="") as text:
        return {row["key"]: _value(row) for row in csv.DictReader(text)}


def _value(row: dict[str, str]) -> Value:
    value, written = worth(_SAID[row["is"]] if row["unit"] == "yes/no" else row["is"], row["unit"])
    return Value(
        key=row["key"],
        value=value,
        written=written,
        unit=row["unit"],
        section=PRACTICE,
        standing="practice",
        source="common practice, no source: the book gives none",
        note=row["why"],
    )
