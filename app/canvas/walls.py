"""Walls at their real thickness: studs filled, boards as thin lines, bearing ones hatched, exterior ones heavy."""

from __future__ import annotations

import math

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QPainterPath

from app import palette
from app.canvas.picture import Picture, Seat, Tag, shape
from app.canvas.places import outline, track
from app.tools.plane import heading_of, middle
from engine.plan.records import Point, Wall
from engine.trade.lumber import actual


def thickness(wall: Wall) -> float:
    """The depth of a wall's studs, inches: what the framing takes up without its boards."""
    return actual(wall.lumber).depth


def draw_wall(wall: Wall) -> Picture:
    """A wall in plan. Its centre line shows when the pointer needs it, not all the time."""
    half = thickness(wall) / 2.0
    studs = outline(beside(wall, half))
    fill = palette.WALL_EXTERIOR_FILL if wall.exterior else palette.WALL_FILL
    items = []
    if wall.finish > 0.0:
        items.append(shape(outline(beside(wall, half + wall.finish)), fill=QBrush(palette.shade(palette.GROUND))))
        items.append(shape(_boards(wall, half + wall.finish), palette.pen(palette.BOARD_EDGE, 1.0)))
    items.append(shape(studs, palette.pen(palette.WALL_EDGE, 1.8 if wall.exterior else 1.0), _solid(fill)))
    if wall.bearing:
        hatch = QBrush(palette.shade(palette.WALL_EDGE, 200), Qt.BrushStyle.FDiagPattern)
        items.append(shape(studs, fill=hatch))
    run = math.dist(wall.start, wall.end)
    kind = " ".join(word for word, is_so in (("bearing", wall.bearing), ("exterior", wall.exterior)) if is_so)
    tip = " ".join(word for word in (wall.name, wall.lumber, kind, "wall") if word)
    tags: tuple[Tag, ...] = ()
    if wall.name:
        heading = heading_of(wall.start, wall.end)
        clear = half + wall.finish
        seats = tuple(Seat(at, heading, run, side, clear=clear) for at in _thirds(wall) for side in (1, -1))
        tags = (Tag(wall.name, seats, palette.QUIET, pixels=11),)
    return Picture("walls", studs, tuple(items), tags, tip)


def beside(wall: Wall, half: float) -> tuple[Point, Point, Point, Point]:
    """The corners of the strip that reaches `half` inches to either side of a wall's centre line."""
    (x0, y0), (x1, y1) = wall.start, wall.end
    run = math.dist(wall.start, wall.end)
    if run == 0.0:
        return ((x0 - half, y0 - half), (x0 + half, y0 - half), (x0 + half, y0 + half), (x0 - half, y0 + half))
    ox, oy = -(y1 - y0) / run * half, (x1 - x0) / run * half
    return ((x0 - ox, y0 - oy), (x1 - ox, y1 - oy), (x1 + ox, y1 + oy), (x0 + ox, y0 + oy))


def _boards(wall: Wall, half: float) -> QPainterPath:
    right_start, right_end, left_end, left_start = beside(wall, half)
    path = track((right_start, right_end))
    path.addPath(track((left_start, left_end)))
    return path


def _solid(colour: str) -> QBrush:
    return QBrush(palette.shade(colour))


def _thirds(wall: Wall) -> tuple[Point, Point, Point]:
    (x0, y0), (x1, y1) = wall.start, wall.end
    return (
        middle(wall.start, wall.end),
        (x0 + (x1 - x0) / 4.0, y0 + (y1 - y0) / 4.0),
        (x0 + (x1 - x0) * 0.75, y0 + (y1 - y0) * 0.75),
    )
