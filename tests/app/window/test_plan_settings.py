"""The plan's settings: fields, local amendments, rulings and measured take-offs, refused in place when they can't be."""

from __future__ import annotations

import pytest

from app.dialogs.plan_settings import PlanSettingsDialog
from app.workplace import Workplace
from engine.plan.records import Amendment, MeasuredTakeOff, Plan, Ruling, StickForSale


@pytest.fixture
def opened(make_work, cottage: Plan) -> tuple[Workplace, PlanSettingsDialog]:
    work: Workplace = make_work(cottage)
    work.commands["plan_settings"].trigger()
    return work, work.window.findChildren(PlanSettingsDialog)[-1]


def write(dialog: PlanSettingsDialog, record: str, name: str, text: str) -> None:
    line = dialog.editors[record, name].line
    line.setText(text)
    line.editingFinished.emit()


def test_fields_of_plan_and_floor(opened) -> None:
    work, dialog = opened
    write(dialog, "Plan", "name", "Fern cabin")
    write(dialog, "Plan", "slope", "0.125")
    write(dialog, "Floor", "subfloor_layers", "1-1/8")
    write(dialog, "Floor", "roof_above_floor", "11ft")
    box = dialog.editors["Plan", "material"].box
    box.setCurrentIndex(1)
    box.activated.emit(1)
    dialog.accept()
    plan = work.document.plan
    assert (plan.name, plan.slope, plan.material) == ("Fern cabin", 0.125, "ABS")
    assert (plan.floor.subfloor, plan.floor.roof_above_floor) == (1.125, 132.0)
    assert work.document.undo_label == "change the plan's settings"
    work.commands["undo"].trigger()
    assert work.document.plan.name == ""


def test_amendments_rulings_and_take_offs(opened) -> None:
    work, dialog = opened
    dialog.amendments.show_rows([("trap_arm.length.2", "5 ft", "county office", "May"), ("", "", "", "")])
    dialog.rulings.show_rows([("f1", "May stand 14 in from the wall.", "inspector", "June")])
    dialog.takeoffs.show_rows([("quarter_bend", "3", "run_in", "2 1/16")])
    dialog.accept()
    plan = work.document.plan
    assert plan.amendments == (Amendment("trap_arm.length.2", 60.0, "county office", "May"),)
    assert plan.rulings == (Ruling("f1", "May stand 14 in from the wall.", "inspector", "June"),)
    assert plan.takeoffs == (MeasuredTakeOff("quarter_bend", "3", "run_in", 2.0625),)


def test_what_the_book_says_stands_beside_an_amendment(opened) -> None:
    """IRC 2021 Table P3105.1: 2 in trap, 8 ft."""
    _, dialog = opened
    dialog.amendments.show_rows([("trap_arm.length.2", "5 ft", "", "")])
    told = dialog.amendments.table.item(0, 4).text()
    assert told.startswith("96 in")
    assert "Table P3105.1" in told


@pytest.mark.parametrize(
    ("table", "row", "tab", "words"),
    [
        ("amendments", ("trap_arm.length.9", "5 ft", "", ""), 1, "no value called 'trap_arm.length.9'"),
        ("amendments", ("trap_arm.length.2", "far", "", ""), 1, "'far' is not a length"),
        ("rulings", ("", "May stay.", "", ""), 2, "about a thing of the plan or a rule"),
        ("takeoffs", ("knee", "3", "run_in", "2"), 3, "'knee' is no fitting that is known"),
        ("takeoffs", ("quarter_bend", "3", "side", "2"), 3, "the leg is one of"),
        ("takeoffs", ("quarter_bend", "3", "run_in", "long"), 3, "'long' is not a length"),
    ],
)
def test_a_row_that_can_not_be_is_told_in_place(opened, table: str, row, tab: int, words: str) -> None:
    work, dialog = opened
    getattr(dialog, table).show_rows([row])
    dialog.accept()
    assert words in dialog.fault
    assert dialog.tabs.currentIndex() == tab
    assert dialog.isVisible()
    assert not work.document.modified
    dialog.reject()


