"""Lengths typed while a run or a wall is drawn: which heading they take, and what is said when they can't be used."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from engine.plan.records import Plan

NO_BUTTON = Qt.MouseButton.NoButton


def document_of(hand):
    return hand.view.tool.desk.document


def test_a_typed_length_goes_on_along_the_last_heading_while_the_pointer_lies_behind(canvas, bare: Plan) -> None:
    """48 in typed while the pointer is 20 in on, then 12 in more: 20 + 48 + 12 east (worked by hand)."""
    hand = canvas(bare)
    document = document_of(hand)
    hand.view.set_tool("drain")
    hand.click((20.0, 30.0))
    hand.move((40.0, 30.0), button=NO_BUTTON)
    hand.type("48")
    hand.key(Qt.Key.Key_Return)
    assert document.plan.drains[-1].points == ((20.0, 30.0), (68.0, 30.0))
    hand.move((41.0, 30.2), button=NO_BUTTON)
    assert document.plan.drains[-1].points == ((20.0, 30.0), (68.0, 30.0)), "no stretch is shown straight back"
    hand.type("12")
    assert document.plan.drains[-1].points[-1] == (80.0, 30.0)
    hand.key(Qt.Key.Key_Return)
    hand.key(Qt.Key.Key_Return)
    assert document.element("d1").points == ((20.0, 30.0), (68.0, 30.0), (80.0, 30.0))


def test_a_click_straight_back_is_refused_and_said(canvas, bare: Plan, qtbot) -> None:
    hand = canvas(bare)
    hand.view.set_tool("drain")
    hand.click((20.0, 30.0))
    hand.click((60.0, 30.0))
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.click((40.0, 30.0))
    assert "back over the stretch just drawn" in told.args[0]
    hand.key(Qt.Key.Key_Return)
    assert document_of(hand).element("d1").points == ((20.0, 30.0), (60.0, 30.0))


@pytest.mark.parametrize(
    ("tool", "typed", "why"),
    [
        ("drain", "1//", "1// is no length"),
        ("cold", "0", "0 is no length"),
        ("wall", "4'-/", "is no length"),
    ],
)
def test_an_entry_that_cannot_be_used_says_why_and_stays(
    canvas, bare: Plan, qtbot, tool: str, typed: str, why: str
) -> None:
    hand = canvas(bare)
    document = document_of(hand)
    hand.view.set_tool(tool)
    hand.click((20.0, 30.0))
    hand.move((60.0, 30.0), button=NO_BUTTON)
    hand.type(typed)
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.key(Qt.Key.Key_Return)
    assert why in told.args[0]
    assert hand.view.tool.busy
    assert not document.can_undo
    for _ in typed:
        hand.key(Qt.Key.Key_Backspace)
    hand.type("24")
    hand.key(Qt.Key.Key_Return)
    hand.key(Qt.Key.Key_Return)
    assert document.can_undo


@pytest.mark.parametrize("tool", ["hot", "wall"])
def test_a_length_without_a_heading_asks_for_one(canvas, bare: Plan, qtbot, tool: str) -> None:
    hand = canvas(bare)
    hand.view.set_tool(tool)
    hand.click((20.0, 30.0))
    hand.type("24")
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.key(Qt.Key.Key_Return)
    assert "Point the way first" in told.args[0]
    hand.move((20.2, 60.0), button=NO_BUTTON)
    hand.key(Qt.Key.Key_Return)
    hand.key(Qt.Key.Key_Return)
    plan = document_of(hand).settled
    ends = plan.walls[-1].end if tool == "wall" else plan.supplies[-1].points[-1]
    assert ends == (20.0, 54.0)
