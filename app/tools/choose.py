"""Choosing: clicks, boxes, moving what is selected and pulling its grips."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QKeyEvent

from app.tools.aim import Aim
from app.tools.desk import Desk
from app.tools.grips import REACH, Grip, grips, neighbours, pulled, says
from app.tools.moving import moved
from app.tools.one_joist import NEAR, ask_what, ask_which, joist_at
from app.tools.one_stud import stud_words
from app.tools.over_wood import over_wood
from app.tools.parting import parted
from app.tools.points import Place, middle_of, nearest_point, place_on, with_point
from app.tools.sketch import Handle, Stroke
from app.tools.tool import CLICK, Drag, Pointer, Tool
from app.tools.wording import named
from engine.drafting.guides import layer_of
from engine.plan import edits
from engine.plan.outline import called
from engine.plan.points import Run
from engine.plan.records import Element, JoistField, Plan, Wall

ADD_POINT = Qt.Key.Key_A
"""Puts a point into the selected run where the pointer is; with Shift takes out the one nearest to it."""

PART = Qt.Key.Key_S
"""Parts the selected run at its point nearest to the pointer; with Shift makes two selected runs one."""


ONE_JOIST = (Qt.Key.Key_X, Qt.Key.Key_Menu)
"""Asks which joist of the selected field is meant, and what is to be done to it."""

NO_JOIST = "Right click a joist to double, move or measure it; or choose a field of joists and press X."


class Choose(Tool):
    """Selects and changes what is there. A second click at the same spot goes to the thing beneath."""

    name = "choose"
    title = "Choose"
    key = "C"
    hint = (
        "Click or box to select, drag to move; arrows nudge, T turns a fixture, A adds a point to a run, a right click takes one "
        "joist, Enter opens the properties."
    )
    cursor = Qt.CursorShape.ArrowCursor
    tips = True

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._aim, self._wall_aim = Aim(desk), Aim(desk, "wall")
        self._clicked: tuple[QPoint, str] | None = None
        self._last: Pointer | None = None
        self._told: Grip | None = None

    def refresh(self) -> None:
        """Show the grips of a single selected element."""
        if not self.busy:
            self.desk.sketch(Handle(grip.at, grip.does == "turn") for grip in self._grips())

    def hover(self, pointer: Pointer) -> None:
        """Say what the grip under the pointer is for."""
        self._last = pointer
        grip = self._grip_at(pointer)
        if grip != self._told:
            self._told = grip
            self.desk.say(says(grip, self.desk.document.plan) if grip is not None else self.hint)

    def tip(self, pointer: Pointer) -> str:
        """A grip tells what it is for, a wall which of its studs is there."""
        grip, plan = self._grip_at(pointer), self.desk.document.plan
        if grip is not None:
            return says(grip, plan)
        hits = self.desk.beneath(pointer.pixel)
        wall = self.desk.document.element(hits[0]) if hits else None
        return stud_words(plan, wall, pointer.at, self.desk.inches(NEAR)) if isinstance(wall, Wall) else ""

    def double(self, pointer: Pointer) -> None:
        """A double click puts a point into a run; on anything else it opens the properties."""
        hits = self.desk.beneath(pointer.pixel)
        if not hits:
            return
        document = self.desk.document
        run = document.element(hits[0])
        if isinstance(run, Run):
            self.desk.pick(frozenset({run.id}))
            self._insert(run, self._place(run, pointer))
        else:
            chosen = document.selection
            self.desk.edit(next((name for name in hits if name in chosen), hits[0]))

    def ask(self, pointer: Pointer) -> None:
        """Offer what can be done to the one joist under the pointer."""
        document = self.desk.document
        joist = joist_at(document.settled, pointer.at, self.desk.inches(NEAR), document.selection)
        if joist is not None:
            ask_what(self.desk, joist, pointer.at)
        else:
            self.desk.say(NO_JOIST)

    def _ask_by_key(self) -> None:
        chosen = self.desk.document.selection
        field = self.desk.document.element(next(iter(chosen))) if len(chosen) == 1 else None
        if isinstance(field, JoistField):
            ask_which(self.desk, field)
        else:
            self.desk.say(NO_JOIST)

    def typed(self, event: QKeyEvent) -> bool:
        """A puts a point into the selected run where the pointer is, Shift+A takes the nearest out; S parts, Shift+S merges."""
        if event.key() in ONE_JOIST and not self.busy and not event.modifiers():
            self._ask_by_key()
            return True
        if event.key() == PART and not self.busy and not event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier:
            self._merge() if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else self._part()
            return True
        if event.key() != ADD_POINT or self.busy or event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier:
            return False
        chosen = self.desk.document.selection
        run = self.desk.document.element(next(iter(chosen))) if len(chosen) == 1 else None
        if not isinstance(run, Run):
            self.desk.say("A adds a point to a run of pipe: choose one run first.")
            return True
        near = self._last if self._last is not None and run.id in self.desk.beneath(self._last.pixel) else None
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            number = nearest_point(run, near.at) if near is not None else len(run.points) - 2
            self._commit(partial(edits.delete_point, run_id=run.id, index=number), f"take a point out of {called(run)}")
        else:
            self._insert(run, self._place(run, near) if near is not None else middle_of(run))
        return True

    def drag(self, press: Pointer) -> Drag | None:
        """Pull a grip, pick a finding's elements, move what is hit, or draw a box from the empty sheet."""
        self._last = press
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
        plan, aim = before, self._aim_for(edits.find(before, target))
        self.desk.sketch(())
        while True:
            plan = self.attempt(partial(moved, aim, before, ids, target, press, pointer)) or plan
            document.propose(plan)
            self.desk.sketch(over_wood(plan, target) if len(ids) == 1 else ())
            if pointer.released:
                break
            pointer = yield
        self.desk.sketch(())
        document.commit(plan, f"move {named(before, ids)}")

    def _pull(self, press: Pointer, grip: Grip) -> Drag:
        document = self.desk.document
        before = document.settled
        label = {"point": "move a point of", "turn": "turn", "corner": "resize"}[grip.does]
        element = edits.find(before, grip.element)
        aim, anchors = self._aim_for(element), neighbours(element, grip.number)
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

    def _aim_for(self, element: Element) -> Aim:
        """Walls keep to walls, and a run is drawn only to what it can join."""
        if isinstance(element, Wall):
            return self._wall_aim
        return Aim(self.desk, layer=layer_of(element)) if isinstance(element, Run) else self._aim

    def _place(self, run: Run, pointer: Pointer) -> Place:
        aimed = Aim(self.desk, layer=layer_of(run)).at(pointer, mark=False)
        return place_on(run, pointer.at, aimed.point)

    def _part(self) -> None:
        """Part the selected run where the pointer is, and select both parts."""
        document = self.desk.document
        chosen = document.selection
        run = document.element(next(iter(chosen))) if len(chosen) == 1 else None
        if not isinstance(run, Run):
            self.desk.say("S parts a run of pipe, so that each part may have a slope of its own: choose one run first.")
            return
        near = self._last.at if self._last is not None and run.id in self.desk.beneath(self._last.pixel) else None
        network = document.study.model.network if document.study is not None else None
        before = set(document.elements)
        self._commit(partial(parted, run=run, near=near, network=network), f"part {called(run)}")
        made = set(document.elements) - before
        if made:
            self.desk.pick(frozenset({run.id, *made}))
            self.desk.say(
                f"{run.id} and {', '.join(made)} are two runs now, each with its own size, slope and way past joists."
            )

    def _merge(self) -> None:
        """Make two selected runs that share an end one."""
        document = self.desk.document
        pair = [one for name in sorted(document.selection) if isinstance(one := document.element(name), Run)]
        if len(pair) != 2 or len(document.selection) != 2:
            self.desk.say("Shift+S makes two runs one: choose two that share an end and are alike.")
            return
        first, other = pair
        self._commit(
            partial(edits.merge, run_id=first.id, other_id=other.id), f"make {called(first)} and {other.id} one run"
        )
        if other.id not in document.elements:
            self.desk.pick(frozenset({first.id}))

    def _insert(self, run: Run, place: Place) -> None:
        self._commit(partial(with_point, run=run, place=place), f"put a point into {called(run)}")

    def _commit(self, change: Callable[[Plan], Plan], label: str) -> None:
        document = self.desk.document
        plan = self.attempt(partial(change, document.settled))
        if plan is not None:
            document.commit(plan, label)

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
