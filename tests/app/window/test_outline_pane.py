"""The outline: the plan in words, in step with the selection both ways."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, Qt

from app.workplace import Workplace
from engine.plan.edits import add_new, delete, set_field
from engine.plan.outline import outline
from engine.plan.records import Plan, Supply


def listed(work: Workplace) -> dict[object, str]:
    return {row.key: row.text for group in work.outline.tree.rows.groups for row in group.rows}


def test_it_lists_everything(make_work, cottage: Plan) -> None:
    work = make_work(cottage)
    assert listed(work) == {entry.element: entry.text for group in outline(cottage) for entry in group.entries}
    assert len(listed(work)) == len(work.document.elements)


def test_choosing_here_selects_there(make_work, cottage: Plan, qtbot) -> None:
    work = make_work(cottage)
    tree = work.outline.tree
    index = tree.rows.places(("f1",))[0]
    tree.scrollTo(index)
    qtbot.mouseClick(tree.viewport(), Qt.MouseButton.LeftButton, pos=tree.visualRect(index).center())
    assert work.document.selection == {"f1"}
    tree.selectionModel().select(tree.rows.places(("d1",))[0], QItemSelectionModel.SelectionFlag.Select)
    assert work.document.selection == {"f1", "d1"}


def test_selecting_there_chooses_here(make_work, cottage: Plan) -> None:
    work = make_work(cottage)
    work.document.select({"d2", "r1"})
    assert frozenset(work.outline.tree.selected) == {"d2", "r1"}
    work.document.select(())
    assert work.outline.tree.selected == ()


def test_edits_and_undo_renew_the_words(make_work, cottage: Plan) -> None:
    work = make_work(cottage)
    work.document.select({"d1"})
    work.document.commit(set_field(cottage, "d1", "size", "4"), "resize")
    assert "4 in" in listed(work)["d1"]
    assert work.outline.tree.selected == ("d1",)
    work.document.commit(delete(work.document.plan, "d2"), "delete")
    assert "d2" not in listed(work)
    work.document.undo()
    assert "d2" in listed(work)


def test_a_proposal_shows_within_a_moment(make_work, cottage: Plan, qtbot) -> None:
    work = make_work(cottage)
    work.document.propose(set_field(cottage, "d1", "size", "4"))
    qtbot.waitUntil(lambda: "4 in" in listed(work)["d1"])
    work.document.drop_proposal()
    assert "3 in" in listed(work)["d1"]


def test_folded_groups_stay_folded(make_work, cottage: Plan) -> None:
    work = make_work(cottage)
    tree = work.outline.tree
    walls = next(number for number, group in enumerate(tree.rows.groups) if group.name == "walls")
    tree.collapse(tree.rows.heading(walls))
    work.document.commit(set_field(cottage, "d1", "size", "4"), "resize")
    assert not tree.isExpanded(tree.rows.heading(walls))
    assert tree.isExpanded(tree.rows.heading(0))


def test_entering_a_line_goes_to_its_properties(make_work, cottage: Plan, qtbot) -> None:
    work = make_work(cottage)
    work.window.activateWindow()
    tree = work.outline.tree
    tree.activated.emit(tree.rows.places(("f2",))[0])
    assert work.document.selection == {"f2"}
    qtbot.waitUntil(lambda: work.details.editors["name"].line.hasFocus())


def test_delete_and_select_all_work_from_the_list(make_work, cottage: Plan, qtbot) -> None:
    work = make_work(cottage)
    work.window.activateWindow()
    work.outline.tree.setFocus()
    qtbot.waitUntil(work.outline.tree.hasFocus)
    work.commands["select_all"].trigger()
    assert work.document.selection == work.document.elements.keys()
    work.document.select({"d2"})
    qtbot.keyClick(work.outline.tree, Qt.Key.Key_Delete)
    assert work.document.element("d2") is None


def test_a_supply_is_told_by_the_fixture_whose_stub_it_reaches(make_work, cottage: Plan) -> None:
    """The lavatory f2 faces west: its cold is 4 in south of its outlet."""
    plan = add_new(cottage, Supply, water="cold", points=((100.0, 65.0), (70.25, 65.0)))
    work = make_work(plan)
    assert listed(work)["s1"] == "Cold water run s1: 1/2 in, from an open end to lavatory f2, 2'-5 3/4\""
