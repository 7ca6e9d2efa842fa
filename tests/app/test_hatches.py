"""Hatches on the canvas: put, seen, moved, told; the crawl space's height and the cleanout outside in their editors."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan import edits
from engine.plan.file import dumps, loads
from engine.plan.outline import outline, tell
from engine.plan.records import Hatch, Plan


def document_of(hand):
    return hand.view.tool.desk.document


def test_a_click_puts_one_and_selects_it(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.view.set_tool("hatch")
    hand.click((90.2, 40.1))
    document = document_of(hand)
    assert document.element("h1") == Hatch("h1", (90.0, 40.0))
    assert document.undo_label == "put hatch h1"
    assert document.selection == {"h1"}
    document.undo()
    assert document.plan == cottage


def test_it_is_drawn_as_wide_as_it_is_clear_and_its_frame_round_it(canvas, cottage: Plan) -> None:
    hand = canvas(edits.add_new(cottage, Hatch, at=(90.0, 40.0), clear=30.0, name="crawl door"))
    scene = hand.view.scene()
    assert scene.area_of("h1").boundingRect().width() == pytest.approx(33.0)
    assert scene.tip_of("h1") == "crawl door under the floor, 30 in clear"
    assert hand.view.tool.desk.beneath(hand.pixel((95.0, 45.0)))[0] == "h1"


def test_a_drag_moves_it_and_nothing_else(canvas, cottage: Plan) -> None:
    hand = canvas(edits.add_new(cottage, Hatch, at=(90.0, 40.0)))
    hand.drag((90.0, 46.0), (100.0, 50.0))
    document = document_of(hand)
    assert document.element("h1").at == pytest.approx((100.0, 44.0), abs=1.0)
    assert document.plan.drains == cottage.drains


def test_it_turns_with_a_selection_and_goes_when_deleted(cottage: Plan) -> None:
    plan = edits.add_new(cottage, Hatch, at=(90.0, 40.0))
    assert edits.turn(plan, ("h1",), (80.0, 40.0)).hatches[0].at == (80.0, 50.0)
    assert edits.delete(plan, "h1") == cottage


def test_it_is_told_and_goes_to_the_file_and_back(cottage: Plan) -> None:
    plan = edits.add_new(cottage, Hatch, at=(90.0, 40.5), clear=24.0, name="trap door")
    assert tell(plan, plan.hatches[0]) == "Trap door h1: 2'-0\" clear, 7'-6\" east and 3'-4 1/2\" north"
    assert outline(plan)[-1].title == "Ways in under the floor"
    assert loads(dumps(plan)) == plan
    assert edits.fresh_id(plan, edits.LETTERS[Hatch]) == "h2"


@pytest.mark.parametrize("clear", [3.9, 121.0, float("nan")])
def test_a_width_that_can_not_be_is_refused(cottage: Plan, clear: float) -> None:
    with pytest.raises(edits.EditError):
        edits.add_new(cottage, Hatch, at=(90.0, 40.0), clear=clear)


def test_an_exit_tells_of_the_cleanout_outside(cottage: Plan) -> None:
    said = edits.set_field(cottage, "x1", "cleanout_outside", True)
    assert tell(said, said.exits[0]).endswith("a cleanout outside")
    assert "cleanout" not in tell(cottage, cottage.exits[0])
    assert loads(dumps(said)) == said


def test_the_crawl_spaces_height_goes_to_the_file_and_back(cottage: Plan) -> None:
    crawl = edits.set_floor(cottage, crawl=26.5)
    assert loads(dumps(crawl)).floor.crawl == 26.5
    assert replace(crawl.floor, crawl=None) == cottage.floor
