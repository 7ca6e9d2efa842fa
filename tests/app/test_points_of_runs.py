"""Points put into runs and taken out: by double click and by keys, as one step each."""

from __future__ import annotations

from msgspec.structs import replace
from PySide6.QtCore import Qt

from engine.plan.records import Plan, Vent

SHIFT = Qt.KeyboardModifier.ShiftModifier
NO_BUTTON = Qt.MouseButton.NoButton


def document_of(hand):
    return hand.view.tool.desk.document


def test_a_double_click_on_a_run_puts_a_point_there(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    hand.double_click((36.3, 40.2))
    assert document.element("d1").points == ((36.0, 92.0), (36.0, 62.0), (36.0, 40.0), (36.0, 20.0))
    assert document.selection == {"d1"}
    assert document.undo_label == "put a point into drain d1"
    document.undo()
    assert document.plan is cottage
    assert not document.can_undo


def test_a_point_is_not_put_twice(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.double_click((36.2, 62.2))
    assert "a point there already" in told.args[0]
    assert not document_of(hand).can_undo


def test_keys_put_a_point_where_the_pointer_is_and_take_the_nearest_out(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["d1"])
    hand.move((36.2, 45.3), button=NO_BUTTON)
    hand.type("a")
    assert document.element("d1").points == ((36.0, 92.0), (36.0, 62.0), (36.0, 45.0), (36.0, 20.0))
    hand.key(Qt.Key.Key_A, SHIFT)
    assert document.element("d1").points == cottage.drains[0].points
    assert document.undo_label == "take a point out of drain d1"


def test_without_a_pointer_the_longest_stretch_is_halved_and_the_last_inner_point_goes(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["d1"])
    hand.type("a")
    assert document.element("d1").points == ((36.0, 92.0), (36.0, 62.0), (36.0, 41.0), (36.0, 20.0))
    hand.key(Qt.Key.Key_A, SHIFT)
    assert document.element("d1").points == cottage.drains[0].points


def test_what_cannot_be_done_is_said(canvas, cottage: Plan, qtbot) -> None:
    two = replace(cottage, vents=(Vent(id="v1", points=((80.0, 20.0), (120.0, 20.0))),))
    hand = canvas(two)
    document = document_of(hand)
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.type("a")
    assert "choose one run first" in told.args[0]
    document.select(["v1"])
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.key(Qt.Key.Key_A, SHIFT)
    assert "only two points" in told.args[0]
    assert document.plan is two
