"""The whole plan somewhere else: shifted, turned by quarters, or seen in a mirror.

Nothing about the job changes by it, so no finding and no length may: that is what these are for. Joist fields,
walls, headings and the sides that joists are counted from all follow.
"""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from engine.plan.canonical import heading
from engine.plan.edits.checking import checked
from engine.plan.edits.errors import EditError
from engine.plan.edits.moving import quarter, turned
from engine.plan.fields import mirrored as field_mirrored
from engine.plan.grid import on_grid, shifted
from engine.plan.points import carried
from engine.plan.records import KINDS, Cleanout, Element, Fixture, JoistField, Plan, Point

ORIGIN = (0.0, 0.0)


def shift(plan: Plan, dx: float, dy: float) -> Plan:
    """The whole plan moved by a displacement in inches, east and north."""
    return _all(plan, lambda point: shifted(point, dx, dy), lambda element, to: carried(element, to))


def quarter_turned(plan: Plan, quarters: int = 1, about: Point = ORIGIN) -> Plan:
    """The whole plan turned by quarter turns counter-clockwise about a point.

    EditError when a field's joists can't be laid out from the other side.
    """
    for _ in range(quarters % 4):
        plan = _all(plan, lambda point: quarter(point, about), lambda element, _: turned(element, about))
    return plan


def mirrored(plan: Plan, x: float = 0.0) -> Plan:
    """The whole plan as a mirror that stands north-south at `x` shows it: east and west change places.

    EditError when a field's joists can't be laid out from the other side.
    """
    axis = on_grid(x)

    def change(element: Element, to: Callable[[Point], Point]) -> Element:
        if isinstance(element, JoistField):
            try:
                return field_mirrored(element, axis)
            except ValueError as fault:
                raise EditError(element.id, str(fault)) from None
        made = carried(element, to)
        return replace(made, turn=heading(180.0 - made.turn)) if isinstance(made, Fixture | Cleanout) else made

    return _all(plan, lambda point: (2.0 * axis - point[0] + 0.0, point[1]), change)


def _all(
    plan: Plan, to: Callable[[Point], Point], change: Callable[[Element, Callable[[Point], Point]], Element]
) -> Plan:
    things = {kind: tuple(checked(change(one, to)) for one in getattr(plan, kind)) for kind in KINDS}
    return replace(plan, floor=checked(carried(plan.floor, to)), **things)
