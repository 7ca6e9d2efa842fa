"""Tables of trade facts: one fact a row, each with its unit, its standing and its source."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Literal, cast, get_args

from engine.lengths import fraction
from engine.plan.records import Record

Standing = Literal["read", "memory", "derived", "estimate", "assumed", "practice"]
"""How a fact is known.

`read`: seen in a published source. `memory`: recalled, not seen. `derived`: arithmetic on facts that were read.
`estimate`: arithmetic on remembered ones. `assumed`: chosen here until someone measures. `practice`: common
practice, no source.
"""

STANDINGS: frozenset[str] = frozenset(get_args(Standing))
MEASURES = frozenset({"in", "lb/ft", "gpm", "share", "joints per quart", "Btu in/h ft2 F", "count"})
"""Units of numbers; besides them a fact may be ``word`` or ``yes/no``."""

COLUMNS = ("of", "fact", "value", "unit", "standing", "source")
_FOLDER = Path(__file__).parent


class TradeDataError(ValueError):
    """A fault in the trade data that ship with the program: it names the file and the line."""


class Fact(Record, frozen=True, gc=False):
    """One thing known about one thing of the trade: `fact` of `of` is `value` `unit`."""

    of: str
    fact: str
    value: float | bool | str
    unit: str
    standing: Standing
    source: str


class Table:
    """The facts of one file, looked up by what they are about and by name."""

    __slots__ = ("_facts", "name")

    def __init__(self, name: str, facts: tuple[Fact, ...]) -> None:
        self.name = name
        self._facts = {(fact.of, fact.fact): fact for fact in facts}

    def __iter__(self) -> Iterator[Fact]:
        return iter(self._facts.values())

    def subjects(self) -> tuple[str, ...]:
        """What the facts are about, in the file's order."""
        return tuple(dict.fromkeys(of for of, _ in self._facts))

    def has(self, of: str, fact: str) -> bool:
        """Whether the fact is known."""
        return (of, fact) in self._facts

    def fact(self, of: str, fact: str) -> Fact:
        """The fact with its standing and source. KeyError names it when it is not in the table."""
        try:
            return self._facts[of, fact]
        except KeyError:
            raise KeyError(f"{self.name}: nothing is known of {fact!r} of {of!r}") from None

    def number(self, of: str, fact: str) -> float:
        """The fact's value as a number in its unit."""
        value = self.fact(of, fact).value
        if isinstance(value, bool) or not isinstance(value, float):
            raise TypeError(f"{self.name}: {fact!r} of {of!r} is {value!r}, not a number")
        return value

    def maybe(self, of: str, fact: str) -> float | None:
        """The fact's number, or None when the table says nothing of it."""
        return self.number(of, fact) if self.has(of, fact) else None

    def flag(self, of: str, fact: str) -> bool:
        """The fact's yes or no."""
        value = self.fact(of, fact).value
        if not isinstance(value, bool):
            raise TypeError(f"{self.name}: {fact!r} of {of!r} is {value!r}, not yes or no")
        return value

    def text(self, of: str, fact: str) -> str:
        """The fact's words."""
        value = self.fact(of, fact).value
        if not isinstance(value, str):
            raise TypeError(f"{self.name}: {fact!r} of {of!r} is {value!r}, not words")
        return value


def worth(text: str, unit: str) -> float | bool | str:
    """What a row's text is worth in its unit: a number, yes or no, or words. ValueError says what is wrong."""
    if unit == "word":
        return text
    if unit == "yes/no":
        if text not in ("yes", "no"):
            raise ValueError(f"{text!r} is neither yes nor no")
        return text == "yes"
    if unit not in MEASURES:
        raise ValueError(f"{unit!r} is no unit known here")
    return fraction(text)


@cache
def table(name: str) -> Table:
    """The table of trade facts called `name`, read once."""
    return read(_FOLDER / f"{name}.csv")


def read(path: Path) -> Table:
    """The table that a file holds. TradeDataError names the line that is wrong."""
    facts: dict[tuple[str, str], Fact] = {}
    with path.open(encoding="utf-8", newline="") as file:
        rows = csv.DictReader(file)
        if tuple(rows.fieldnames or ()) != COLUMNS:
            raise TradeDataError(f"{path.name}: the columns must be {', '.join(COLUMNS)}")
        for row in rows:
            try:
                fact = _fact(row)
                if (fact.of, fact.fact) in facts:
                    raise ValueError(f"{fact.fact!r} of {fact.of!r} stands twice")
            except ValueError as fault:
                raise TradeDataError(f"{path.name} line {rows.line_num}: {fault}") from fault
            facts[fact.of, fact.fact] = fact
    return Table(path.stem, tuple(facts.values()))


def _fact(row: dict[str, str]) -> Fact:
    if set(row) != set(COLUMNS) or not all(row.values()):
        raise ValueError(f"every row needs {', '.join(COLUMNS)}")
    if row["standing"] not in STANDINGS:
        raise ValueError(f"{row['standing']!r} is no standing")
    value = worth(row["value"], row["unit"])
    standing = cast(Standing, row["standing"])
    return Fact(row["of"], row["fact"], value, row["unit"], standing, row["source"])
