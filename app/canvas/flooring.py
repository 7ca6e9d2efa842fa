"""Areas with a flooring of their own: a tinted rectangle with its edge, and what lies there with how thick it is."""

from __future__ import annotations

from PySide6.QtGui import QBrush, QPainterPathStroker

from app import palette
from app.canvas.picture import Picture, Seat, Tag, shape
from app.canvas.places import outline
from app.tools.plane import middle
from engine.lengths import feet_inches, inches
from engine.plan.outline import flooring_words
from engine.plan.records import FlooringArea

EDGE = 4.0
"""How wide the edge is that a pointer hits, inches: what stands on the area and what carries it stay in reach."""

TINT = 26
"""How much of the tint covers what lies under it, of 255."""


def draw_flooring(area: FlooringArea) -> Picture:
    """The area's tint and edge; its name and thickness in a corner, since fixtures stand in its middle."""
    (x0, y0), (x1, y1) = area.start, area.end
    whole = outline(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
    edge = palette.pen(palette.FLOORING, 1.4, dashes=(7.0, 2.5, 1.5, 2.5))
    items = (shape(whole, edge, QBrush(palette.shade(palette.FLOORING, TINT))),)
    stroker = QPainterPathStroker()
    stroker.setWidth(EDGE)
    words = f"{area.name or 'flooring'} {inches(area.finish)} in"
    centre = middle(area.start, area.end)
    seats = (
        *(Seat((centre[0], y), side=side, room=x1 - x0, clear=1.0) for y, side in ((y1, -1), (y0, 1))),
        Seat(centre, room=x1 - x0),
        *(Seat((x, centre[1]), 90.0, y1 - y0, side, clear=1.0) for x, side in ((x0, -1), (x1, 1))),
        *(Seat((centre[0], (y + centre[1]) / 2.0), room=x1 - x0) for y in (y0, y1)),
        *(Seat((centre[0], y), side=side, clear=1.0) for y, side in ((y1, 1), (y0, -1))),
    )
    tag = Tag(words, seats, palette.FLOORING, pixels=11)
    size = f"{feet_inches(x1 - x0)} x {feet_inches(y1 - y0)}"
    tip = f"{area.name or 'flooring'}, {size}: finish {flooring_words(area)}"
    return Picture("walls", stroker.createStroke(whole), items, (tag,), tip)
