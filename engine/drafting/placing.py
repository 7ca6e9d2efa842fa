"""Setting a fixture down with all that belongs to it."""

from __future__ import annotations

import math

from engine.plan.edits import add_new
from engine.plan.edits.errors import EditError
from engine.plan.grid import spot
from engine.plan.records import Fixture, FixtureKind, Plan, Point, Riser
from engine.plan.walls import wall_at
from engine.trade.fixtures import fixture as known
from engine.trade.habits import HOSE_REACH


def place_fixture(plan: Plan, kind: FixtureKind, at: Point, turn: float = 270.0) -> Plan:
    """The plan with a new fixture at a point, its front looking to heading `turn`; it is the last of the fixtures.

    What empties into a wall gets a riser at its point, in the wall that stands there, unless there is one. A dishwasher
    within its hose's reach of a kitchen sink drains through that. A bathtub's trap is set under its overflow tee. Raises :class:`EditError` for a point off any floor.
    """
    if not all(map(math.isfinite, (*at, turn))):
        raise EditError("", f"expected a point and heading of finite numbers, found {at} and {turn}")
    point = spot(*at)
    sink = _sink_in_reach(plan, point) if kind == "dishwasher" else None
    if sink is not None:
        return add_new(plan, Fixture, kind=kind, at=point, turn=turn, through=sink)
    plan = add_new(plan, Fixture, kind=kind, at=point, turn=turn, trap_at=trap_under(kind, point, turn))
    if known(kind).outlet == "wall" and not any(riser.at == point for riser in plan.risers):
        wall = wall_at(plan, point)
        plan = add_new(plan, Riser, at=point, wall=wall.id if wall is not None else None)
    return plan


def _sink_in_reach(plan: Plan, point: Point) -> str | None:
    """The nearest kitchen sink with a drain of its own that a dishwasher's hose reaches; None where none does."""
    sinks = [one for one in plan.fixtures if one.kind == "kitchen_sink" and one.through is None]
    near = min(sinks, key=lambda sink: math.dist(sink.at, point), default=None)
    return near.id if near is not None and math.dist(near.at, point) <= HOSE_REACH else None


def trap_under(kind: FixtureKind, at: Point, turn: float) -> Point | None:
    """Where a tub's trap hangs: from its outlet toward the end that it drains at; None for other fixtures.

    That end is on the left of someone who stands with their back to the wall behind the tub.
    """
    spec = known(kind)
    if spec.outlet_from_side is None or spec.trap_from_side is None:
        return None
    off, left = spec.outlet_from_side - spec.trap_from_side, math.radians(turn + 90.0)
    return spot(at[0] + off * math.cos(left), at[1] + off * math.sin(left))
