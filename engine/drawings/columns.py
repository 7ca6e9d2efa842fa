"""Columns of figures under a drawing: one for each line that leads down from it, in rows with their words at the left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from engine.drawings.dimensions import spread
from engine.drawings.linetypes import FINE
from engine.drawings.strokes import Fill, Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.plan.records import Point

BIG = 1.22
"""Lettering of the figures that are read first, as a share."""

LABEL = 0.88
"""Lettering of the rows' words, as a share."""

AIR = 0.12
"""Between the widest figures of two columns, paper inches."""

JOG = 0.15
"""From the drawing down to the columns' heads: where a line moves over to its column, paper inches."""

ZEBRA = 0.955
_LEADING = 1.4


class Row(NamedTuple):
    """One row: its words, for each column the lines that stand in it, its lettering as a share, and whether it is bold."""

    words: str
    cells: tuple[tuple[str, ...], ...]
    share: float = 1.0
    bold: bool = False


def label_width(rows: Sequence[Row], height: float) -> float:
    """How wide the words left of the rows are."""
    return max(text_width(row.words, height * LABEL, row.bold) for row in rows)


def widest(rows: Sequence[Row], height: float) -> float:
    """How wide the widest figure in any column is."""
    return max(
        (text_width(line, height * row.share, row.bold) for row in rows for cell in row.cells for line in cell),
        default=0.0,
    )


def rows_height(rows: Sequence[Row], height: float) -> float:
    """How tall the rows are together."""
    return sum(_tall(row, height) for row in rows)


def figures(
    rows: Sequence[Row], seats: Sequence[float], top: float, room: tuple[float, float], height: float, apart: float
) -> Iterator[Stroke]:
    """The rows from `top` down, their words left of `room`; what is wider than a column is cut off and says so."""
    y = top
    for n, row in enumerate(rows):
        tall = _tall(row, height)
        if n % 2 == 0:
            yield Fill(((0.0, y - tall), (room[1], y - tall), (room[1], y), (0.0, y)), ZEBRA)
        base = y - tall / 2.0
        size = height * LABEL
        yield Text((room[0] - 0.1, base - size / 2.0), row.words, size, "end", bold=row.bold)
        size = height * row.share
        for seat, cell in zip(seats, row.cells, strict=True):
            first = base + (len(cell) - 1) * size * _LEADING / 2.0 - size / 2.0
            for line, text in enumerate(cell):
                words = shortened(text, size, apart - AIR, row.bold)
                yield Text((seat, first - line * size * _LEADING), words, size, "middle", bold=row.bold)
        y -= tall


def lead(start: Sequence[Point], seat: float, heads: float) -> Line:
    """The line from a drawing's foot over to the head of its column."""
    return Line((*start, (seat, heads + 0.03), (seat, heads)), FINE)


def seated(places: Sequence[float], apart: float, low: float, high: float) -> list[float]:
    """Seats in a row near their places (which ascend), no closer than `apart`, from `low` to `high` where they fit."""
    spread_out = spread(dict(enumerate(places)), apart)
    seats = [spread_out[n][1] for n in range(len(places))]
    for n in range(len(seats)):
        seats[n] = max(seats[n], low if n == 0 else seats[n - 1] + apart)
    for n in reversed(range(len(seats))):
        seats[n] = min(seats[n], high if n == len(seats) - 1 else seats[n + 1] - apart)
    return seats


def shortened(words: str, height: float, width: float, bold: bool = False) -> str:
    """A text cut off with an ellipsis where it is wider than its column."""
    if text_width(words, height, bold) <= width + 1e-9:
        return words
    while words and text_width(f"{words}...", height, bold) > width:
        words = words[:-1]
    return f"{words}..."


def _tall(row: Row, height: float) -> float:
    lines = max((len(cell) for cell in row.cells), default=1)
    size = height * row.share
    return size + 0.05 + (max(lines, 1) - 1) * size * _LEADING
