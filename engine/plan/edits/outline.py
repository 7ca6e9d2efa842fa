"""The floor's outline drawn anew, and the joists that fill it."""

from __future__ import annotations

from msgspec.structs import replace

from engine.plan.edits.checking import checked
from engine.plan.edits.elements import add_new, set_floor
from engine.plan.records import JoistField, Plan, Point


def set_outline(plan: Plan, corners: tuple[Point, ...]) -> Plan:
    """The plan with another outline, its corners in order round it.

    A field that filled the old outline's box fills the new one's and is cut off at the outline; a plan without joists gets
    such a field. EditError for an outline that crosses itself or holds no floor.
    """
    made = set_floor(plan, outline=corners)
    corner, size = _box(made.floor.outline)
    old = _box(plan.floor.outline)
    to_outline = not _is_box(made.floor.outline)
    if not plan.fields:
        return add_new(made, JoistField, corner=corner, size=size, to_outline=to_outline)
    fields = tuple(
        checked(replace(field, corner=corner, size=size, to_outline=to_outline))
        if (field.corner, field.size) == old
        else field
        for field in plan.fields
    )
    return replace(made, fields=fields)


def _box(outline: tuple[Point, ...]) -> tuple[Point, Point]:
    """The south-west corner and the two sides of the box round an outline."""
    xs, ys = zip(*outline, strict=True)
    return (min(xs), min(ys)), (max(xs) - min(xs), max(ys) - min(ys))


def _is_box(outline: tuple[Point, ...]) -> bool:
    (x, y), (wide, long) = _box(outline)
    return len(outline) == 4 and set(outline) == {(x, y), (x + wide, y), (x + wide, y + long), (x, y + long)}
