"""Texts on the canvas: where they are set and how they are read."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from PySide6.QtCore import QPointF, QRectF, Qt

from app.canvas.lettering import upright
from engine.plan import edits
from engine.plan.records import Fixture, Plan

SHIFT = Qt.KeyboardModifier.ShiftModifier


def document_of(hand):
    return hand.view.tool.desk.document


def test_texts_never_overlap_each_other_nor_the_pipe_they_name(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    for factor in (1.0, 1.6, 1.6, 0.3):
        hand.view.zoom_by(factor)
        boxes = hand.view.scene().lettering.boxes()
        for (name, a), (other, b) in combinations(boxes, 2):
            overlap = a.intersected(b)
            assert overlap.width() < 3.0 or overlap.height() < 3.0, (name, other)
        for key, area in ((f"SAN {drain.size}", document.element(drain.id).points) for drain in cottage.drains):
            for name, box in boxes:
                if name == key:
                    scaled = [QPointF(x * hand.view.scale_now, -y * hand.view.scale_now) for x, y in area]
                    assert not any(_crosses(box, a, b) for a, b in pairwise(scaled)), name


@pytest.mark.parametrize("factor", [1.0, 0.5])
def test_letters_hide_no_small_fixture(canvas, cottage: Plan, qtbot, factor: float) -> None:
    """A floor drain's strainer is 6 in wide (assumed): its letters stand beside it, whatever the scale."""
    hand = canvas(edits.add_new(cottage, Fixture, kind="floor_drain", at=(100.0, 60.0)))
    qtbot.waitUntil(lambda: document_of(hand).studied)
    hand.view.zoom_by(factor)
    half, scale = 3.0, hand.view.scale_now
    strainer = QRectF((100.0 - half) * scale, (-60.0 - half) * scale, 2.0 * half * scale, 2.0 * half * scale)
    (letters,) = (box for name, box in hand.view.scene().lettering.boxes() if name == "FD")
    assert not letters.intersects(strainer)


def _crosses(box, a: QPointF, b: QPointF) -> bool:
    return any(box.contains(a + (b - a) * (k / 200.0)) for k in range(201))


@pytest.mark.parametrize(
    ("heading", "read"), [(0, 0), (90, 90), (-90, 90), (180, 0), (135, -45), (-45, -45), (270, 90)]
)
def test_texts_are_read_without_turning_ones_head(heading: float, read: float) -> None:
    assert upright(heading) == pytest.approx(read)


def test_user_text_is_shown_as_typed(canvas, cottage: Plan) -> None:
    odd = "<b>&amp; \u202e wall"
    hand = canvas(edits.set_field(cottage, "w1", "name", odd))
    assert odd in hand.view.scene().lettering.shown()


def test_many_texts_are_set_when_things_rest(canvas, cottage: Plan, qtbot, monkeypatch) -> None:
    from app.canvas import scene

    hand = canvas(cottage)
    monkeypatch.setattr(scene, "MANY", 0)
    document_of(hand).commit(edits.set_field(cottage, "w2", "name", "a new name"), "name")
    lettering = hand.view.scene().lettering
    assert "a new name" not in lettering.shown()
    qtbot.waitUntil(lambda: "a new name" in lettering.shown())