def test_a_field_that_can_not_be_is_told(opened) -> None:
    work, dialog = opened
    write(dialog, "Floor", "subfloor_layers", "9 ft")
    dialog.accept()
    assert "subfloor" in dialog.fault
    assert not work.document.modified
    write(dialog, "Floor", "subfloor_layers", "thick")
    dialog.accept()
    assert "is no layer" in dialog.fault
    dialog.reject()


def test_nothing_changed_makes_no_step(opened) -> None:
    work, dialog = opened
    dialog.accept()
    assert not work.document.can_undo


def test_rows_are_added_and_taken_away(opened) -> None:
    _, dialog = opened
    dialog.rulings.add_row()
    dialog.rulings.table.item(0, 0).setText("f2")
    dialog.rulings.table.item(0, 1).setText("Fine.")
    dialog.rulings.add_row()
    assert dialog.rulings.rows() == [("f2", "Fine.", "", ""), ("", "", "", "")]
    dialog.rulings.table.setCurrentCell(1, 0)
    dialog.rulings.take_row()
    assert dialog.rulings.rows() == [("f2", "Fine.", "", "")]
    dialog.reject()


def test_sticks_for_sale(opened) -> None:
    work, dialog = opened
    dialog.sticks.show_rows([("3", "10 ft", "21.50"), ("3", "5ft", ""), ("", "", "")])
    assert dialog.sticks.table.item(0, 3).text() == "2.15 a foot"
    dialog.accept()
    assert work.document.plan.sticks == (StickForSale("3", 120.0, 21.5), StickForSale("3", 60.0, None))
    work.commands["plan_settings"].trigger()
    again = work.window.findChildren(PlanSettingsDialog)[-1]
    assert again.sticks.rows() == [("3", "10'-0\"", "21.50"), ("3", "5'-0\"", "")]
    again.reject()


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ([("5", "10 ft", "")], "the size is one of 1-1/4, 1-1/2, 2, 3, 4"),
        ([("3", "long", "")], "'long' is not a length"),
        ([("3", "2 in", "")], "a stick is from 6 in to 40 ft long"),
        ([("3", "10 ft", "dear")], "'dear' is no price"),
        ([("3", "10 ft", "-1")], "'-1' is no price"),
        ([("3", "10 ft", "nan")], "'nan' is no price"),
        ([("3", "10 ft", "1"), ("3", "120", "2")], "stands twice"),
    ],
)
def test_a_stick_that_can_not_be_is_told_in_place(opened, rows, words: str) -> None:
    work, dialog = opened
    dialog.sticks.show_rows(rows)
    dialog.accept()
    assert words in dialog.fault
    assert dialog.tabs.currentIndex() == 4
    assert not work.document.modified
    dialog.reject()


class TestWinterAndRoof:
    """What the rules on vents over the roof ask: how cold it gets, and whether people use the roof."""

    def test_both_are_set_and_taken_back(self, opened) -> None:
        work, dialog = opened
        write(dialog, "Floor", "design_temp", "-12")
        dialog.editors["Floor", "roof_deck"].box.click()
        dialog.accept()
        floor = work.document.plan.floor
        assert (floor.design_temp, floor.roof_deck) == (-12.0, True)
        work.commands["plan_settings"].trigger()
        again = work.window.findChildren(PlanSettingsDialog)[-1]
        write(again, "Floor", "design_temp", "")
        again.editors["Floor", "roof_deck"].box.click()
        again.accept()
        assert (work.document.plan.floor.design_temp, work.document.plan.floor.roof_deck) == (None, False)

    def test_an_empty_temperature_is_told_as_not_known(self, opened) -> None:
        _, dialog = opened
        editor = dialog.editors["Floor", "design_temp"]
        assert editor.line.placeholderText() == "not known"
        assert "97.5 percent" in editor.toolTip()

    @pytest.mark.parametrize(("typed", "told"), [("cold", "is not a number"), ("200", "110")])
    def test_what_no_winter_can_be_is_refused(self, opened, typed: str, told: str) -> None:
        work, dialog = opened
        write(dialog, "Floor", "design_temp", typed)
        dialog.accept()
        assert told in dialog.fault
        assert work.document.plan.floor.design_temp is None
