"""Cleanouts: put by mouse and by keys, turned, moved with their pipes; where they can be put at all."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from app.canvas.heights import down
from app.tools.openings import away_from, openings
from engine.joinery.riser_cleanouts import heading_at, height_in
from engine.piping.records import UNDER, Node
from engine.plan import edits
from engine.plan.outline import tell
from engine.plan.records import Cleanout, Drain, Plan, Riser, Wall
from engine.study import study

SHIFT = Qt.KeyboardModifier.ShiftModifier


def document_of(hand):
    return hand.view.tool.desk.document


@pytest.fixture
def branched(cottage: Plan) -> Plan:
    """The cottage with a branch that begins at nothing, at (100, 62)."""
    plan = edits.insert_point(cottage, "d1", 1, (36.0, 40.0))
    return edits.add_new(plan, Drain, points=((36.0, 40.0), (58.0, 62.0), (100.0, 62.0)), size="2")


def test_a_click_at_a_drains_upper_end_puts_a_cleanout_there(canvas, branched: Plan, qtbot) -> None:
    hand = canvas(branched)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    hand.type("l")
    assert hand.view.tool_name == "cleanout"
    with qtbot.waitSignal(hand.view.pointer_at) as told:
        hand.move((101.0, 63.0), button=Qt.MouseButton.NoButton)
    assert told.args == [(100.0, 62.0), "end of drain d3"]
    assert document.proposing
    hand.click((101.0, 63.0))
    assert document.plan.cleanouts == (Cleanout("k1", (100.0, 62.0)),)
    assert document.undo_label == "put cleanout k1"
    assert document.selection == {"k1"}
    document.undo()
    assert document.plan == branched
    assert not document.can_undo


@pytest.mark.parametrize("at", [(36.0, 20.0), (36.0, 40.0), (60.0, 90.0)])
def test_lower_ends_joints_and_the_empty_floor_take_none(canvas, branched: Plan, qtbot, at) -> None:
    hand = canvas(branched)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    hand.view.set_tool("cleanout")
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.click(at)
    assert "upper end or corner" in told.args[0]
    assert document.plan is branched


def test_a_riser_gets_a_tee_that_opens_into_the_room(canvas, cottage: Plan, qtbot) -> None:
    """Below the lavatory's outlet, 18 in above the floor, by 7 in: 11 in; it opens as the lavatory faces."""
    hand = canvas(cottage)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    hand.view.set_tool("cleanout")
    for step in range(4):
        hand.move((70.0 + step / 8.0, 69.0), button=Qt.MouseButton.NoButton)
        qtbot.waitUntil(lambda: document.studied)
    hand.click((70.25, 69.0))
    assert document.plan.cleanouts == (Cleanout("k1", (70.25, 69.0), above_floor=11.0, turn=180.0),)
    parts = [part for part in study(document.plan).model.joinery.parts if "k1" in part.elements]
    assert [part.kind for part in parts] == ["test_tee", "cleanout_plug"]


