"""Drawing walls by their centre lines."""

from __future__ import annotations

from typing import ClassVar

from app.tools.aim import Purpose
from app.tools.between import DrawBetween
from engine.drafting.outside_walls import laid_on_edge
from engine.plan import edits
from engine.plan.records import Plan, Point, Wall


class DrawWall(DrawBetween):
    """Draws one wall, flush with the floor's edge where it is drawn along it; further fields are set in its properties."""

    name, title, key = "wall", "Wall", "W"
    purpose: ClassVar[Purpose] = "wall"
    hint = "Click where the wall's centre line begins and where it ends, or drag; type a length to set it."
    kind, does = Wall, "draw wall"

    def drawn(self, plan: Plan, start: Point, end: Point) -> Plan:
        """The plan with the wall; along the floor's edge it is an outside wall, its outer face on the edge."""
        made = super().drawn(plan, start, end)
        laid = laid_on_edge(plan, made.walls[-1])
        return made if laid == made.walls[-1] else edits.replace(made, laid)
