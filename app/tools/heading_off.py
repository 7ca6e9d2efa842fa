"""Drawing an opening framed in the floor, where joists are headed off."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from msgspec.structs import replace

from app.tools.aim import Purpose
from app.tools.sketch import Mark, Words
from app.tools.stretch import Stretch
from engine.drafting.heading_off import plies_for
from engine.lengths import feet_inches
from engine.plan import edits
from engine.plan.records import FloorOpening, Plan, Point
from engine.rulebooks import load


class HeadOff(Stretch):
    """Draws the clear way of an opening from corner to corner; its wood is made as heavy as the rule book asks."""

    name = "heading_off"
    title = "Head-off"
    key = "K"
    purpose: ClassVar[Purpose] = "heading"
    hint = "Click one corner of the opening's clear way and then the opposite one, or drag: the joists between are headed off."

    def show(self, start: Point, end: Point) -> None:
        """Show the opening framed between the two corners."""
        plan = self._with(start, end) if _is_wide(start, end) else None
        if plan is not None:
            self.desk.document.propose(plan)
        else:
            self.desk.document.drop_proposal()

    def make(self, start: Point, end: Point) -> None:
        """Make the opening, as one step, and select it."""
        plan = self._with(start, end) if _is_wide(start, end) else None
        if plan is None:
            self.desk.say("An opening wants width both ways: click two opposite corners.")
            return
        name = plan.floor_openings[-1].id
        self.desk.document.commit(plan, f"head joists off round {name}")
        self.desk.pick(frozenset({name}))

    def marks(self, start: Point, end: Point) -> list[Mark]:
        """The two sides so far."""
        sides = abs(end[0] - start[0]), abs(end[1] - start[1])
        return [Words(end, self.entry.text or f"{feet_inches(sides[0])} x {feet_inches(sides[1])}")]

    def _with(self, start: Point, end: Point) -> Plan | None:
        return self.attempt(partial(_framed, self.desk.document.settled, start, end))


def _framed(plan: Plan, start: Point, end: Point) -> Plan:
    made = edits.add_new(plan, FloorOpening, start=start, end=end)
    opening = made.floor_openings[-1]
    headers, trimmers = plies_for(made, opening, load(plan.rulebook, plan.amendments))
    return edits.replace(made, replace(opening, headers=headers, trimmers=trimmers))


def _is_wide(start: Point, end: Point) -> bool:
    return start[0] != end[0] and start[1] != end[1]
