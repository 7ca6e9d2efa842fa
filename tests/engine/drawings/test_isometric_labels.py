"""Labels on the isometrics can be read: on bare paper, tied to what they name, on as many sheets as that takes."""

from __future__ import annotations

from itertools import combinations, pairwise
from pathlib import Path
from typing import get_args

import pytest

from engine.drawings.isometric import Isometric, isometrics
from engine.drawings.isometric.lines import touches
from engine.drawings.isometric.seating import Seating, Wanted
from engine.drawings.isometric.skeleton import Cover
from engine.drawings.labels import Box, text_boxes
from engine.drawings.strokes import Arc, Fill, Line, Stroke, Text
from engine.plan.file import read
from engine.study import study
from tests.engine.drawings.isometric_reading import marks, named_parts, texts

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))
COVERS: tuple[Cover, ...] = get_args(Cover)
LETTER = (8.1, 6.7)
"""What a sheet of letter paper leaves beside the legend, inches."""

LEAST_TEXT = 1.0 / 16.0
"""The least height of capitals that is still read off a clipboard, inches (common practice, no source)."""


def sheets_of(path: Path, cover: Cover) -> tuple[Isometric, ...]:
    return isometrics(study(read(path)), cover, *LETTER)


each_sample = pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
each_cover = pytest.mark.parametrize("cover", COVERS)


def covered(stroke: Stroke, box: Box) -> bool:
    """Whether a stroke of a pipe or symbol runs through a rectangle."""
    if isinstance(stroke, Line):
        points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
        return any(touches(box, a, b) for a, b in pairwise(points))
    if isinstance(stroke, Arc):
        x, y = stroke.centre
        r = stroke.radius * 0.7
        return box.overlap(Box(x - r, y - r, x + r, y + r)) > 0.0
    if isinstance(stroke, Fill):
        xs, ys = zip(*stroke.points, strict=True)
        return box.overlap(Box(min(xs), min(ys), max(xs), max(ys))) > 0.0
    return any(box.overlap(other) > 0.0 for other in text_boxes(stroke))


@each_cover
@each_sample
def test_no_label_lies_on_another(path: Path, cover: Cover) -> None:
    for sheet in sheets_of(path, cover):
        for one, other in combinations(sheet.labels, 2):
            assert one.box.overlap(other.box) == 0.0, (one.texts[0].text, other.texts[0].text)


@each_cover
@each_sample
def test_no_label_lies_on_a_pipe_or_a_symbol(path: Path, cover: Cover) -> None:
    for sheet in sheets_of(path, cover):
        for label in sheet.labels:
            for shown in sheet.shown:
                hit = [stroke for stroke in shown.strokes if covered(stroke, label.box)]
                assert not hit, f"{label.texts[0].text} lies on {shown.name}"


@each_cover
@each_sample
def test_no_leader_runs_through_a_label(path: Path, cover: Cover) -> None:
    for sheet in sheets_of(path, cover):
        for label in sheet.labels:
            if label.leader is None:
                continue
            a, b = label.leader.points
            through = [each.texts[0].text for each in sheet.labels if each is not label and _deep(each.box, a, b)]
            letters = [stroke for shown in sheet.shown for stroke in shown.strokes if isinstance(stroke, Text)]
            through += [each.text for each in letters for box in text_boxes(each) if _deep(box, a, b)]
            assert not through, f"the leader of {label.texts[0].text} runs through {through}"


def _deep(box: Box, a: tuple[float, float], b: tuple[float, float]) -> bool:
    """Whether a line runs through the inside of a box, a cell's breadth from its edge."""
    air = 0.02
    return touches(Box(box.left + air, box.bottom + air, box.right - air, box.top - air), a, b)


@each_cover
@each_sample
def test_texts_lie_inside_their_boxes_and_on_the_paper(path: Path, cover: Cover) -> None:
    for sheet in sheets_of(path, cover):
        for label in sheet.labels:
            for text in label.texts:
                assert text.height >= LEAST_TEXT
                for box in text_boxes(text):
                    assert box.left >= label.box.left - 1e-6
                    assert box.right <= label.box.right + 1e-6
                    assert box.bottom >= label.box.bottom - 0.02
                    assert box.top <= label.box.top + 0.02
            assert label.box.left >= 0.0
            assert label.box.right <= LETTER[0]
            assert label.box.bottom >= 0.0
            assert label.box.top <= LETTER[1]


