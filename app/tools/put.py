"""Putting things that stand at one point: risers, exits, inlets, hatches."""

from __future__ import annotations

from functools import partial
from typing import Any, ClassVar

from app.tools.aim import Aim, Purpose
from app.tools.desk import Desk
from app.tools.tool import Pointer, Tool
from app.tools.wording import named
from engine.drafting.guides import Layer
from engine.plan import edits
from engine.plan.records import Exit, Hatch, Inlet, Plan, Point, Riser
from engine.plan.walls import wall_at


class Put(Tool):
    """What putting any of them has in common: it is shown under the pointer, and a click makes it."""

    kind: ClassVar[type]
    layer: ClassVar[Layer | None] = "under"
    purpose: ClassVar[Purpose] = "point"

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._aim = Aim(desk, self.purpose, self.layer)

    def fields(self, plan: Plan, at: Point) -> dict[str, Any]:
        """What the new element is given at that point."""
        return {"at": at}

    def hover(self, pointer: Pointer) -> None:
        """Show it where a click would put it."""
        plan = self._with(pointer)
        if plan is not None:
            self.desk.document.propose(plan)

    def press(self, pointer: Pointer) -> None:
        """Put it there, as one step, weld it to the pipe under it, and select it."""
        plan = self._with(pointer)
        if plan is None:
            return
        name = edits.fresh_id(self.desk.document.settled, edits.LETTERS[self.kind])
        self.desk.document.commit(_welded(plan, name), f"put {named(plan, (name,))}")
        self.desk.point_out(None)
        self.desk.pick(frozenset({name}))

    def _with(self, pointer: Pointer) -> Plan | None:
        plan = self.desk.document.settled
        at = self._aim.at(pointer).point
        return self.attempt(partial(edits.add_new, plan, self.kind, **self.fields(plan, at)))


class PutRiser(Put):
    """Puts a riser into a wall."""

    name, title, key = "riser", "Riser", "R"
    hint = "Click in a wall where the plumb pipe stands."
    kind = Riser

    def fields(self, plan: Plan, at: Point) -> dict[str, Any]:
        """A riser knows the wall that it stands in."""
        wall = wall_at(plan, at)
        return {"at": at, "wall": wall.id if wall is not None else None}


class PutExit(Put):
    """Puts the place where the building drain leaves the floor."""

    name, title, key = "exit", "Exit", "E"
    hint = "Click where the building drain leaves the floor."
    kind = Exit


class PutInlet(Put):
    """Puts the place where the water service enters."""

    name, title, key = "inlet", "Inlet", "I"
    hint = "Click where the water service enters."
    kind, layer = Inlet, "cold"


class PutHatch(Put):
    """Puts a way in to the space under the floor."""

    name, title, key = "hatch", "Hatch", "U"
    hint = "Click where one gets in under the floor: the middle of the trap door, or of the hole in the crawl space's wall."
    kind, layer, purpose = Hatch, None, "framing"


def _welded(plan: Plan, name: str) -> Plan:
    """The plan with the new thing welded to the pipe under it, where there is one."""
    try:
        return edits.join(plan, name)
    except edits.EditError:
        return plan
