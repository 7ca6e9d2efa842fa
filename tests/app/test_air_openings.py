"""Windows, doors and intakes on the canvas: drawn, stretched, moved with their wall, seen, and refused where they can't be."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from app.tools.grips import grips
from engine.plan import edits
from engine.plan.outline import tell
from engine.plan.records import AirOpening, Plan


def document_of(hand):
    return hand.view.tool.desk.document


@pytest.fixture
def windowed(cottage: Plan) -> Plan:
    return replace(cottage, air_openings=(AirOpening("a1", (20.0, 106.25), (44.0, 106.25), 84.0, "bath window"),))


@pytest.mark.parametrize("way", ["drag", "clicks", "length"])
def test_it_is_drawn_on_the_middle_of_a_wall(canvas, cottage: Plan, way: str) -> None:
    hand = canvas(cottage)
    hand.view.set_tool("opening")
    if way == "drag":
        hand.drag((20.2, 106.9), (44.1, 105.6))
    else:
        hand.click((20.2, 106.9))
        if way == "clicks":
            hand.click((44.1, 105.6))
        else:
            hand.move((60.0, 106.3), button=Qt.MouseButton.NoButton)
            hand.type("24")
            hand.key(Qt.Key.Key_Return)
    document = document_of(hand)
    made = document.element("a1")
    assert (made.start, made.end, made.top_above_floor) == ((20.0, 106.25), (44.0, 106.25), 80.0)
    assert document.undo_label == "draw opening a1"
    assert document.selection == {"a1"}
    document.undo()
    assert document.plan == cottage


def test_its_picture_lies_over_the_wall_and_tells_what_it_is(canvas, windowed: Plan) -> None:
    hand = canvas(windowed)
    scene = hand.view.scene()
    assert "a1" in scene.pictured()
    assert scene.tip_of("a1") == "bath window: top 7'-0\" above the floor"
    # the studs are 3-1/2 in deep, and so is the break in them
    assert scene.area_of("a1").boundingRect().height() == pytest.approx(3.5, abs=0.01)
    assert hand.view.tool.desk.beneath(hand.pixel((32.0, 106.25)))[0] == "a1"
    deeper = edits.set_field(windowed, "w1", "lumber", "2x6")
    document_of(hand).commit(deeper, "deeper studs")
    assert scene.area_of("a1").boundingRect().height() == pytest.approx(5.5, abs=0.01)


def test_in_no_wall_it_is_drawn_as_deep_as_a_usual_one(canvas, bare: Plan) -> None:
    hand = canvas(replace(bare, air_openings=(AirOpening("a1", (20.0, 60.0), (20.0, 90.0)),)))
    assert hand.view.scene().area_of("a1").boundingRect().width() == pytest.approx(3.5, abs=0.01)
    assert hand.view.scene().tip_of("a1").startswith("window, door or intake: top")


def test_its_sides_are_pulled_by_their_grips(canvas, windowed: Plan) -> None:
    hand = canvas(windowed)
    document = document_of(hand)
    document.select({"a1"})
    assert [grip.at for grip in grips(windowed.air_openings[0])] == [(20.0, 106.25), (44.0, 106.25)]
    hand.drag((44.0, 106.25), (56.1, 106.4))
    assert document.element("a1").end == (56.0, 106.25)
    assert document.element("a1").start == (20.0, 106.25)


def test_a_wall_takes_the_openings_that_stand_in_it_along(canvas, windowed: Plan) -> None:
    elsewhere = AirOpening("a2", (100.0, 0.0), (110.0, 0.0))
    plan = replace(windowed, air_openings=(*windowed.air_openings, elsewhere))
    moved = edits.move(plan, ("w1",), 0.0, 6.0)
    assert moved.air_openings[0].start == (20.0, 112.25)
    assert moved.air_openings[1] is elsewhere
    turned = edits.turn(plan, ("a1",), (20.0, 106.25))
    assert turned.air_openings[0].end == (20.0, 130.25)


def test_it_is_told_in_the_outline(windowed: Plan) -> None:
    assert tell(windowed, windowed.air_openings[0]) == "Bath window a1: 2'-0\" wide, its top 7'-0\" above the floor"
    assert tell(windowed, AirOpening("a9", (0.0, 0.0), (10.0, 0.0))).startswith("Opening a9:")


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"start": (5.0, 5.0), "end": (5.0, 5.0)}, "another point than the opening's start"),
        ({"start": (5.0, 5.0), "end": (9.0, 5.0), "top_above_floor": 700.0}, "600"),
        ({"start": (5.0, 5.0), "end": (9.0, 5.0), "top": 3.0}, "top"),
    ],
)
def test_what_no_opening_can_be_is_refused(bare: Plan, values: dict[str, object], told: str) -> None:
    with pytest.raises(edits.EditError, match=told):
        edits.add_new(bare, AirOpening, **values)


def test_a_width_of_nothing_makes_none(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("opening")
    hand.click((30.0, 30.0))
    hand.click((30.0, 30.0))
    assert document_of(hand).plan == bare
