"""Choosing: clicks, boxes, moving what is selected and pulling its grips."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QPoint, QRect, Qt

from app.tools.aim import Aim
from app.tools.desk import Desk
from app.tools.grips import REACH, Grip, grips, neighbours, pulled
from app.tools.moving import moved
from app.tools.sketch import Handle, Stroke
from app.tools.tool import CLICK, Drag, Pointer, Tool
from app.tools.wording import named
from engine.plan import edits
from engine.plan.records import Plan, Wall


class Choose(Tool):
    """Selects and changes what is there. A second click at the same spot goes to the thing beneath."""

    name = "choose"
    title = "Choose"
    key = "C"
    hint = "Click or box to select, drag to move; arrows nudge, T turns, Delete removes, Enter opens the properties."
    cursor = Qt.CursorShape.ArrowCursor

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._aim, self._wall_aim = Aim(desk), Aim(desk, "wall")
        self._clicked: tuple[QPoint, str] | None = None

    def refresh(self) -> None:
        """Show the grips of a single selected element."""
        if not self.busy:
            self.desk.sketch(Handle(grip.at, grip.does == "turn") for grip in self._grips())

    def double(self, pointer: Pointer) -> None:
        """A double click opens the properties of what it hits."""
        hits = self.desk.beneath(pointer.pixel)
        if hits:
            chosen = self.desk.document.selection
            self.desk.edit(next((name for name in hits if name in chosen), hits[0]))

    def drag(self, press: Pointer) -> Drag | None:
        """Pull a grip, pick a finding's elements, move what is hit, or draw a box from the empty sheet."""
        grip = self._grip_at(press)
        if grip is not None:
            return self._pull(press, grip)
        marked = self.desk.answer_at(press.pixel)
        if marked is not None:
            self.desk.pick(marked)
            return None
        hits = self.desk.beneath(press.pixel)
        return self._move(press, hits) if hits else self._box(press)

    # the drags -------------------------------------------------------------------------------------------------

    def _move(self, press: Pointer, hits: Sequence[str]) -> Drag:
        document = self.desk.document
        chosen = document.selection
        target = next((name for name in hits if name in chosen), hits[0])
        pointer = yield
        while not pointer.released and not _far(press, pointer):
            pointer = yield
        if pointer.released and not _far(press, pointer):
            self._click(press, hits)
            return
        if target not in chosen:
            self.desk.pick(frozenset({target}))
        ids, before = document.selection, document.settled
        plan = before
        self.desk.sketch(())
        while True:
            plan = self.attempt(partial(moved, self._aim, before, ids, target, press, pointer)) or plan
            document.propose(plan)
            if pointer.released:
                break
            pointer = yield
        document.commit(plan, f"move {named(before, ids)}")

    def _pull(self, press: Pointer, grip: Grip) -> Drag:
        document = self.desk.document
        before = document.settled
        label = {"point": "move a point of", "turn": "turn", "corner": "resize"}[grip.does]
        element = edits.find(before, grip.element)
        aim, anchors = self._wall_aim if isinstance(element, Wall) else self._aim, neighbours(element, grip.number)
        plan = before
        pointer = yield
        while not pointer.released and not _far(press, pointer):
            pointer = yield
        if not _far(press, pointer):
            self._click(press, self.desk.beneath(press.pixel))
            return
        while True:
            aimed = aim.at(pointer, anchors, leave=frozenset({grip.element}), mark=grip.does != "turn")
            plan = self.attempt(partial(pulled, before, grip, aimed.point, pointer.shift)) or plan
            document.propose(plan)
            if pointer.released:
                break
            pointer = yield
        if grip.does == "point":
            plan = _welded(plan, grip)
        document.commit(plan, f"{label} {named(before, (grip.element,))}")

    def _box(self, press: Pointer) -> Drag:
        chosen = self.desk.document.selection
        pointer = yield
        while not pointer.released:
            if _far(press, pointer):
                (x0, y0), (x1, y1) = press.at, pointer.at
                self.desk.sketch([Stroke(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), "band", closed=True)])
            pointer = yield
        found = frozenset[str]()
        if _far(press, pointer):
            found = self.desk.inside(QRect(press.pixel, pointer.pixel).normalized())
        self.desk.pick(chosen | found if press.shift else found)

    # small steps -----------------------------------------------------------------------------------------------

    def _click(self, press: Pointer, hits: Sequence[str]) -> None:
        chosen = self.desk.document.selection
        if not hits:
            return
        if press.shift:
            self.desk.pick(chosen ^ {hits[0]})
            return
        target = hits[0]
        if self._clicked is not None and chosen == {self._clicked[1]} and self._clicked[1] in hits:
            spot, last = self._clicked
            if (press.pixel - spot).manhattanLength() <= CLICK:
                target = hits[(hits.index(last) + 1) % len(hits)]
        self._clicked = (press.pixel, target)
        self.desk.pick(frozenset({target}))

    def _grips(self) -> tuple[Grip, ...]:
        document = self.desk.document
        if len(document.selection) != 1:
            return ()
        element = document.element(next(iter(document.selection)))
        return grips(element) if element is not None else ()

    def _grip_at(self, press: Pointer) -> Grip | None:
        reach = self.desk.inches(REACH)
        near = [grip for grip in self._grips() if math.dist(grip.at, press.at) <= reach]
        return min(near, key=lambda grip: math.dist(grip.at, press.at), default=None)


def _far(press: Pointer, pointer: Pointer) -> bool:
    return (pointer.pixel - press.pixel).manhattanLength() > CLICK


def _welded(plan: Plan, grip: Grip) -> Plan:
    """The plan with a run's end welded to what it was dropped on, where that is a pipe."""
    element = edits.find(plan, grip.element)
    points = getattr(element, "points", ())
    if not points or grip.number not in (0, len(points) - 1):
        return plan
    try:
        return edits.join(plan, grip.element, "start" if grip.number == 0 else "end")
    except edits.EditError:
        return plan
