"""Setting a fixture down with all that belongs to it."""

from __future__ import annotations

import math

from engine.drafting.sharing import host_in_reach, with_riser
from engine.plan.edits import add_new, set_field
from engine.plan.edits.errors import EditError
from engine.plan.grid import spot
from engine.plan.records import Fixture, FixtureKind, Plan, Point
from engine.trade.fixtures import fixture as known


def place_fixture(plan: Plan, kind: FixtureKind, at: Point, turn: float = 270.0) -> Plan:
    """The plan with a new fixture at a point, its front looking to heading `turn`; it is the last of the fixtures.

    What empties into a wall gets a riser at its point, in the wall that stands there, unless there is one. A dishwasher
    whose hose reaches a sink drains through that. A bathtub's trap is set under its overflow tee. Raises
    :class:`EditError` for a point off any floor.
    """
    if not all(map(math.isfinite, (*at, turn))):
        raise EditError("", f"expected a point and heading of finite numbers, found {at} and {turn}")
    point = spot(*at)
    plan = add_new(plan, Fixture, kind=kind, at=point, turn=turn, trap_at=trap_under(kind, point, turn))
    placed = plan.fixtures[-1]
    if kind == "dishwasher" and (host := host_in_reach(plan, placed)) is not None:
        return set_field(plan, placed.id, "through", host.id)
    return with_riser(plan, placed)


def trap_under(kind: FixtureKind, at: Point, turn: float) -> Point | None:
    """Where a tub's trap hangs: from its outlet toward the end that it drains at; None for other fixtures.

    That end is on the left of someone who stands with their back to the wall behind the tub.
    """
    spec = known(kind)
    if spec.outlet_from_side is None or spec.trap_from_side is None:
        return None
    off, left = spec.outlet_from_side - spec.trap_from_side, math.radians(turn + 90.0)
    return spot(at[0] + off * math.cos(left), at[1] + off * math.sin(left))
