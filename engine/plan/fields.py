"""A joist field turned round: the same wood, counted from the other side."""

from __future__ import annotations

from typing import TypeVar

from msgspec.structs import replace

from engine.plan.canonical import canonical, neat
from engine.plan.dressed import JOIST_THICKNESS
from engine.plan.records import DoubledJoist, JoistField, JoistShift, MeasuredJoist, Point

_SLACK = 1e-9


def centres(field: JoistField) -> list[float]:
    """Centres of the common joists from the field's west (south) outside face, before any is shifted.

    A joist that would stand in an end joist is left out.
    """
    first = field.spacing if field.first is None else field.first
    inner = 1.5 * JOIST_THICKNESS
    most = across(field) - inner + _SLACK
    count = max(0, int((most - first) // field.spacing) + 1)
    return [centre for k in range(count) if (centre := first + k * field.spacing) >= inner - _SLACK]


def across(field: JoistField) -> float:
    """Outside measure of a field square to its joists, inches."""
    return field.size[0] if field.direction == "north-south" else field.size[1]


def along(field: JoistField) -> float:
    """Outside measure of a field along its joists, rims included, inches."""
    return field.size[1] if field.direction == "north-south" else field.size[0]


def mirrored(field: JoistField, axis: float) -> JoistField:
    """The field as a mirror standing north-south at x = `axis` shows it.

    ValueError when its joists can't be laid out from the other side.
    """
    corner = (2.0 * axis - field.corner[0] - field.size[0], field.corner[1])
    made = counted_back(field) if field.direction == "north-south" else _ends_changed(field)
    return canonical(replace(made, corner=corner))


def turned(field: JoistField, about: Point) -> JoistField:
    """The field after a quarter turn counter-clockwise about a point.

    ValueError when its joists can't be laid out from the other side.
    """
    x, y = about
    corner = (x - (field.corner[1] + field.size[1] - y), y + (field.corner[0] - x))
    size = (field.size[1], field.size[0])
    if field.direction == "north-south":
        return canonical(replace(_ends_changed(field), corner=corner, size=size, direction="east-west"))
    return canonical(replace(counted_back(field), corner=corner, size=size, direction="north-south"))


def counted_back(field: JoistField) -> JoistField:
    """The field with its joists counted from the opposite side, at mirrored places."""
    old = centres(field)
    last = len(old) + 1
    field = replace(
        field,
        shifts=_renumbered(field.shifts, last),
        doubled=_renumbered(field.doubled, last),
        measured=_renumbered(field.measured, last),
        lap_side="west or south" if field.lap_side == "east or north" else "east or north",
    )
    if not old:
        return field
    made = canonical(replace(field, first=neat(across(field) - old[-1])))
    new = centres(made)
    if len(new) != len(old):
        raise ValueError(
            f"the joists of {field.id} can't be laid out from the other side: the first stands more than one "
            "spacing from the edge"
        )
    return made


Own = TypeVar("Own", JoistShift, DoubledJoist, MeasuredJoist)


def _renumbered(own: tuple[Own, ...], last: int) -> tuple[Own, ...]:
    """What is said of single joists of a field whose outermost are 0 and `last`; of joists that aren't there it stays."""
    return tuple(_seen_back(one, last) if one.number <= last else one for one in reversed(own))


def _seen_back(one: Own, last: int) -> Own:
    number = last - one.number
    if isinstance(one, JoistShift):
        return replace(one, number=number, by=-one.by + 0.0)
    if isinstance(one, DoubledJoist):
        return replace(one, number=number, side="west or south" if one.side == "east or north" else "east or north")
    return replace(one, number=number)


def _ends_changed(field: JoistField) -> JoistField:
    """The field with the ends of its joists changed about: its bearing lines, blocking, overhangs and laps change.

    What was set past the field's end, where no joist reaches, stays as it was written: so does what is said of joists that
    are not there.
    """
    whole = along(field)
    return replace(
        field,
        bearings=_from_the_other_end(field.bearings, whole),
        blocking=_from_the_other_end(field.blocking, whole),
        overhangs=field.overhangs[::-1],
        laps=_from_the_other_end(field.laps, whole),
        lap_moves="south or west" if field.lap_moves == "north or east" else "north or east",
    )


def _from_the_other_end(places: tuple[float, ...], whole: float) -> tuple[float, ...]:
    there = tuple(neat(whole - at) for at in reversed(places) if at <= whole)
    return there + tuple(at for at in places if at > whole)
