"""Columns of figures under a piece of wood: one for each cut in it, with its numbers over it and two boxes to tick at its foot.

What is shown in a column is anything that has numbers, a verdict and notes; the rows say what stands in it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Generic, NamedTuple, Protocol, TypeVar

import msgspec

from engine.drawings import columns as under
from engine.drawings.columns import AIR, JOG, LABEL
from engine.drawings.linetypes import FINE, THIN
from engine.drawings.marks import Kind, badge
from engine.drawings.strokes import Fill, Line, Stroke, Text
from engine.drawings.templates import wrapped
from engine.drawings.typeface import text_width
from engine.plan.records import Point, Record

KINDS: dict[str, Kind] = {"legal": "legal cut", "NOT LEGAL": "illegal cut", "not judged": "unjudged cut"}
"""A cut's mark by its verdict."""

IN_A_ROW = 3
"""Numbers that stand beside each other over one column."""

_MOST = 1.1


class Told(Protocol):
    """What a column is of: its numbers, whether it is ``legal``, ``NOT LEGAL`` or ``not judged``, and what else is to be told."""

    @property
    def numbers(self) -> tuple[int, ...]:
        """Its numbers on plan and lists."""

    @property
    def verdict(self) -> str:
        """Whether it is legal."""

    @property
    def notes(self) -> tuple[str, ...]:
        """What has no column, a sentence each."""


T = TypeVar("T", bound=Told)
S = TypeVar("S", bound=Record)


class Drop(NamedTuple, Generic[T]):
    """The line down from a cut: from its middle over to the upright at `x` along which it goes down."""

    cut: T
    start: tuple[Point, ...]
    x: float


class Row(NamedTuple, Generic[T]):
    """One row of figures: its words at the left, what stands in it, its lettering as a share, and whether it is bold."""

    words: str
    of: Callable[[T], str]
    share: float = 1.0
    bold: bool = False


DONE = ("marked, bored",)
"""The words of the row of boxes to tick."""


def label_width(rows: Sequence[Row[T]], height: float, done: Sequence[str] = DONE) -> float:
    """How wide the words left of the rows are."""
    return max(under.label_width(_filled(rows, ()), height), *(text_width(words, height * LABEL) for words in done))


def column_width(rows: Sequence[Row[T]], cuts: Sequence[T], height: float) -> float:
    """How far two columns stand apart, so that the widest figure has air."""
    text = min(under.widest(_filled(rows, cuts), height), _MOST)
    marks = [min(len(cut.numbers), IN_A_ROW) * _mark(cut, height) for cut in cuts]
    return max([text, *marks, height * 4.0]) + AIR


def columns_height(rows: Sequence[Row[T]], cuts: Sequence[T], height: float, done: Sequence[str] = DONE) -> float:
    """From the wood's lower edge to the foot of the last row."""
    figures = under.rows_height(_filled(rows, cuts), height)
    return JOG + _marks_height(cuts, height) + figures + len(done) * _box_row(height)


def columns(
    rows: Sequence[Row[T]],
    drops: Sequence[Drop[T]],
    top: float,
    room: tuple[float, float],
    height: float,
    done: Sequence[str] = DONE,
) -> Iterator[Stroke]:
    """The lines down from `top`, the numbers, and the rows; the columns stand within `room`, left to right.

    `done` are the words of the rows of boxes: one for each piece of wood that shares the drawing.
    """
    cuts = [drop.cut for drop in drops]
    apart = column_width(rows, cuts, height)
    seats = under.seated([drop.x for drop in drops], apart, room[0] + apart / 2.0, room[1] - apart / 2.0)
    heads = top - JOG
    first = heads - _marks_height(cuts, height)
    shown = _filled(rows, cuts)
    yield from under.figures(shown, seats, first, room, height, apart)
    y = first - under.rows_height(shown, height)
    size = height * LABEL
    for words in done:
        for seat, drop in zip(seats, drops, strict=True):
            if drop.cut.verdict != "NOT LEGAL":
                yield from _boxes((seat, y), height)
        yield Text((room[0] - 0.1, y - _box_row(height) / 2.0 - size / 2.0), words, size, "end")
        y -= _box_row(height)
    yield Line(((0.0, first), (room[1], first)), THIN)
    yield Line(((0.0, y), (room[1], y)), FINE, grey=0.4)
    for seat, drop in zip(seats, drops, strict=True):
        yield under.lead(((drop.x, top), (drop.x, top - 0.05)), seat, heads)
        yield from _marks(drop.cut, (seat, heads), height)


