"""Drawing an area with a flooring of its own, such as a tiled bath."""

from __future__ import annotations

from typing import ClassVar

from app.tools.aim import Purpose
from app.tools.between import DrawBetween
from app.tools.sketch import Mark, Words
from engine.lengths import feet_inches
from engine.plan import edits
from engine.plan.records import FlooringArea, Plan, Point


class DrawFlooring(DrawBetween):
    """Draws the area from corner to corner; until told otherwise the floor's own finish lies there."""

    name, title, key = "flooring", "Flooring", "Y"
    purpose: ClassVar[Purpose] = "flooring"
    hint = (
        "Click one corner of an area with a flooring of its own and then the opposite one, or drag; then tell its layers "
        "in the properties."
    )
    kind, does = FlooringArea, "draw flooring"
    refused = "A flooring area wants width both ways: click two opposite corners."

    def fits(self, start: Point, end: Point) -> bool:
        """Whether the two corners leave it width both ways."""
        return start[0] != end[0] and start[1] != end[1]

    def drawn(self, plan: Plan, start: Point, end: Point) -> Plan:
        """The plan with the area, as thick as the floor's own finish."""
        own = plan.floor
        return edits.add_new(
            plan, FlooringArea, start=start, end=end, finish=own.finish, finish_layers=own.finish_layers
        )

    def marks(self, start: Point, end: Point) -> list[Mark]:
        """The two sides so far."""
        sides = abs(end[0] - start[0]), abs(end[1] - start[1])
        return [Words(end, self.entry.text or f"{feet_inches(sides[0])} x {feet_inches(sides[1])}")]
