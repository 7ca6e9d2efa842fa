"""Openings framed in a floor, and the beams under it."""

from __future__ import annotations

import math

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush

from app import palette
from app.canvas.picture import Picture, Seat, Tag, shape
from app.canvas.places import outline, track
from app.tools.plane import ahead, heading_of, middle
from engine.lengths import feet_inches, inches
from engine.plan.records import Beam, FloorOpening, Point

CARRIES = {
    (False, True): "joists rest on it",
    (False, False): "nothing rests on it",
    (True, True): "joists hang on it",
    (True, False): "joists end at it and nothing hangs on it",
}
"""What a beam does for the joists, by whether it is flush with them and whether it bears."""

PLIES = {1: "single", 2: "double", 3: "triple"}


def draw_floor_opening(opening: FloorOpening) -> Picture:
    """The clear way of an opening with the two diagonals by which drawings tell one, its name and its size."""
    (x0, y0), (x1, y1) = opening.start, opening.end
    corners: tuple[Point, ...] = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    area = outline(corners)
    broken = palette.pen(palette.WOOD_TEXT, 1.0)
    broken.setStyle(Qt.PenStyle.SolidLine if opening.open else Qt.PenStyle.DashLine)
    items = (
        shape(area, palette.pen(palette.WOOD_TEXT, 1.6), QBrush(palette.shade(palette.GROUND))),
        shape(track((corners[0], corners[2])), broken),
        shape(track((corners[1], corners[3])), broken),
    )
    size = f"{feet_inches(x1 - x0)} x {feet_inches(y1 - y0)}"
    words = f"{opening.name or 'opening'} {size}"
    at = middle(opening.start, opening.end)
    below, above = (Seat((at[0], y), 0.0, side=side, clear=1.0) for y, side in ((y0, -1), (y1, 1)))
    tag = Tag(words, (Seat(at, room=x1 - x0), below, above), palette.WOOD_TEXT, pixels=11)
    framed = f"{PLIES[opening.headers]} headers, {PLIES[opening.trimmers]} trimmers"
    over = "the floor is left out over it" if opening.open else "the floor goes on over it"
    return Picture("joists", area, items, (tag,), f"{opening.name or 'floor opening'}, {size} clear: {framed}; {over}")


def draw_beam(beam: Beam, flush: bool) -> Picture:
    """A beam at its real width: broken lines where it lies under the joists, full where it is flush; strokes cross steel."""
    half = beam.width / 2.0
    heading = heading_of(beam.start, beam.end)
    sides = tuple(tuple(ahead(end, heading, 0.0, off) for end in (beam.start, beam.end)) for off in (half, -half))
    area = outline((*sides[0], *reversed(sides[1])))
    edge = palette.pen(palette.BEARING, 1.4, dashes=() if flush else (8.0, 4.0))
    pattern = Qt.BrushStyle.DiagCrossPattern if beam.material == "steel" else Qt.BrushStyle.NoBrush
    fill = QBrush(palette.shade(palette.BEARING, 110), pattern)
    words = f"{beam.name or 'beam'} {inches(beam.width)} x {inches(beam.depth)}"
    made = {"wood": "", "engineered": "engineered ", "steel": "steel "}[beam.material]
    run = math.dist(beam.start, beam.end)
    seats = tuple(
        Seat(_along(beam, share), heading, run, side, clear=half) for share in (0.5, 0.2, 0.8) for side in (1, -1)
    )
    tag = Tag(f"{made}{words}", seats, palette.BEARING, pixels=11)
    tip = f"{made}{words}, {CARRIES[flush, beam.bearing]}: no pipe passes through it"
    return Picture("joists", area, (shape(area, edge, fill),), (tag,), tip)


def _along(beam: Beam, share: float) -> Point:
    (x0, y0), (x1, y1) = beam.start, beam.end
    return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
