"""What the keyboard does to the selection: walk, nudge, turn, delete, open."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit

from engine.plan.records import Plan

SHIFT = Qt.KeyboardModifier.ShiftModifier

SHIFT = Qt.KeyboardModifier.ShiftModifier


def document_of(hand):
    return hand.view.tool.desk.document


def test_tab_walks_everything_in_reading_order_and_then_leaves(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    seen = []
    for _ in range(len(document.elements)):
        hand.key(Qt.Key.Key_Tab)
        seen.append(next(iter(document.selection)))
    assert set(seen) == set(document.elements)
    assert seen.index("w1") < seen.index("f1") < seen.index("x1")
    hand.key(Qt.Key.Key_Tab)
    assert document.selection == frozenset()
    hand.view.setFocus()
    hand.key(Qt.Key.Key_Backtab, SHIFT)
    assert document.selection == {seen[-1]}


def test_arrows_nudge_by_an_inch_or_a_sixteenth_as_one_step(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["x1"])
    for _ in range(3):
        hand.key(Qt.Key.Key_Up)
    hand.key(Qt.Key.Key_Left, SHIFT)
    assert document.element("x1").at == (36.0 - 1.0 / 16.0, 23.0)
    assert document.element("d1").points[-1] == document.element("x1").at
    document.undo()
    assert document.plan is cottage


def test_t_turns_a_fixture_about_its_outlet(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["f1"])
    hand.type("t")
    assert (document.element("f1").turn, document.element("f1").at) == (0.0, (36.0, 92.0))
    hand.key(Qt.Key.Key_T, SHIFT)
    assert document.element("f1").turn == 270.0


def test_delete_takes_the_selection_out_as_one_step(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["d1", "d2"])
    hand.key(Qt.Key.Key_Delete)
    assert document.plan.drains == ()
    assert document.undo_label == "delete 2 things"
    assert document.selection == frozenset()
    document.undo()
    assert document.plan is cottage


def test_enter_asks_for_the_properties_of_a_single_thing(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    document_of(hand).select(["f1"])
    with qtbot.waitSignal(hand.view.edit_requested) as asked:
        hand.key(Qt.Key.Key_Return)
    assert asked.args == ["f1"]


def test_letters_do_not_steal_from_a_text_field(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    field = QLineEdit()
    qtbot.addWidget(field)
    qtbot.keyClicks(field, "wall t d")
    assert field.text() == "wall t d"
    assert hand.view.tool_name == "choose"


def test_the_canvas_tells_what_was_picked_and_follows_the_selection(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    with qtbot.waitSignal(hand.view.picked) as told:
        hand.click((36.0, 20.0))
    assert told.args == [frozenset({"x1"})]
    document_of(hand).select(["d2"])
    assert hand.view.scene().outlined() == {"d2"}


def test_t_turns_fixtures_alone_and_says_what_it_turned(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["w2", "d1", "f1"])
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.type("t")
    assert told.args[0] == "Turned water closet f1: it looks east now."
    assert document.element("f1").turn == 0.0
    assert (document.plan.walls, document.plan.drains) == (cottage.walls, cottage.drains)
    assert document.undo_label == "turn water closet f1"
    document.undo()
    document.select(["w2", "d1"])
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.type("t")
    assert "none is selected" in told.args[0]
    assert document.plan is cottage
