"""The outline: the plan in words, in step with the selection both ways."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, Qt

from app.window import MainWindow
from engine.plan.edits import delete, set_field
from engine.plan.outline import outline
from engine.plan.records import Plan


def listed(window: MainWindow) -> dict[object, str]:
    return {row.key: row.text for group in window.outline.tree.rows.groups for row in group.rows}


def test_it_lists_everything(make_window, cottage: Plan) -> None:
    window = make_window(cottage)
    assert listed(window) == {entry.element: entry.text for group in outline(cottage) for entry in group.entries}
    assert len(listed(window)) == len(window.document.elements)


def test_choosing_here_selects_there(make_window, cottage: Plan, qtbot) -> None:
    window = make_window(cottage)
    tree = window.outline.tree
    index = tree.rows.places(("f1",))[0]
    qtbot.mouseClick(tree.viewport(), Qt.MouseButton.LeftButton, pos=tree.visualRect(index).center())
    assert window.document.selection == {"f1"}
    tree.selectionModel().select(tree.rows.places(("d1",))[0], QItemSelectionModel.SelectionFlag.Select)
    assert window.document.selection == {"f1", "d1"}


def test_selecting_there_chooses_here(make_window, cottage: Plan) -> None:
    window = make_window(cottage)
    window.document.select({"d2", "r1"})
    assert frozenset(window.outline.tree.selected) == {"d2", "r1"}
    window.document.select(())
    assert window.outline.tree.selected == ()


def test_edits_and_undo_renew_the_words(make_window, cottage: Plan) -> None:
    window = make_window(cottage)
    window.document.select({"d1"})
    window.document.commit(set_field(cottage, "d1", "size", "4"), "resize")
    assert "4 in" in listed(window)["d1"]
    assert window.outline.tree.selected == ("d1",)
    window.document.commit(delete(window.document.plan, "d2"), "delete")
    assert "d2" not in listed(window)
    window.document.undo()
    assert "d2" in listed(window)


def test_a_proposal_shows_within_a_moment(make_window, cottage: Plan, qtbot) -> None:
    window = make_window(cottage)
    window.document.propose(set_field(cottage, "d1", "size", "4"))
    qtbot.waitUntil(lambda: "4 in" in listed(window)["d1"])
    window.document.drop_proposal()
    assert "3 in" in listed(window)["d1"]


def test_folded_groups_stay_folded(make_window, cottage: Plan) -> None:
    window = make_window(cottage)
    tree = window.outline.tree
    walls = next(number for number, group in enumerate(tree.rows.groups) if group.name == "walls")
    tree.collapse(tree.rows.heading(walls))
    window.document.commit(set_field(cottage, "d1", "size", "4"), "resize")
    assert not tree.isExpanded(tree.rows.heading(walls))
    assert tree.isExpanded(tree.rows.heading(0))


def test_entering_a_line_goes_to_its_properties(make_window, cottage: Plan, qtbot) -> None:
    window = make_window(cottage)
    window.activateWindow()
    tree = window.outline.tree
    tree.activated.emit(tree.rows.places(("f2",))[0])
    assert window.document.selection == {"f2"}
    qtbot.waitUntil(lambda: window.details.editors["name"].line.hasFocus())


def test_delete_and_select_all_work_from_the_list(make_window, cottage: Plan, qtbot) -> None:
    window = make_window(cottage)
    window.activateWindow()
    window.outline.tree.setFocus()
    qtbot.waitUntil(window.outline.tree.hasFocus)
    window.commands["select_all"].trigger()
    assert window.document.selection == window.document.elements.keys()
    window.document.select({"d2"})
    qtbot.keyClick(window.outline.tree, Qt.Key.Key_Delete)
    assert window.document.element("d2") is None
