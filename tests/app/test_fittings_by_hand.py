"""Fittings chosen by hand: the menu at a corner, by mouse and by keys, and what it offers."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QHelpEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QToolTip

from app.canvas.choice_menu import ChoiceMenu
from app.tools.corners import Corner, corners, offers, standing
from app.tools.openings import openings
from engine.plan import edits
from engine.plan.records import Drain, Exit, PinnedFitting, Plan, Vent
from engine.study import study
from tests.engine.coarse_plans import bathrooms, plans

MEETING = Corner((36.0, 62.0), "under")
"""Where the cottage's branch joins its main, at 45 degrees."""

FOOT = Corner((70.25, 69.0), "under")
"""Where its riser turns into the branch."""

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # said of every menu by a screenless platform


def document_of(hand):
    return hand.view.tool.desk.document


def ready(canvas, plan: Plan, qtbot):
    hand = canvas(plan)
    qtbot.waitUntil(lambda: document_of(hand).studied)
    hand.type("n")
    assert hand.view.tool_name == "fitting"
    return hand


def menu() -> ChoiceMenu:
    found = QApplication.activePopupWidget()
    assert isinstance(found, ChoiceMenu)
    return found


def told(of: ChoiceMenu) -> list[str]:
    return [action.text().replace("&", "") for action in of.actions() if action.text()]


def ticked(of: ChoiceMenu) -> list[str]:
    return [action.text().replace("&", "") for action in of.actions() if action.isChecked()]


def test_hovering_over_a_corner_says_what_stands_there(canvas, cottage: Plan, qtbot) -> None:
    hand = ready(canvas, cottage, qtbot)
    with qtbot.waitSignal(hand.view.pointer_at) as said:
        hand.move((37.0, 63.0), button=Qt.MouseButton.NoButton)
    assert said.args == [(36.0, 62.0), "now: wye"]
    with qtbot.waitSignal(hand.view.pointer_at) as said:
        hand.move((70.0, 69.0), button=Qt.MouseButton.NoButton)
    assert said.args[1] == "under the floor now: long-sweep quarter bend; in the wall now: sanitary tee"
    assert document_of(hand).plan is cottage


def test_the_menu_lists_what_can_stand_and_a_click_chooses_it(canvas, cottage: Plan, qtbot) -> None:
    hand = ready(canvas, cottage, qtbot)
    document = document_of(hand)
    hand.click(FOOT.at)
    opened = menu()
    assert told(opened) == [
        "Under the floor, now: long-sweep quarter bend",
        "1  quarter bend",
        "2  long-sweep quarter bend",
        "In the wall, now: sanitary tee",
        "3  sanitary tee",
        "4  combination wye and eighth bend",
    ]
    assert ticked(opened) == []
    quarter = opened.actions()[1]
    QTest.mouseClick(opened, Qt.MouseButton.LeftButton, pos=opened.actionGeometry(quarter).center())
    assert document.plan.fittings == (PinnedFitting("p1", FOOT.at, "quarter_bend"),)
    assert document.undo_label == "choose quarter bend p1"
    assert document.selection == {"p1"}
    document.undo()
    assert document.plan is cottage
    assert not document.can_undo


def test_the_keyboard_alone_chooses_changes_and_gives_back(canvas, cottage: Plan, qtbot) -> None:
    hand = ready(canvas, cottage, qtbot)
    document = document_of(hand)
    hand.move((67.25, 69.0), button=Qt.MouseButton.NoButton)
    for _ in range(3):
        hand.key(Qt.Key.Key_Right)
    hand.key(Qt.Key.Key_Return)
    QTest.keyClick(menu(), Qt.Key.Key_Down)
    QTest.keyClick(menu(), Qt.Key.Key_Return)
    assert [pin.pattern for pin in document.plan.fittings] == ["long_sweep_quarter_bend"]

    qtbot.waitUntil(lambda: document.studied)
    hand.click(FOOT.at)
    assert ticked(menu()) == ["2  long-sweep quarter bend"]
    assert "3  Let the program choose" in told(menu())
    QTest.keyClick(menu(), Qt.Key.Key_1)
    assert [(pin.id, pin.pattern) for pin in document.plan.fittings] == [("p1", "quarter_bend")]
    assert document.undo_label == "choose quarter bend p1"

    qtbot.waitUntil(lambda: document.studied)
    hand.click(FOOT.at)
    QTest.keyClick(menu(), Qt.Key.Key_3)
    assert document.plan == cottage
    assert document.undo_label == "let the program choose in place of quarter bend p1"
    for _ in range(3):
        document.undo()
    assert document.plan is cottage


