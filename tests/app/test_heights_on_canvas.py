"""Heights along a selected run: all of them, apart from each other, and at nobody else's cost."""

from __future__ import annotations

from itertools import combinations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from app.canvas.heights import down
from engine.piping.records import UNDER, Node
from engine.plan.records import Drain, Exit, Plan

NO_BUTTON = Qt.MouseButton.NoButton


def document_of(hand):
    return hand.view.tool.desk.document


def short_run(cottage: Plan) -> Plan:
    """The closet's drain with points 8 in apart: at 3 pixels an inch a text is three times as long as a stretch."""
    points = (
        (36.0, 92.0),
        (36.0, 76.0),
        (36.0, 69.0),
        (44.0, 61.0),
        (44.0, 53.0),
        (44.0, 45.0),
        (36.0, 37.0),
        (36.0, 20.0),
    )
    branch = Drain(id="d2", points=((70.25, 69.0), (36.0, 69.0)), size="1-1/2")
    return replace(cottage, drains=(Drain(id="d1", points=points, size="3"), branch))


def parted(hand) -> None:
    for (name, a), (other, b) in combinations(hand.view.scene().lettering.boxes(), 2):
        overlap = a.intersected(b)
        assert overlap.width() < 3.0 or overlap.height() < 3.0, (name, other)


@pytest.mark.parametrize("scale", [6.0, 3.0, 2.0])
def test_every_height_of_a_run_of_short_stretches_is_told_and_none_covers_another(
    canvas, cottage: Plan, qtbot, scale: float
) -> None:
    plan = short_run(cottage)
    hand = canvas(plan)
    hand.view.zoom_by(scale / hand.view.scale_now)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    document.select(["d1"])
    shown = list(hand.view.scene().lettering.shown())
    for point in plan.drains[0].points:
        height = down(document.study.model.heights[Node(*point, UNDER)])
        assert height in shown
        shown.remove(height)
    parted(hand)


@pytest.mark.parametrize("scale", [6.0, 3.0, 2.0, 1.0])
def test_a_selection_takes_no_letters_from_fixtures_and_joists(canvas, cottage: Plan, qtbot, scale: float) -> None:
    hand = canvas(short_run(cottage))
    hand.view.zoom_by(scale / hand.view.scale_now)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    own = {"WC", "LAV", *(f"j1.{number}" for number in range(1, 8))}
    before = own & set(hand.view.scene().lettering.shown())
    assert {"WC", "LAV"} <= before
    document.select(["d1", "d2", "x1"])
    assert before <= set(hand.view.scene().lettering.shown())


def test_where_there_is_room_for_one_the_height_stays_and_the_slope_goes(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(short_run(cottage))
    hand.view.zoom_by(1.5 / hand.view.scale_now)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    document.select(["d1"])
    shown = hand.view.scene().lettering.shown()
    assert sum(text.endswith("down") for text in shown) >= 8
    parted(hand)


def test_a_height_that_stands_off_has_a_line_to_its_place(canvas, cottage: Plan, qtbot) -> None:
    stairs = tuple((36.0 + 8.0 * k, 40.0) for k in range(7))
    plan = replace(cottage, drains=(Drain(id="d1", points=(*stairs, (92.0, 32.0))),), exits=(Exit("x1", (36.0, 40.0)),))
    hand = canvas(plan)
    hand.view.zoom_by(2.0 / hand.view.scale_now)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    lettering = hand.view.scene().lettering
    assert lettering.leaders() == ()
    document.select(["d1"])
    places = set(document.element("d1").points)
    assert places & set(lettering.leaders())
    parted(hand)
    document.select([])
    assert lettering.leaders() == ()


def test_a_height_that_two_selected_runs_share_is_told_once(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    document.select(["d1", "d2", "x1", "f1"])
    told = [text for text in hand.view.scene().lettering.shown() if text.endswith("down")]
    at = [(36.0, 92.0), (36.0, 62.0), (36.0, 20.0), (70.25, 69.0), (43.0, 69.0)]
    heights = [down(document.study.model.heights[Node(*point, UNDER)]) for point in at]
    assert sorted(text for text in told if text in heights) == sorted(heights)
