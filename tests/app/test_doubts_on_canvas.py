"""What could not be judged is marked on the canvas: quietly, by a shape of its own, and it can be hidden."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, QPoint
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QApplication, QToolTip

from app.canvas.badges import ASIDE
from app.canvas.doubts import doubts
from app.canvas.places import to_plan
from engine.checks.records import NotJudged
from engine.plan import edits
from engine.plan.records import Plan

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # said of every tip by a screenless platform


def document_of(hand):
    return hand.view.tool.desk.document


def case(at: tuple[float, float, float], missing: str, *elements: str) -> NotJudged:
    return NotJudged(at, elements, missing)


@pytest.fixture
def endless(cottage: Plan) -> Plan:
    """The cottage without its exit: nothing sets its pipes' heights, so no bore can be judged by its height."""
    return edits.delete(cottage, "x1")


def test_what_lies_at_one_place_is_gathered_and_told_once() -> None:
    found = doubts(
        [
            ("a-rule", case((1.0, 2.0, 3.0), "no depth", "d1")),
            ("b-rule", case((1.2, 2.0, -9.0), "no depth", "d2")),
            ("a-rule", case((1.0, 2.0, 3.0), "no size", "d1")),
            ("a-rule", case((9.0, 2.0, 3.0), "no depth", "d3")),
        ]
    )
    assert [(one.at, one.elements) for one in found] == [((1.0, 2.0), {"d1", "d2"}), ((9.0, 2.0), {"d3"})]
    assert found[0].words == "not judged: no depth (a rule, b rule)\nnot judged: no size (a rule)"


def test_every_place_has_its_mark_which_goes_with_its_layer(canvas, endless: Plan, qtbot) -> None:
    hand = canvas(endless)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    answers = hand.view.scene().answers
    places = {(case.at[0], case.at[1]) for _, case in document.study.not_judged}
    assert answers.shown("not_judged") == len(answers.doubts) == len(places) > 1
    with_marks = hand.view.grab().toImage()
    hand.view.set_layer_visible("not_judged", False)
    assert answers.shown("not_judged") == 0
    assert hand.view.grab().toImage() != with_marks
    hand.view.set_layer_visible("not_judged", True)
    assert hand.view.grab().toImage() == with_marks


def test_the_mark_tells_what_is_missing_and_a_click_picks_its_elements(canvas, endless: Plan, qtbot) -> None:
    hand = canvas(endless)
    document, view = document_of(hand), hand.view
    qtbot.waitUntil(lambda: document.studied)
    answers = view.scene().answers
    doubt = next(one for one in answers.doubts if one.elements & set(document.elements))
    pixel = hand.pixel(doubt.at) + (ASIDE * answers.badge_size).toPoint()
    port = view.viewport()
    QApplication.sendEvent(port, QHelpEvent(QEvent.Type.ToolTip, pixel, port.mapToGlobal(QPoint(pixel))))
    assert QToolTip.text() == doubt.words
    assert doubt.words.startswith("not judged: ")
    QToolTip.hideText()
    hand.click(to_plan(view.mapToScene(pixel)))
    assert document.selection == doubt.elements & set(document.elements)


def test_a_hidden_mark_is_not_hit(canvas, endless: Plan, qtbot) -> None:
    hand = canvas(endless)
    document, view = document_of(hand), hand.view
    qtbot.waitUntil(lambda: document.studied)
    doubt = next(one for one in view.scene().answers.doubts if one.elements & set(document.elements))
    pixel = hand.pixel(doubt.at) + (ASIDE * view.scene().answers.badge_size).toPoint()
    assert view.tool.desk.answer_at(pixel) == doubt.elements
    view.set_layer_visible("not_judged", False)
    assert view.tool.desk.answer_at(pixel) is None


def test_marks_go_when_the_datum_is_there(canvas, endless: Plan, cottage: Plan, qtbot) -> None:
    hand = canvas(endless)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    before = set(hand.view.scene().answers.doubts)
    document.commit(cottage, "exit again")
    qtbot.waitUntil(lambda: document.studied)
    after = set(hand.view.scene().answers.doubts)
    assert len(after) < len(before)
    assert not [doubt for doubt in after if "reaches no exit" in doubt.words]
