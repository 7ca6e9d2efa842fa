"""Drawing walls by their centre lines."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from app.tools.aim import Purpose
from app.tools.stretch import Stretch
from engine.plan import edits
from engine.plan.records import Plan, Point, Wall


class DrawWall(Stretch):
    """Draws one wall; further fields are set in its properties."""

    name = "wall"
    title = "Wall"
    key = "W"
    purpose: ClassVar[Purpose] = "wall"
    hint = "Click where the wall's centre line begins and where it ends, or drag; type a length to set it."

    def show(self, start: Point, end: Point) -> None:
        """Show the wall as it would stand."""
        plan = self._with(start, end) if start != end else None
        if plan is not None:
            self.desk.document.propose(plan)

    def make(self, start: Point, end: Point) -> None:
        """Make the wall, as one step, and select it."""
        plan = self._with(start, end)
        if plan is None:
            return
        name = plan.walls[-1].id
        self.desk.document.commit(plan, f"draw wall {name}")
        self.desk.pick(frozenset({name}))

    def _with(self, start: Point, end: Point) -> Plan | None:
        return self.attempt(partial(edits.add_new, self.desk.document.settled, Wall, start=start, end=end))
