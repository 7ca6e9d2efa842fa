"""Whether the floor's fields of joists are drawn as they can be built: covered, apart, within reach, and counted right."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from engine.checks.floor_framing import SUBJECT
from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.crossings.limits import over
from engine.framing.clipping import EXACT
from engine.framing.layout import KEPT
from engine.framing.numbered import last_joist, last_stud
from engine.framing.records import Joist
from engine.lengths import feet_inches, inches, up
from engine.plan.fields import along
from engine.plan.records import JoistField, Plan, Point
from engine.trade.habits import WIDEST_BAY

if TYPE_CHECKING:
    from shapely.geometry import Polygon
    from shapely.geometry.base import BaseGeometry

SQUARE_FOOT = 12.0 * 12.0
"""Square inches in a square foot."""


class Bare(NamedTuple):
    """A part of the floor with no joists under it: its centre, its area in square inches, and the rectangle round it.

    `square` says whether it fills that rectangle.
    """

    x: float
    y: float
    area: float
    corner: Point
    opposite: Point
    square: bool


def without_joists(model: Model) -> Iterator[Outcome]:
    """A part of the floor that no field of joists lies under, wider than floor panels span.

    To look at: it may be carried by what is not drawn. Holds: a gap between two fields as wide as floor panels bridge.
    Broken: 1/16 in wider. Does not apply where no joists are drawn at all: every rule on joists then says so. Common
    practice, no source.
    """
    if not model.plan.fields:
        yield DoesNotApply()
        return
    found = bare(model.plan.fields, model.plan.floor.outline)
    if not found:
        yield Holds()
    for part in found:
        yield Finding(
            "floor-without-joists",
            "look",
            (part.x, part.y, 0.0),
            tuple(field.id for field in model.plan.fields),
            part.area / SQUARE_FOOT,
            0.0,
            "sq ft",
            f"{part.area / SQUARE_FOOT:.0f} square feet of the floor have no joists under them.",
            COMMON,
            "Draw a field of joists there, make one that is there larger, or draw the floor's outline as it is.",
        )


@lru_cache(maxsize=KEPT)
def bare(fields: tuple[JoistField, ...], outline: tuple[Point, ...]) -> tuple[Bare, ...]:
    """The parts of a floor that no field lies under and that are wider than floor panels bridge."""
    from shapely.geometry import Polygon
    from shapely.ops import unary_union

    left = Polygon(outline).difference(unary_union([_box(field) for field in fields]))
    found = []
    for part in _parts(left):
        # what is drawn in by half a bay and is still there is wider than a bay
        if part.buffer(-WIDEST_BAY / 2.0, join_style="mitre").is_empty:
            continue
        point, (west, south, east, north) = part.centroid, part.bounds
        square = part.area >= (east - west) * (north - south) - EXACT
        found.append(Bare(point.x, point.y, part.area, (west, south), (east, north), square))
    return tuple(found)


def _box(field: JoistField) -> Polygon:
    from shapely.geometry import box

    (x, y), (wide, long) = field.corner, field.size
    return box(x, y, x + wide, y + long)


def _parts(shape: BaseGeometry) -> list[Polygon]:
    from shapely.geometry import Polygon

    return [part for part in getattr(shape, "geoms", (shape,)) if isinstance(part, Polygon) and not part.is_empty]


def overlapping(model: Model) -> Iterator[Outcome]:
    """Two fields of joists that lie over each other: their wood would stand in one place.

    Measured is how far one reaches into the other. Holds: fields that touch. Broken: 1/16 in over. What lies off the floor of
    fields that are cut off at its outline does not count. Common practice, no source.
    """
    fields = model.plan.fields
    if len(fields) < 2:
        yield DoesNotApply()
        return
    found = False
    for one, other, into in _overlaps(fields, model.plan.floor.outline):
        found = True
        yield Finding(
            "fields-overlap",
            "stop",
            (one.corner[0] + one.size[0] / 2.0, one.corner[1] + one.size[1] / 2.0, 0.0),
            (one.id, other.id),
            into,
            0.0,
            "in",
            f"The joist fields {one.id} and {other.id} reach {inches(up(into))} in into each other.",
            COMMON,
            f"Make one of them smaller, or move {other.id} {inches(up(into))} in away.",
        )
    if not found:
        yield Holds()


@lru_cache(maxsize=KEPT)
def _overlaps(
    fields: tuple[JoistField, ...], outline: tuple[Point, ...]
) -> tuple[tuple[JoistField, JoistField, float], ...]:
    found = []
    for place, one in enumerate(fields):
        for other in fields[place + 1 :]:
            into = min(
                min(one.corner[axis] + one.size[axis], other.corner[axis] + other.size[axis])
                - max(one.corner[axis], other.corner[axis])
                for axis in (0, 1)
            )
            if over(into, 0.0) and (not (one.to_outline or other.to_outline) or _on_floor(one, other, outline)):
                found.append((one, other, into))
    return tuple(found)


def _on_floor(one: JoistField, other: JoistField, outline: tuple[Point, ...]) -> bool:
    """Whether two fields that lie over each other do so on the floor itself."""
    from shapely.geometry import Polygon

    shared = _box(one).intersection(_box(other)).intersection(Polygon(outline))
    return any(part.area > EXACT for part in _parts(shared))


def bay_too_wide(model: Model) -> Iterator[Outcome]:
    """Two neighbouring joists farther apart, middle to middle, than floor panels between them carry.

    To look at: a thicker floor may carry it. Holds: 24 in. Broken: 1/16 in more, as where a joist was moved. What openings
    leave is not looked at: headers and tails carry the floor there. Source: Material Selection, Dimensions, and Span Tables
    (23/32 in panels on joists 24 in apart).
    """
    counted: dict[str, dict[int, Joist]] = {}
    for joist in model.framing.joists:
        if joist.kind in ("common", "end") and joist.id == f"{joist.field}.{joist.number}":
            counted.setdefault(joist.field, {})[joist.number] = joist
    for field in model.plan.fields:
        row = counted.get(field.id, {})
        axis = 0 if field.direction == "north-south" else 1
        bays = [
            (two.start[axis] - one.start[axis], one, two)
            for number, one in sorted(row.items())
            if (two := row.get(number + 1)) is not None
        ]
        if not bays:
            yield DoesNotApply(field.id)
            continue
        wide, one, two = max(bays, key=lambda bay: bay[0])
        if not over(wide, WIDEST_BAY):
            yield Holds(field.id)
            continue
        yield Finding(
            "bay-too-wide",
            "look",
            ((one.start[0] + two.start[0]) / 2.0, (one.start[1] + two.start[1]) / 2.0, 0.0),
            (field.id,),
            wide,
            WIDEST_BAY,
            "in",
            f"Joists {one.id} and {two.id} stand {inches(up(wide))} in apart, middle to middle; floor panels carry "
            f"{inches(WIDEST_BAY)} in.",
            COMMON,
            "Set another joist between them, or move one of them back.",
        )


def names_no_joist(model: Model) -> Iterator[Outcome]:
    """What a field or wall says of a joist, stud, row or bearing that it does not have: nothing comes of it.

    Holds: what is said of the last joist. Broken: of one past it; of a row of blocks past the field's end. Common practice,
    no source.
    """
    told = [(field.id, field.corner, _lost(field)) for field in model.plan.fields]
    told += [(wall.id, wall.start, _lost_studs(model.plan, number)) for number, wall in enumerate(model.plan.walls)]
    for element, at, lost in told:
        if not lost:
            yield Holds(element)
            continue
        yield Finding(
            "says-of-what-is-not-there",
            "look",
            (*at, 0.0),
            (element,),
            None,
            None,
            "",
            f"{element} says of what it does not have: {'; '.join(lost)}.",
            COMMON,
            "Take it away, or write the number of one that is there.",
        )


def _lost(field: JoistField) -> list[str]:
    own = sorted({one.number for kind in (field.shifts, field.doubled, field.measured) for one in kind})
    last = last_joist(field) if own else 0
    lost = [f"joist {number} (they are numbered 0 to {last})" for number in own if number > last]
    whole = along(field)
    for words, places in (("row of blocks", field.blocking), ("bearing", field.bearings)):
        lost += [f"a {words} at {feet_inches(at)} of {feet_inches(whole)}" for at in places if at > whole]
    return lost


def _lost_studs(plan: Plan, place: int) -> list[str]:
    wall = plan.walls[place]
    own = {*wall.doubled, *(shift.number for shift in wall.stud_shifts)}
    if not own or wall.start == wall.end:
        return []
    last = last_stud(wall, plan.floor.subfloor)
    return [f"stud {number} (they are numbered 0 to {last})" for number in sorted(own) if number > last]


RULES = (
    Rule("floor-without-joists", "Floor with no joists under it", SUBJECT, "look", (), without_joists),
    Rule("fields-overlap", "Joist fields over each other", SUBJECT, "stop", (), overlapping),
    Rule("bay-too-wide", "Joists too far apart for the floor", SUBJECT, "look", (), bay_too_wide),
    Rule("says-of-what-is-not-there", "Joists or studs that are not there", SUBJECT, "look", (), names_no_joist),
)
