"""Working the properties pane by hand: showing one thing, typing into a field, reading which fields are there."""

from __future__ import annotations

from PySide6.QtCore import Qt

from app.panels.editors import WrittenEditor
from app.workplace import Workplace
from engine.plan.records import Plan


def shown(make_work, plan: Plan, element: str) -> Workplace:
    work: Workplace = make_work(plan)
    work.window.activateWindow()
    work.document.select({element})
    return work


def write(qtbot, editor: WrittenEditor, text: str) -> None:
    editor.line.setFocus()
    editor.line.selectAll()
    editor.line.clear()
    qtbot.keyClicks(editor.line, text)
    qtbot.keyClick(editor.line, Qt.Key.Key_Return)


def seen(work: Workplace) -> list[str]:
    """The fields on show."""
    return [name for name, editor in work.details.editors.items() if editor.isVisible()]
