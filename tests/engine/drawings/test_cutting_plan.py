"""The cutting plan drawn: bars to scale, every piece with its mark and length, what is thrown away and what is left."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from engine.drawings.linetypes import THIN
from engine.drawings.sawing import bar, scale_for
from engine.drawings.strokes import Drawing, Fill, Line, Text
from engine.plan.records import Plan
from engine.study import work_out
from engine.takeoff.buying import buy
from engine.takeoff.records import Bought, Cutting, StockLength
from engine.takeoff.sticks import sticks

Floor = Callable[..., Plan]
WIDTH, LETTERING = 10.0, 0.075


def texts(drawing: Drawing) -> list[str]:
    return [stroke.text for stroke in drawing.strokes if isinstance(stroke, Text)]


def boxes(drawing: Drawing) -> list[tuple[float, float, float]]:
    """Left, right and grey of every filled bar."""
    return [
        (stroke.points[0][0], stroke.points[1][0], stroke.grey)
        for stroke in drawing.strokes
        if isinstance(stroke, Fill)
    ]


@pytest.fixture
def entry() -> Bought:
    cuts = [Cutting("D1", 40.0), Cutting("D2", 30.0), Cutting("D3", 2.0)]
    return Bought("PVC", 3.0, sticks(cuts, [StockLength(120.0)], 0.125, 2.0), 0.125, 2.0)


def test_bars_are_to_scale(entry: Bought) -> None:
    scale = scale_for([entry], WIDTH)
    (stick,) = entry.plan.sticks
    whole, *rest = boxes(bar(stick, entry, scale, WIDTH, LETTERING))
    assert (whole[1] - whole[0]) * scale.ratio == pytest.approx(120.0)
    assert [(right - left) * scale.ratio for left, right, _ in rest] == pytest.approx([2.0, 40.0, 30.0, 2.0])
    # the damaged end first, then each piece a kerf after the one before
    starts = [(left - whole[0]) * scale.ratio for left, _, _ in rest]
    assert starts == pytest.approx([0.0, 2.0, 42.125, 72.25])


def test_each_piece_has_its_mark_and_length(entry: Bought) -> None:
    (stick,) = entry.plan.sticks
    drawing = bar(stick, entry, scale_for([entry], WIDTH), WIDTH, LETTERING)
    # 120 - 2 - 72 - three kerfs of 1/8
    assert texts(drawing) == ["10 ft", "D1  40", "D2  30", "D3  2", "45 5/8 left"]


def test_a_damaged_end_is_hatched(entry: Bought) -> None:
    (stick,) = entry.plan.sticks
    scale = scale_for([entry], WIDTH)
    aslant = [
        stroke
        for stroke in bar(stick, entry, scale, WIDTH, LETTERING).strokes
        if isinstance(stroke, Line) and len(stroke.points) == 2 and stroke.points[0][1] != stroke.points[1][1]
    ]
    assert len([line for line in aslant if line.weight < THIN]) >= 1


def test_no_two_texts_stand_on_each_other(hand_floor: Floor) -> None:
    from engine.drawings.labels import text_boxes

    entries = buy(work_out(hand_floor()))
    scale = scale_for(entries, WIDTH)
    for entry in entries:
        for stick in entry.plan.sticks:
            drawing = bar(stick, entry, scale, WIDTH, LETTERING)
            found = [box for stroke in drawing.strokes if isinstance(stroke, Text) for box in text_boxes(stroke)]
            assert all(a.overlap(b) == 0.0 for n, a in enumerate(found) for b in found[:n])
            assert all(box.right <= WIDTH + 1e-6 for box in found)


def test_many_short_pieces_stand_in_lines_under_each_other() -> None:
    from engine.drawings.labels import text_boxes

    cuts = tuple(Cutting(f"D{n}", 3.5) for n in range(1, 30))
    entry = Bought("PVC", 2.0, sticks(cuts, [StockLength(120.0)], 0.125, 0.0), 0.125)
    (stick,) = entry.plan.sticks
    drawing = bar(stick, entry, scale_for([entry], WIDTH), WIDTH, LETTERING)
    assert len(texts(drawing)) == 31
    found = [box for stroke in drawing.strokes if isinstance(stroke, Text) for box in text_boxes(stroke)]
    assert all(a.overlap(b) == 0.0 for n, a in enumerate(found) for b in found[:n])
    assert all(box.bottom >= 0.0 and box.right <= WIDTH + 1e-6 and box.top <= drawing.height for box in found)
