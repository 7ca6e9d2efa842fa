"""The legend: what each line, mark and abbreviation means. Every sheet with a plan carries it."""

from __future__ import annotations

from collections.abc import Callable

from engine.drawings.air_openings import REACH
from engine.drawings.fixtures import HOSE
from engine.drawings.flooring import GREY as FLOORING
from engine.drawings.flooring import SIDE
from engine.drawings.linetypes import (
    BEARING,
    FINE,
    LINE_TYPES,
    MEDIUM,
    THIN,
    WALL_EDGE,
    WALL_FILL,
    WIDE,
    WOOD,
    WOOD_FILL,
)
from engine.drawings.marks import badge
from engine.drawings.piece_marks import SHARE, framed
from engine.drawings.rooms import GREY, KEPT
from engine.drawings.sheet import Content
from engine.drawings.strokes import Arc, Drawing, Fill, Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.drawings.ways_in import EDGE
from engine.drawings.wood import BEAM
from engine.drawings.wood import EDGE as DIAGONALS
from engine.plan.records import Point

_SAMPLE = 1.0
_GAP = 0.08
_ROW = 2.3

Sample = Callable[[float, float, float], list[Stroke]]
"""Draws a sample of an entry: left end and middle height of its place, and the lettering's height."""


def legend(width: float, lettering: float, content: Content = "everything", columns: int = 1) -> Drawing:
    """What a sheet's marks mean, in so many columns over a width, as tall as it needs to be."""
    row = lettering * _ROW
    entries = _entries(content)
    lines = -(-len(entries) // columns)
    height = lines * row
    strokes: list[Stroke] = []
    for n, (sample, words) in enumerate(entries):
        column, line = divmod(n, lines)
        x, y = column * width / columns, height - (line + 0.5) * row
        strokes += sample(x, y, lettering)
        strokes.append(Text((x + _SAMPLE + _GAP, y - lettering / 2.0), words, lettering))
    return Drawing(tuple(strokes), width, height, (0.0, 0.0, width, height))


def columns_in(width: float, lettering: float) -> int:
    """How many columns of the legend a width holds."""
    return max(1, int((width + 0.1) / column_width(lettering)))


def column_width(lettering: float) -> float:
    """How wide one column of the legend is, inches."""
    return _SAMPLE + _GAP + max(text_width(words, lettering) for _, words, _ in _ENTRIES) + 0.12


def _entries(content: Content) -> list[tuple[Sample, str]]:
    return [(sample, words) for sample, words, where in _ENTRIES if content == "everything" or content in where]


def _pipe(system: str) -> Sample:
    kind = LINE_TYPES[system]

    def draw(x: float, y: float, lettering: float) -> list[Stroke]:
        words = Text((x + 0.375, y - lettering / 2.0), kind.letters, lettering, "middle", halo=True)
        return [Line(((x, y), (x + _SAMPLE, y)), kind.weight, kind.dashes), words]

    return draw


def _mark(kind: str) -> Sample:
    def draw(x: float, y: float, lettering: float) -> list[Stroke]:
        return list(badge(kind, (x + _SAMPLE / 2.0, y), "7", lettering))  # type: ignore[arg-type]

    return draw


def _band(fill: float, edge: float) -> Sample:
    def draw(x: float, y: float, lettering: float) -> list[Stroke]:
        low, high = y - lettering * 0.55, y + lettering * 0.55
        box = ((x + 0.1, low), (x + _SAMPLE - 0.1, low), (x + _SAMPLE - 0.1, high), (x + 0.1, high))
        return [Fill(box, fill), Line(box, THIN, grey=edge, closed=True)]

    return draw


def _bearing(x: float, y: float, lettering: float) -> list[Stroke]:
    return [Line(((x, y), (x + _SAMPLE, y)), MEDIUM, BEARING, 0.45)]


def _beam(x: float, y: float, lettering: float) -> list[Stroke]:
    levels = (y - lettering * 0.55, y + lettering * 0.55)
    return [Line(((x + 0.1, level), (x + _SAMPLE - 0.1, level)), MEDIUM, BEAM, 0.35) for level in levels]


def _headed(x: float, y: float, lettering: float) -> list[Stroke]:
    low, high = y - lettering * 0.7, y + lettering * 0.7
    box = ((x + 0.3, low), (x + _SAMPLE - 0.3, low), (x + _SAMPLE - 0.3, high), (x + 0.3, high))
    return [
        Line(box, THIN, closed=True),
        *(Line(pair, FINE, DIAGONALS) for pair in ((box[0], box[2]), (box[1], box[3]))),
    ]


def _opening(x: float, y: float, lettering: float) -> list[Stroke]:
    low, high = y - lettering * 0.55, y + lettering * 0.55
    left, right = x + 0.1, x + _SAMPLE - 0.1
    strokes: list[Stroke] = [Line(((left, level), (right, level)), THIN) for level in (low, high)]
    strokes.append(Line(((left, y), (right, y)), FINE))
    strokes += [Line(((side, low), (side, high)), MEDIUM) for side in (left, right)]
    return strokes


def _reach(x: float, y: float, lettering: float) -> list[Stroke]:
    return [Line(((x, y), (x + _SAMPLE, y)), THIN, REACH)]


def _flooring(x: float, y: float, lettering: float) -> list[Stroke]:
    return [Line(((x, y), (x + _SAMPLE, y)), THIN, SIDE, FLOORING)]


def _through(x: float, y: float, lettering: float) -> list[Stroke]:
    ends = (x + 0.1, y), (x + _SAMPLE - 0.1, y)
    return [Line(ends, MEDIUM, HOSE), *(Arc(end, 0.02, THIN, fill=0.0) for end in ends)]


def _ring(dot: bool, cross: bool) -> Sample:
    def draw(x: float, y: float, lettering: float) -> list[Stroke]:
        centre: Point = (x + _SAMPLE / 2.0, y)
        radius = lettering * 0.75
        strokes: list[Stroke] = [Arc(centre, radius, WIDE)]
        if dot:
            strokes.append(Arc(centre, radius / 3.0, THIN, fill=0.0))
        if cross:
            strokes.append(Line(((centre[0] - radius, y), (centre[0] + radius, y)), MEDIUM))
            strokes.append(Line(((centre[0], y - radius), (centre[0], y + radius)), MEDIUM))
        return strokes

    return draw


def _kept(x: float, y: float, lettering: float) -> list[Stroke]:
    half = lettering * 0.7
    corners = ((x, y - half), (x + _SAMPLE, y - half), (x + _SAMPLE, y + half), (x, y + half))
    return [Line(corners, FINE, KEPT, grey=GREY, closed=True)]


def _cleanout(x: float, y: float, lettering: float) -> list[Stroke]:
    centre, radius = (x + _SAMPLE / 2.0, y), lettering * 0.6
    half = radius * 0.4
    square = tuple((centre[0] + dx * half, y + dy * half) for dx, dy in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
    stub = Line(((x + 0.2, y), (centre[0] - radius, y)), WIDE)
    return [stub, Arc(centre, radius, MEDIUM), Fill(square, 0.0)]


def _hatch(x: float, y: float, lettering: float) -> list[Stroke]:
    centre, half = x + _SAMPLE / 2.0, lettering * 0.75
    square = tuple((centre + dx * half, y + dy * half) for dx, dy in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
    inner = tuple((a + (centre - a) / 3.0, b + (y - b) / 3.0) for a, b in square)
    return [Line(square, THIN, EDGE, closed=True), *(Line(pair, FINE) for pair in zip(square, inner, strict=True))]


def _framed(text: str) -> Sample:
    def draw(x: float, y: float, lettering: float) -> list[Stroke]:
        height = lettering * SHARE
        words = Text((x + _SAMPLE / 2.0, y - height / 2.0), text, height, "middle", bold=True)
        return [words, framed(words)]

    return draw


def _words(text: str) -> Sample:
    def draw(x: float, y: float, lettering: float) -> list[Stroke]:
        return [Text((x + _SAMPLE / 2.0, y - lettering / 2.0), text, lettering, "middle", bold=True)]

    return draw


_ALL: tuple[Content, ...] = ("overview", "drains", "water")
_MEASURED: tuple[Content, ...] = ("drains", "water")
_WASTE: tuple[Content, ...] = ("overview", "drains")
_WATER: tuple[Content, ...] = ("overview", "water")
_FOUND: tuple[Content, ...] = ("overview",)
_DRAINS: tuple[Content, ...] = ("drains",)

_ENTRIES: tuple[tuple[Sample, str, tuple[Content, ...]], ...] = (
    (_pipe("waste"), LINE_TYPES["waste"].words, _WASTE),
    (_pipe("vent"), LINE_TYPES["vent"].words, _WASTE),
    (_pipe("cold"), LINE_TYPES["cold"].words, _WATER),
    (_pipe("hot"), LINE_TYPES["hot"].words, _WATER),
    (_band(WOOD_FILL, WOOD), "joist (numbered), rim, block", _ALL),
    (_beam, "beam under the joists", _ALL),
    (_headed, "opening framed in the floor", _ALL),
    (_band(WALL_FILL, WALL_EDGE), "wall studs", _ALL),
    (_bearing, "bearing line or wall", _ALL),
    (_opening, "window, door or intake", _ALL),
    (_flooring, "edge of another flooring", _FOUND),
    (_ring(dot=False, cross=False), "outlet in the floor", _WASTE),
    (_ring(dot=True, cross=False), "riser in a wall", _WASTE),
    (_ring(dot=False, cross=True), "exit of the drain", _WASTE),
    (_through, "drains through another", _WASTE),
    (_cleanout, "cleanout", _WASTE),
    (_hatch, "way in under the floor", _WASTE),
    (_mark("stop"), "finding: stop for this", _FOUND),
    (_mark("look"), "finding: look at this", _FOUND),
    (_mark("note"), "finding: good to know", _FOUND),
    (_reach, "vent too near an opening", _FOUND),
    (_kept, "room kept clear", _FOUND),
    (_mark("legal cut"), "joist cut: legal", _MEASURED),
    (_mark("illegal cut"), "joist cut: not legal", _MEASURED),
    (_mark("unjudged cut"), "joist cut: not judged", _MEASURED),
    (_framed("D1"), "piece on the cut list", _DRAINS),
    (_words('5" DN'), "axis under the joists' top", _MEASURED),
    (_words("IE"), "invert: inside bottom", _WASTE),
    (_words("VTR"), "vent through the roof", _WASTE),
    (_words("AAV"), "air admittance valve", _WASTE),
)
