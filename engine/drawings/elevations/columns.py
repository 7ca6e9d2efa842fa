"""Under the joist: a column of figures for each cut, at the end of the line that leads down from it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from engine.drawings.dimensions import spread
from engine.drawings.elevations.figures import Shown
from engine.drawings.elevations.holes import Drop
from engine.drawings.elevations.subjects import Elevation
from engine.drawings.linetypes import FINE, THIN
from engine.drawings.marks import Kind, badge
from engine.drawings.strokes import Fill, Line, Stroke, Text
from engine.drawings.templates import wrapped
from engine.drawings.typeface import text_width

KINDS: dict[str, Kind] = {"legal": "legal cut", "NOT LEGAL": "illegal cut", "not judged": "unjudged cut"}
"""A cut's mark by its verdict."""

IN_A_ROW = 3
"""Numbers that stand beside each other over one column."""

_AIR = 0.12
_MOST = 1.1
_LABEL = 0.88
_BIG = 1.22
_ZEBRA = 0.955
_JOG = 0.15


class Row(NamedTuple):
    """One row of figures: its words at the left, what stands in it, its lettering as a share, and whether it is bold."""

    words: str
    of: Callable[[Shown], str]
    share: float = 1.0
    bold: bool = False


def rows(drawn: Elevation) -> tuple[Row, ...]:
    """The rows under a joist, in the order in which they are needed there."""
    end, other = drawn.hook.end, drawn.hook.other
    return (
        Row(f"FROM {end.upper()} END", lambda cut: cut.along, _BIG, bold=True),
        Row(f"or from {other} end", lambda cut: cut.other),
        Row("DOWN FROM TOP", lambda cut: cut.down, _BIG, bold=True),
        Row("or up from bottom", lambda cut: cut.up),
        Row("BIT", lambda cut: cut.bit, bold=True),
        Row("for", lambda cut: f"{cut.pipe} {cut.run}"),
        Row("legal?", lambda cut: {"legal": "yes", "NOT LEGAL": "NO"}.get(cut.verdict, cut.verdict)),
    )


def label_width(drawn: Elevation, height: float) -> float:
    """How wide the words left of the rows are."""
    told = [text_width(row.words, height * _LABEL, row.bold) for row in rows(drawn)]
    return max(*told, *(text_width(words, height * _LABEL) for words in _done(drawn)))


def _done(drawn: Elevation) -> list[str]:
    """The words of the rows of boxes to tick: one for each joist that shares the drawing."""
    return ["marked, bored"] if len(drawn.names) == 1 else [f"{name}: marked, bored" for name in drawn.names]


def column_width(drawn: Elevation, height: float) -> float:
    """How far two columns stand apart, so that the widest figure has air."""
    texts = [
        min(text_width(row.of(cut), height * row.share, row.bold), _MOST) for row in rows(drawn) for cut in drawn.cuts
    ]
    marks = [min(len(cut.numbers), IN_A_ROW) * _mark(cut, height) for cut in drawn.cuts]
    return max([*texts, *marks, height * 4.0]) + _AIR


def columns_height(drawn: Elevation, height: float) -> float:
    """From the joist's lower edge to the foot of the last row."""
    figures = sum(_row_height(row, height) for row in rows(drawn))
    return _JOG + _marks_height(drawn, height) + figures + len(_done(drawn)) * _box_row(height)


def columns(
    drawn: Elevation, drops: Sequence[Drop], top: float, room: tuple[float, float], height: float
) -> Iterator[Stroke]:
    """The lines down from `top`, the numbers, and the rows; the columns stand within `room`, left to right."""
    apart = column_width(drawn, height)
    seats = seated([drop.x for drop in drops], apart, room[0] + apart / 2.0, room[1] - apart / 2.0)
    heads = top - _JOG
    marks = _marks_height(drawn, height)
    y = heads - marks
    for n, row in enumerate(rows(drawn)):
        tall = _row_height(row, height)
        if n % 2 == 0:
            box = ((0.0, y - tall), (room[1], y - tall), (room[1], y), (0.0, y))
            yield Fill(box, _ZEBRA)
        base = y - tall / 2.0
        size = height * _LABEL
        yield Text((room[0] - 0.1, base - size / 2.0), row.words, size, "end", bold=row.bold)
        for seat, drop in zip(seats, drops, strict=True):
            size = height * row.share
            words = shortened(row.of(drop.cut), size, apart - _AIR, row.bold)
            yield Text((seat, base - size / 2.0), words, size, "middle", bold=row.bold)
        y -= tall
    for done in _done(drawn):
        for seat, drop in zip(seats, drops, strict=True):
            if drop.cut.verdict != "NOT LEGAL":
                yield from _boxes((seat, y), height)
        base = y - _box_row(height) / 2.0 - height * _LABEL / 2.0
        yield Text((room[0] - 0.1, base), done, height * _LABEL, "end")
        y -= _box_row(height)
    yield Line(((0.0, heads - marks), (room[1], heads - marks)), THIN)
    yield Line(((0.0, y), (room[1], y)), FINE, grey=0.4)
    for seat, drop in zip(seats, drops, strict=True):
        path = ((drop.x, top), (drop.x, top - 0.05), (seat, heads + 0.03), (seat, heads))
        yield Line(path, FINE)
        yield from _marks(drop.cut, (seat, heads), height)


def notes(drawn: Elevation, width: float, height: float) -> list[tuple[str, list[str]]]:
    """What is to be told of cuts besides their columns: the numbers and the lines; cuts told the same share it."""
    told: dict[str, list[int]] = {}
    for cut in drawn.cuts:
        for note in cut.notes:
            told.setdefault(note, []).extend(cut.numbers)
    found = []
    for note, numbers in told.items():
        lead = f"No. {', '.join(map(str, sorted(numbers)))}:"
        room = width - text_width(lead, height, bold=True) - 0.08
        found.append((lead, wrapped(note, height, room)))
    return found


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


def _row_height(row: Row, height: float) -> float:
    return height * row.share + 0.05


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


def _mark(cut: Shown, height: float) -> float:
    """How wide one number's mark is with its air."""
    return max(text_width(str(number), height, bold=True) for number in cut.numbers) + 0.11


def _marks_height(drawn: Elevation, height: float) -> float:
    lines = max((-(-len(cut.numbers) // IN_A_ROW) for cut in drawn.cuts), default=0)
    wide = max((_mark(cut, height) for cut in drawn.cuts), default=0.0)
    return lines * max(wide, height + 0.1) + 0.02


def _marks(cut: Shown, top: tuple[float, float], height: float) -> Iterator[Stroke]:
    """A cut's numbers under the end of its line, in rows."""
    wide = max(_mark(cut, height), height + 0.1)
    for n, number in enumerate(cut.numbers):
        line, place = divmod(n, IN_A_ROW)
        here = min(IN_A_ROW, len(cut.numbers) - line * IN_A_ROW)
        x = top[0] + (place - (here - 1) / 2.0) * wide
        yield from badge(KINDS[cut.verdict], (x, top[1] - (line + 0.5) * wide), str(number), height)
