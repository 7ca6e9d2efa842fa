"""The floor plan's strokes: line types, letters, marks, measures; on the floor that is worked by hand."""

from __future__ import annotations

import math
from collections.abc import Callable

import msgspec
import pytest

from engine.drawings import Arc, Drawing, Fill, Line, Text, legend, plan_drawing
from engine.drawings.linetypes import HEAVY, LINE_TYPES, MEDIUM
from engine.drawings.sheet import Content
from engine.plan.records import Plan, Supply, Vent
from engine.study import study

Floor = Callable[..., Plan]
WATER = (
    Supply(id="c1", water="cold", points=((8.0, 6.0), (8.0, 100.0), (60.0, 100.0)), down=3.0),
    Supply(id="h1", water="hot", points=((12.0, 6.0), (12.0, 80.0), (90.0, 80.0)), down=3.0),
)


def drawn(plan: Plan, width: float = 9.0, height: float = 7.5, content: Content = "everything") -> Drawing:
    return plan_drawing(study(plan), width, height, content)


def texts(drawing: Drawing) -> list[str]:
    return [stroke.text for stroke in drawing.strokes if isinstance(stroke, Text)]


def lines(drawing: Drawing, weight: float, dashes: tuple[float, ...]) -> list[Line]:
    return [
        stroke
        for stroke in drawing.strokes
        if isinstance(stroke, Line) and (stroke.weight, stroke.dashes, stroke.grey) == (weight, dashes, 0.0)
    ]


def test_scale_and_place_on_paper(hand_floor: Floor) -> None:
    drawing = drawn(hand_floor())
    # 120 x 108 in of floor is 5 x 4.5 in at 1/2 in to the foot; 3/4 in would be 7.5 x 6.75
    assert (drawing.scale_name, drawing.scale_ratio) == ('1/2" = 1\'-0"', 24.0)
    assert f"SCALE {drawing.scale_name}" in texts(drawing)
    (main,) = (
        line for line in lines(drawing, HEAVY, ()) if len(line.points) == 3 and line.points[0][0] == line.points[2][0]
    )
    # the main is 72 in long: 3 in on paper
    assert math.dist(main.points[0], main.points[2]) == pytest.approx(3.0)


def test_nothing_lies_off_the_paper(hand_floor: Floor) -> None:
    drawing = drawn(msgspec.structs.replace(hand_floor(), supplies=WATER), 7.0, 8.0)
    for stroke in drawing.strokes:
        for x, y in getattr(stroke, "points", ()):
            assert -1e-9 <= x <= 7.0 + 1e-9
            assert -1e-9 <= y <= 8.0 + 1e-9


def test_each_system_has_its_line_type_and_its_letters(hand_floor: Floor) -> None:
    vent = Vent(id="v1", points=((70.25, 69.0), (70.25, 30.0)), above_floor=60.0)
    drawing = drawn(msgspec.structs.replace(hand_floor(), supplies=WATER, vents=(vent,)))
    for system in LINE_TYPES:
        kind = LINE_TYPES[system]
        assert lines(drawing, kind.weight, kind.dashes), system
        assert any(text.split(" AT ")[0].endswith(f" {kind.letters}") for text in texts(drawing)), system
    assert any(text.endswith("V AT 5'-0\"") for text in texts(drawing))
    patterns = [(kind.weight, kind.dashes) for kind in LINE_TYPES.values()]
    assert len(set(patterns)) == len(patterns)


def test_letters_come_again_along_a_long_run(hand_floor: Floor) -> None:
    # 230 in at 1/2 scale is 9.6 in on paper: about every 2-1/2 in
    tube = Supply(id="c1", water="cold", points=((4.0, 6.0), (4.0, 104.0), (116.0, 104.0), (116.0, 84.0)))
    drawing = drawn(msgspec.structs.replace(hand_floor(lavatory=False), supplies=(tube,)))
    assert texts(drawing).count('1/2" CW') >= 3


def test_measures_that_a_tape_can_hook(hand_floor: Floor) -> None:
    found = texts(drawn(hand_floor()))
    # overall 120 x 108; closet (36, 92), riser (70.25, 69), exit (36, 20) from the west and south outside faces
    for words in ("10'-0\"", "9'-0\"", "3'-0\"", "5'-10 1/4\"", "7'-8\"", "5'-9\"", "1'-8\""):
        assert words in found, words
    assert "DISTANCES FROM THE OUTSIDE FACES OF THE WEST END JOIST AND THE SOUTH RIM" in found


