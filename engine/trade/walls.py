"""What is usual of framed walls: how high they stand, and what seals the gaps round pipes that pass their plates."""

from __future__ import annotations

import math
from functools import cache

from engine.trade.facts import table


@cache
def usual_height() -> float:
    """From the subfloor to the top of a usual storey's plates, inches."""
    return table("walls").number("wall", "height")


@cache
def edge_room() -> float:
    """How far an outside wall's studs may stand in from the floor's edge, for what is nailed on outside, inches."""
    return table("walls").number("outside wall", "in from the edge")


@cache
def edge_give() -> float:
    """How far a wall's studs may stand over the floor's edge before anybody minds, inches."""
    return table("walls").number("outside wall", "over the edge")


@cache
def sealant(hole: float, outside: float) -> float:
    """Sealant that fills the gap round a pipe in its hole, cubic inches."""
    facts = table("walls")
    gap = math.pi / 4.0 * max(0.0, hole * hole - outside * outside)
    return gap * facts.number("seal", "depth") * facts.number("seal", "sides")


@cache
def tube_holds() -> float:
    """What one tube of sealant holds, cubic inches."""
    return table("walls").number("seal", "tube holds")


@cache
def between_holes() -> float:
    """Wood that is left between two holes in a plate, inches."""
    return table("walls").number("plate", "wood between holes")
