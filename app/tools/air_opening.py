"""Drawing windows, doors and air intakes: what the ends of vents over the roof stay away from."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from app.tools.aim import Purpose
from app.tools.stretch import Stretch
from engine.plan import edits
from engine.plan.records import AirOpening, Plan, Point


class DrawOpening(Stretch):
    """Draws one window, door or intake from one side of it to the other; its height is set in its properties."""

    name, title, key = "opening", "Opening", "A"
    purpose: ClassVar[Purpose] = "opening"
    hint = "Window, door or air intake: click one side of it and the other, or drag; type a width to set it."

    def show(self, start: Point, end: Point) -> None:
        """Show it as it would stand."""
        plan = self._with(start, end) if start != end else None
        if plan is not None:
            self.desk.document.propose(plan)
        else:
            self.desk.document.drop_proposal()

    def make(self, start: Point, end: Point) -> None:
        """Make it, as one step, and select it."""
        plan = self._with(start, end)
        if plan is None:
            return
        name = plan.air_openings[-1].id
        self.desk.document.commit(plan, f"draw opening {name}")
        self.desk.pick(frozenset({name}))

    def _with(self, start: Point, end: Point) -> Plan | None:
        return self.attempt(partial(edits.add_new, self.desk.document.settled, AirOpening, start=start, end=end))