def test_heights_slopes_and_invert(hand_floor: Floor) -> None:
    found = texts(drawn(hand_floor()))
    # bend under the closet -5.6875; riser foot -5.5386; wye -6.3125
    for words in ('5 11/16" DN', '5 9/16" DN', '6 5/16" DN', '1/4" PER FT'):
        assert words in found, words
    # invert at the exit: 7.1875 + 3.042 / 2 = 8.7085
    assert 'EXIT x1, 3", IE 8 11/16" DN, CO OUTSIDE' in found


def test_the_exit_tells_its_way_to_the_ground(hand_floor: Floor) -> None:
    plan = hand_floor()
    exits = (msgspec.structs.replace(plan.exits[0], ground_z=-30.0, meets="foundation", sleeve="6"),)
    found = texts(drawn(msgspec.structs.replace(plan, exits=exits)))
    assert 'EXIT x1, 3", IE 8 11/16" DN, CO OUTSIDE, GROUND 30" DN, 6" SLEEVE' in found


def test_the_flow_arrows_point_to_the_exit(hand_floor: Floor) -> None:
    drawing = drawn(hand_floor(lavatory=False))
    heads = [
        stroke
        for stroke in drawing.strokes
        if isinstance(stroke, Fill) and len(stroke.points) == 3 and stroke.grey == 0.0
    ]
    (main,) = lines(drawing, HEAVY, ())
    arrow = next(head for head in heads if abs(head.points[0][0] - main.points[0][0]) < 1e-9)
    assert arrow.points[0][1] < arrow.points[1][1]


def test_cuts_and_findings_are_numbered_as_in_their_lists(hand_floor: Floor) -> None:
    found = study(hand_floor())
    drawing = plan_drawing(found, 9.0, 7.5)
    numbers = [stroke.text for stroke in drawing.strokes if isinstance(stroke, Text) and stroke.bold]
    cuts, findings = len(found.model.cuts), len(found.findings)
    assert cuts == 2
    for number in (*range(1, cuts + 1), *range(1, findings + 1)):
        assert str(number) in numbers


def test_the_overview_leaves_measures_to_the_other_sheets(hand_floor: Floor) -> None:
    found = texts(drawn(hand_floor(), content="overview"))
    assert "10'-0\"" in found
    assert '5 11/16" DN' not in found


def test_a_sheet_of_one_trade_shows_only_that(hand_floor: Floor) -> None:
    plan = msgspec.structs.replace(hand_floor(), supplies=WATER)
    assert not lines(drawn(plan, content="water"), HEAVY, ())
    assert not lines(drawn(plan, content="drains"), MEDIUM, LINE_TYPES["cold"].dashes)


def test_fixtures_and_joists_carry_their_names(hand_floor: Floor) -> None:
    found = texts(drawn(hand_floor()))
    assert {"WC", "LAV", "1", "7", '2x10 JOISTS AT 16" O.C.'} <= set(found)


def test_joists_are_as_wide_as_they_are(hand_floor: Floor) -> None:
    drawing = drawn(hand_floor())
    widths = {
        round(max(x for x, _ in stroke.points) - min(x for x, _ in stroke.points), 6)
        for stroke in drawing.strokes
        if isinstance(stroke, Fill) and stroke.grey == pytest.approx(0.93)
    }
    # 1-1/2 in at 1/2 in to the foot
    assert round(1.5 / 24.0, 6) in widths


def test_a_plan_with_nothing_on_it_is_drawn(hand_floor: Floor) -> None:
    bare = Plan(floor=hand_floor().floor)
    drawing = drawn(bare)
    assert "10'-0\"" in texts(drawing)


def test_the_same_study_gives_the_same_strokes(hand_floor: Floor) -> None:
    found = study(hand_floor())
    assert plan_drawing(found, 9.0, 7.5) == plan_drawing(found, 9.0, 7.5)


def test_the_legend_names_every_line_and_mark() -> None:
    made = legend(9.0, 0.08, "everything", 4)
    found = texts(made)
    assert {kind.letters for kind in LINE_TYPES.values()} <= set(found)
    assert {"waste drain", "vent", "cold water", "hot water", "finding: stop for this", "joist cut: legal"} <= set(
        found
    )
    assert any(isinstance(stroke, Arc) for stroke in made.strokes)


@pytest.mark.parametrize("content", ["overview", "drains", "water"])
def test_each_sheets_legend_is_part_of_the_whole(content: Content) -> None:
    assert set(texts(legend(9.0, 0.08, content))) < set(texts(legend(9.0, 0.08)))
