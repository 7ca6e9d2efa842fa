"""Which wall a point stands in."""

from __future__ import annotations

from engine.plan.axis import distance, share
from engine.plan.dressed import WALL_DEPTH
from engine.plan.records import Plan, Point, Wall


def wall_at(plan: Plan, point: Point, prefer: str | None = None) -> Wall | None:
    """The wall between whose stud faces a point lies: the one called `prefer` if it is among several, else the first."""
    found = [wall for wall in plan.walls if holds(wall, point)]
    return next((wall for wall in found if wall.id == prefer), found[0] if found else None)


def holds(wall: Wall, point: Point) -> bool:
    """Whether a point lies between a wall's stud faces and its two ends."""
    if wall.start == wall.end:
        return False
    along = share(wall.start, wall.end, point)
    if not 0.0 <= along <= 1.0:
        return False
    on = (
        wall.start[0] + along * (wall.end[0] - wall.start[0]),
        wall.start[1] + along * (wall.end[1] - wall.start[1]),
    )
    return distance(on, point) <= WALL_DEPTH[wall.lumber] / 2.0