def test_a_fitting_in_the_wall_is_chosen_at_the_same_point(canvas, cottage: Plan, qtbot) -> None:
    hand = ready(canvas, cottage, qtbot)
    hand.click(FOOT.at)
    QTest.keyClick(menu(), Qt.Key.Key_4)
    assert document_of(hand).plan.fittings == (PinnedFitting("p1", FOOT.at, "combo_wye_eighth_bend", "wall"),)


def test_escape_chooses_nothing_and_the_menu_goes(canvas, cottage: Plan, qtbot) -> None:
    hand = ready(canvas, cottage, qtbot)
    hand.click(MEETING.at)
    opened = menu()
    assert opened.accessibleName() == "Fittings that can stand here"
    with qtbot.waitSignal(opened.destroyed):
        QTest.keyClick(opened, Qt.Key.Key_Escape)
    assert document_of(hand).plan is cottage
    assert hand.view.tool_name == "fitting"
    assert hand.view.findChildren(ChoiceMenu) == []


def test_the_chosen_one_again_makes_no_step(canvas, cottage: Plan, qtbot) -> None:
    plan = edits.add_new(cottage, PinnedFitting, at=MEETING.at, pattern="wye")
    hand = ready(canvas, plan, qtbot)
    hand.click(MEETING.at)
    QTest.keyClick(menu(), Qt.Key.Key_Return)
    assert document_of(hand).plan is plan
    assert not document_of(hand).can_undo


def test_where_nothing_turns_or_meets_there_is_no_menu(canvas, cottage: Plan, qtbot) -> None:
    hand = ready(canvas, cottage, qtbot)
    with qtbot.waitSignal(hand.view.hint_changed) as said:
        hand.click((36.0, 50.0))
    assert said.args[0].startswith("Click where waste or vent pipes turn or meet")
    assert QApplication.activePopupWidget() is None


def test_a_corner_that_no_fitting_makes_says_so(canvas, cottage: Plan, qtbot) -> None:
    hand = ready(canvas, edits.move_point(cottage, "d2", 1, (50.0, 60.0)), qtbot)
    with qtbot.waitSignal(hand.view.pointer_at) as said:
        hand.move((50.0, 60.0), button=Qt.MouseButton.NoButton)
    assert said.args == [(50.0, 60.0), "now: no fitting fits"]
    with qtbot.waitSignal(hand.view.hint_changed) as said:
        hand.click((50.0, 60.0))
    assert "None of the fittings" in said.args[0]
    assert QApplication.activePopupWidget() is None


def test_a_choice_that_does_not_fit_can_be_given_back(canvas, cottage: Plan, qtbot) -> None:
    plan = edits.add_new(cottage, PinnedFitting, at=MEETING.at, pattern="sixth_bend")
    hand = ready(canvas, plan, qtbot)
    hand.click(MEETING.at)
    assert told(menu()) == [
        "Under the floor, chosen: sixth bend, which does not fit",
        "1  wye",
        "2  Let the program choose",
    ]
    QTest.keyClick(menu(), Qt.Key.Key_2)
    assert document_of(hand).plan.fittings == ()


def test_a_drag_over_a_corner_opens_nothing(canvas, cottage: Plan, qtbot) -> None:
    hand = ready(canvas, cottage, qtbot)
    hand.drag(MEETING.at, (50.0, 80.0))
    assert QApplication.activePopupWidget() is None


def test_a_chosen_fitting_is_named_while_it_is_selected_and_under_the_pointer(canvas, cottage: Plan, qtbot) -> None:
    plan = edits.add_new(cottage, PinnedFitting, at=FOOT.at, pattern="long_sweep_quarter_bend")
    hand = canvas(plan)
    qtbot.waitUntil(lambda: document_of(hand).studied)
    shown = hand.view.scene().lettering.shown
    assert "long-sweep quarter bend" not in shown()
    document_of(hand).select(["p1"])
    assert "long-sweep quarter bend" in shown()
    document_of(hand).select([])
    assert "long-sweep quarter bend" not in shown()
    hover(hand, (71.3, 69.0))
    assert QToolTip.text() == "long-sweep quarter bend, under the floor, chosen by hand"
    QToolTip.hideText()


