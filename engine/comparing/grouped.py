"""Values that the books do not share, a table at a time: many rows of one table are one entry."""

from __future__ import annotations

from itertools import groupby
from typing import NamedTuple

from engine.comparing.records import Comparison, ValueBeside
from engine.rulebooks.meaning import row_words, table_means, table_of


class TableBeside(NamedTuple):
    """One table's rows that differ: what it is, and for each row its name, and what either book says."""

    means: str
    rows: tuple[tuple[str, str, str], ...]
    tells: bool


def by_table(comparison: Comparison, telling_alone: bool = False) -> tuple[TableBeside, ...]:
    """The values by their tables, in the books' order; `telling_alone` leaves only those that explain a difference."""
    values = [value for value in comparison.values if value.tells or not telling_alone]
    tables = []
    for stem, under in groupby(values, key=lambda value: table_of(value.key)):
        found = tuple(under)
        rows = tuple((_row(value, stem), value.here, value.there) for value in found)
        tables.append(TableBeside(table_means(stem), rows, any(value.tells for value in found)))
    return tuple(tables)


def _row(value: ValueBeside, stem: str) -> str:
    return "" if value.key == stem else row_words(value.key.removeprefix(f"{stem}."))
