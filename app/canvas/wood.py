"""Fields of joists drawn as the real wood that they lay out, with their names and bearing lines."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtGui import QBrush, QPainterPath

from app import palette
from app.canvas.picture import Picture, Seat, Tag, Turn, shape
from app.canvas.places import outline, track
from app.tools.plane import heading_of, middle
from engine.drawings.wood import between_plies
from engine.framing.records import Joist
from engine.plan.dressed import JOIST_THICKNESS
from engine.plan.fields import along
from engine.plan.records import Floor, JoistField, Point

RIM = JOIST_THICKNESS
"""From a joist's end to the outside of the rim that it stands against, inches."""


def draw_field(field: JoistField, joists: Sequence[Joist], floor: Floor) -> Picture:
    """A field of joists: every stick at its true thickness, webs dashed, bearing lines with their letters.

    Its area is its rectangle, of which one that is cut off at the outline keeps what lies on the floor.
    """
    wood, webs, plies = QPainterPath(), QPainterPath(), QPainterPath()
    for joist in joists:
        wood.addPath(outline(_corners(joist)))
        if joist.member == "engineered" and joist.runs and joist.kind != "end":
            webs.addPath(track((joist.start, joist.end)))
        for line in between_plies(joist):
            plies.addPath(track(line))
    west, south = field.corner
    east, north = west + field.size[0], south + field.size[1]
    area = outline(((west, south), (east, south), (east, north), (west, north)))
    if field.to_outline:
        area = area.intersected(outline(floor.outline))
    edge = palette.pen(palette.WOOD_EDGE, 1.0)
    items = [shape(wood, edge, QBrush(palette.shade(palette.WOOD_FILL)))]
    if not webs.isEmpty():
        items.append(shape(webs, palette.pen(palette.WOOD_EDGE, 1.0, dashes=(4.0, 3.0))))
    if not plies.isEmpty():
        items.append(shape(plies, palette.pen(palette.WOOD_EDGE, 0.8)))
    tags: list[Tag] = []
    for start, end in bearing_lines(field):
        items.append(shape(track((start, end)), palette.pen(palette.BEARING, 1.6, dashes=(7.0, 2.5, 1.5, 2.5))))
        run = abs(end[0] - start[0]) + abs(end[1] - start[1])
        seats = tuple(
            Seat(_between(start, end, share), heading_of(start, end), run, 1) for share in (0.06, 0.94, 0.5, 0.25)
        )
        tags.append(Tag("bearing", seats, palette.BEARING, pixels=11))
    tags += [_number(joist, field.spacing) for joist in joists if joist.kind in ("common", "tail", "trimmer")]
    tags.append(_name(field))
    tip = f"{field.lumber} joists, {field.spacing:g} in on centre, running {field.direction}"
    return Picture("joists", area, tuple(items), tuple(tags), tip)


def bearing_lines(field: JoistField) -> tuple[tuple[Point, Point], ...]:
    """Across the joists: the centre lines of the supports between the field's two ends, and where it overhangs their outside."""
    west, south = field.corner
    width, length = field.size
    first, last = field.overhangs
    outer = (*((first,) if first else ()), *((along(field) - last,) if last else ()))
    places = (*field.bearings, *(at for at in outer if 0.0 < at < along(field)))
    if field.direction == "north-south":
        return tuple(((west, south + at), (west + width, south + at)) for at in places)
    return tuple(((west + at, south), (west + at, south + length)) for at in places)


def _name(field: JoistField) -> Tag:
    west, south = field.corner
    width, length = field.size
    text = f"{field.lumber} at {field.spacing:g} in"
    beside = Seat((west + width, south + length / 2.0), 90.0, length, -1)
    below = Seat((west + width / 2.0, south), 0.0, width, -1)
    places = (beside, below) if field.direction == "north-south" else (below, beside)
    return Tag(text, places, palette.WOOD_TEXT, pixels=11)


def _number(joist: Joist, spacing: float) -> Tag:
    """The joist's name, as schedules and findings call it, before its south or west end."""
    north = joist.along[1] != 0.0
    seat = Seat(joist.start, 0.0, spacing, -1, clear=RIM) if north else Seat(joist.start, anchor=-1, clear=RIM)
    return Tag(joist.id, (seat,), palette.WOOD_TEXT, pixels=10, turn=Turn.NAME)


def _corners(joist: Joist) -> tuple[Point, Point, Point, Point]:
    half = joist.thickness / 2.0
    across = (-joist.along[1] * half, joist.along[0] * half)
    (x0, y0), (x1, y1) = joist.start, joist.end
    return (
        (x0 - across[0], y0 - across[1]),
        (x1 - across[0], y1 - across[1]),
        (x1 + across[0], y1 + across[1]),
        (x0 + across[0], y0 + across[1]),
    )


def _between(start: Point, end: Point, share: float) -> Point:
    if share == 0.5:
        return middle(start, end)
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
