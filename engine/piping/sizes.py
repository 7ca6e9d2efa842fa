"""What holds a pipe to its size: each demand with the value that makes it, and the least that satisfies them all."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Literal

from engine.piping.drain_kinds import DrainKind
from engine.plan.records import Record
from engine.rulebooks import RuleBook
from engine.trade.habits import LEAST_STOCKED_DRAIN
from engine.trade.pipe import DRAIN_SIZES, PipeSizeError, label, nominal

LADDER = tuple(map(nominal, ("1-1/4", "1-1/2", "2", "2-1/2", "3", "4")))
"""Pipe sizes as the codes count them, with 2-1/2 in, which stores rarely have and which can't be drawn."""
STOCKED = tuple(size for size in DRAIN_SIZES if size >= LEAST_STOCKED_DRAIN)
"""The sizes that an automatic size may take, smallest first."""

SLOPES = (("1/2", 0.5), ("1/4", 0.25), ("1/8", 0.0))
"""The building-drain table's columns, steepest first, each with the least slope that it is for, in per ft."""

By = Literal[
    "load",
    "fixtures",
    "trap",
    "trap alone",
    "closet",
    "closets",
    "large fixture",
    "sink",
    "past the arm",
    "upstream",
    "shared vent",
    "closet's bend",
    "drain served",
    "stack served",
    "least vent",
    "vented load",
    "vent of a closet",
    "length",
    "level length",
    "stocked",
]
"""What may hold a pipe to a size."""


class Ask(Record, frozen=True, gc=False):
    """One demand on a pipe's size.

    `size` is the least that can be drawn and satisfies it, nominal inches, and `listed` the book's own answer where it
    is one that can't be drawn. `key` is the book's value that makes the demand, `load` what is compared with it and
    `most` what the book gives at `size`. `element` is the fixture or pipe that it comes from. `doubtful` marks a table
    that may not be meant for this pipe: an automatic size heeds it, a drawn one is only looked at.
    """

    by: By
    size: float
    key: str = ""
    load: float | None = None
    most: float | None = None
    element: str = ""
    listed: float | None = None
    doubtful: bool = False

    @property
    def rows(self) -> str:
        """The book's table in which the value that makes the demand is a row."""
        return self.key.rsplit(".", 1)[0]


class DrainSize(Record, frozen=True, gc=False):
    """A drain's least size and what asks for it.

    `required` is the least that the book allows for what the pipe carries, all pipes upstream being of theirs; `least`
    is no smaller than the pipes upstream as they are, and stocked. `counts` are the tables that the load was held
    against, each at the size that it comes to.
    """

    pipe: str
    kind: DrainKind
    required: float
    least: float
    asks: tuple[Ask, ...]


class VentSize(Record, frozen=True, gc=False):
    """A dry vent's least size and what asks for it.

    `serves` are the fixtures whose air comes through it, `load` their fixture units, `drain` the largest drain that the
    book requires of what it serves. `length` is its developed length from the furthest drain to where it is measured
    to, `level` how much of that lies level: inches, as far as heights are known before the falls are.
    """

    pipe: str
    serves: tuple[str, ...]
    load: float
    drain: float
    length: float
    level: float
    required: float
    least: float
    asks: tuple[Ask, ...]


def set_by(asks: tuple[Ask, ...], size: float) -> tuple[Ask, ...]:
    """The demands that make a size what it is, in the order in which they were asked."""
    return tuple(ask for ask in asks if ask.size == size)


def sold(size: float) -> float:
    """The smallest size that can be drawn and is no smaller; the largest there is where none is."""
    return next((one for one in DRAIN_SIZES if one >= size), DRAIN_SIZES[-1])


def sizes_up(size: float, steps: int) -> float:
    """The size so many steps up the ladder of pipe sizes, half sizes counted; the largest where it ends."""
    ladder = [one for one in LADDER if one >= size]
    return ladder[min(steps, len(ladder) - 1)] if ladder else LADDER[-1]


def slope_column(slope: float) -> str:
    """The building-drain table's column for a slope: the steepest that it reaches, else the flattest."""
    return next((text for text, least in SLOPES if slope >= least), SLOPES[-1][0])


Share = Callable[[float], float]
"""What share of its row a size may carry."""


def whole(size: float) -> float:
    """All of it, whatever the size."""
    return 1.0


class Table:
    """One of a book's tables of what each size takes, as rows of size and value, smallest first."""

    __slots__ = ("key", "rows")

    def __init__(self, book: RuleBook, key: str) -> None:
        self.key = key
        rows = []
        for row in book.keys(key):
            size = _size(row.removeprefix(f"{key}."))
            if size is not None:
                rows.append((size, book.number(row)))
        self.rows = sorted(rows)

    def at(self, size: float) -> float | None:
        """What a size takes; None where the table has no such row."""
        return next((most for row, most in self.rows if row == size), None)

    def needed(self, load: float, share: Share = whole) -> float | None:
        """The smallest size whose row takes the load; None where none does."""
        return next((size for size, most in self.rows if most * share(size) >= load), None)

    def ask(self, load: float, by: By = "load", share: Share = whole, doubtful: bool = False) -> Ask:
        """The demand that a load makes by this table: the largest size that can be drawn where no row takes it."""
        needed = self.needed(load, share)
        size = sold(needed) if needed is not None else DRAIN_SIZES[-1]
        most = self.at(size)
        listed = needed if needed != size else None
        given = None if most is None else most * share(size)
        return Ask(by, size, f"{self.key}.{label(size)}", load, given, listed=listed, doubtful=doubtful)


def _size(text: str) -> float | None:
    try:
        return nominal(text)
    except PipeSizeError:
        return None


@lru_cache(maxsize=256)
def table(book: RuleBook, key: str) -> Table:
    """A table of a book, kept; without rows where the book has none."""
    return Table(book, key)