@each_cover
@each_sample
def test_a_label_that_stands_off_has_a_leader_to_its_place(path: Path, cover: Cover) -> None:
    """Without a leader a label stands within a quarter inch of the ink of what its first part or piece is."""
    for sheet in sheets_of(path, cover):
        ink = {shown.name: shown for shown in sheet.shown}
        for label in sheet.labels:
            owner = next((ink[name] for name in label.about if name in ink), None)
            if label.leader is None and owner is not None:
                box = label.box
                near = Box(box.left - 0.25, box.bottom - 0.25, box.right + 0.25, box.top + 0.25)
                assert any(covered(stroke, near) for stroke in owner.strokes), label.texts[0].text


def test_a_full_floor_goes_on_two_sheets() -> None:
    path = next(path for path in SAMPLES if path.stem == "cottage-with-mistakes")
    sheets = sheets_of(path, "drains")
    assert len(sheets) == 2
    exits = [[text for text in texts([sheet]) if text.startswith("EXIT")] for sheet in sheets]
    assert sorted(map(len, exits)) == [1, 1]  # two exits: each heads a sheet of its own


def test_one_drain_too_full_is_parted_at_a_pipe_with_the_same_letter_on_both_sheets() -> None:
    """On paper of half the size nothing is lost and nothing is named twice."""
    path = next(path for path in SAMPLES if path.stem == "cottage-with-kitchen")
    answer = study(read(path))
    whole = isometrics(answer, "drains", *LETTER)
    parted = isometrics(answer, "drains", 5.5, 4.0)
    assert len(whole) == 1
    assert len(parted) >= 2
    assert named_parts(parted) == named_parts(whole)
    assert marks(parted) == marks(whole)
    letters = [text for text in texts(parted) if text.startswith("MATCH ")]
    assert letters
    assert all(letters.count(letter) == 2 for letter in letters)


def test_nothing_to_draw_makes_no_sheet() -> None:
    path = next(path for path in SAMPLES if path.stem == "one-bath-cottage")
    assert isometrics(study(read(path)), "water", *LETTER) == ()


class TestSeating:
    """The search for places, on a sheet of 4 by 3 inches."""

    bounds = Box(0.0, 0.0, 4.0, 3.0)

    def test_the_nearest_free_place_is_taken(self) -> None:
        seat = Seating(self.bounds, (), 1.0).seat_all([Wanted(0.5, 0.1, ((2.0, 1.5),), 0.05)])[0]
        assert seat is not None
        assert seat.leader is None
        assert seat.box.left == pytest.approx(2.0 + 0.05 + 0.03)  # its own mark's reach, and the least distance

    def test_ink_is_kept_clear_of(self) -> None:
        wall: list[Stroke] = [Line(((2.1, 0.0), (2.1, 3.0)), 0.5)]
        seat = Seating(self.bounds, wall, 1.0).seat_all([Wanted(0.5, 0.1, ((2.0, 1.5),), 0.05)])[0]
        assert seat is not None
        assert seat.box.right < 2.1

    def test_one_without_a_place_has_its_neighbours_moved_aside(self) -> None:
        """Two labels on one point between two walls: the small one's only place is first taken by the large one."""
        walls: list[Stroke] = [Line(((x, 0.0), (x, 3.0)), 0.5) for x in (1.2, 2.8)]
        wanted = [Wanted(1.3, 1.2, ((2.0, 1.5),), 0.05), Wanted(1.3, 1.25, ((2.0, 1.6),), 0.05)]
        seats = Seating(self.bounds, walls, 1.0).seat_all(wanted)
        assert None not in seats
        one, other = (seat.box for seat in seats if seat is not None)
        assert one.overlap(other) == 0.0

    def test_no_room_is_told(self) -> None:
        full: list[Stroke] = [Fill(((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)), 0.0)]
        assert Seating(self.bounds, full, 1.0).seat_all([Wanted(0.5, 0.1, ((2.0, 1.5),), 0.05)]) == [None]

    def test_texts_in_the_drawing_are_ink_too(self) -> None:
        words: list[Stroke] = [Text((2.1, 1.46), "SAN SAN SAN", 0.1)]
        seat = Seating(self.bounds, words, 1.0).seat_all([Wanted(0.5, 0.1, ((2.0, 1.5),), 0.05)])[0]
        assert seat is not None
        assert all(seat.box.overlap(box) == 0.0 for box in text_boxes(words[0]))  # type: ignore[arg-type]
