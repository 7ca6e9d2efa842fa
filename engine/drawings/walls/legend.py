"""What the marks on drawings of walls mean: a strip at the foot of every sheet of them."""

from __future__ import annotations

from engine.drawings.elevations.legend import from_here, hole_sample
from engine.drawings.elevations.stick import hatched
from engine.drawings.legend_strip import SAMPLE, Sample, legend_strip
from engine.drawings.linetypes import FINE, LINE_TYPES, MEDIUM, THIN
from engine.drawings.strokes import Drawing, Fill, Line, Stroke
from engine.drawings.walls.side import ASSUMED, EDGES, HIDDEN, STUD_FILL, TIE
from engine.plan.records import Point


def wall_legend(width: float, lettering: float) -> Drawing:
    """The marks with their words in as many rows as the width asks for."""
    return legend_strip(_ENTRIES, width, lettering)


def _box(x: float, y: float, wide: float, lettering: float) -> tuple[Point, Point, Point, Point]:
    left, right = x + (SAMPLE - wide) / 2.0, x + (SAMPLE + wide) / 2.0
    return (left, y - lettering), (right, y - lettering), (right, y + lettering), (left, y + lettering)


def _stud(assumed: bool) -> Sample:
    def draw(x: float, y: float, lettering: float) -> list[Stroke]:
        box = _box(x, y, 0.12, lettering)
        return [Fill(box, 1.0 if assumed else STUD_FILL), Line(box, THIN, ASSUMED if assumed else (), closed=True)]

    return draw


def _cut(hidden: bool) -> Sample:
    def draw(x: float, y: float, lettering: float) -> list[Stroke]:
        stud, low = _box(x, y, 0.2, lettering), lettering * 0.5
        cut = tuple((px, y + (low if py > y else -low)) for px, py in stud)
        return [
            Fill(stud, STUD_FILL),
            Line(stud, FINE, closed=True),
            Fill(cut, 1.0),
            Line(cut, MEDIUM, HIDDEN if hidden else (), closed=True),
        ]

    return draw


def _pipe(system: str) -> Sample:
    def draw(x: float, y: float, lettering: float) -> list[Stroke]:
        half = lettering * 0.5
        return [
            Line(((x, y + side * half), (x + SAMPLE, y + side * half)), THIN, EDGES[system]) for side in (1.0, -1.0)
        ]

    return draw


def _shield(x: float, y: float, lettering: float) -> list[Stroke]:
    box = _box(x, y, 0.16, lettering)
    return [*hatched(box[0], box[2], 0.0, 0.03), Line(box, THIN, closed=True)]


def _tie(x: float, y: float, _lettering: float) -> list[Stroke]:
    return [Fill(((x, y), (x + SAMPLE, y), (x + SAMPLE, y + TIE), (x, y + TIE)), 0.0)]


_ENTRIES: tuple[tuple[Sample, str], ...] = (
    (hole_sample(1.0, "legal cut"), "legal"),
    (hole_sample(0.0, "illegal cut"), "NOT legal: do not cut"),
    (hole_sample(1.0, "unjudged cut"), "not judged: ask first"),
    (_stud(False), "stud"),
    (_stud(True), "stud, place assumed"),
    (_cut(True), "hole through a stud, or notch behind"),
    (_cut(False), "notch in the face seen"),
    (_shield, "steel shield"),
    (_tie, "tie"),
    *((_pipe(system), kind.words) for system, kind in LINE_TYPES.items()),
    (from_here, "measure from here"),
)
