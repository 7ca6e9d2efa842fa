"""Choosing on the canvas: clicks, boxes, moves, grips; each ends in one step of history or none."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QApplication, QToolTip

from engine.plan.records import Plan

SHIFT = Qt.KeyboardModifier.ShiftModifier


def test_click_selects_the_pipe_over_the_fixture_it_lies_under(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.click((36.0, 80.0))
    assert hand.view.tool.desk.document.selection == {"d1"}


def test_second_click_goes_to_the_thing_beneath_and_comes_round(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    seen = []
    for _ in range(4):
        hand.click((36.0, 80.0))
        seen.append(next(iter(document.selection)))
    assert seen == ["d1", "f1", "j1", "d1"]


def test_click_on_the_empty_sheet_lets_go(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.click((36.0, 80.0))
    hand.click((-20.0, -10.0))
    assert hand.view.tool.desk.document.selection == frozenset()


def test_shift_click_adds_and_takes_away(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    hand.click((36.0, 40.0))
    hand.click((36.0, 20.0), SHIFT)
    assert document.selection == {"d1", "x1"}
    hand.click((36.0, 20.0), SHIFT)
    assert document.selection == {"d1"}


def test_box_selects_what_lies_wholly_in_it(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.drag((140.0, 114.0), (66.0, 50.0))
    assert hand.view.tool.desk.document.selection == {"w2", "r1"}


def test_a_move_is_one_step_and_carries_what_is_welded(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    hand.click((36.0, 20.0))
    hand.drag((36.0, 20.0), (36.0, 14.0))
    exit_ = document.element("x1")
    assert exit_.at == (36.0, 14.0)
    assert document.element("d1").points[-1] == (36.0, 14.0)
    assert document.undo_label == "move exit x1"
    document.undo()
    assert document.plan == cottage
    assert not document.can_undo


def test_while_a_move_is_under_way_it_is_shown_but_not_in_history(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    hand.click((36.0, 20.0))
    hand.press((36.0, 20.0))
    hand.move((36.0, 12.0))
    assert document.proposing
    assert document.plan.exits[0].at == (36.0, 12.0)
    assert document.settled is cottage
    hand.key(Qt.Key.Key_Escape)
    assert document.plan is cottage
    hand.release((36.0, 12.0))
    assert document.plan is cottage
    assert not document.can_undo


def test_taking_up_another_tool_in_mid_drag_leaves_nothing(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    hand.click((36.0, 20.0))
    hand.press((36.0, 20.0))
    hand.move((36.0, 12.0))
    hand.view.set_tool("measure")
    hand.release((36.0, 12.0))
    assert document.plan is cottage
    assert not document.can_undo


def test_a_drag_back_to_where_it_began_is_no_step(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    hand.click((36.0, 20.0))
    hand.press((36.0, 20.0))
    hand.move((50.0, 30.0))
    hand.move((36.0, 20.0))
    hand.release((36.0, 20.0))
    assert not document.can_undo
    assert document.plan is cottage


def test_a_closet_moved_along_its_wall_keeps_its_rough_in(canvas, cottage: Plan) -> None:
    """12 in from the finished wall to the flange: 106.25 - 1.75 - 0.5 - 12 = 92 (worked by hand)."""
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    hand.click((36.0, 80.0))
    hand.click((36.0, 80.0))
    assert document.selection == {"f1"}
    hand.drag((40.0, 85.0), (27.5, 84.0))
    assert document.element("f1").at == (24.0, 92.0)
    assert document.element("d1").points[0] == (24.0, 92.0)


def test_a_vertex_is_pulled_and_what_is_welded_to_it_follows(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    hand.click((36.0, 40.0))
    hand.drag((36.0, 62.0), (36.0, 56.0))
    assert document.element("d1").points == ((36.0, 92.0), (36.0, 56.0), (36.0, 20.0))
    assert document.element("d2").points[-1] == (36.0, 56.0)
    assert document.undo_label == "move a point of drain d1"


def test_shift_pulls_a_vertex_alone(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    hand.click((60.0, 69.0))
    assert document.selection == {"d2"}
    hand.drag((36.0, 62.0), (36.0, 50.0), SHIFT)
    assert document.element("d2").points[-1] == (36.0, 50.0)
    assert (36.0, 62.0) in document.element("d1").points


def test_the_round_grip_turns_a_fixture_by_quarters(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    hand.click((36.0, 80.0))
    hand.click((36.0, 80.0))
    grip = next(mark.at for mark in hand.view.scene().sketches.marks if mark.round)
    hand.drag(grip, (80.0, 92.0))
    assert document.element("f1").turn == 0.0
    assert document.element("f1").at == (36.0, 92.0)


def test_a_corner_of_a_field_is_pulled_and_the_opposite_one_stays(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    document = hand.view.tool.desk.document
    hand.click((60.0, 70.0))
    assert document.selection == {"j1"}
    hand.drag((120.0, 144.0), (110.0, 130.0))
    field = document.element("j1")
    assert (field.corner, field.size) == ((0.0, 0.0), (110.0, 130.0))


def test_double_click_asks_for_the_properties(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    with qtbot.waitSignal(hand.view.edit_requested) as asked:
        hand.double_click((36.0, 20.0))
    assert asked.args == ["x1"]


def test_an_impossible_edit_is_told_and_leaves_no_step(canvas, cottage: Plan, qtbot) -> None:
    """A drain that is held at both ends and has no point of its own can't be moved: the hint says so."""
    plan = cottage
    plan = type(plan)(
        floor=plan.floor,
        risers=plan.risers[:0],
        exits=plan.exits,
        fixtures=plan.fixtures[:1],
        drains=(type(plan.drains[0])(id="d9", points=((36.0, 92.0), (36.0, 20.0))),),
    )
    hand = canvas(plan)
    document = hand.view.tool.desk.document
    hand.click((36.0, 45.0))
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.drag((36.0, 45.0), (60.0, 45.0))
    assert "held at every point" in told.args[0]
    assert not document.can_undo


def test_undo_in_mid_drag_ends_the_drag(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = hand.view.tool.desk.document
    hand.click((36.0, 20.0))
    hand.drag((36.0, 20.0), (36.0, 14.0))
    hand.press((36.0, 14.0))
    hand.move((36.0, 10.0))
    document.undo()
    hand.release((36.0, 10.0))
    assert document.plan is cottage
    assert document.can_redo


@pytest.mark.qt_log_ignore("This plugin does not support raise")
def test_a_wall_tells_its_studs_by_their_numbers(canvas, cottage: Plan, qtbot) -> None:
    """Wall w2 starts at 54 in north: its stud 2 stands 32 in further; between studs the wall tells what it is."""
    hand = canvas(cottage)

    def rest(at: tuple[float, float]) -> None:
        pixel = hand.pixel(at)
        port = hand.view.viewport()
        QApplication.sendEvent(port, QHelpEvent(QEvent.Type.ToolTip, pixel, port.mapToGlobal(pixel)))

    rest((71.0, 86.0))
    qtbot.waitUntil(lambda: QToolTip.text() == "Wall w2, stud 2: 2'-8\" from the wall's start to its middle")
    rest((71.0, 79.0))
    qtbot.waitUntil(lambda: QToolTip.text() == "2x4 wall")
    QToolTip.hideText()
