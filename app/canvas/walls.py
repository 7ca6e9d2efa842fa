"""Walls at their real thickness: studs filled, boards as thin lines, bearing ones hatched, exterior ones heavy."""

from __future__ import annotations

import math

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QPainterPath

from app import palette
from app.canvas.picture import Picture, Seat, Tag, shape
from app.canvas.places import outline, track
from app.tools.plane import ahead, beside, heading_of, middle
from engine.framing.studs import stand
from engine.plan.dressed import WALL_DEPTH
from engine.plan.records import Floor, Point, Wall

HATCHED, STUDDED = 110, 230
"""How strongly a bearing wall's hatch and any wall's studs are drawn, of 255: studs are seen through the hatch."""


def draw_wall(wall: Wall, floor: Floor) -> Picture:
    """A wall in plan. An exterior one has board only on the side that looks over the floor."""
    half = WALL_DEPTH[wall.lumber] / 2.0
    studs = outline((*strip(wall, half), *reversed(strip(wall, -half))))
    fill = palette.WALL_EXTERIOR_FILL if wall.exterior else palette.WALL_FILL
    items = []
    for side in _boarded(wall, floor) if wall.finish > 0.0 else ():
        board = outline((*strip(wall, side * half), *reversed(strip(wall, side * (half + wall.finish)))))
        items.append(shape(board, palette.pen(palette.BOARD_EDGE, 1.0), _solid(palette.GROUND)))
    items.append(shape(studs, palette.pen(palette.WALL_EDGE, 1.8 if wall.exterior else 1.0), _solid(fill)))
    if wall.bearing:
        hatch = QBrush(palette.shade(palette.WALL_EDGE, HATCHED), Qt.BrushStyle.FDiagPattern)
        items.append(shape(studs, fill=hatch))
    items.append(shape(_studs(wall, floor.subfloor), palette.pen(palette.WALL_EDGE, 1.0, alpha=STUDDED)))
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


def _studs(wall: Wall, subfloor: float) -> QPainterPath:
    """The sides of every stud, across the wall."""
    wood, path = stand(wall, subfloor), QPainterPath()
    half = wood.depth / 2.0
    for stud in wood.studs:
        for side in (stud.low, stud.high):
            path.addPath(track((wood.at(side, half), wood.at(side, -half))))
    return path


def strip(wall: Wall, off: float) -> tuple[Point, Point]:
    """The line so many inches to the left of a wall's centre line, from its start to its end."""
    heading = heading_of(wall.start, wall.end)
    return ahead(wall.start, heading, 0.0, off), ahead(wall.end, heading, 0.0, off)


def _boarded(wall: Wall, floor: Floor) -> tuple[float, ...]:
    """The sides that have board: 1 to the left of the drawing direction, -1 to the right."""
    if not wall.exterior:
        return (1.0, -1.0)
    corners = floor.outline
    middle_of_floor = (sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))
    return (math.copysign(1.0, beside(middle_of_floor, wall.start, wall.end)[1]),)


def _solid(colour: str) -> QBrush:
    return QBrush(palette.shade(colour))


def _thirds(wall: Wall) -> tuple[Point, Point, Point]:
    (x0, y0), (x1, y1) = wall.start, wall.end
    return (
        middle(wall.start, wall.end),
        (x0 + (x1 - x0) / 4.0, y0 + (y1 - y0) / 4.0),
        (x0 + (x1 - x0) * 0.75, y0 + (y1 - y0) * 0.75),
    )
