"""Putting cleanouts at the upper ends of drains and into risers."""

from __future__ import annotations

import math
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from app.tools.aim import TOLERANCE
from app.tools.desk import Desk
from app.tools.openings import Opening, openings, taken
from app.tools.tool import Pointer, Tool
from app.tools.wording import named
from engine.joinery.riser_cleanouts import heading_at, height_in
from engine.plan import edits
from engine.plan.records import Cleanout, Plan, Riser


class PutCleanout(Tool):
    """Puts a cleanout where a drain begins or into a riser; `[` and `]` turn the riser's opening by a quarter."""

    name, title, key = "cleanout", "Cleanout", "L"
    hint = "Click a drain's upper end or corner, or a riser; Shift takes the drain under the riser, [ and ] turn it."

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._quarters = 0
        self._last: Pointer | None = None

    def hover(self, pointer: Pointer) -> None:
        """Show it where a click would put it."""
        self._last = pointer
        opening = self._nearest(pointer)
        self.desk.point_out(opening.at if opening else None, opening.words if opening else "")
        plan = self._with(opening, pointer) if opening and not self._taken(opening) else None
        if plan is not None:
            self.desk.document.propose(plan)
        else:
            self.desk.document.drop_proposal()

    def press(self, pointer: Pointer) -> None:
        """Put it there, as one step, and select it; else say what stands in the way."""
        opening = self._nearest(pointer)
        there = self._taken(opening) if opening else None
        if opening is None or there is not None:
            self.desk.say(self.hint if there is None else f"{there.id} opens it there already: choose it to change it.")
            return
        plan = self._with(opening, pointer)
        if plan is None:
            return
        name = plan.cleanouts[-1].id
        self._last = None
        self.desk.document.commit(plan, f"put {named(plan, (name,))}")
        self.desk.point_out(None)
        self.desk.pick(frozenset({name}))

    def typed(self, event: QKeyEvent) -> bool:
        """`[` turns it clockwise, `]` the other way, by a quarter."""
        quarters = {Qt.Key.Key_BracketLeft: -1, Qt.Key.Key_BracketRight: 1}.get(Qt.Key(event.key()))
        if quarters is None:
            return False
        self._quarters = (self._quarters + quarters) % 4
        if self._last is not None:
            self.hover(self._last)
        return True

    def _nearest(self, pointer: Pointer) -> Opening | None:
        """The nearest place for a cleanout within the pointer's reach: with Shift an end, else a riser before it."""
        document = self.desk.document
        reach = self.desk.inches(TOLERANCE)
        near = [
            opening
            for opening in openings(document.settled, self._network())
            if math.dist(opening.at, pointer.at) <= reach and not (pointer.shift and isinstance(opening.opens, Riser))
        ]
        return min(near, key=lambda opening: math.dist(opening.at, pointer.at), default=None)

    def _taken(self, opening: Opening) -> Cleanout | None:
        return taken(self.desk.document.settled, opening)

    def _with(self, opening: Opening, pointer: Pointer) -> Plan | None:
        plan = self.desk.document.settled
        values: dict[str, Any] = {"at": opening.at}
        if isinstance(opening.opens, Riser):
            values["above_floor"] = height_in(opening.opens, plan, self._network())
            values["turn"] = (heading_at(opening.at, plan, pointer.at) + 90.0 * self._quarters) % 360.0
        return self.attempt(partial(edits.add_new, plan, Cleanout, **values))

    def _network(self) -> Any:
        study = self.desk.document.study
        return study.model.network if study is not None else None
