"""The plan for setting out: crosses where the centres are, distances from faces, numbers that cannot be misread."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import combinations
from pathlib import Path

import msgspec
import pytest

from engine.drawings import Arc, Drawing, Line, Text
from engine.drawings.labels import text_boxes
from engine.drawings.linetypes import HEAVY, MEDIUM
from engine.drawings.setting_out import ARM, setting_out_drawing, setting_out_scale
from engine.drawings.struck import setting
from engine.lengths import feet_inches
from engine.plan.file import read
from engine.plan.records import JoistField, Plan, Point
from engine.study import study

Floor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))
PAPER = (10.0, 6.8, 5.0 / 64.0)


def drawn(plan: Plan, width: float = 10.0, height: float = 6.8) -> Drawing:
    answer = study(plan)
    return setting_out_drawing(answer, setting(answer.model), width, height, 5.0 / 64.0)


def texts(drawing: Drawing) -> dict[str, Text]:
    return {stroke.text: stroke for stroke in drawing.strokes if isinstance(stroke, Text)}


def crosses(drawing: Drawing) -> list[Point]:
    """The middles of the crosses, the legend's left out: a level stroke and an upright one about one point."""
    middles: dict[tuple[float, float], int] = {}
    for stroke in drawing.strokes:
        if isinstance(stroke, Line) and len(stroke.points) == 2 and stroke.weight == MEDIUM and not stroke.dashes:
            (x0, y0), (x1, y1) = stroke.points
            if math.isclose(math.dist((x0, y0), (x1, y1)), 2.0 * ARM):
                middle = (round((x0 + x1) / 2.0, 6), round((y0 + y1) / 2.0, 6))
                middles[middle] = middles.get(middle, 0) + 1
    found = [middle for middle, count in middles.items() if count == 2]
    legend = next(text.at[1] for words, text in texts(drawing).items() if words.startswith("CENTRE TO STRIKE")) + 0.1
    return [middle for middle in found if middle[1] > legend]


def number_texts(drawing: Drawing, count: int) -> dict[int, Text]:
    """The numbers beside the crosses, which are set in bold."""
    return {
        int(stroke.text): stroke
        for stroke in drawing.strokes
        if isinstance(stroke, Text) and stroke.bold and stroke.text.isdigit() and int(stroke.text) <= count
    }


def test_the_distances_of_the_floor_worked_by_hand(hand_floor: Floor) -> None:
    drawing = drawn(hand_floor())
    said = texts(drawing)
    # west end joist: closet and exit 36 in, riser 70 1/4; south rim: closet 92, riser 69, exit 20
    for words in ("3'-0\"", "5'-10 1/4\"", "7'-8\"", "5'-9\"", "1'-8\""):
        assert words in said
    # closet to riser: 34 1/4 by 23 in is 41.256; exit to riser: 34 1/4 by 49 in is 59.783
    assert {"3'-5 1/4\"", "4'-11 13/16\""} <= set(said)
    assert "OUTSIDE FACE OF THE WEST END JOIST: HOOK THE TAPE THERE AND MEASURE EASTWARD" in said
    assert "OUTSIDE FACE OF THE SOUTH RIM: HOOK THE TAPE THERE AND MEASURE NORTHWARD" in said


def test_a_distance_stands_at_the_end_of_the_line_through_its_cross(hand_floor: Floor) -> None:
    drawing = drawn(hand_floor())
    said = texts(drawing)
    places = crosses(drawing)
    closet, riser, exit_ = sorted(places, key=lambda at: -at[1])
    middle = said["5'-10 1/4\""].at[0] - said["5'-10 1/4\""].height / 2.0
    assert middle == pytest.approx(riser[0])
    assert said["7'-8\""].at[1] + said["7'-8\""].height / 2.0 == pytest.approx(closet[1])
    assert said["1'-8\""].at[1] + said["1'-8\""].height / 2.0 == pytest.approx(exit_[1])


