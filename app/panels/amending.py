"""One field of one thing changed: the plan that follows. A place that changes takes along what is welded there."""

from __future__ import annotations

from typing import Any

from engine.plan.edits import move, move_point, set_field
from engine.plan.records import Drain, Element, JoistField, Plan, Point, Supply, Vent, Wall

_WALL_ENDS = {"start": 0, "end": 1}
_TRAP = 1


def amended(plan: Plan, element: Element, field: str, value: Any) -> Plan:
    """The plan with `field` of `element` set to `value`. Raises EditError when no plan may say so."""
    if field == "at" or (field == "corner" and isinstance(element, JoistField)):
        return _moved(plan, element, getattr(element, field), value)
    if isinstance(element, Wall) and field in _WALL_ENDS:
        return move_point(plan, element.id, _WALL_ENDS[field], value)
    if field == "trap_at" and value is not None:
        return move_point(plan, element.id, _TRAP, value)
    if isinstance(element, Drain | Vent | Supply) and field == "points":
        return _one_point(plan, element, value)
    return set_field(plan, element.id, field, value)


def _moved(plan: Plan, element: Element, here: Point, there: Point) -> Plan:
    return move(plan, (element.id,), there[0] - here[0], there[1] - here[1])


def _one_point(plan: Plan, run: Drain | Vent | Supply, points: tuple[Point, ...]) -> Plan:
    """The plan with the first of the run's points that differs put where it should be."""
    for number, (old, new) in enumerate(zip(run.points, points, strict=True)):
        if old != new:
            return move_point(plan, run.id, number, new)
    return plan
