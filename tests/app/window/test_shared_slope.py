"""A run's slope: shared with the plan until it is pinned, by the box or by typing, and shared again."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt

from app.panels.shared import SharedEditor
from app.panels.writing import SLOPE
from app.workplace import Workplace
from engine.plan.edits import find, set_field, set_plan
from engine.plan.records import Plan
from tests.app.window.test_details_pane import shown, write


def slope_of(work: Workplace) -> SharedEditor:
    editor = work.details.editors["slope"]
    assert isinstance(editor, SharedEditor)
    return editor


def tick(qtbot, editor: SharedEditor) -> None:
    qtbot.mouseClick(editor.box, Qt.MouseButton.LeftButton, pos=QPoint(8, editor.box.height() // 2))


def test_it_tells_that_it_is_shared_and_follows_the_plan(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "d1")
    editor = slope_of(work)
    assert (editor.box.isChecked(), editor.line.text()) == (True, "")
    assert editor.line.placeholderText() == "as the plan: 0.25"
    work.document.commit(set_plan(cottage, slope=0.375), "steeper")
    assert editor.line.placeholderText() == "as the plan: 0.375"
    assert "0.375 in per ft" in editor.box.toolTip()


def test_the_box_pins_what_holds_and_shares_it_again(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "d1")
    tick(qtbot, slope_of(work))
    assert find(work.document.plan, "d1").slope == 0.25
    assert (slope_of(work).box.isChecked(), slope_of(work).line.text()) == (False, "0.25")
    work.document.commit(set_plan(work.document.plan, slope=0.375), "steeper")
    assert find(work.document.plan, "d1").slope == 0.25
    tick(qtbot, slope_of(work))
    assert find(work.document.plan, "d1").slope is None
    assert slope_of(work).box.isChecked()


@pytest.mark.parametrize(
    ("text", "slope"), [("1/4", 0.25), ("3/16 in", 0.1875), ("0.5", 0.5), ("-1/8", -0.125), ("1 1/2", 1.5)]
)
def test_it_is_typed_as_a_rule_shows_it_and_is_then_pinned(
    make_work, qtbot, cottage: Plan, text: str, slope: float
) -> None:
    work = shown(make_work, set_field(cottage, "d1", "slope", 0.3), "d1")
    write(qtbot, slope_of(work), text)
    assert find(work.document.plan, "d1").slope == slope
    assert not slope_of(work).box.isChecked()


def test_emptying_the_field_shares_it_again(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, set_field(cottage, "d1", "slope", 0.5), "d1")
    write(qtbot, slope_of(work), "")
    assert find(work.document.plan, "d1").slope is None


def test_what_is_no_slope_is_told_and_changes_nothing(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "d1")
    write(qtbot, slope_of(work), "steep")
    assert "steep" in slope_of(work).complaint
    assert work.document.plan is cottage
    with pytest.raises(ValueError, match="not a number"):
        SLOPE.read("1/0")
