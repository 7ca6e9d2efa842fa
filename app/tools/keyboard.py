"""What the keyboard does to the selection whatever tool is in hand: walk, nudge, turn, delete, open, let go."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from app.document import Document
from app.tools.desk import Desk
from app.tools.tool import Tool
from app.tools.wording import named
from engine.drafting.stubs import follow
from engine.plan import edits
from engine.plan.outline import called, compass
from engine.plan.records import Cleanout, Fixture, Plan

STEP, FINE_STEP = 1.0, 1.0 / 16.0
"""How far an arrow nudges, alone and with Shift, inches."""

ARROWS: dict[int, tuple[float, float]] = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, 1.0),
    Qt.Key.Key_Down: (0.0, -1.0),
}


def work(event: QKeyEvent, desk: Desk, tool: Tool) -> bool:
    """Do what a key means to the selection or to the tool's end; whether it meant anything."""
    key, keys = event.key(), event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    if keys & ~Qt.KeyboardModifier.ShiftModifier:
        return False
    fine = bool(keys & Qt.KeyboardModifier.ShiftModifier)
    if key == Qt.Key.Key_Escape:
        return _escape(desk, tool)
    if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
        return tool.finish() or _open(desk)
    if tool.busy or not desk.document.selection:
        return False
    if key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
        return _delete(desk)
    if key in ARROWS:
        return _nudge(desk, ARROWS[key], FINE_STEP if fine else STEP)
    if key == Qt.Key.Key_T:
        return _turn(desk, -1 if fine else 1)
    return False


def walk(desk: Desk, forward: bool) -> bool:
    """Select the next element in reading order; False past the last one, where the walk leaves the canvas."""
    order = desk.reading_order()
    places = [order.index(name) for name in desk.document.selection if name in order]
    if not order:
        return False
    if not places:
        at = 0 if forward else len(order) - 1
    else:
        at = max(places) + 1 if forward else min(places) - 1
    if not 0 <= at < len(order):
        desk.document.select(())
        return False
    desk.pick(frozenset({order[at]}))
    desk.reveal(order[at])
    return True


def _escape(desk: Desk, tool: Tool) -> bool:
    """First what is under way, then the tool, then the selection."""
    if tool.cancel():
        return True
    if tool.name != "choose":
        desk.leave()
        return True
    had = bool(desk.document.selection)
    desk.document.select(())
    return had


def _open(desk: Desk) -> bool:
    chosen = desk.document.selection
    if len(chosen) != 1:
        return False
    desk.edit(next(iter(chosen)))
    return True


def _delete(desk: Desk) -> bool:
    document = desk.document
    chosen = document.selection
    label = f"delete {named(document.settled, chosen)}"
    return _edit(desk, label, lambda plan: edits.delete(plan, *sorted(chosen)))


def _nudge(desk: Desk, toward: tuple[float, float], step: float) -> bool:
    """Nudges of the same things one after the other are one step of history."""
    document = desk.document
    chosen = document.selection
    label = f"nudge {named(document.settled, chosen)}"
    dx, dy = toward[0] * step, toward[1] * step
    return _edit(desk, label, lambda plan: edits.move(plan, sorted(chosen), dx, dy), ("nudge", chosen))


def _turn(desk: Desk, quarters: int) -> bool:
    """Each selected fixture and cleanout turns where it stands; what has no front of its own is left as it is."""
    document = desk.document
    fronted = [
        element
        for name in sorted(document.selection)
        if isinstance(element := document.element(name), Fixture)
        or (isinstance(element, Cleanout) and element.above_floor is not None)
    ]
    if not fronted:
        desk.say("T turns fixtures and cleanouts; none is selected.")
        return True

    def turned(plan: Plan) -> Plan:
        for element in fronted:
            heading = element.turn + 90.0 * quarters
            if isinstance(element, Fixture):
                plan = edits.rotate_fixture(plan, element.id, heading)
            else:
                plan = edits.turn(plan, (element.id,), element.at, quarters)
        return plan

    before = document.settled
    _edit(desk, f"turn {named(before, [element.id for element in fronted])}", turned)
    if document.settled is not before:
        desk.say(_faces(document, fronted))
    return True


def _faces(document: Document, turned: list[Fixture | Cleanout]) -> str:
    """What was turned and which way it looks now."""
    now = document.element(turned[0].id)
    if len(turned) > 1 or not isinstance(now, Fixture | Cleanout):
        return f"Turned {len(turned)} things by a quarter."
    return f"Turned {called(now)}: it {'looks' if isinstance(now, Fixture) else 'opens'} {compass(now.turn)} now."


def _edit(desk: Desk, label: str, change: Callable[[Plan], Plan], token: object = None) -> bool:
    """Make an edit one step of history; say what stands in the way where it can't be made."""
    try:
        plan = follow(desk.document.settled, change(desk.document.settled))
    except edits.EditError as fault:
        desk.say(str(fault))
    else:
        desk.document.commit(plan, label, token)
    return True
