"""Which stud of a wall lies at a place, in words."""

from __future__ import annotations

from engine.framing.studs import stand
from engine.lengths import feet_inches
from engine.plan.outline import describe
from engine.plan.records import Plan, Point, Wall


def stud_words(plan: Plan, wall: Wall, at: Point, near: float) -> str:
    """The stud of a wall within so many inches of a place, by its number; empty between studs and in a wall without length."""
    if wall.start == wall.end:
        return ""
    wood = stand(wall, plan.floor.subfloor)
    along, _ = wood.where(at)
    stud = min(wood.studs, key=lambda one: abs(one.centre - along))
    if not stud.low - near <= along <= stud.high + near:
        return ""
    double = ", doubled" if stud.doubled else ""
    return (
        f"{describe(wall)}, stud {stud.number}{double}: {feet_inches(stud.centre)} from the wall's start to its middle"
    )
