"""Labels find free places, and stand in for themselves where there is none."""

from __future__ import annotations

import random

from engine.drawings.labels import Box, Room, label, text_boxes
from engine.drawings.strokes import Line, Text

PAGE = Box(0.0, 0.0, 8.0, 6.0)


def boxes_of(strokes: list[object]) -> list[Box]:
    return [box for stroke in strokes if isinstance(stroke, Text) for box in text_boxes(stroke)]


def test_labels_on_open_ground_do_not_overlap() -> None:
    chance = random.Random(5)
    room = Room(PAGE)
    laid: list[Box] = []
    for n in range(60):
        at = (chance.uniform(0.5, 7.5), chance.uniform(0.5, 5.5))
        laid += boxes_of(list(label(room, at, f"label {n}", 0.08)))
    pairs = [(a, b) for i, a in enumerate(laid) for b in laid[i + 1 :]]
    assert sum(a.overlap(b) for a, b in pairs) == 0.0


def test_a_label_keeps_off_what_is_taken() -> None:
    room = Room(PAGE)
    pipe = Box(0.0, 2.9, 8.0, 3.1)
    room.take(pipe)
    (box,) = boxes_of(list(label(room, (4.0, 3.0), 'EXIT x1, 3"', 0.08)))
    assert box.overlap(pipe) == 0.0


def test_a_label_far_from_its_point_has_a_leader() -> None:
    room = Room(PAGE)
    room.take(Box(3.4, 2.4, 4.6, 3.6))
    strokes = label(room, (4.0, 3.0), "SAN", 0.08)
    (leader,) = (stroke for stroke in strokes if isinstance(stroke, Line))
    assert leader.points[0] == (4.0, 3.0)


def test_near_its_point_it_has_none() -> None:
    assert not any(isinstance(stroke, Line) for stroke in label(Room(PAGE), (4.0, 3.0), "SAN", 0.08))


def test_on_a_full_sheet_it_is_drawn_all_the_same() -> None:
    room = Room(PAGE)
    room.take(PAGE)
    assert any(isinstance(stroke, Text) for stroke in label(room, (4.0, 3.0), "SAN", 0.08))


def test_labels_stay_on_the_sheet() -> None:
    room = Room(PAGE)
    for corner in ((0.0, 0.0), (8.0, 6.0), (0.0, 6.0), (8.0, 0.0)):
        for box in boxes_of(list(label(room, corner, "a fairly long label", 0.08))):
            assert box.left >= 0.0
            assert box.right <= 8.0
            assert box.bottom >= -0.02
            assert box.top <= 6.0


def test_a_turned_text_takes_the_room_that_it_stands_on() -> None:
    upright = list(text_boxes(Text((1.0, 1.0), "WWWW", 0.1, "start", 90.0)))
    assert upright[0].top - upright[0].bottom > 3 * (upright[0].right - upright[0].left)
