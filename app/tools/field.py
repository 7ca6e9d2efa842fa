"""Drawing a field of joists from corner to corner."""

from __future__ import annotations

from typing import Any, ClassVar

from app.tools.aim import Purpose
from app.tools.between import DrawBetween
from app.tools.sketch import Mark, Words
from engine.lengths import feet_inches
from engine.plan import edits
from engine.plan.records import JoistField, Plan, Point

LEAST = 12.0
"""A field is never drawn smaller than this, inches."""


class DrawField(DrawBetween):
    """Draws a rectangle of joists that lays itself out like the last field of the plan, or as usual."""

    name, title, key = "field", "Joists", "J"
    hint = "Click one outside corner of the framing and then the opposite one, or drag from one to the other."
    purpose: ClassVar[Purpose] = "framing"
    kind, does = JoistField, "draw joists"
    refused = f"Joists need a field of at least {LEAST:g} in each way."

    def fits(self, start: Point, end: Point) -> bool:
        """Whether the two corners are far enough apart."""
        return min(abs(end[0] - start[0]), abs(end[1] - start[1])) >= LEAST

    def drawn(self, plan: Plan, start: Point, end: Point) -> Plan:
        """The plan with the field between two outside corners."""
        west, east = sorted((start[0], end[0]))
        south, north = sorted((start[1], end[1]))
        values: dict[str, Any] = {"corner": (west, south), "size": (east - west, north - south)}
        if plan.fields:
            last = plan.fields[-1]
            values.update(lumber=last.lumber, spacing=last.spacing, direction=last.direction, species=last.species)
        return edits.add_new(plan, JoistField, **values)

    def marks(self, start: Point, end: Point) -> list[Mark]:
        """The two sides so far."""
        width, length = abs(end[0] - start[0]), abs(end[1] - start[1])
        return [Words(end, self.entry.text or f"{feet_inches(width)} x {feet_inches(length)}")]
