"""What one element looks like: the items to draw, the area to hit, the words to set beside it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem

from app import palette
from app.canvas.places import disc
from engine.plan.records import Point

LAYERS: dict[str, str] = {
    "joists": "Joists and bearing lines",
    "walls": "Walls, windows, doors, hatches, floorings",
    "room": "Room round fixtures",
    "fixtures": "Fixtures",
    "water": "Water",
    "vents": "Vents",
    "drains": "Drains",
    "points": "Risers, exits, inlets, cleanouts, fittings",
    "flow": "Flow and joints",
    "crossings": "Crossings",
    "not_judged": "What could not be judged",
    "findings": "Findings",
    "labels": "Letters and sizes",
    "heights": "Heights of the selection",
    "grid": "Grid",
}
"""The layers that can be shown or hidden, by name, with their words; the lowest comes first."""

HEIGHT_OF = {name: float(rank + 1) for rank, name in enumerate(LAYERS)}
"""How far up each layer lies over the floor, as the scene's z value."""


class Seat(NamedTuple):
    """One place where a text may go, by a plan point and a heading in degrees along which it is read.

    `side` 1 sets it over the line through the point, -1 under it, 0 on the point itself. `anchor` 1 begins the
    text past the point, -1 ends it before the point, 0 centres it there. `clear` is how far from the point the
    ink of what it names reaches, inches. `room` is the length in inches that it must fit into, None for any.
    `off` sets the text's middle so many pixels east and north of the point instead, at the end of a leader.
    """

    at: Point
    heading: float = 0.0
    room: float | None = None
    side: int = 0
    anchor: int = 0
    clear: float = 0.0
    off: tuple[float, float] | None = None


class Turn(IntEnum):
    """Whose turn it is to take a place: what comes later is left out before it covers what came earlier."""

    NAME = 0
    HEIGHT = 1
    CUT = 2
    SLOPE = 3
    LABEL = 4


@dataclass(frozen=True, slots=True)
class Tag:
    """A short text beside an element, and the places where it may go, best first.

    Where none is free an `urgent` one is set all the same, one that `leads` stands off at the end of a line so many
    pixels long at most, and any other is left out.
    """

    text: str
    seats: tuple[Seat, ...]
    colour: str
    bold: bool = False
    pixels: int = 12
    layer: str = "labels"
    urgent: bool = False
    leads: float = 0.0
    turn: Turn = Turn.LABEL


@dataclass(frozen=True, slots=True)
class Picture:
    """One element's picture. `area` is what a pointer hits and a selection outlines, in scene units."""

    layer: str
    area: QPainterPath
    items: tuple[QGraphicsItem, ...] = ()
    tags: tuple[Tag, ...] = ()
    tip: str = ""
    blocks: tuple[tuple[Point, Point], ...] = ()
    """Lines that texts should keep clear of, as pairs of plan points."""


NO_PEN = QPen(Qt.PenStyle.NoPen)
NO_BRUSH = QBrush(Qt.BrushStyle.NoBrush)


def shape(path: QPainterPath, pen: QPen | None = None, fill: QBrush | None = None) -> QGraphicsPathItem:
    """A path item with this pen and fill, or none."""
    item = QGraphicsPathItem(path)
    item.setPen(pen if pen is not None else NO_PEN)
    item.setBrush(fill if fill is not None else NO_BRUSH)
    return item


def dot(at: Point, radius: float, colour: str, weight: float = 0.0, fill: str | None = None) -> QGraphicsPathItem:
    """A round mark of true size: ringed when it has a weight, filled with its own colour when nothing else is said."""
    ring = palette.pen(colour, weight) if weight > 0.0 else None
    return shape(disc(at, radius), ring, QBrush(palette.shade(fill if fill is not None else colour)))
