"""The canvas: layers, pictures, and how it ends."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication

from app.canvas.picture import LAYERS
from app.canvas.places import to_plan
from app.tools.sketch import Words
from engine.plan import edits
from engine.plan.records import Fixture, Plan, Wall

SHIFT = Qt.KeyboardModifier.ShiftModifier


def document_of(hand):
    return hand.view.tool.desk.document


def test_every_layer_hides_and_shows_again(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    qtbot.waitUntil(lambda: document_of(hand).studied)
    whole = hand.view.grab().toImage()
    for name in LAYERS:
        hand.view.set_layer_visible(name, False)
        if name not in ("heights", "vents", "water"):
            assert hand.view.grab().toImage() != whole, name
        hand.view.set_layer_visible(name, True)
        assert hand.view.grab().toImage() == whole, name
    with pytest.raises(KeyError, match="no layer is called 'ducts'"):
        hand.view.set_layer_visible("ducts", False)


def test_what_is_hidden_is_not_hit_and_stays_hidden_when_drawn_anew(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.view.set_layer_visible("drains", False)
    hand.click((36.0, 40.0))
    assert document_of(hand).selection == {"j1"}
    document_of(hand).commit(edits.set_field(cottage, "d1", "size", "4"), "size")
    hand.click((36.0, 40.0))
    hand.click((-20.0, -20.0))
    hand.click((36.0, 40.0))
    assert document_of(hand).selection == {"j1"}


def test_a_fixtures_body_follows_the_thickness_of_its_wall(canvas, cottage: Plan) -> None:
    """A 2x6's face lies 1 in farther out than a 2x4's: 5.5 / 2 less 3.5 / 2 (worked by hand)."""
    hand = canvas(cottage)
    scene = hand.view.scene()
    before = scene.area_of("f2").boundingRect().left()
    document_of(hand).commit(edits.set_field(cottage, "w2", "lumber", "2x6"), "thicken")
    assert scene.area_of("f2").boundingRect().left() == pytest.approx(before - 1.0)


def test_letting_go_in_mid_drag_leaves_no_item_and_no_proposal(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    hand.click((36.0, 20.0))
    hand.press((36.0, 20.0))
    hand.move((36.0, 10.0))
    scene = hand.view.scene()
    hand.view.let_go()
    assert scene.items() == []
    assert document.plan is cottage
    document.commit(edits.add_new(cottage, Wall, start=(0.0, 50.0), end=(60.0, 50.0)), "later")
    assert scene.items() == []
    hand.view.let_go()


def test_every_kind_of_fixture_is_drawn(canvas, bare: Plan) -> None:
    from engine.trade.fixtures import KINDS

    plan = bare
    for k, kind in enumerate(KINDS):
        plan = edits.add_new(plan, Fixture, kind=kind, at=(20.0 + 10.0 * k, 20.0 + 12.0 * k), turn=45.0 * k % 360.0)
    hand = canvas(plan)
    assert hand.view.scene().pictured() == set(document_of(hand).elements)
    hand.view.grab()


def test_leaving_the_canvas_takes_a_hovering_fixture_away(canvas, cottage: Plan) -> None:
    from PySide6.QtCore import QEvent

    hand = canvas(cottage)
    hand.view.set_tool("place:shower")
    hand.move((90.0, 40.0), button=Qt.MouseButton.NoButton)
    assert len(document_of(hand).plan.fixtures) == 3
    QApplication.sendEvent(hand.view, QEvent(QEvent.Type.Leave))
    assert document_of(hand).plan is cottage


@pytest.mark.parametrize("corner", ["lower right", "upper left"])
def test_words_at_the_pointer_stay_in_view(canvas, bare: Plan, corner: str) -> None:
    """At the lower right of what is in view they stand above the pointer and to its left."""
    view = canvas(bare).view
    size = view.viewport().size()
    pixel = QPoint(size.width() - 30, size.height() - 20) if corner == "lower right" else QPoint(30, 30)
    at = to_plan(view.mapToScene(pixel))
    view.scene().sketches.show((Words(at, "12'-6 1/2\""),))
    view.scene().sketches.point_out(at, "corner of the floor")
    plates = [view.scene().sketches._items[0], *view.scene().sketches._snap.childItems()]
    for plate in plates:
        seen = plate.deviceTransform(view.viewportTransform()).mapRect(plate.boundingRect())
        assert view.viewport().rect().contains(seen.toAlignedRect()), seen
