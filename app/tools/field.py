"""Drawing a field of joists from corner to corner."""

from __future__ import annotations

from app.tools.aim import Aim
from app.tools.desk import Desk
from app.tools.sketch import Words
from app.tools.tool import Drag, Pointer, Tool
from engine.lengths import feet_inches
from engine.plan import edits
from engine.plan.records import JoistField, Plan, Point

LEAST = 12.0
"""A field is never drawn smaller than this, inches."""


class DrawField(Tool):
    """Draws a rectangle of joists that lays itself out like the last field of the plan, or as usual."""

    name = "field"
    title = "Joists"
    key = "J"
    hint = "Press at one outside corner of the framing, drag to the opposite one."

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._aim = Aim(desk, "framing")

    def hover(self, pointer: Pointer) -> None:
        """Show where the first corner would be."""
        self._aim.at(pointer)

    def drag(self, press: Pointer) -> Drag:
        """The joists lay themselves out while the second corner is sought."""
        document = self.desk.document
        start = self._aim.at(press).point
        plan: Plan | None = None
        while True:
            pointer = yield
            end = self._aim.at(pointer).point
            width, length = abs(end[0] - start[0]), abs(end[1] - start[1])
            plan = self._with(start, end) if min(width, length) >= LEAST else None
            if plan is not None:
                document.propose(plan)
            self.desk.sketch([Words(end, f"{feet_inches(width)} x {feet_inches(length)}")])
            if pointer.released:
                break
        if plan is not None:
            name = plan.fields[-1].id
            document.commit(plan, f"draw joists {name}")
            self.desk.pick(frozenset({name}))

    def _with(self, start: Point, end: Point) -> Plan:
        settled = self.desk.document.settled
        west, east = sorted((start[0], end[0]))
        south, north = sorted((start[1], end[1]))
        last = settled.fields[-1] if settled.fields else None
        like = {} if last is None else {"lumber": last.lumber, "spacing": last.spacing, "direction": last.direction}
        return edits.add_new(settled, JoistField, corner=(west, south), size=(east - west, north - south), **like)