def test_the_faces_are_drawn_heavy_at_the_origins_of_the_distances(hand_floor: Floor) -> None:
    drawing = drawn(hand_floor())
    heavy = [stroke for stroke in drawing.strokes if isinstance(stroke, Line) and stroke.weight == HEAVY]
    upright, level = sorted(heavy, key=lambda line: line.points[0][1] == line.points[1][1])
    closet = max(crosses(drawing), key=lambda at: at[1])
    assert (closet[0] - upright.points[0][0]) * drawing.scale_ratio == pytest.approx(36.0)
    assert (closet[1] - level.points[0][1]) * drawing.scale_ratio == pytest.approx(92.0)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_mark_has_its_cross_where_it_is(path: Path) -> None:
    answer = study(read(path))
    marks = setting(answer.model)
    drawing = setting_out_drawing(answer, marks, *PAPER)
    shown = sorted(crosses(drawing))
    first = min(marks.struck, key=lambda one: one.mark.at)
    ratio = drawing.scale_ratio
    assert len(shown) == len({one.mark.at for one in marks.struck})
    for one in marks.struck:
        x = shown[0][0] + (one.mark.at[0] - first.mark.at[0]) / ratio
        y = shown[0][1] + (one.mark.at[1] - first.mark.at[1]) / ratio
        assert any(math.dist((x, y), at) < 1e-4 for at in shown)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_number_is_nearest_to_its_own_cross_or_has_a_leader(path: Path) -> None:
    answer = study(read(path))
    marks = setting(answer.model)
    drawing = setting_out_drawing(answer, marks, *PAPER)
    shown = crosses(drawing)
    first = min(marks.struck, key=lambda one: one.mark.at)
    found = number_texts(drawing, len(marks.struck))
    assert set(found) == {one.number for one in marks.struck}
    for one in marks.struck:
        x = min(shown)[0] + (one.mark.at[0] - first.mark.at[0]) / drawing.scale_ratio
        y = min(shown)[1] + (one.mark.at[1] - first.mark.at[1]) / drawing.scale_ratio
        words = found[one.number]
        centre = (words.at[0], words.at[1] + words.height / 2.0)
        nearest = min(shown, key=lambda at: math.dist(at, centre))
        leader = any(
            isinstance(stroke, Line)
            and len(stroke.points) == 2
            and math.dist(stroke.points[0], (x, y)) < 1e-6
            and math.dist(stroke.points[1], centre) < 1e-6
            for stroke in drawing.strokes
        )
        assert math.dist(nearest, (x, y)) < 1e-4 or leader


@pytest.mark.parametrize("size", [(10.0, 6.8), (7.2, 9.3), (16.0, 9.3)])
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_no_text_hides_another_and_none_leaves_the_paper(path: Path, size: tuple[float, float]) -> None:
    drawing = drawn(read(path), *size)
    laid = [(stroke, list(text_boxes(stroke))) for stroke in drawing.strokes if isinstance(stroke, Text)]
    shared = sum(a.overlap(b) for (_, one), (_, other) in combinations(laid, 2) for a in one for b in other)
    assert shared < 0.004
    for _, boxes in laid:
        for box in boxes:
            assert box.left >= -1e-6
            assert box.bottom >= -1e-6
            assert box.right <= size[0] + 1e-6
            assert box.top <= size[1] + 1e-6


def test_a_hole_is_drawn_true_to_scale(hand_floor: Floor) -> None:
    drawing = drawn(hand_floor())
    radii = [stroke.radius * drawing.scale_ratio for stroke in drawing.strokes if isinstance(stroke, Arc)]
    assert any(radius == pytest.approx(2.5) for radius in radii)  # the closet's 5 in
    assert any(radius == pytest.approx(2.125 / 2.0) for radius in radii)  # the riser's 2-1/8 in


def test_where_several_faces_serve_each_distance_names_its_own(hand_floor: Floor) -> None:
    """A second field east of the first, 40 in deep: its south rim is another face than the first one's."""
    base = hand_floor()
    second = JoistField(id="f2", corner=(120.0, 20.0), size=(60.0, 40.0))
    closet = msgspec.structs.replace(base.fixtures[0], id="wc2", at=(150.0, 45.0))
    plan = msgspec.structs.replace(
        base,
        floor=msgspec.structs.replace(
            base.floor,
            outline=(
                (0.0, 0.0),
                (120.0, 0.0),
                (120.0, 20.0),
                (180.0, 20.0),
                (180.0, 60.0),
                (120.0, 60.0),
                (120.0, 108.0),
                (0.0, 108.0),
            ),
        ),
        fields=(*base.fields, second),
        fixtures=(*base.fixtures, closet),
        drains=(*base.drains, msgspec.structs.replace(base.drains[0], id="d9", points=((150.0, 45.0), (150.0, 30.0)))),
        exits=(*base.exits, msgspec.structs.replace(base.exits[0], id="x9", at=(150.0, 30.0), pinned_z=None)),
    )
    answer = study(plan)
    marks = setting(answer.model)
    # each takes the nearest: north and south rim of either field
    assert [face.words for face in marks.along(1)] == [
        f"outside face of the {words}"
        for words in ("north rim of f1", "north rim of f2", "south rim of f1", "south rim of f2")
    ]
    drawing = setting_out_drawing(answer, marks, *PAPER)
    said = set(texts(drawing))
    for one in marks.struck:
        assert f"{feet_inches(one.mark.north_from)} {marks.letters[one.north]}" in said


def test_the_scale_asked_for_is_the_scale_drawn(hand_floor: Floor) -> None:
    answer = study(hand_floor())
    marks = setting(answer.model)
    assert setting_out_scale(answer, marks, *PAPER).ratio == drawn(hand_floor()).scale_ratio