def test_brackets_turn_it_and_shift_takes_the_drain_below(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    hand.view.set_tool("cleanout")
    hand.move((70.25, 69.0), button=Qt.MouseButton.NoButton)
    hand.type("[")
    assert document.plan.cleanouts[0].turn == 90.0
    hand.type("]")
    hand.type("]")
    hand.click((70.25, 69.0))
    hand.click((70.25, 69.0), SHIFT)
    assert [(one.above_floor, one.turn) for one in document.plan.cleanouts] == [(11.0, 270.0), (None, 0.0)]


def test_a_second_one_at_the_same_place_is_refused(canvas, branched: Plan, qtbot) -> None:
    plan = edits.add_new(branched, Cleanout, at=(100.0, 62.0))
    hand = canvas(plan)
    qtbot.waitUntil(lambda: document_of(hand).studied)
    hand.view.set_tool("cleanout")
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.click((100.0, 62.0))
    assert told.args[0].startswith("k1 opens it there already")
    assert document_of(hand).plan is plan


def test_the_keyboard_alone_puts_one(canvas, branched: Plan, qtbot) -> None:
    hand = canvas(branched)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    hand.move((98.0, 62.0), button=Qt.MouseButton.NoButton)
    hand.type("l")
    hand.key(Qt.Key.Key_Right)
    hand.key(Qt.Key.Key_Right)
    hand.key(Qt.Key.Key_Return)
    assert document.plan.cleanouts == (Cleanout("k1", (100.0, 62.0)),)
    hand.key(Qt.Key.Key_Escape)
    assert hand.view.tool_name == "choose"
    hand.key(Qt.Key.Key_Delete)
    assert document.plan.cleanouts == ()


def test_escape_and_leaving_take_the_shown_one_away(canvas, branched: Plan, qtbot) -> None:
    hand = canvas(branched)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    hand.view.set_tool("cleanout")
    hand.move((100.0, 62.0), button=Qt.MouseButton.NoButton)
    assert document.plan.cleanouts
    hand.move((100.0, 90.0), button=Qt.MouseButton.NoButton)
    assert document.plan is branched
    hand.move((100.0, 62.0), button=Qt.MouseButton.NoButton)
    hand.key(Qt.Key.Key_Escape)
    assert document.plan is branched


def test_it_is_drawn_with_its_letters_and_follows_its_run(canvas, branched: Plan, qtbot) -> None:
    hand = canvas(edits.add_new(branched, Cleanout, at=(100.0, 62.0)))
    document, scene = document_of(hand), hand.view.scene()
    assert "CO" in scene.lettering.shown()
    assert scene.layer_of("k1") == "points"
    before = scene.area_of("k1").boundingRect().center()
    assert (before.x(), -before.y()) == pytest.approx((104.0, 62.0))
    document.commit(edits.move_point(document.plan, "d3", 1, (100.0, 20.0)), "bend")
    after = scene.area_of("k1").boundingRect().center()
    assert (after.x(), -after.y()) == pytest.approx((100.0, 66.0))


def test_a_selected_one_at_a_runs_end_tells_its_height(canvas, branched: Plan, qtbot) -> None:
    hand = canvas(edits.add_new(branched, Cleanout, at=(100.0, 62.0)))
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    document.select(["k1"])
    z = document.study.model.heights[Node(100.0, 62.0, UNDER)]
    assert down(z) in hand.view.scene().lettering.shown()


def test_its_grip_and_the_letter_t_turn_it_where_it_stands(canvas, cottage: Plan) -> None:
    hand = canvas(edits.add_new(cottage, Cleanout, at=(70.25, 69.0), above_floor=11.0, turn=180.0))
    document = document_of(hand)
    document.select(["k1"])
    hand.drag((60.25, 69.0), (70.25, 80.0))
    assert document.element("k1") == Cleanout("k1", (70.25, 69.0), above_floor=11.0, turn=90.0)
    hand.type("t")
    assert document.element("k1") == Cleanout("k1", (70.25, 69.0), above_floor=11.0, turn=180.0)


# where they can be put ------------------------------------------------------------------------------------------


def test_openings_are_risers_and_upper_ends_whichever_way_a_run_was_drawn(branched: Plan) -> None:
    for plan in (branched, edits.reverse(branched, "d3"), edits.reverse(branched, "d1")):
        found = openings(plan, study(plan).model.network)
        assert [(one.at, one.words) for one in found] == [
            ((70.25, 69.0), "riser r1"),
            ((36.0, 92.0), "end of drain d1"),
            ((70.25, 69.0), "end of drain d2"),
            ((100.0, 62.0), "end of drain d3"),
            ((43.0, 69.0), "corner of drain d2"),
            ((58.0, 62.0), "corner of drain d3"),
        ]


def test_a_click_at_a_corner_puts_one_there(canvas, branched: Plan, qtbot) -> None:
    hand = canvas(branched)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    hand.view.set_tool("cleanout")
    hand.click((58.3, 61.8))
    assert document.element("k1") == Cleanout("k1", (58.0, 62.0))
    assert tell(document.plan, document.element("k1")).startswith("Cleanout k1: size of its pipe, where drain d3 turns")
    assert hand.view.scene().tip_of("k1") == "cleanout where the drain turns"
    assert not [fault for fault in study(document.plan).model.joinery.faults if "k1" in fault.elements]


def test_without_a_study_every_end_but_the_exits_counts(cottage: Plan) -> None:
    assert [one.at for one in openings(cottage, None)] == [(70.25, 69.0), (36.0, 92.0), (70.25, 69.0), (36.0, 62.0)]


def test_what_a_run_without_an_exit_drains_to_is_not_known(cottage: Plan) -> None:
    loose = edits.delete(cottage, "x1")
    assert {one.words for one in openings(loose, study(loose).model.network)} >= {"riser r1"}


def test_the_height_in_a_bare_riser_is_the_usual_one(cottage: Plan) -> None:
    bare = edits.delete(cottage, "f2")
    assert height_in(bare.risers[0], bare, study(bare).model.network) == 12.0
    assert height_in(cottage.risers[0], cottage, None) == 12.0


def test_the_end_of_a_run_points_out_of_it(branched: Plan) -> None:
    assert away_from(branched, (100.0, 62.0)) == 0.0
    assert away_from(branched, (36.0, 92.0)) == 90.0
    assert away_from(branched, (58.0, 62.0)) is None


@pytest.mark.parametrize(("toward", "heading"), [((60.0, 80.0), 180.0), ((80.0, 80.0), 0.0)])
def test_a_riser_in_an_inner_wall_opens_on_the_pointers_side(cottage: Plan, toward, heading: float) -> None:
    assert heading_at((70.25, 80.0), cottage, toward) == heading


@pytest.mark.parametrize("toward", [(50.0, 100.0), (50.0, 112.0)])
def test_a_riser_in_an_outside_wall_opens_over_the_floor(cottage: Plan, toward) -> None:
    assert heading_at((50.0, 106.25), cottage, toward) == 270.0


def test_a_riser_in_no_wall_opens_toward_the_pointer(bare: Plan) -> None:
    plan = edits.add(bare, Wall("w1", (0.0, 10.0), (50.0, 10.0)), Riser("r1", (60.0, 60.0)))
    assert heading_at((60.0, 60.0), plan, (58.0, 70.0)) == 90.0
    assert heading_at((60.0, 60.0), plan, (60.0, 60.0)) == 0.0
