"""The grips of a selected element: what can be pulled on it, and what the plan becomes when it is pulled."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

from app.tools.plane import ahead, heading_of
from engine.drafting.bodies import body_of
from engine.drafting.stubs import follow
from engine.plan import edits
from engine.plan.outline import called
from engine.plan.records import (
    AirOpening,
    Beam,
    Cleanout,
    Drain,
    Element,
    Fixture,
    FlooringArea,
    FloorOpening,
    JoistField,
    Plan,
    Point,
    Riser,
    Supply,
    Vent,
    Wall,
)
from engine.plan.welds import comes_down

REACH = 9.0
"""How near to a grip a press must be, pixels."""

BEYOND = 7.0
"""How far before a fixture its turning grip stands, inches."""

OUT = 10.0
"""How far out of its riser a cleanout's turning grip stands, inches."""

QUARTER = 90.0

LEAST_FIELD = 12.0
"""A field is never made smaller than this, inches."""


class Grip(NamedTuple):
    """One grip: whose, where, what it does, and which point or corner of it."""

    element: str
    at: Point
    does: Literal["point", "turn", "corner"]
    number: int = 0


def grips(element: Element) -> tuple[Grip, ...]:
    """The grips of one element."""
    return tuple(_grips(element))


def says(grip: Grip, plan: Plan) -> str:
    """What a grip is for, in one sentence."""
    match grip.does:
        case "turn":
            name = called(edits.find(plan, grip.element))
            return f"Drag round to turn {name} by quarters; T and Shift+T do the same."
        case "corner":
            return "Drag to resize the field of joists; the opposite corner stays."
        case "point":
            return "Drag to move this point with what is welded to it; Shift moves it alone."


def neighbours(element: Element, index: int) -> tuple[Point, ...]:
    """The points next to a run's or wall's point, along which headings are kept."""
    match element:
        case Drain() | Vent() | Supply():
            points = element.points
            return tuple(points[k] for k in (index - 1, index + 1) if 0 <= k < len(points))
        case Wall() | AirOpening() | Beam():
            return ((element.start, element.end)[1 - index],)
        case _:
            return ()


def pulled(plan: Plan, grip: Grip, to: Point, alone: bool = False) -> Plan:
    """The plan after a grip was pulled to a point; `alone` leaves what is welded to a vertex behind."""
    element = edits.find(plan, grip.element)
    if grip.does == "turn" and isinstance(element, Fixture):
        heading = round(heading_of(element.at, to) / QUARTER) * QUARTER
        return follow(plan, edits.rotate_fixture(plan, element.id, heading))
    if grip.does == "turn" and isinstance(element, Cleanout):
        heading = round(heading_of(element.at, to) / QUARTER) * QUARTER
        return edits.set_field(plan, element.id, "turn", heading)
    if grip.does == "corner" and isinstance(element, JoistField):
        return _resized(plan, element, grip.number, to)
    return edits.move_point(plan, element.id, grip.number, to, alone)


def _grips(element: Element) -> Iterator[Grip]:
    match element:
        case Drain() | Vent() | Supply():
            for index, point in enumerate(element.points):
                yield Grip(element.id, point, "point", index)
        case Wall() | AirOpening() | Beam() | FloorOpening() | FlooringArea():
            yield Grip(element.id, element.start, "point", 0)
            yield Grip(element.id, element.end, "point", 1)
        case JoistField():
            for index, corner in enumerate(_corners(element)):
                yield Grip(element.id, corner, "corner", index)
        case Fixture():
            if element.trap_at is not None:
                yield Grip(element.id, element.trap_at, "point", 1)
            body = body_of(element)
            yield Grip(element.id, ahead(element.at, element.turn, body.front + BEYOND, body.centre[1]), "turn")
        case Riser() if (down := comes_down(element)) is not None:
            yield Grip(element.id, down, "point", 1)
        case Cleanout() if element.above_floor is not None:
            yield Grip(element.id, ahead(element.at, element.turn, OUT), "turn")
        case _:
            return


def _corners(field: JoistField) -> tuple[Point, Point, Point, Point]:
    (x, y), (width, length) = field.corner, field.size
    return ((x, y), (x + width, y), (x + width, y + length), (x, y + length))


def _resized(plan: Plan, field: JoistField, index: int, to: Point) -> Plan:
    """The field with one corner elsewhere and the opposite one where it was."""
    fixed = _corners(field)[(index + 2) % 4]
    west, east = sorted((fixed[0], to[0]))
    south, north = sorted((fixed[1], to[1]))
    if east - west < LEAST_FIELD or north - south < LEAST_FIELD:
        return plan
    return edits.set_fields(plan, field.id, corner=(west, south), size=(east - west, north - south))
