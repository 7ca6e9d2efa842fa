"""Values that the books do not share, a table at a time: many rows of one table are one entry."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby
from typing import NamedTuple

from engine.comparing.records import ValueBeside
from engine.rulebooks.meaning import row_words, table_means, table_of


class TableBeside(NamedTuple):
    """One table's rows that differ: what it is, and for each row its name, and what either book says."""

    means: str
    rows: tuple[tuple[str, str, str], ...]


def by_table(values: Iterable[ValueBeside]) -> tuple[TableBeside, ...]:
    """Values by their tables; they come in the books' order."""
    tables = []
    for stem, under in groupby(values, key=lambda value: table_of(value.key)):
        found = tuple(under)
        rows = tuple((_row(value, stem), value.here, value.there) for value in found)
        tables.append(TableBeside(table_means(stem), rows))
    return tuple(tables)


def _row(value: ValueBeside, stem: str) -> str:
    return "" if value.key == stem else row_words(value.key.removeprefix(f"{stem}."))
