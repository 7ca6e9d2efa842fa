"""What the keyboard does to the selection whatever tool is in hand: walk, nudge, turn, delete, open, let go."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from app.document import Document
from app.tools.desk import Desk
from app.tools.tool import Tool
from app.tools.wording import named
from engine.plan import edits
from engine.plan.points import points_of
from engine.plan.records import Cleanout, Fixture, Plan, Point

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
    """A single fixture turns about its outlet, a cleanout where it stands, all else about the selection's middle."""
    document = desk.document
    chosen = sorted(document.selection)
    label = f"turn {named(document.settled, chosen)}"
    only = document.element(chosen[0]) if len(chosen) == 1 else None
    if isinstance(only, Fixture):
        heading = only.turn + 90.0 * quarters
        return _edit(desk, label, lambda plan: edits.rotate_fixture(plan, only.id, heading))
    about = only.at if isinstance(only, Cleanout) else _middle(document, chosen)
    return _edit(desk, label, lambda plan: edits.turn(plan, chosen, about, quarters))


def _edit(desk: Desk, label: str, change: Callable[[Plan], Plan], token: object = None) -> bool:
    """Make an edit one step of history; say what stands in the way where it can't be made."""
    try:
        plan = change(desk.document.settled)
    except edits.EditError as fault:
        desk.say(str(fault))
    else:
        desk.document.commit(plan, label, token)
    return True


def _middle(document: Document, ids: Iterable[str]) -> Point:
    """The middle of the box round the points of some elements, on whole inches so that a turn keeps them tidy."""
    points = [point for name in ids for point in points_of(document.elements[name])]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (float(round((min(xs) + max(xs)) / 2.0)), float(round((min(ys) + max(ys)) / 2.0)))
