"""The sheet: the flip, zoom, places, the grid and the scale bar."""

from __future__ import annotations

import math

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication

from app.canvas.ground import pitches
from app.canvas.places import to_plan, to_scene
from engine.plan.records import Plan

SHIFT = Qt.KeyboardModifier.ShiftModifier


def document_of(hand):
    return hand.view.tool.desk.document


def wheel(view, at: QPoint, turned: int) -> None:
    place = QPointF(at)
    event = QWheelEvent(
        place,
        view.viewport().mapToGlobal(place),
        QPoint(),
        QPoint(0, turned),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(view.viewport(), event)


def test_north_is_up_and_the_flip_is_its_own_way_back(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    assert hand.pixel((60.0, 100.0)).y() < hand.pixel((60.0, 10.0)).y()
    assert to_plan(to_scene((12.5, -7.25))) == (12.5, -7.25)


def test_the_whole_floor_is_in_sight_at_first_and_again_on_demand(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    port = hand.view.viewport().rect()
    corners = cottage.floor.outline
    assert all(port.contains(hand.pixel(corner)) for corner in corners)
    hand.view.zoom_by(5.0)
    assert not all(port.contains(hand.pixel(corner)) for corner in corners)
    hand.type("f")
    assert all(port.contains(hand.pixel(corner)) for corner in corners)


def test_at_every_height_of_the_view_the_frame_comes_to_rest(canvas, cottage: Plan) -> None:
    """Scroll bars come and go with the scale: were the room taken with them, one frame would call the next for ever."""
    hand = canvas(cottage)
    for height in range(120, 420, 4):
        frames: list[float] = []
        hand.view.scale_changed.connect(frames.append)
        hand.view.resize(590, height)
        for _ in range(8):
            QApplication.processEvents()
        hand.view.scale_changed.disconnect(frames.append)
        assert len(frames) <= 4, height


def test_the_wheel_zooms_about_the_pointer(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    before, spot = hand.view.scale_now, hand.pixel((100.0, 30.0))
    wheel(hand.view, spot, 240)
    assert hand.view.scale_now > before * 1.2
    held = to_plan(hand.view.mapToScene(spot))
    assert math.dist(held, (100.0, 30.0)) < 1.0


def test_zoom_stays_in_bounds(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    for _ in range(200):
        hand.view.zoom_by(1.3)
    nearest = hand.view.scale_now
    for _ in range(400):
        hand.view.zoom_by(0.7)
    assert 50.0 < nearest < 200.0
    assert 0.05 < hand.view.scale_now < 1.0


def test_a_place_is_brought_to_the_middle_and_pointed_out_for_a_moment(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    hand.view.show_place((90.0, 10.0))
    hand.view.zoom_by(8.0)
    hand.view.show_place((10.0, 100.0))
    middle = hand.view.viewport().rect().center()
    assert (hand.pixel((10.0, 100.0)) - middle).manhattanLength() < 6
    assert hand.view.scene().sketches.snapped == ((10.0, 100.0), "here")
    qtbot.waitUntil(lambda: hand.view.scene().sketches.snapped is None)


def test_the_middle_button_and_space_take_the_sheet_in_hand(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.view.zoom_by(3.0)
    under = to_plan(hand.view.mapToScene(QPoint(400, 400)))
    hand.view.set_tool("wall")
    hand.press(under, button=Qt.MouseButton.MiddleButton)
    hand.move((under[0] + 10.0, under[1]), button=Qt.MouseButton.MiddleButton)
    moved = to_plan(hand.view.mapToScene(QPoint(400, 400)))
    hand.release(under, button=Qt.MouseButton.MiddleButton)
    assert moved[0] < under[0] - 5.0
    assert document_of(hand).plan is cottage
    assert hand.view.tool_name == "wall"


@pytest.mark.parametrize(("scale", "fine"), [(20.0, 1.0), (4.0, 6.0), (1.0, 12.0), (0.3, 48.0), (0.05, 48.0)])
def test_the_grid_grows_coarser_as_the_view_goes_away(scale: float, fine: float) -> None:
    assert pitches(scale)[0] == fine


def test_the_scale_bar_stands_for_a_length_that_fits(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    for factor in (1.0, 4.0, 4.0, 0.01):
        hand.view.zoom_by(factor)
        bar = hand.view.scale_bar
        assert 20.0 < bar.length() * hand.view.scale_now <= 150.0


def test_the_whole_floor_stays_in_sight_while_the_window_changes_until_one_zooms(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    first = hand.view.scale_now
    hand.view.resize(600, 500)
    assert hand.view.scale_now < first
    hand.view.zoom_by(1.5)
    held = hand.view.scale_now
    hand.view.resize(900, 700)
    assert hand.view.scale_now == held


def test_lines_keep_their_weight_on_a_sharper_screen(canvas, cottage: Plan) -> None:
    """Cosmetic pens count dots, not pixels: with twice as many they must be twice as wide."""
    from app import palette

    hand = canvas(cottage)
    dots = hand.view.devicePixelRatioF()
    before = palette.line_pen("waste").widthF()
    assert palette.set_density(2.0 * dots)
    try:
        hand.view.scene().redraw()
        assert palette.line_pen("waste").widthF() == 2.0 * before
        assert hand.view.scene().pictured() == set(document_of(hand).elements)
    finally:
        palette.set_density(dots)
