"""Tools that draw one element between two points: what they have in common."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from app.tools.stretch import Stretch
from engine.plan import edits
from engine.plan.records import Plan, Point


class DrawBetween(Stretch):
    """Draws one element of a `kind`; the step is called by what it `does` and the new id. `refused` says what it wants."""

    kind: ClassVar[type]
    does: ClassVar[str]
    refused: ClassVar[str] = ""

    def fits(self, start: Point, end: Point) -> bool:
        """Whether the two points are enough of one."""
        return start != end

    def drawn(self, plan: Plan, start: Point, end: Point) -> Plan:
        """The plan with the element between the two points. EditError when it can't be."""
        return edits.add_new(plan, self.kind, start=start, end=end)

    def show(self, start: Point, end: Point) -> None:
        """Show it as it would stand."""
        plan = self._with(start, end) if self.fits(start, end) else None
        if plan is not None:
            self.desk.document.propose(plan)
        else:
            self.desk.document.drop_proposal()

    def make(self, start: Point, end: Point) -> None:
        """Make it, as one step, and select it."""
        if not self.fits(start, end):
            self.desk.say(self.refused)
            return
        plan = self._with(start, end)
        if plan is None:
            return
        name = edits.fresh_id(self.desk.document.settled, edits.LETTERS[self.kind])
        self.desk.document.commit(plan, f"{self.does} {name}")
        self.desk.pick(frozenset({name}))

    def _with(self, start: Point, end: Point) -> Plan | None:
        return self.attempt(partial(self.drawn, self.desk.document.settled, start, end))
