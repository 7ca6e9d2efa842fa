"""The two measures of what is drawn from corner to corner: read off its corners, and set by moving those away from the south-west one."""

from __future__ import annotations

from engine.plan.edits import EditError
from engine.plan.grid import spot
from engine.plan.records import Element, FlooringArea, FloorOpening, Point

MEASURES = "measures"
"""The field's name: no record has it."""


def measures_of(element: Element) -> Point | None:
    """How wide (east-west) and how long (north-south) a floor opening or flooring area is; None for anything else."""
    if not isinstance(element, FloorOpening | FlooringArea):
        return None
    return abs(element.end[0] - element.start[0]), abs(element.end[1] - element.start[1])


def corners_of(element: FloorOpening | FlooringArea, wide: float, long: float) -> tuple[Point, Point]:
    """Its corners with other measures, the south-west one where it is. EditError where it has no width."""
    if wide <= 0.0 or long <= 0.0:
        raise EditError(element.id, "expected some width both ways")
    west, south = (min(pair) for pair in zip(element.start, element.end, strict=True))
    return spot(west, south), spot(west + wide, south + long)
