"""Windows, doors and air intakes: a light break across the wall with a jamb at either side and a thin line between."""

from __future__ import annotations

import math
from collections.abc import Sequence

from PySide6.QtGui import QBrush

from app import palette
from app.canvas.picture import Picture, Seat, Tag, shape
from app.canvas.places import outline, track
from app.tools.plane import ahead, heading_of, middle
from engine.lengths import feet_inches
from engine.plan.dressed import WALL_DEPTH
from engine.plan.records import AirOpening, Point, Wall
from engine.plan.walls import holds

PAST = 0.75
"""How far the jambs stand out past the studs of the wall, inches."""

USUAL_WALL = "2x4"
"""The wall that an opening is drawn as deep as where it stands in none."""


def draw_opening(opening: AirOpening, walls: Sequence[Wall] = ()) -> Picture:
    """An opening as deep as the wall it stands in, with its name and the height of its top."""
    half = max((WALL_DEPTH[wall.lumber] for wall in _around(opening, walls)), default=WALL_DEPTH[USUAL_WALL]) / 2.0
    area = outline((*_line(opening, half), *reversed(_line(opening, -half))))
    items = [shape(area, palette.pen(palette.WALL_EDGE, 1.0), QBrush(palette.shade(palette.GROUND)))]
    items.append(shape(track((opening.start, opening.end)), palette.pen(palette.AIR, 1.2)))
    heading = heading_of(opening.start, opening.end)
    for end in (opening.start, opening.end):
        jamb = (ahead(end, heading, 0.0, half + PAST), ahead(end, heading, 0.0, -half - PAST))
        items.append(shape(track(jamb), palette.pen(palette.AIR, 2.4)))
    top = f"top {feet_inches(opening.top_above_floor)}"
    words = f"{opening.name}, {top}" if opening.name else top
    run = math.dist(opening.start, opening.end)
    seats = tuple(
        Seat(middle(opening.start, opening.end), heading, room, side, clear=half + PAST)
        for room in (run, None)
        for side in (1, -1)
    )
    tag = Tag(words, seats, palette.AIR, pixels=11)
    return Picture(
        "walls", area, tuple(items), (tag,), f"{opening.name or 'window, door or intake'}: {top} above the floor"
    )


def _around(opening: AirOpening, walls: Sequence[Wall]) -> tuple[Wall, ...]:
    """The walls in which its middle lies."""
    at = middle(opening.start, opening.end)
    return tuple(wall for wall in walls if holds(wall, at))


def _line(opening: AirOpening, off: float) -> tuple[Point, Point]:
    heading = heading_of(opening.start, opening.end)
    return ahead(opening.start, heading, 0.0, off), ahead(opening.end, heading, 0.0, off)
