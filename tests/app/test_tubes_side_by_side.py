"""Hot drawn along cold by pointer and keys: the lines beside it hold the pointer, nothing is welded, one hole takes both.

A 1/2 in tube is 0.625 wide: bare tubes lie 5/8 in from axis to axis, and with 1/2 in of insulation each 1-5/8 in.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from engine.plan.records import Plan, Supply
from engine.study import study

COLD = ((20.0, 30.0), (60.0, 30.0), (60.0, 70.0))


def document_of(hand):
    return hand.view.tool.desk.document


def with_cold(bare: Plan, **given) -> Plan:
    return replace(
        bare, supplies=(Supply(**({"id": "s1", "water": "cold", "points": COLD, "insulation": 0.0} | given)),)
    )


def draw_hot(hand, *places) -> None:
    hand.view.set_tool("hot")
    for at in places:
        hand.click(at)
    hand.key(Qt.Key.Key_Return)


def test_hot_follows_cold_round_its_turn_and_shares_its_holes(canvas, bare: Plan) -> None:
    hand = canvas(with_cold(bare))
    document = document_of(hand)
    # on the outside of the turn; the pointer is off by up to an inch
    draw_hot(hand, (20.2, 28.9), (61.1, 29.0), (61.0, 70.3))
    hot = document.element("s2")
    assert hot.points == ((20.0, 29.375), (60.625, 29.375), (60.625, 70.0))
    assert document.element("s1").points == COLD
    assert document.undo_label == "draw hot water run s2"
    found = study(document.plan)
    crossed = {crossing.joist for crossing in found.model.crossings}
    assert len(crossed) == 2
    assert [made.elements for made in found.model.cuts] == [("s2", "s1")] * len(crossed)
    assert {(made.bit, made.legal) for made in found.model.cuts} == {("1-3/8", True)}
    assert not {"pipes-in-one-place", "bores-close-together"} & {one.rule for one in found.findings}
    document.undo()
    assert [run.id for run in document.plan.supplies] == ["s1"]


def test_on_the_inside_of_the_turn_too(canvas, bare: Plan) -> None:
    hand = canvas(with_cold(bare))
    draw_hot(hand, (20.2, 30.9), (59.2, 31.0), (59.0, 70.3))
    assert document_of(hand).element("s2").points == ((20.0, 30.625), (59.375, 30.625), (59.375, 70.0))


@pytest.mark.parametrize("water", ["cold", "hot"])
def test_it_takes_over_insulation_depth_and_way_past_the_joists(canvas, bare: Plan, water: str) -> None:
    other = "hot" if water == "cold" else "cold"
    hand = canvas(with_cold(bare, water=other, insulation=0.25, down=6.0))
    document = document_of(hand)
    said = []
    hand.view.hint_changed.connect(said.append)
    hand.view.set_tool(water)
    for at in ((20.2, 28.9), (50.0, 28.8)):
        hand.click(at)
    hand.key(Qt.Key.Key_Return)
    run = document.element("s2")
    # 0.625 + 2 x 0.25
    assert run.points == ((20.0, 28.875), (50.0, 28.875))
    assert (run.insulation, run.down, run.passing, run.water) == (0.25, 6.0, None, water)
    assert any(f"It lies against {other} water run s1" in words for words in said)


def test_away_from_any_other_run_nothing_is_taken_over(canvas, bare: Plan) -> None:
    hand = canvas(with_cold(bare, down=6.0))
    draw_hot(hand, (20.0, 50.0), (50.0, 50.0))
    run = document_of(hand).element("s2")
    assert (run.points, run.insulation, run.down) == (((20.0, 50.0), (50.0, 50.0)), 0.5, None)


def test_a_run_that_only_crosses_takes_nothing_over(canvas, bare: Plan) -> None:
    hand = canvas(with_cold(bare, down=6.0))
    draw_hot(hand, (40.0, 20.0), (40.0, 45.0))
    run = document_of(hand).element("s2")
    assert (run.points, run.down) == (((40.0, 20.0), (40.0, 45.0)), None)


def test_cold_near_cold_is_joined_and_not_laid_beside(canvas, bare: Plan) -> None:
    hand = canvas(with_cold(bare))
    document = document_of(hand)
    hand.view.set_tool("cold")
    hand.click((40.0, 50.0))
    hand.click((40.2, 30.9))
    assert document.element("s2").points == ((40.0, 50.0), (40.0, 30.0))
    assert (40.0, 30.0) in document.element("s1").points


def test_with_both_selected_the_height_of_their_hole_is_told_once(canvas, bare: Plan, qtbot) -> None:
    hot = Supply("s2", "hot", ((20.0, 29.375), (50.0, 29.375)), insulation=0.0)
    hand = canvas(replace(bare, supplies=(*with_cold(bare).supplies, hot)))
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)

    def told() -> list[str]:
        return [words for words, _ in hand.view.scene().lettering.boxes() if words.endswith("down")]

    for chosen in (("s1",), ("s2",), ("s1", "s2")):
        document.select(chosen)
        hand.view.grab()
        # two joists, in the middle of 9-1/4
        assert told() == ["4 5/8 down", "4 5/8 down"], chosen


def test_from_elsewhere_it_comes_down_to_the_line_beside_and_follows_it(canvas, bare: Plan) -> None:
    hand = canvas(with_cold(bare))
    draw_hot(hand, (32.0, 60.0), (32.3, 31.1), (50.2, 30.9))
    run = document_of(hand).element("s2")
    assert run.points == ((32.0, 60.0), (32.0, 30.625), (50.0, 30.625))
    assert run.insulation == 0.0


def test_alt_lays_it_where_the_pointer_is(canvas, bare: Plan) -> None:
    hand = canvas(with_cold(bare))
    hand.view.set_tool("hot")
    for at in ((24.0, 29.0), (50.0, 29.0)):
        hand.click(at, Qt.KeyboardModifier.AltModifier)
    hand.key(Qt.Key.Key_Return)
    assert document_of(hand).element("s2").points[0][1] != 29.375
