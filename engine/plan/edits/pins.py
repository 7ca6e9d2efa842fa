"""Pinned fittings go where their pipes go, and leave with them."""

from __future__ import annotations

from msgspec.structs import replace

from engine.plan.points import runs
from engine.plan.records import Plan, Point, Supply
from engine.plan.welds import outlet


def piped(plan: Plan) -> set[Point]:
    """Every point at which the plan has a waste or vent vertex, riser, outlet or exit."""
    points = {point for run in runs(plan) if not isinstance(run, Supply) for point in run.points}
    points.update(riser.at for riser in plan.risers)
    points.update(exit_.at for exit_ in plan.exits)
    points.update(point for fixture in plan.fixtures if (point := outlet(fixture)) is not None)
    return points


def without_loose_pins(before: Plan, after: Plan) -> Plan:
    """The later plan without the pinned fittings that lost their last pipe on the way to it."""
    if not after.fittings:
        return after
    lost = piped(before) - piped(after)
    kept = tuple(pin for pin in after.fittings if pin.at not in lost)
    return after if len(kept) == len(after.fittings) else replace(after, fittings=kept)