def _filled(rows: Sequence[Row[T]], cuts: Sequence[T]) -> tuple[under.Row, ...]:
    """The rows with what stands in them of each cut."""
    return tuple(under.Row(row.words, tuple((row.of(cut),) for cut in cuts), row.share, row.bold) for row in rows)


def notes(cuts: Sequence[T], width: float, height: float) -> list[tuple[str, list[str]]]:
    """What is to be told of cuts besides their columns: the numbers and the lines; cuts told the same share it."""
    told: dict[str, list[int]] = {}
    for cut in cuts:
        for note in cut.notes:
            told.setdefault(note, []).extend(cut.numbers)
    found = []
    for note, numbers in told.items():
        lead = f"No. {', '.join(map(str, sorted(numbers)))}:"
        room = width - text_width(lead, height, bold=True) - 0.08
        found.append((lead, wrapped(note, height, room)))
    return found


def noted(cuts: Sequence[T], width: float, height: float, foot: float) -> tuple[list[Stroke], float]:
    """The notes under the columns from a height down, and the height at which they end."""
    strokes: list[Stroke] = []
    for lead, lines in notes(cuts, width, height):
        indent = text_width(lead, height, bold=True) + 0.08
        for n, line in enumerate(lines):
            foot -= height + 0.055
            if n == 0:
                strokes.append(Text((0.0, foot), lead, height, bold=True))
            strokes.append(Text((indent, foot), line, height))
    return strokes, foot


def grouped(rows: Sequence[Row[T]], cuts: Sequence[T], room: float, height: float) -> tuple[tuple[T, ...], ...]:
    """The cuts in as few groups as have room for a column each, of even number."""
    if not cuts:
        return ((),)
    most = max(1, int(room / column_width(rows, cuts, height)))
    of = -(-len(cuts) // most)
    each = -(-len(cuts) // of)
    return tuple(tuple(cuts[n : n + each]) for n in range(0, len(cuts), each))


def in_parts(drawn: S, groups: Sequence[tuple[object, ...]]) -> tuple[S, ...]:
    """A drawing's subject as it is, or as several of it that have a group of its cuts each and are counted."""
    if len(groups) == 1:
        return (drawn,)
    return tuple(
        msgspec.structs.replace(drawn, cuts=group, part=part, of=len(groups)) for part, group in enumerate(groups, 1)
    )


def _box_row(height: float) -> float:
    return height * 1.7


def _boxes(top: tuple[float, float], height: float) -> Iterator[Stroke]:
    """Two boxes to tick at a column's foot: marked, bored."""
    side = height * 1.15
    low = top[1] - _box_row(height) / 2.0 - side / 2.0
    for left in (top[0] - side - 0.04, top[0] + 0.04):
        corners = ((left, low), (left + side, low), (left + side, low + side), (left, low + side))
        yield Fill(corners, 1.0)
        yield Line(corners, FINE, closed=True)


def _mark(cut: Told, height: float) -> float:
    """How wide one number's mark is with its air."""
    return max(text_width(str(number), height, bold=True) for number in cut.numbers) + 0.11


def _marks_height(cuts: Sequence[T], height: float) -> float:
    lines = max((-(-len(cut.numbers) // IN_A_ROW) for cut in cuts), default=0)
    wide = max((_mark(cut, height) for cut in cuts), default=0.0)
    return lines * max(wide, height + 0.1) + 0.02


def _marks(cut: Told, top: tuple[float, float], height: float) -> Iterator[Stroke]:
    """A cut's numbers under the end of its line, in rows."""
    wide = max(_mark(cut, height), height + 0.1)
    for n, number in enumerate(cut.numbers):
        line, place = divmod(n, IN_A_ROW)
        here = min(IN_A_ROW, len(cut.numbers) - line * IN_A_ROW)
        x = top[0] + (place - (here - 1) / 2.0) * wide
        yield from badge(KINDS[cut.verdict], (x, top[1] - (line + 0.5) * wide), str(number), height)
