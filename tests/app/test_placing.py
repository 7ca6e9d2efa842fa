"""Placing fixtures: by dropping them from the shelf, by clicking, by keys; and where they settle."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from app.tools.seating import settle
from engine.framing.layout import lay_out
from engine.framing.wood import Wood
from engine.plan.records import Floor, Plan, Wall


def document_of(hand):
    return hand.view.tool.desk.document


def test_a_closet_dropped_near_a_wall_stands_off_it_in_the_middle_of_its_bay(canvas, cottage: Plan) -> None:
    """12 in off the finished wall, in the bay between joists 80 and 96: x 88, y 92 (worked by hand)."""
    hand = canvas(cottage)
    document = document_of(hand)
    assert hand.carry_in("water_closet", (84.0, 60.0))
    hand.carry("water_closet", (90.0, 90.0))
    assert document.proposing
    hand.drop("water_closet", (90.0, 90.0))
    closet = document.element("f3")
    assert closet.kind == "water_closet"
    assert (closet.at, closet.turn) == ((88.0, 92.0), 270.0)
    assert document.undo_label == "place water closet f3"
    assert document.selection == {"f3"}
    document.undo()
    assert document.plan == cottage
    assert not document.can_undo


def test_the_snap_tells_why(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    hand.carry_in("water_closet", (84.0, 60.0))
    with qtbot.waitSignal(hand.view.pointer_at) as told:
        hand.carry("water_closet", (90.0, 90.0))
    assert told.args == [(88.0, 92.0), "12 in off the finished wall, middle of the bay"]


def test_carried_out_again_it_leaves_nothing(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.carry_in("shower", (84.0, 60.0))
    hand.carry("shower", (85.0, 60.0))
    hand.carry_out()
    assert document_of(hand).plan is cottage
    hand.drop("shower", (85.0, 60.0))
    assert document_of(hand).plan is cottage


@pytest.mark.parametrize(("kind", "mime"), [("fountain", None), ("shower", "text/plain")])
def test_what_is_no_fixture_is_refused(canvas, cottage: Plan, kind: str, mime: str | None) -> None:
    hand = canvas(cottage)
    assert not (hand.carry_in(kind, (60.0, 60.0), mime) if mime else hand.carry_in(kind, (60.0, 60.0)))


def test_a_lavatory_stands_on_the_walls_middle_faces_the_room_and_brings_its_riser(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    hand.view.set_tool("place:lavatory")
    hand.click((74.0, 85.3))
    lavatory = document.element("f3")
    assert (lavatory.at, lavatory.turn) == ((70.25, 85.0), 0.0)
    assert document.element("r2").at == (70.25, 85.0)
    assert document.element("r2").wall == "w2"
    document.undo()
    assert document.plan == cottage


def test_brackets_turn_it_and_it_then_seeks_only_walls_behind_it(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    hand.view.set_tool("place:kitchen_sink")
    hand.move((74.0, 85.3), button=Qt.MouseButton.NoButton)
    assert document.plan.fixtures[-1].turn == 0.0
    hand.type("[")
    assert document.plan.fixtures[-1].turn == 270.0
    hand.type("]")
    hand.type("]")
    hand.click((74.0, 85.3))
    assert document.element("f3").turn == 90.0


def test_alt_leaves_snaps_out(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.view.set_tool("place:water_closet")
    hand.click((90.0, 90.0), Qt.KeyboardModifier.AltModifier)
    closet = document_of(hand).element("f3")
    assert closet.at != (88.0, 92.0)
    assert abs(closet.at[0] - 90.0) < 1.0


def test_a_tub_gets_its_trap_under_the_overflow(canvas, cottage: Plan) -> None:
    """The trap lies 6 in from the outlet toward the tub's near end: 8 less 2 in from that end (worked by hand)."""
    hand = canvas(cottage)
    hand.view.set_tool("place:bathtub")
    hand.click((100.0, 40.0))
    tub = document_of(hand).element("f3")
    assert tub.turn == 270.0
    assert tub.trap_at == (tub.at[0] + 6.0, tub.at[1])


