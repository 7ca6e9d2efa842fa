"""Heights set in the fall strip by a hand: dragged, nudged, typed, given back to the program."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest

from app.strip.pane import FallPane
from app.strip.sheet import KEYS
from app.strip.wording import limit
from app.workplace import Workplace
from engine.plan.edits import set_field
from engine.plan.records import Plan
from tests.app.window.strip_hand import StripHand

SHIFT = Qt.KeyboardModifier.ShiftModifier


def dropping(plan: Plan) -> Plan:
    return set_field(plan, "d2", "join", "drop")


def test_a_drag_sets_the_exits_height_to_a_sixteenth(hand: StripHand) -> None:
    """7 7/16 down is chosen in a window of 7 1/4 to 7 5/8; a hand far past the upper end leaves it at what it shows."""
    end = hand.pull(40.0, 3.5)
    shown = hand.lever.z
    assert hand.work.document.proposing
    hand.release(end)
    document = hand.work.document
    (exit_,) = document.settled.exits
    assert exit_.pinned_z == shown == hand.lever.z
    assert shown == pytest.approx(round(shown * 16.0) / 16.0)
    assert shown == pytest.approx(-7.427 + 3.5, abs=0.2)
    assert document.undo_label == "set the height of exit x1"
    document.undo()
    assert document.settled.exits[0].pinned_z is None
    assert not document.can_undo, "one step for the whole drag"


def test_a_drag_holds_at_a_limit_until_it_is_pulled_on(hand: StripHand) -> None:
    """The highest is 7 11/48 down, 7 1/4 on a tape: a hand just past it leaves the pipe there."""
    assert limit(hand.lever, "high") == "7 1/4"
    start = hand.axis(40.0)
    begun = QPointF(start.toPoint())
    over = (-7.25 - hand.lever.z) * hand.sheet.scale.up
    hand.press(start)
    hand.move(begun + QPointF(0.0, 9.0))
    for past, wanted in ((1.5, -7.25), (3.0, -7.25)):
        hand.move(begun - QPointF(0.0, over + past))
        assert hand.lever.z == wanted
    hand.move(begun - QPointF(0.0, over + 6.0))
    assert hand.lever.z > -7.25
    assert hand.lever.past > 0.0
    hand.sheet.give_up()


def test_escape_puts_the_pipe_back(hand: StripHand) -> None:
    before = hand.work.document.settled
    hand.pull(40.0, 1.5)
    assert hand.work.document.plan.exits[0].pinned_z is not None
    hand.key(Qt.Key.Key_Escape)
    assert hand.work.document.plan is before
    assert not hand.work.document.can_undo
    hand.release(hand.axis(40.0))
    assert hand.work.document.plan is before, "letting go afterwards changes nothing"


def test_findings_change_while_the_pipe_is_dragged(hand: StripHand) -> None:
    document = hand.work.document
    assert not [one for one in document.study.findings if one.rule == "no-height-fits"]
    hand.pull(40.0, -2.0)
    assert [one for one in document.study.findings if one.rule == "no-height-fits"]
    assert [wood.cut.legal for wood in hand.section.woods] == [False, False], "too little wood under both bores"
    assert "under the lowest" in hand.sheet.accessibleDescription()
    assert "2 cuts do not hold" in hand.sheet.accessibleDescription()
    hand.key(Qt.Key.Key_Escape)
    assert [wood.cut.legal for wood in hand.section.woods] == [True, True]


def test_shift_drags_slowly(hand: StripHand) -> None:
    start = hand.axis(40.0)
    begun = QPointF(start.toPoint())
    hand.press(start)
    hand.move(begun + QPointF(0.0, 4.0), keys=SHIFT)
    hand.release(begun + QPointF(0.0, 4.0))
    # 4 pixels of 1/32 in under 7.427 is 7.552 down: 7 9/16
    assert hand.work.document.settled.exits[0].pinned_z == -7.5625


def test_a_press_alone_moves_nothing(hand: StripHand) -> None:
    before = hand.work.document.settled
    start = hand.axis(40.0)
    hand.press(start)
    hand.move(start + QPointF(0.0, 1.0))
    hand.release(start)
    assert hand.work.document.settled is before


def test_the_wheel_and_a_press_beside_the_pipe_move_nothing(hand: StripHand) -> None:
    before = hand.work.document.settled
    place = hand.sheet.scale.point(40.0, -1.0)
    hand.press(place)
    hand.move(place + QPointF(0.0, 30.0))
    hand.release(place)
    assert hand.work.document.settled is before


def test_a_drop_is_dragged_by_itself(make_work, bath: Plan, qtbot) -> None:
    work: Workplace = make_work(dropping(bath))
    hand = StripHand(work, qtbot)
    hand.select("d2")
    assert hand.lever.field == "rise"
    before = work.document.settled.exits
    end = hand.pull(hand.section.length - 10.0, 2.0)
    hand.release(end)
    run = next(run for run in work.document.settled.drains if run.id == "d2")
    assert run.rise == pytest.approx(round(run.rise * 16.0) / 16.0)
    assert work.document.settled.exits == before
    assert hand.lever.pinned
    # the main under it still hangs on the exit
    start = hand.axis(20.0)
    hand.press(start)
    hand.release(start)
    assert hand.lever.field == "pinned_z"
    assert "exit x1" in hand.work.fall._name.text()


def test_a_water_line_is_dragged_by_itself(make_work, kitchen: Plan, qtbot) -> None:
    work: Workplace = make_work(kitchen)
    hand = StripHand(work, qtbot)
    hand.select("c1")
    end = hand.pull(20.0, 1.5)
    hand.release(end)
    line = next(one for one in work.document.settled.supplies if one.id == "c1")
    assert line.down == pytest.approx(4.5, abs=0.15)
    assert line.down == round(line.down * 16.0) / 16.0
    assert work.document.undo_label == "set the depth of water line c1"


def test_keys_move_the_pipe_by_marks_of_the_tape(hand: StripHand) -> None:
    document = hand.work.document
    hand.sheet.setFocus()
    hand.key(Qt.Key.Key_Up)
    assert document.settled.exits[0].pinned_z == -7.375, "from 7.427 down to the next mark up"
    hand.key(Qt.Key.Key_Down)
    hand.key(Qt.Key.Key_Down, SHIFT)
    assert document.settled.exits[0].pinned_z == -7.5
    hand.key(Qt.Key.Key_PageDown)
    assert document.settled.exits[0].pinned_z == -8.0
    document.undo()
    assert document.settled.exits[0].pinned_z is None, "nudges one after the other are one step"


def test_keys_pressed_faster_than_the_study_all_count(hand: StripHand) -> None:
    for _ in range(5):
        QTest.keyClick(hand.sheet, Qt.Key.Key_Down)
    hand.rest()
    # 7.427: 7 7/16, then four marks more
    assert hand.work.document.settled.exits[0].pinned_z == -7.6875


@pytest.mark.parametrize("how", ["key", "button", "empty field"])
def test_the_program_chooses_again(hand: StripHand, how: str) -> None:
    hand.key(Qt.Key.Key_Up)
    pane: FallPane = hand.work.fall
    assert pane.choose.isEnabled()
    if how == "key":
        hand.key(Qt.Key.Key_Home)
    elif how == "button":
        QTest.mouseClick(pane.choose, Qt.MouseButton.LeftButton)
    else:
        pane.field.selectAll()
        QTest.keyClick(pane.field, Qt.Key.Key_Delete)
        QTest.keyClick(pane.field, Qt.Key.Key_Return)
    hand.rest()
    assert hand.work.document.settled.exits[0].pinned_z is None
    assert not pane.choose.isEnabled()


def test_a_double_click_leads_to_the_field_and_a_height_is_typed(hand: StripHand) -> None:
    pane: FallPane = hand.work.fall
    hand.work.window.activateWindow()
    at = hand.axis(40.0).toPoint()
    QTest.mouseDClick(hand.sheet, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)
    assert pane.field.hasFocus()
    assert pane.field.selectedText() == pane.field.text() == "7 7/16"
    QTest.keyClicks(pane.field, "7-1/2")
    QTest.keyClick(pane.field, Qt.Key.Key_Return)
    hand.rest()
    assert hand.work.document.settled.exits[0].pinned_z == -7.5
    assert pane.field.text() == "7 1/2"


@pytest.mark.parametrize("text", ["seven", "-3"])
def test_what_is_no_height_is_refused_with_the_reason(hand: StripHand, text: str) -> None:
    before = hand.work.document.settled
    pane: FallPane = hand.work.fall
    said: list[str] = []
    pane.told.connect(said.append)
    pane.field.setText(text)
    QTest.keyClick(pane.field, Qt.Key.Key_Return)
    assert hand.work.document.settled is before
    assert said
    assert pane.field.property("wrong")


def test_assistive_programs_find_a_slider_and_can_set_it(hand: StripHand) -> None:
    found = QAccessible.queryAccessibleInterface(hand.sheet)
    assert found.role() == QAccessible.Role.Slider
    assert found.text(QAccessible.Text.Name) == "Long section of the fall"
    assert hand.sheet.value() == round(7.427 * 16)
    assert hand.work.document.settled.exits[0].pinned_z is None, "showing a value sets nothing"
    hand.sheet.setValue(120)
    hand.rest()
    assert hand.work.document.settled.exits[0].pinned_z == -7.5


def test_coming_by_keyboard_tells_the_keys(hand: StripHand) -> None:
    said: list[str] = []
    hand.work.fall.told.connect(said.append)
    hand.work.window.activateWindow()
    hand.sheet.setFocus(Qt.FocusReason.TabFocusReason)
    assert said == [KEYS]


def test_another_change_ends_a_drag(hand: StripHand) -> None:
    hand.pull(40.0, 1.0)
    document = hand.work.document
    document.commit(set_field(document.settled, "x1", "tail_z", -30.0), "lower the tail")
    hand.rest()
    assert not hand.sheet.holding
    hand.release(hand.axis(40.0))
    assert document.settled.exits[0].pinned_z is None
    assert document.settled.exits[0].tail_z == -30.0
