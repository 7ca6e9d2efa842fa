"""Letting a riser turn over: an island's vent, which comes down again onto its sink's own drain."""

from __future__ import annotations

import math

from msgspec.structs import replace

from engine.plan.edits.checking import rebuilt
from engine.plan.edits.elements import find
from engine.plan.edits.errors import EditError
from engine.plan.grid import spot
from engine.plan.records import Drain, Element, Plan, Point, Riser

ASIDE = 12.0
"""How far from its riser a loop first comes down, inches: just after the drop, with room for the bends (common practice)."""


def turn_over(plan: Plan, riser_id: str) -> Plan:
    """The plan with a riser that turns over and comes down a little way along the drain that begins at it.

    The drain gets a point there. Where no drain begins at the riser it comes down east of it, on nothing yet.
    """
    riser = find(plan, riser_id)
    if not isinstance(riser, Riser):
        raise EditError(riser_id, "expected a riser")
    if riser.returns is not None:
        return rebuilt(plan, {riser.id: replace(riser, top="loop")})
    for drain in plan.drains:
        if riser.at in (drain.points[0], drain.points[-1]):
            at, made = _along(drain, riser.at)
            changed: dict[str, Element] = {riser.id: replace(riser, top="loop", returns=at), drain.id: made}
            return rebuilt(plan, changed)
    east = spot(riser.at[0] + ASIDE, riser.at[1])
    return rebuilt(plan, {riser.id: replace(riser, top="loop", returns=east)})


def _along(drain: Drain, start: Point) -> tuple[Point, Drain]:
    """A point a little way along a drain from one of its ends, and the drain with that point."""
    forward = drain.points[0] == start
    points = drain.points if forward else drain.points[::-1]
    after = points[1]
    run = math.dist(start, after)
    if run <= ASIDE and len(points) > 2:
        return after, drain
    far = min(ASIDE, run / 2.0)
    at = spot(*(a + (b - a) * far / run for a, b in zip(start, after, strict=True)))
    made = (start, at, *points[1:])
    return at, replace(drain, points=made if forward else made[::-1])
