"""An area with a flooring of its own, drawn, told its layers, moved and taken back with mouse and keys."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.canvas.places import to_scene
from app.workplace import Workplace
from engine.plan import edits
from engine.plan.file import read
from engine.plan.records import FlooringArea, FloorLayer, Plan
from tests.app.conftest import Hand
from tests.app.window.details_by_hand import write

SAMPLES = Path(__file__).resolve().parents[3] / "samples"
TILE = (FloorLayer(0.25, "backer board"), FloorLayer(0.375, "tile"))


def test_a_tiled_bath_lifts_its_closet(make_work, cottage: Plan, qtbot) -> None:
    """Drawn from corner to corner and told its layers; the closet's flange goes up by 5/8 - 1/4 = 3/8 in."""
    work: Workplace = make_work(cottage)
    hand = Hand(work.view)
    work.window.activateWindow()
    qtbot.waitUntil(work.view.hasFocus)
    hand.type("y")
    assert work.view.tool_name == "flooring"
    closet = next(one for one in cottage.fixtures if one.kind == "water_closet")
    x, y = closet.at
    before = flange(work, qtbot, closet.id)
    hand.drag((x - 20.0, y - 20.0), (x + 20.0, y + 10.0), Qt.KeyboardModifier.AltModifier)
    (area,) = work.document.plan.flooring_areas
    assert (area.finish, area.finish_layers) == (cottage.floor.finish, ())
    assert work.document.undo_label == f"draw flooring {area.id}"
    assert work.document.selection == {area.id}
    assert flange(work, qtbot, closet.id) == before
    write(qtbot, work.details.editors["finish_layers"], '1/4" backer board + 3/8" tile')
    assert (area.id, TILE, 0.625) == told(work)
    assert flange(work, qtbot, closet.id) == pytest.approx(before + 0.625 - cottage.floor.finish)
    write(qtbot, work.details.editors["finish"], '1/2"')
    assert (area.id, (), 0.5) == told(work)
    work.document.undo()
    work.document.undo()
    assert flange(work, qtbot, closet.id) == before
    work.document.undo()
    assert work.document.plan == cottage


def told(work: Workplace) -> tuple[str, tuple[FloorLayer, ...], float]:
    (area,) = work.document.plan.flooring_areas
    return area.id, area.finish_layers, area.finish


def flange(work: Workplace, qtbot, closet: str) -> float:
    """The height of a closet's flange in the answer to the plan as it stands."""
    qtbot.waitUntil(lambda: work.document.study is not None and work.document.study.plan is work.document.plan)
    assert work.document.study is not None
    (part,) = [
        one
        for one in work.document.study.model.joinery.parts
        if one.kind.startswith("closet_flange") and closet in one.elements
    ]
    return part.centre[2]


@pytest.fixture
def laid(cottage: Plan) -> Plan:
    return edits.add_new(cottage, FlooringArea, start=(10.0, 40.0), end=(60.0, 100.0), finish=0.625, name="bath")


def test_it_is_hit_at_its_edge_and_what_stands_on_it_stays_in_reach(canvas, laid: Plan) -> None:
    scene = canvas(laid).view.scene()
    assert scene.area_of("c1").contains(to_scene((10.0, 70.0)))
    assert not scene.area_of("c1").contains(to_scene((35.0, 70.0)))


def test_its_corner_is_pulled_and_delete_takes_it_away(canvas, laid: Plan) -> None:
    hand = canvas(laid)
    document = hand.view.tool.desk.document
    document.select({"c1"})
    hand.drag((60.0, 100.0), (66.0, 90.0), Qt.KeyboardModifier.AltModifier)
    (area,) = document.plan.flooring_areas
    assert area.start == (10.0, 40.0)
    assert area.end == pytest.approx((66.0, 90.0), abs=0.5)
    hand.drag((10.0, 60.0), (14.0, 63.0), Qt.KeyboardModifier.AltModifier)
    (moved,) = document.plan.flooring_areas
    assert moved.start == pytest.approx((14.0, 43.0), abs=0.5)
    assert moved.end[0] - moved.start[0] == area.end[0] - area.start[0]
    QTest.keyClick(hand.view.viewport(), Qt.Key.Key_Delete)
    assert document.plan.flooring_areas == ()
    document.undo()
    document.undo()
    document.undo()
    assert document.plan == laid


def test_its_corners_come_to_the_finished_faces_of_walls(canvas, cottage: Plan) -> None:
    """A partition of 2x4 studs with 1/2 in board: its faces lie 1-3/4 + 1/2 = 2-1/4 in off its centre line."""
    hand = canvas(cottage)
    wall = next(one for one in cottage.walls if not one.exterior and one.start[0] == one.end[0])
    x, y = wall.start[0], (wall.start[1] + wall.end[1]) / 2.0
    hand.view.set_tool("flooring")
    hand.drag((x - 2.4, y), (x - 40.0, y - 13.0))
    (area,) = hand.view.tool.desk.document.plan.flooring_areas
    assert area.end[0] == x - 2.25


def test_a_room_is_drawn_from_corner_to_corner_of_its_finished_walls(canvas) -> None:
    """The sample's bath: from 4 in east and 34 1/2 in north to 53 3/4 in and 116 in, each wall's centre 2 1/4 in off."""
    sample = read(SAMPLES / "ell-cottage.jway")
    hand = canvas(edits.delete(sample, "c1"))
    hand.view.set_tool("flooring")
    hand.drag((4.3, 34.9), (53.4, 115.6))
    (area,) = hand.view.tool.desk.document.plan.flooring_areas
    (meant,) = sample.flooring_areas
    assert (area.start, area.end) == (meant.start, meant.end)


def test_two_corners_in_a_line_are_refused(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.view.set_tool("flooring")
    hand.click((30.0, 40.0), Qt.KeyboardModifier.AltModifier)
    hand.click((30.0, 70.0), Qt.KeyboardModifier.AltModifier)
    assert hand.view.tool.desk.document.plan.flooring_areas == ()
