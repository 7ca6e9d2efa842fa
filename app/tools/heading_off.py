"""Drawing an opening framed in the floor, where joists are headed off."""

from __future__ import annotations

from typing import ClassVar

from msgspec.structs import replace

from app.tools.aim import Purpose
from app.tools.between import DrawBetween
from app.tools.sketch import Mark, Words
from engine.drafting.heading_off import plies_for
from engine.lengths import feet_inches
from engine.plan import edits
from engine.plan.records import FloorOpening, Plan, Point
from engine.rulebooks import load


class HeadOff(DrawBetween):
    """Draws the clear way of an opening from corner to corner; its wood is made as heavy as the rule book asks."""

    name, title, key = "heading_off", "Floor opening", "K"
    purpose: ClassVar[Purpose] = "heading"
    hint = "Click one corner of the opening's clear way and then the opposite one, or drag: the joists between are headed off."
    kind, does = FloorOpening, "head joists off round"
    refused = "An opening wants width both ways: click two opposite corners."

    def fits(self, start: Point, end: Point) -> bool:
        """Whether the two corners leave it width both ways."""
        return start[0] != end[0] and start[1] != end[1]

    def drawn(self, plan: Plan, start: Point, end: Point) -> Plan:
        """The plan with the opening, its headers and trimmers of as many plies as the book asks for."""
        made = super().drawn(plan, start, end)
        opening = made.floor_openings[-1]
        headers, trimmers = plies_for(made, opening, load(plan.rulebook, plan.amendments))
        return edits.replace(made, replace(opening, headers=headers, trimmers=trimmers))

    def marks(self, start: Point, end: Point) -> list[Mark]:
        """The two sides so far."""
        sides = abs(end[0] - start[0]), abs(end[1] - start[1])
        return [Words(end, self.entry.text or f"{feet_inches(sides[0])} x {feet_inches(sides[1])}")]
