"""What a value of a rule book is, in plain words: `trap_arm.length.2` is the farthest from a 2 in trap's weir to its vent."""

from __future__ import annotations

import csv
import re
from functools import cache
from pathlib import Path

from engine.trade import fixtures

_MEANINGS = Path(__file__).with_name("meanings.csv")

_SIZE = re.compile(r"\d+(?:-\d+/\d+)?")
_TURNS = {
    "horizontal_to_vertical": "from level to plumb",
    "vertical_to_horizontal": "from plumb to level",
    "horizontal_to_horizontal": "from level to level",
}


def means(key: str) -> str:
    """What the value under a key is. A key that no list explains, as another book may have, is told by its own words."""
    told = _meanings()
    if key in told:
        return told[key]
    stem, _, row = key.rpartition(".")
    return f"{told[stem]} ({row_words(row)})" if stem in told else ": ".join(map(_plain, key.split(".")))


def table_of(key: str) -> str:
    """The key of the table that a value stands in: its own where it stands alone."""
    stem = key.rpartition(".")[0]
    return key if key in _meanings() or not stem else stem


def table_means(key: str) -> str:
    """What all values of a table are, without the row: by :func:`table_of`."""
    return _meanings().get(key) or ": ".join(map(_plain, key.split(".")))


def row_words(row: str) -> str:
    """A table's row in words: a size, a fixture, a turn, a material."""
    if _SIZE.fullmatch(row):
        return f"{row} in"
    if row in _TURNS:
        return _TURNS[row]
    if row in fixtures.KINDS:
        return fixtures.fixture(row).words
    return _plain(row)


def explained() -> frozenset[str]:
    """The keys and tables that the list explains."""
    return frozenset(_meanings())


def _plain(word: str) -> str:
    return word.replace("_", " ")


@cache
def _meanings() -> dict[str, str]:
    with _MEANINGS.open(encoding="utf-8", newline="") as text:
        return {row["key"]: row["means"] for row in csv.DictReader(text)}