def hover(hand, at) -> None:
    port, pixel = hand.view.viewport(), hand.pixel(at)
    QApplication.sendEvent(port, QHelpEvent(QEvent.Type.ToolTip, pixel, port.mapToGlobal(QPoint(pixel))))


# what is offered ------------------------------------------------------------------------------------------------


def test_corners_are_where_pipes_turn_or_meet(cottage: Plan) -> None:
    assert set(corners(study(cottage))) == {
        MEETING,
        FOOT,
        Corner((70.25, 69.0), "wall"),
        Corner((36.0, 92.0), "under"),
        Corner((43.0, 69.0), "under"),
        Corner((36.0, 20.0), "under"),
    }


def test_a_closet_bend_is_offered_under_a_closet_only(cottage: Plan) -> None:
    told = study(cottage)
    assert offers(told, Corner((36.0, 92.0), "under")) == ("quarter_bend", "long_sweep_quarter_bend", "closet_bend")
    assert "closet_bend" not in offers(told, FOOT)


@pytest.mark.parametrize(
    ("corner", "patterns"),
    [
        (MEETING, ("wye",)),
        (Corner((43.0, 69.0), "under"), ("eighth_bend",)),
        (Corner((36.0, 20.0), "under"), ("quarter_bend", "long_sweep_quarter_bend")),
        (Corner((36.0, 50.0), "under"), ()),
    ],
)
def test_what_is_offered_turns_as_the_pipes_do(cottage: Plan, corner: Corner, patterns: tuple[str, ...]) -> None:
    assert offers(study(cottage), corner) == patterns


def test_each_offer_stands_once_it_is_chosen(cottage: Plan) -> None:
    drawn = study(cottage)
    for corner in corners(drawn):
        for pattern in offers(drawn, corner):
            pin = PinnedFitting("p1", corner.at, pattern, corner.level)
            made = study(replace(cottage, fittings=(pin,)))
            assert not [found for found in made.findings if found.rule == "fitting-does-not-fit"], pin
            assert any(part.pinned for part in made.model.joinery.parts), pin
            assert standing(made, corner)


def test_overhead_vents_turn_in_the_wall(cottage: Plan) -> None:
    plan = edits.add_new(cottage, Vent, points=((70.25, 69.0), (70.25, 90.0), (90.0, 90.0)), above_floor=60.0)
    told = study(plan)
    corner = Corner((70.25, 90.0), "wall")
    assert corner in corners(told)
    assert standing(told, corner) == "vent quarter bend"
    assert "quarter_bend" in offers(told, corner)


@given(plans() | bathrooms(), st.data())
@settings(deadline=None, max_examples=60)
def test_any_corner_of_any_plan_can_be_told_and_offered(plan: Plan, data: st.DataObject) -> None:
    told = study(plan)
    found = corners(told)
    assert len(set(found)) == len(found)
    assert openings(plan, told.model.network)[: len(plan.risers)] == openings(plan, None)[: len(plan.risers)]
    if not found:
        return
    corner = data.draw(st.sampled_from(found))
    standing(told, corner)
    for pattern in offers(told, corner):
        others = tuple(pin for pin in plan.fittings if (pin.at, pin.level) != corner)
        pin = PinnedFitting("q", corner.at, pattern, corner.level)
        assert standing(study(replace(plan, fittings=(pin, *others))), corner)


def test_a_square_branch_may_have_more_than_one_fitting(bare: Plan) -> None:
    plan = edits.add(
        bare,
        Drain("d1", ((24.0, 120.0), (24.0, 60.0), (24.0, 20.0)), size="3"),
        Drain("d2", ((80.0, 60.0), (24.0, 60.0)), size="2"),
        Exit("x1", (24.0, 20.0)),
    )
    found = offers(study(plan), Corner((24.0, 60.0), "under"))
    assert {"sanitary_tee", "combo_wye_eighth_bend"} <= set(found)
    assert not {"quarter_bend", "eighth_bend", "closet_bend"} & set(found)
