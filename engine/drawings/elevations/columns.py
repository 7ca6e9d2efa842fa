"""Under the joist: a column of figures for each cut, at the end of the line that leads down from it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from engine.drawings import columns as under
from engine.drawings.columns import AIR, BIG, JOG, LABEL, Row
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

_MOST = 1.1


def rows(drawn: Elevation, cuts: Sequence[Shown]) -> tuple[Row, ...]:
    """The rows under a joist, in the order in which they are needed there, with a column for each of `cuts`."""
    end, other = drawn.hook.end, drawn.hook.other

    def row(words: str, of: Callable[[Shown], str], share: float = 1.0, bold: bool = False) -> Row:
        return Row(words, tuple((of(cut),) for cut in cuts), share, bold)

    return (
        row(f"FROM {end.upper()} END", lambda cut: cut.along, BIG, bold=True),
        row(f"or from {other} end", lambda cut: cut.other),
        row("DOWN FROM TOP", lambda cut: cut.down, BIG, bold=True),
        row("or up from bottom", lambda cut: cut.up),
        row("BIT", lambda cut: cut.bit, bold=True),
        row("for", lambda cut: f"{cut.pipe} {cut.run}"),
        row("legal?", lambda cut: {"legal": "yes", "NOT LEGAL": "NO"}.get(cut.verdict, cut.verdict)),
    )


def label_width(drawn: Elevation, height: float) -> float:
    """How wide the words left of the rows are."""
    return under.label_width(rows(drawn, drawn.cuts), height)


def column_width(drawn: Elevation, height: float) -> float:
    """How far two columns stand apart, so that the widest figure has air."""
    text = min(under.widest(rows(drawn, drawn.cuts), height), _MOST)
    marks = [min(len(cut.numbers), IN_A_ROW) * _mark(cut, height) for cut in drawn.cuts]
    return max([text, *marks, height * 4.0]) + AIR


def columns_height(drawn: Elevation, height: float) -> float:
    """From the joist's lower edge to the foot of the last row."""
    figures = under.rows_height(rows(drawn, drawn.cuts), height)
    return JOG + _marks_height(drawn, height) + figures + _box_row(height)


def columns(
    drawn: Elevation, drops: Sequence[Drop], top: float, room: tuple[float, float], height: float
) -> Iterator[Stroke]:
    """The lines down from `top`, the numbers, and the rows; the columns stand within `room`, left to right."""
    apart = column_width(drawn, height)
    seats = under.seated([drop.x for drop in drops], apart, room[0] + apart / 2.0, room[1] - apart / 2.0)
    heads = top - JOG
    first = heads - _marks_height(drawn, height)
    shown = rows(drawn, [drop.cut for drop in drops])
    yield from under.figures(shown, seats, first, room, height, apart)
    y = first - under.rows_height(shown, height)
    for seat, drop in zip(seats, drops, strict=True):
        if drop.cut.verdict != "NOT LEGAL":
            yield from _boxes((seat, y), height)
    size = height * LABEL
    yield Text((room[0] - 0.1, y - _box_row(height) / 2.0 - size / 2.0), "marked, bored", size, "end")
    y -= _box_row(height)
    yield Line(((0.0, first), (room[1], first)), THIN)
    yield Line(((0.0, y), (room[1], y)), FINE, grey=0.4)
    for seat, drop in zip(seats, drops, strict=True):
        yield under.lead(((drop.x, top), (drop.x, top - 0.05)), seat, heads)
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