def test_a_dishwasher_set_down_by_a_sink_drains_through_it(canvas, cottage: Plan) -> None:
    """Within its hose's reach, common practice; the step says so, and Undo takes it back."""
    hand = canvas(cottage)
    document = document_of(hand)
    hand.view.set_tool("place:kitchen_sink")
    hand.click((100.0, 30.0), Qt.KeyboardModifier.AltModifier)
    hand.view.set_tool("place:dishwasher")
    hand.click((70.0, 30.0), Qt.KeyboardModifier.AltModifier)
    assert document.element("f4").through == "f3"
    assert document.undo_label == "place dishwasher f4, which drains through f3"
    assert [riser.id for riser in document.plan.risers] == ["r1", "r2"]


def room(*walls: Wall) -> Plan:
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 144.0), (0.0, 144.0))),
        walls=walls,
    )


def test_a_shower_meets_both_walls_of_a_corner() -> None:
    """16 in from each finished face: 1.75 + 1.75 + 0.5 + 16 = 20 (worked by hand)."""
    plan = room(
        Wall(id="w1", start=(0.0, 1.75), end=(120.0, 1.75), exterior=True),
        Wall(id="w2", start=(1.75, 0.0), end=(1.75, 144.0), exterior=True),
    )
    settled = settle("shower", (22.0, 23.0), 270.0, plan, Wood(lay_out(plan)), 8.0, own_turn=False)
    assert settled.at == pytest.approx((20.0, 20.0))
    assert settled.reason == "in the corner"


@pytest.mark.parametrize("direction", [1.0, -1.0])
@pytest.mark.parametrize(("pointer", "turn"), [((40.0, 66.0), 90.0), ((40.0, 54.0), 270.0)])
def test_whichever_way_the_wall_was_drawn_the_fixture_faces_the_pointers_side(
    direction: float, pointer: tuple[float, float], turn: float
) -> None:
    ends = ((10.0, 60.0), (100.0, 60.0))
    start, end = ends if direction > 0.0 else ends[::-1]
    plan = room(Wall(id="w1", start=start, end=end))
    settled = settle("lavatory", pointer, 0.0, plan, Wood(lay_out(plan)), 8.0, own_turn=False)
    assert settled.at == pytest.approx((40.0, 60.0))
    assert settled.turn == turn


def test_in_the_open_it_stays_near_the_pointer() -> None:
    plan = room()
    settled = settle("refrigerator", (40.3, 60.6), 180.0, plan, Wood(lay_out(plan)), 8.0, own_turn=False)
    assert settled == ((40.0, 61.0), 180.0, "")


def test_a_slanting_wall_turns_what_stands_at_it() -> None:
    plan = room(Wall(id="w1", start=(10.0, 10.0), end=(80.0, 80.0)))
    settled = settle("water_closet", (31.0, 51.0), 270.0, plan, Wood(lay_out(plan)), 8.0, own_turn=False)
    assert settled.turn == 135.0


class TestOverWood:
    def test_held_over_a_joist_it_says_at_once_what_clears_it(self, canvas, cottage: Plan) -> None:
        """A 3 in closet pipe at x 96.5, 1/2 in east of joist 6: its flange's hole clears the wood 2-3/4 in further east."""
        hand = canvas(cottage)
        hand.view.set_tool("place:water_closet")
        free = Qt.KeyboardModifier.AltModifier
        hand.move((96.5, 60.0), free, Qt.MouseButton.NoButton)
        words = [mark.text for mark in hand.view.scene().sketches.marks]
        assert len(words) == 1
        assert words[0].startswith("over joist ")
        assert words[0].endswith(" in east clears it")
        hand.move((88.0, 60.0), free, Qt.MouseButton.NoButton)
        assert not hand.view.scene().sketches.marks

    def test_put_there_it_is_told_with_what_mends_it(self, canvas, cottage: Plan, qtbot) -> None:
        hand = canvas(cottage)
        hand.view.set_tool("place:water_closet")
        with qtbot.waitSignal(hand.view.hint_changed, check_params_cb=lambda text: "lands on joist" in text) as told:
            hand.click((96.5, 60.0), Qt.KeyboardModifier.AltModifier)
        assert "Move it" in told.args[0]
