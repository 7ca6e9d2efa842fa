"""Drawing beams by their centre lines."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from app.tools.aim import Purpose
from app.tools.stretch import Stretch
from engine.plan import edits
from engine.plan.records import Beam, Plan, Point


class DrawBeam(Stretch):
    """Draws one girder, dropped beam or steel member; its measures are set in its properties."""

    name, title, key = "beam", "Beam", "B"
    purpose: ClassVar[Purpose] = "framing"
    hint = "Girder or steel member: click where its centre line begins and where it ends, or drag; type a length to set it."

    def show(self, start: Point, end: Point) -> None:
        """Show it as it would lie."""
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
        name = plan.beams[-1].id
        self.desk.document.commit(plan, f"draw beam {name}")
        self.desk.pick(frozenset({name}))

    def _with(self, start: Point, end: Point) -> Plan | None:
        return self.attempt(partial(edits.add_new, self.desk.document.settled, Beam, start=start, end=end))
