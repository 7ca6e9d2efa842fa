"""The room that fixtures want, on the canvas: round what is selected, and wherever it is wanting."""

from __future__ import annotations

from msgspec.structs import replace

from engine.plan.records import Fixture, Plan


def document_of(hand):
    return hand.view.tool.desk.document


def test_a_selected_closet_shows_the_room_that_it_wants(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    rooms = hand.view.scene().rooms
    before = rooms.shown
    document.select([next(one.id for one in cottage.fixtures if one.kind == "water_closet")])
    # left, right and before it
    assert rooms.shown >= 3
    document.select([])
    assert rooms.shown == before


def test_room_that_is_wanting_stays_in_sight(canvas, cottage: Plan, qtbot) -> None:
    closet = next(one for one in cottage.fixtures if one.kind == "water_closet")
    beside = Fixture("bd", "bidet", (closet.at[0] + 18.0, closet.at[1]), turn=closet.turn)
    hand = canvas(replace(cottage, fixtures=(*cottage.fixtures, beside)))
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    scene = hand.view.scene()
    assert scene.rooms.shown > 0
    scene.set_layer_visible("room", False)
    assert scene.rooms.shown == 0
    scene.set_layer_visible("room", True)
    assert scene.rooms.shown > 0
