"""A wall from the side: studs, plates, pipes with their fittings, what is bored and notched, steel; and where the studs stand."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.drawings.columns import seated
from engine.drawings.elevations.stick import hatched
from engine.drawings.linetypes import FINE, MEDIUM, THIN, WIDE
from engine.drawings.strokes import Dashes, Fill, Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.drawings.walls.records import Fitting, Level, Shown, Standing, Steel, WallView
from engine.lengths import inches
from engine.plan.records import Point

STUD_FILL = 0.95
PLATE_FILL = 0.86
SUBFLOOR_FILL = 0.72

ASSUMED: Dashes = (0.05, 0.03)
"""Edges of a stud whose place is only assumed."""

HIDDEN: Dashes = (0.025, 0.02)
"""Edges of what lies behind the face that is seen."""

TIE = 0.035
"""How thick a tie is drawn on the top plates, paper inches."""

EDGES: dict[str, Dashes] = {
    "waste": (),
    "vent": (0.07, 0.035),
    "cold": (0.12, 0.03, 0.016, 0.03),
    "hot": (0.12, 0.03, 0.016, 0.03, 0.016, 0.03),
}
"""Patterns of pipes' edges, after those of the plans, shorter since walls are small on paper."""

_TICK = 0.03

ARROW = 0.05
"""Half the length of the arrow on a pipe that goes on upward, paper inches."""

_BESIDE = 0.08


class Side(NamedTuple):
    """Where a wall lies on paper: its hooked end at the subfloor's top, and how many inches a paper inch shows."""

    left: float
    foot: float
    along: float
    up: float

    def at(self, along: float, height: float) -> Point:
        """The paper point of a distance from the hooked end and a height over the subfloor's top."""
        return self.left + along / self.along, self.foot + height / self.up

    def box(self, left: float, low: float, right: float, high: float) -> tuple[Point, Point, Point, Point]:
        """A rectangle of the wall on paper."""
        return self.at(left, low), self.at(right, low), self.at(right, high), self.at(left, high)


def wood(side: Side, drawn: WallView) -> Iterator[Stroke]:
    """Subfloor, sole plate, studs and top plates."""
    length, (under, top) = drawn.hook.length, drawn.plates
    yield Fill(side.box(0.0, -drawn.subfloor, length, 0.0), SUBFLOOR_FILL)
    for stud in drawn.studs:
        box = side.box(stud.low, drawn.sole, stud.high, under)
        yield Fill(box, 1.0 if stud.assumed else STUD_FILL)
        yield Line(box, THIN, ASSUMED if stud.assumed else (), 0.15, closed=True)
    middle = (under + top) / 2.0
    layers = ((0.0, drawn.sole), (under, middle), (middle, top)) if drawn.double else ((0.0, drawn.sole), (under, top))
    for low, high in layers:
        box = side.box(0.0, low, length, high)
        yield Fill(box, PLATE_FILL)
        yield Line(box, MEDIUM, closed=True)


def pipes(side: Side, drawn: WallView) -> Iterator[Stroke]:
    """Plumb and level pipe at its true width, its fittings, and what it asks of the wood."""
    for lying in drawn.lying:
        yield from _lying(side, lying)
    for cut in drawn.cuts:
        if cut.height is not None:
            yield from _stud_cut(side, drawn, cut)
    for standing in drawn.standing:
        yield from _standing(side, standing)
    for fitting in drawn.fittings:
        yield from _fitting(side, fitting)
    for steel in drawn.steel:
        yield from _steel(side, drawn, steel)


def stud_box(drawn: WallView, cut: Shown) -> tuple[float, float, float, float]:
    """What a cut takes of its stud as it is seen: left, low, right, high, inches."""
    stud = next((one for one in drawn.studs if one.low - 1e-6 <= cut.at <= one.high + 1e-6), None)
    low, high = (cut.at, cut.at) if stud is None else (stud.low, stud.high)
    middle = cut.height or 0.0
    return low, middle - cut.wide / 2.0, high, middle + cut.wide / 2.0


def _stud_cut(side: Side, drawn: WallView, cut: Shown) -> Iterator[Stroke]:
    box = side.box(*stud_box(drawn, cut))
    illegal = cut.verdict == "NOT LEGAL"
    yield Fill(box, 0.0 if illegal else 1.0)
    yield Line(box, MEDIUM, () if cut.kind == "notch" and not cut.behind else HIDDEN, closed=True)
    x, y = side.at(cut.at, cut.height or 0.0)
    reach, grey = 0.03, 1.0 if illegal else 0.0
    yield Line(((x - reach, y), (x + reach, y)), THIN, grey=grey)
    yield Line(((x, y - reach), (x, y + reach)), THIN, grey=grey)


def _standing(side: Side, pipe: Standing) -> Iterator[Stroke]:
    half = pipe.outside / 2.0
    box = side.box(pipe.at - half, pipe.low, pipe.at + half, pipe.high)
    yield Fill(box, 1.0)
    for edge in (pipe.at - half, pipe.at + half):
        yield Line((side.at(edge, pipe.low), side.at(edge, pipe.high)), THIN, EDGES[pipe.system])
    if pipe.cut_off:
        x, y = side.at(pipe.at, pipe.high)
        yield Fill(((x, y + 2.0 * ARROW), (x - 0.6 * ARROW, y + 0.4 * ARROW), (x + 0.6 * ARROW, y + 0.4 * ARROW)), 0.0)


