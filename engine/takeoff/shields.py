"""Steel plates where a plumb pipe passes a wall's plates too near a face for nails to miss it."""

from __future__ import annotations

import math

from engine.checks.model import Model
from engine.plan.records import Point, Record, Riser, Wall
from engine.plan.walls import wall_at
from engine.trade.lumber import actual
from engine.trade.pipe import drain


class Plates(Record, frozen=True, gc=False):
    """How many shield plates one riser needs, and where."""

    riser: str
    where: str
    count: int


def shields(model: Model) -> tuple[Plates, ...]:
    """For each riser in a wall: a plate for each face that is too near, at the sole plate and at the top plate."""
    least = model.book.number("shield.edge")
    found: list[Plates] = []
    for riser in model.plan.risers:
        pipes = [pipe for pipe in model.network.pipes if pipe.element == riser.id and pipe.run == 0.0]
        wall = wall_at(model.plan, riser.at, riser.wall)
        if wall is None or not pipes:
            continue
        heights = [z for pipe in pipes for node in (pipe.start, pipe.end) if (z := model.heights.get(node)) is not None]
        half = actual(wall.lumber).depth / 2.0
        off = _off_centre(wall, riser.at)
        od = max(drain(pipe.size).od for pipe in pipes)
        faces = sum(1 for side in (-1.0, 1.0) if half - side * off - od / 2.0 < least)
        plates = _plates_passed(model, riser, heights)
        if faces and plates:
            found.append(Plates(riser.id, f"{riser.id} at {' and '.join(plates)}", faces * len(plates)))
    return tuple(found)


def _plates_passed(model: Model, riser: Riser, heights: list[float]) -> list[str]:
    subfloor = model.plan.floor.subfloor
    passed = []
    if min(heights, default=0.0) < subfloor < max(heights, default=0.0):
        passed.append("sole plate")
    if riser.top == "roof":
        passed.append("top plate")
    return passed


def _off_centre(wall: Wall, point: Point) -> float:
    """How far a point lies to the left of a wall's centre line, inches."""
    (x0, y0), (x1, y1) = wall.start, wall.end
    run = math.dist(wall.start, wall.end)
    return ((x1 - x0) * (point[1] - y0) - (y1 - y0) * (point[0] - x0)) / run if run else 0.0
