"""The heights and slope to read along a selected run, as the tape hooks them: down from the joists' top."""

from __future__ import annotations

import math
from collections.abc import Iterator

from app import palette
from app.canvas.picture import Seat, Tag, Turn
from app.tools.plane import heading_of
from engine.lengths import inches
from engine.piping.records import UNDER, Node, Pipe
from engine.plan.records import Cleanout, Drain, Element, Exit, Fixture, Point, Riser, Vent
from engine.study import Study
from engine.trade import pipe as trade_pipe

FALLBACK_CLEAR = 1.0
"""Room kept between a height and a pipe whose size is not known, inches."""


FAR_OFF, NEAR_BY = 185.0, 40.0
"""How far a height and a slope may stand off, pixels: a slope is rather left out."""

STEEP = 0.5
"""Sine of the heading from which a run counts as steep on the sheet."""


def height_tags(element: Element, study: Study, told: set[Point]) -> tuple[Tag, ...]:
    """What to write along an element: its nodes' heights, its slope, and its heights at the joists it meets.

    Places in `told` have their height from another element already; those written now are added.
    """
    return (*_nodes(element, study, told), *_slope(element, study), *_cuts(element, study, told))


def down(z: float) -> str:
    """A height as a tape reads it from the joists' top: `6 1/16 down`, or `3/4 up`."""
    return f"{inches(-z)} down" if z <= 0.0 else f"{inches(z)} up"


def _nodes(element: Element, study: Study, told: set[Point]) -> Iterator[Tag]:
    for point, heading in _points(element):
        z = study.model.heights.get(Node(point[0], point[1], UNDER))
        if z is not None and point not in told:
            told.add(point)
            seats = tuple(_beside(point, heading, _half(element, study)))
            yield Tag(down(z), seats, palette.INK, True, layer="heights", leads=FAR_OFF, turn=Turn.HEIGHT)


def _beside(point: Point, heading: float, clear: float) -> Iterator[Seat]:
    """Places for a height, read level where the run is steep: stretches are often shorter than the words."""
    steep = abs(math.sin(math.radians(heading))) > STEEP
    aside = [Seat(point, 0.0, None, 0, anchor, clear) for anchor in (1, -1)]
    over = [Seat(point, 0.0, None, side, 0, clear) for side in (1, -1)]
    corners = [Seat(point, 0.0, None, side, anchor, clear) for side in (1, -1) for anchor in (1, -1)]
    yield from (*aside, *corners, *over) if steep else (*over, *corners, *aside)


def _slope(element: Element, study: Study) -> Iterator[Tag]:
    if isinstance(element, Riser):
        return
    own = [pipe for pipe in study.model.network.pipes if pipe.element == element.id and pipe.run > 0.0]
    if own:
        longest = max(own, key=lambda pipe: pipe.run)
        text, seats = f"{inches(longest.slope)} in per ft", tuple(_along(longest))
        yield Tag(text, seats, palette.INK, layer="heights", leads=NEAR_BY, turn=Turn.SLOPE)


def _cuts(element: Element, study: Study, told: set[Point]) -> Iterator[Tag]:
    for cut in study.model.cuts:
        if element.id in cut.elements and not (cut.tubes and cut.at in told):
            if cut.tubes:
                told.add(cut.at)
            colour = {True: palette.LEGAL, False: palette.BROKEN, None: palette.UNKNOWN}[cut.legal]
            clear = cut.diameter / 2.0 + 1.0
            seats = tuple(Seat(cut.at, 0.0, None, side, anchor, clear) for side in (-1, 1) for anchor in (0,))
            yield Tag(f"{inches(cut.down_from_top)} down", seats, colour, pixels=11, layer="heights", turn=Turn.CUT)


def _along(pipe: Pipe) -> Iterator[Seat]:
    start, end = (pipe.start.x, pipe.start.y), (pipe.end.x, pipe.end.y)
    heading, clear = heading_of(start, end), trade_pipe.drain(pipe.size).od / 2.0
    for share in (0.5, 0.35, 0.65, 0.2, 0.8):
        at = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
        for side in (1, -1):
            yield Seat(at, heading, None, side, clear=clear)


def _points(element: Element) -> Iterator[tuple[Point, float]]:
    """The plan points of an element that have a height, each with the heading of the stretch before it."""
    match element:
        case Drain() | Vent():
            points = element.points
            for k, point in enumerate(points):
                before = points[max(k - 1, 0)], points[max(k, 1)]
                yield point, heading_of(*before)
        case Fixture() | Riser() | Exit() | Cleanout(above_floor=None):
            yield element.at, 0.0
        case _:
            return


def _half(element: Element, study: Study) -> float:
    sizes = [pipe.size for pipe in study.model.network.pipes if pipe.element == element.id]
    return trade_pipe.drain(max(sizes)).od / 2.0 if sizes else FALLBACK_CLEAR
