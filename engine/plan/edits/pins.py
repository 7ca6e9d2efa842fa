"""Pinned fittings and cleanouts go where their pipes go, and leave with them."""

from __future__ import annotations

from msgspec.structs import replace

from engine.plan.points import runs
from engine.plan.records import Cleanout, Plan, Point, Supply
from engine.plan.welds import comes_down, outlet


def piped(plan: Plan) -> set[Point]:
    """Every point at which the plan has a waste or vent vertex, riser, outlet or exit."""
    points = {point for run in runs(plan) if not isinstance(run, Supply) for point in run.points}
    points.update(_risen(plan))
    points.update(exit_.at for exit_ in plan.exits)
    points.update(point for fixture in plan.fixtures if (point := outlet(fixture)) is not None)
    return points


def in_riser(cleanout: Cleanout) -> bool:
    """Whether a cleanout is a tee in a riser; else it closes the end of a run under the floor."""
    return cleanout.above_floor is not None


def without_loose_pins(before: Plan, after: Plan) -> Plan:
    """The later plan without the pinned fittings and cleanouts that lost their last pipe on the way to it."""
    if not after.fittings and not after.cleanouts:
        return after
    unpiped = piped(before) - piped(after)
    undrained, unrisen = _drained(before) - _drained(after), _risen(before) - _risen(after)
    fittings = tuple(pin for pin in after.fittings if pin.at not in unpiped)
    cleanouts = tuple(one for one in after.cleanouts if one.at not in (unrisen if in_riser(one) else undrained))
    if (fittings, cleanouts) == (after.fittings, after.cleanouts):
        return after
    return replace(after, fittings=fittings, cleanouts=cleanouts)


def _drained(plan: Plan) -> set[Point]:
    return {point for drain in plan.drains for point in drain.points}


def _risen(plan: Plan) -> set[Point]:
    down = (comes_down(riser) for riser in plan.risers)
    return {riser.at for riser in plan.risers} | {at for at in down if at is not None}
