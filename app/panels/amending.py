"""One field of one thing changed: the plan that follows. A place that changes takes along what is welded there."""

from __future__ import annotations

from typing import Any

from app.panels.measures import MEASURES, corners_of
from engine.drafting.sharing import drained_through
from engine.drafting.stubs import follow
from engine.plan.edits import EditError, find, move, move_point, rotate_fixture, set_field, set_fields, turn_over
from engine.plan.records import (
    AirOpening,
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

_WALL_ENDS = {"start": 0, "end": 1}
_TRAP = 1
_RETURN = 1


def amended(plan: Plan, shown: Element, field: str, value: Any) -> Plan:
    """The plan with `field` of an element set to `value`, and supply ends on a fixture's stub carried along.

    `shown` is the element as the person saw it, which may be of a plan that is only proposed. Raises EditError when
    no plan may say so.
    """
    return follow(plan, _changed(plan, shown, field, value))


def _changed(plan: Plan, shown: Element, field: str, value: Any) -> Plan:
    mine = find(plan, shown.id)
    if isinstance(mine, FloorOpening | FlooringArea) and field == MEASURES:
        start, end = corners_of(mine, *value)
        return set_fields(plan, mine.id, start=start, end=end)
    if field == "at" or (field == "corner" and isinstance(mine, JoistField)):
        return _moved(plan, mine, getattr(mine, field), value)
    if isinstance(mine, Wall | AirOpening) and field in _WALL_ENDS:
        return move_point(plan, mine.id, _WALL_ENDS[field], value)
    if field == "trap_at" and value is not None:
        return move_point(plan, mine.id, _TRAP, value)
    if isinstance(mine, Riser) and field == "top" and value == "loop":
        return turn_over(plan, mine.id)
    if isinstance(mine, Riser) and field == "returns" and value is not None and comes_down(mine) is not None:
        return move_point(plan, mine.id, _RETURN, value)
    if isinstance(mine, Drain | Vent | Supply) and field == "points":
        return _one_point(plan, mine, getattr(shown, field), value)
    if isinstance(mine, Fixture) and field == "turn":
        return rotate_fixture(plan, mine.id, value)
    if isinstance(mine, Fixture) and field == "through":
        return drained_through(plan, mine.id, value)
    return set_field(plan, mine.id, field, value)


def _moved(plan: Plan, element: Element, here: Point, there: Point) -> Plan:
    return move(plan, (element.id,), there[0] - here[0], there[1] - here[1])


def _one_point(plan: Plan, run: Drain | Vent | Supply, before: tuple[Point, ...], after: tuple[Point, ...]) -> Plan:
    """The plan with the first of the points shown that was changed put where it should be."""
    for number, (old, new) in enumerate(zip(before, after, strict=True)):
        if old != new:
            if old not in run.points:
                raise EditError(run.id, "this point is only proposed yet: finish what is being drawn first")
            same = run.points[number : number + 1] == (old,)
            return move_point(plan, run.id, number if same else run.points.index(old), new)
    return plan