def _lying(side: Side, pipe: Level) -> Iterator[Stroke]:
    half = pipe.outside / 2.0
    (x0, z0), (x1, z1) = pipe.ends
    if pipe.crossing:
        x0, x1 = (x0 + x1) / 2.0 - half, (x0 + x1) / 2.0 + half
    box = (side.at(x0, z0 - half), side.at(x1, z1 - half), side.at(x1, z1 + half), side.at(x0, z0 + half))
    yield Fill(box, 1.0)
    yield Line(box[:2], THIN, EDGES[pipe.system])
    yield Line(box[2:], THIN, EDGES[pipe.system])
    if pipe.crossing:
        yield Line((box[0], box[2]), FINE)
        yield Line((box[1], box[3]), FINE)
        yield Line(box, THIN, closed=True)


def _fitting(side: Side, fitting: Fitting) -> Iterator[Stroke]:
    """A tee's branch toward or from the one who looks: a square round the pipe; a cleanout's has its plug within."""
    half = fitting.outside / 2.0 + fitting.outside * 0.12
    box = side.box(fitting.at - half, fitting.height - half, fitting.at + half, fitting.height + half)
    yield Fill(box, 1.0)
    yield Line(box, MEDIUM, closed=True)
    x, y = side.at(fitting.at, fitting.height)
    reach = half * 0.55 / side.along
    yield Line(((x - reach, y), (x + reach, y)), THIN)
    yield Line(((x, y - reach), (x, y + reach)), THIN)
    if fitting.cleanout:
        inner = side.box(
            fitting.at - half * 0.5, fitting.height - half * 0.5, fitting.at + half * 0.5, fitting.height + half * 0.5
        )
        yield Line(inner, THIN, closed=True)


def _steel(side: Side, drawn: WallView, steel: Steel) -> Iterator[Stroke]:
    low, high = max(steel.low, 0.0), min(steel.high, drawn.hook.length)
    if steel.kind == "tie":
        a, b = side.at(low, steel.foot), side.at(high, steel.foot)
        yield Fill((a, b, (b[0], b[1] + TIE), (a[0], a[1] + TIE)), 0.0)
        return
    box = side.box(low, steel.foot, high, steel.top)
    yield from hatched(box[0], box[2], 0.0, 0.03)
    yield Line(box, THIN, closed=True)


def stud_rows(side: Side, drawn: WallView, height: float, right: float) -> tuple[list[Stroke], float]:
    """Over the wall each stud's number and its near side from the hooked end; and how high that stands over the plates."""
    small = height * 0.92
    figures = [f'{inches(stud.low)}"' for stud in drawn.studs]
    places = [side.at((stud.low + stud.high) / 2.0, 0.0)[0] for stud in drawn.studs]
    widest = max((text_width(words, small) for words in figures), default=0.0)
    flat = len(places) * (widest + _BESIDE) <= side.at(drawn.hook.length, 0.0)[0] - side.left + widest
    tall, apart = (small, widest + _BESIDE) if flat else (widest, small * 1.35)
    y = side.at(0.0, drawn.plates[1])[1] + 2.0 * ARROW + 0.06
    strokes: list[Stroke] = []
    seats = seated(places, apart, side.left, side.at(drawn.hook.length, 0.0)[0])
    for stud, words, place, seat in zip(drawn.studs, figures, places, seats, strict=True):
        edge = side.at(stud.low, drawn.plates[1])
        strokes.append(Line((edge, (edge[0], edge[1] + 0.05)), FINE))
        if abs(seat - place) > 0.01:
            strokes.append(Line(((edge[0], edge[1] + 0.05), (seat, y - 0.02)), FINE, grey=0.4))
        if flat:
            strokes.append(Text((seat, y), words, small, "middle"))
        else:
            strokes.append(Text((seat + small / 2.0, y), words, small, angle=90.0))
        strokes.append(Text((seat, y + tall + 0.06), str(stud.number), small, "middle", bold=True))
    label = side.left - 0.1
    strokes.append(
        Text(
            (label, y + (0.0 if flat else tall / 2.0 - small / 2.0)),
            f"stud's near side from {drawn.hook.end} end",
            small * 0.95,
            "end",
        )
    )
    strokes.append(Text((label, y + tall + 0.06), "stud", small * 0.95, "end"))
    return strokes, y + tall + 0.06 + small - side.at(0.0, drawn.plates[1])[1]


def heights(side: Side, drawn: WallView, height: float) -> Iterator[Stroke]:
    """At the far end the heights of the plates over the subfloor's top, which the tape hooks."""
    small = height * 0.88
    x = side.at(drawn.hook.length, 0.0)[0]
    told = [(z, words) for z, words in height_words(drawn)]
    y_last = -1e9
    for z, words in told:
        y = side.at(0.0, z)[1]
        seat = max(y - small / 2.0, y_last + small * 1.4)
        y_last = seat
        yield Line(((x + 0.02, y), (x + 0.09, y), (x + 0.15, seat + small / 2.0)), FINE, grey=0.3)
        yield Text((x + 0.18, seat), words, small)
    foot = side.at(drawn.hook.length, 0.0)
    yield Line(((x + 0.02, foot[1]), (x + 0.09, foot[1])), WIDE)


def height_words(drawn: WallView) -> list[tuple[float, str]]:
    """The heights that a wall's drawing tells, from the subfloor up, with their words."""
    plates = "PLATES" if drawn.double else "PLATE"
    return [
        (0.0, "SUBFLOOR: HOOK HERE"),
        (drawn.sole, f'{inches(drawn.sole)}" SOLE PLATE'),
        (drawn.plates[0], f'{inches(drawn.plates[0])}" UNDER TOP {plates}'),
        (drawn.plates[1], f'{inches(drawn.plates[1])}" TOP OF {plates}'),
    ]
