"""The study's answers on the canvas: cuts, findings, heights."""

from __future__ import annotations

from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt

from app.canvas.answers import spots
from app.canvas.places import to_plan
from engine.checks.records import Finding
from engine.plan import edits
from engine.plan.records import Plan

SHIFT = Qt.KeyboardModifier.ShiftModifier


def document_of(hand):
    return hand.view.tool.desk.document


def test_every_cut_has_its_mark_and_a_bad_one_another(canvas, cottage: Plan, qtbot) -> None:
    """A 3 in drain is wider than a third of a 2x8 (IRC 2021 R502.8.1), a 1-1/2 in one is not wider than a 2x10's."""
    hand = canvas(cottage)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    answers = hand.view.scene().answers
    assert answers.shown("crossings") == len(document.study.model.cuts) == 2
    assert all(cut.legal for cut in document.study.model.cuts)
    whole = hand.view.grab().toImage()
    small = edits.set_field(cottage, "j1", "lumber", "2x8")
    document.commit(edits.set_field(small, "d2", "size", "3"), "shallower")
    qtbot.waitUntil(lambda: document.studied)
    assert [cut.legal for cut in document.study.model.cuts] == [False, False]
    assert hand.view.grab().toImage() != whole


def test_findings_are_marked_and_a_click_on_the_mark_picks_their_elements(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(replace(cottage, exits=()))
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    answers = hand.view.scene().answers
    assert answers.shown("findings") == len(answers.spots) > 0
    spot = answers.spots[0]
    mark = to_plan(hand.view.mapToScene(hand.pixel(spot.at) + QPoint(13, -13)))
    hand.click(mark)
    wanted = {name for finding in spot.findings for name in finding.elements} & set(document.elements)
    assert document.selection == wanted


def finding(at: tuple[float, float, float], weight: str) -> Finding:
    return Finding("a-rule", weight, at, (), None, None, "", "text", "common practice", "")  # type: ignore[arg-type]


def test_findings_at_one_place_share_a_mark_of_the_heaviest_weight() -> None:
    found = spots(
        [finding((0.0, 0.0, 0.0), "note"), finding((0.2, 0.0, -5.0), "stop"), finding((9.0, 0.0, 0.0), "look")]
    )
    assert [(spot.at, spot.weight, len(spot.findings)) for spot in found] == [
        ((0.0, 0.0), "stop", 2),
        ((9.0, 0.0), "look", 1),
    ]


def test_a_selected_run_shows_its_heights_and_slope(canvas, cottage: Plan, qtbot) -> None:
    """The run falls 1/4 in per ft; each end's height is that of the study, to the nearest sixteenth."""
    hand = canvas(cottage)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    assert not any(text.endswith("down") for text in hand.view.scene().lettering.shown())
    document.select(["d2"])
    shown = hand.view.scene().lettering.shown()
    assert "1/4 in per ft" in shown
    heights = document.study.model.heights
    from app.canvas.heights import down
    from engine.piping.records import UNDER, Node

    for point in document.element("d2").points:
        assert down(heights[Node(*point, UNDER)]) in shown


def test_findings_stay_in_sight_and_in_reach_from_far_away(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(replace(cottage, exits=()))
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    hand.view.zoom_by(0.1)
    answers = hand.view.scene().answers
    assert 0.5 < answers.badge_size < 1.0
    spot = max(answers.spots, key=lambda spot: spot.at[0])
    lifted = round(13 * answers.badge_size)
    hand.click(to_plan(hand.view.mapToScene(hand.pixel(spot.at) + QPoint(lifted, -lifted))))
    wanted = {name for finding in spot.findings for name in finding.elements} & set(document.elements)
    assert document.selection == wanted
