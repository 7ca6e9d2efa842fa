"""A run parted in two by a key, so that each part has a slope of its own, and two made one again."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from engine.plan import edits
from engine.plan.records import Drain, Plan
from engine.study import study

SHIFT = Qt.KeyboardModifier.ShiftModifier
NO_BUTTON = Qt.MouseButton.NoButton


def document_of(hand):
    return hand.view.tool.desk.document


def test_s_parts_the_selected_run_at_the_point_under_the_pointer(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["d2"])
    hand.move((43.4, 69.2), button=NO_BUTTON)
    hand.type("s")
    upper, lower = document.element("d2"), document.element("d3")
    assert (upper.points[-1], lower.points[0]) == ((43.0, 69.0), (43.0, 69.0))
    assert document.selection == {"d2", "d3"}
    assert document.undo_label == "part drain d2"
    document.undo()
    assert document.plan == cottage


def test_each_part_then_has_a_slope_of_its_own(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["d2"])
    hand.type("s")
    plan = edits.set_field(document.plan, "d3", "slope", 0.5)
    slopes = {pipe.element: pipe.slope for pipe in study(plan).model.network.pipes if pipe.element in ("d2", "d3")}
    assert slopes == {"d2": 0.25, "d3": 0.5}


@pytest.mark.parametrize("backwards", [False, True])
def test_how_it_joins_stays_with_its_lower_part(canvas, cottage: Plan, backwards: bool, qtbot) -> None:
    dropping = edits.set_fields(cottage, "d2", join="drop", rise=6.0)
    hand = canvas(edits.reverse(dropping, "d2") if backwards else dropping)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.study is not None)
    document.select(["d2"])
    hand.type("s")
    joins = {name: document.element(name).join for name in ("d2", "d3")}
    assert joins == ({"d2": "drop", "d3": "flat"} if backwards else {"d2": "flat", "d3": "drop"})


def test_shift_s_makes_the_two_one_again(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["d2"])
    hand.type("s")
    hand.key(Qt.Key.Key_S, SHIFT)
    assert document.plan == cottage
    assert document.selection == {"d2"}


@pytest.mark.parametrize(
    ("chosen", "shift", "words"),
    [
        ((), False, "choose one run first"),
        (("d3",), False, "no point between its ends"),
        (("d1",), True, "choose two"),
        (("d1", "f1"), True, "choose two"),
        (("d2", "d3"), True, "make them the same"),
    ],
)
def test_what_cannot_be_done_is_said(canvas, cottage: Plan, qtbot, chosen, shift: bool, words: str) -> None:
    plan = replace(cottage, drains=(*cottage.drains, Drain("d3", ((100.0, 69.0), (70.25, 69.0)), size="3")))
    hand = canvas(plan)
    document = document_of(hand)
    document.select(chosen)
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.key(Qt.Key.Key_S, SHIFT) if shift else hand.type("s")
    assert words in told.args[0]
    assert document.plan == plan
