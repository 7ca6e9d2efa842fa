"""Where a cleanout stands in a riser: how high, and to which side it opens."""

from __future__ import annotations

import math
from collections.abc import Iterable

from engine.drafting.finished import at_riser
from engine.piping.records import Network
from engine.plan.records import Plan, Point, Riser, Wall
from engine.plan.walls import wall_at
from engine.plan.welds import WALL_OUTLETS
from engine.trade.habits import RISER_CLEANOUT, RISER_CLEANOUT_CLEAR


def height_in(riser: Riser, plan: Plan, network: Network | None) -> float:
    """How high above the floor a riser's cleanout stands: as usual, but clear below the lowest pipe that enters it."""
    floor = at_riser(plan, riser.at)
    entering = [
        node.level - floor
        for pipe in (network.pipes if network is not None else ())
        for node in (pipe.start, pipe.end)
        if pipe.shape != "plumb" and (node.x, node.y) == riser.at and node.level > floor
    ]
    return height_below(entering)


def height_below(entering: Iterable[float]) -> float:
    """The usual height above the floor, or so much lower that it stays clear of pipes that enter at these heights."""
    return max(0.0, min([RISER_CLEANOUT, *(height - RISER_CLEANOUT_CLEAR for height in entering)]))


def heading_at(at: Point, plan: Plan, toward: Point) -> float:
    """The heading to which a riser's cleanout opens: into the room, on the pointer's side where both sides have one.

    What empties into the wall there tells where the room is; else an outside wall opens over the floor, and any
    other wall on the side of `toward`. In no wall it is the nearest quarter heading to `toward`.
    """
    for fixture in plan.fixtures:
        if fixture.at == at and fixture.kind in WALL_OUTLETS:
            return fixture.turn
    wall = wall_at(plan, at)
    if wall is None:
        return round(_heading(at, toward) / 90.0) * 90.0 % 360.0 if toward != at else 0.0
    corners = plan.floor.outline
    middle = (sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))
    off = _beside(middle if wall.exterior else toward, wall)
    return round((_heading(wall.start, wall.end) + math.copysign(90.0, off)) % 360.0, 9) % 360.0


def _heading(start: Point, end: Point) -> float:
    return math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))


def _beside(point: Point, wall: Wall) -> float:
    """How far a point lies to the left of a wall, seen from its start, inches."""
    (ax, ay), (bx, by) = wall.start, wall.end
    length = math.dist(wall.start, wall.end)
    return ((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / length
