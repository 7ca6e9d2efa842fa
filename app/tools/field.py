"""Drawing a field of joists from corner to corner."""

from __future__ import annotations

from functools import partial
from typing import Any, ClassVar

from app.tools.aim import Purpose
from app.tools.sketch import Mark, Words
from app.tools.stretch import Stretch
from engine.lengths import feet_inches
from engine.plan import edits
from engine.plan.records import JoistField, Plan, Point

LEAST = 12.0
"""A field is never drawn smaller than this, inches."""


class DrawField(Stretch):
    """Draws a rectangle of joists that lays itself out like the last field of the plan, or as usual."""

    name = "field"
    title = "Joists"
    key = "J"
    hint = "Click one outside corner of the framing and then the opposite one, or drag from one to the other."
    purpose: ClassVar[Purpose] = "framing"

    def show(self, start: Point, end: Point) -> None:
        """Show the joists laid out between the two corners."""
        plan = self._with(start, end) if _is_field(start, end) else None
        if plan is not None:
            self.desk.document.propose(plan)
        else:
            self.desk.document.drop_proposal()

    def make(self, start: Point, end: Point) -> None:
        """Make the field, as one step, and select it."""
        if not _is_field(start, end):
            self.desk.say(f"Joists need a field of at least {LEAST:g} in each way.")
            return
        plan = self._with(start, end)
        if plan is None:
            return
        name = plan.fields[-1].id
        self.desk.document.commit(plan, f"draw joists {name}")
        self.desk.pick(frozenset({name}))

    def marks(self, start: Point, end: Point) -> list[Mark]:
        """The two sides so far."""
        width, length = abs(end[0] - start[0]), abs(end[1] - start[1])
        return [Words(end, self.entry.text or f"{feet_inches(width)} x {feet_inches(length)}")]

    def _with(self, start: Point, end: Point) -> Plan | None:
        settled = self.desk.document.settled
        west, east = sorted((start[0], end[0]))
        south, north = sorted((start[1], end[1]))
        values: dict[str, Any] = {"corner": (west, south), "size": (east - west, north - south)}
        if settled.fields:
            last = settled.fields[-1]
            values.update(lumber=last.lumber, spacing=last.spacing, direction=last.direction)
        return self.attempt(partial(edits.add_new, settled, JoistField, **values))


def _is_field(start: Point, end: Point) -> bool:
    return min(abs(end[0] - start[0]), abs(end[1] - start[1])) >= LEAST
