"""How high the finished floor lies at a place: the floor's own flooring, or that of an area drawn on it.

Nothing finished lies in a wall, so what stands in one asks :mod:`engine.drafting.finished` instead.
"""

from __future__ import annotations

from engine.plan.records import Floor, FlooringArea, Plan, Point


def finished_at(plan: Plan, at: Point) -> float:
    """Height of the finished floor above the joists' top at a plan point, inches."""
    if not plan.flooring_areas:
        return plan.floor.finished_z
    return plan.floor.subfloor + flooring_at(plan, at).finish


def flooring_at(plan: Plan, at: Point) -> Floor | FlooringArea:
    """What lies finished at a plan point: the last area over it, its edges counted in, else the floor itself."""
    return next((area for area in reversed(plan.flooring_areas) if covers(area, at)), plan.floor)


def covers(area: FlooringArea, at: Point) -> bool:
    """Whether a plan point lies within an area or on its edge."""
    (x0, y0), (x1, y1) = area.start, area.end
    return min(x0, x1) <= at[0] <= max(x0, x1) and min(y0, y1) <= at[1] <= max(y0, y1)
