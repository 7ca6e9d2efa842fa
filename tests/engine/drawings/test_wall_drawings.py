"""Walls with pipes: every hole in a column with the figures of the list, studs where they stand, nothing over another."""

from __future__ import annotations

from collections import Counter
from itertools import combinations
from pathlib import Path

import pytest
from msgspec.structs import replace

from engine.drawings import Drawing, Line, Text
from engine.drawings.labels import text_boxes
from engine.drawings.walls import WallView, parted, scales_for, wall_drawing, wall_legend, wall_view, wall_views
from engine.lengths import inches
from engine.plan.file import read
from engine.plan.records import JoistShift, Plan, Wall
from engine.study import Study, study
from engine.takeoff.wall_holes import bored_walls, wall_holes
from tests.engine.checks.walled_plans import vent_along, wall
from tests.engine.wet_walls import wet_walls

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))
PLANS = {path.stem: read(path) for path in SAMPLES} | {"wet-walls": wet_walls()}
WIDTHS = ((10.2, 5.0 / 64.0), (15.7, 3.0 / 32.0), (9.0, 5.0 / 64.0))


def drawings(answer: Study, width: float, lettering: float) -> list[tuple[WallView, Drawing]]:
    """Every wall at every scale that it may be drawn at."""
    found = []
    for part in (part for one in wall_views(answer) for part in parted(one, width, lettering)):
        found += [(part, wall_drawing(part, scales, width, lettering)) for scales in scales_for(part, width, lettering)]
    return found


def one_wall(plan: Plan, name: str) -> tuple[WallView, Drawing]:
    answer = study(plan)
    view = next(view for view in wall_views(answer) if view.name == name)
    return view, wall_drawing(view, scales_for(view, *WIDTHS[1])[0], *WIDTHS[1])


def texts(drawing: Drawing) -> list[Text]:
    return [stroke for stroke in drawing.strokes if isinstance(stroke, Text)]


def column(drawing: Drawing, number: int) -> dict[str, str]:
    """What stands under a number's mark, by the words at the left of its row."""
    all_texts = texts(drawing)
    marks = [text for text in all_texts if text.bold and text.anchor == "middle" and text.text == str(number)]
    mark = min(marks, key=lambda text: text.at[1])
    under = [text for text in all_texts if text.anchor == "middle" and abs(text.at[0] - mark.at[0]) < 1e-6]
    heads = [text for text in all_texts if text.anchor == "end" and text.at[1] < mark.at[1]]
    found = {}
    for text in under:
        if text.at[1] < mark.at[1] - 1e-6:
            middle = text.at[1] + text.height / 2.0
            head = min(heads, key=lambda one: abs(one.at[1] + one.height / 2.0 - middle))
            found[head.text] = text.text
    return found


@pytest.mark.parametrize("name", PLANS)
def test_every_hole_of_the_list_stands_in_a_column_with_its_figures(name: str) -> None:
    answer = study(PLANS[name])
    width, lettering = WIDTHS[0]
    seen: Counter[int] = Counter()
    for view in wall_views(answer):
        for part in parted(view, width, lettering):
            drawing = wall_drawing(part, scales_for(part, width, lettering)[-1], width, lettering)
            for cut in part.cuts:
                (number,) = cut.numbers
                seen[number] += 1
                told = column(drawing, number)
                hook = view.hook
                for row in (row for row in wall_holes(answer.model) if row.number == number):
                    ends = {row.end: row.from_end, row.other_end: row.from_other}
                    faces = {row.face: row.from_face, row.other_face: row.from_other_face}
                    assert told[f"FROM {hook.end.upper()} END"] == f'{inches(ends[hook.end])}"'
                    assert told[f"or from {hook.other} end"] == f'{inches(ends[hook.other])}"'
                    assert told[f"FROM {hook.near.upper()} FACE"] == f'{inches(faces[hook.near])}"'
                    assert told[f"or from {hook.far} face"] == f'{inches(faces[hook.far])}"'
                    wood = {"sole plate": "BIT, SOLE PLATE", "stud": "BIT, STUD", "top plates": "BIT, TOP PLATES"}
                    bit = f'{row.bit}"' if row.deep is None else "notch"
                    assert told[wood[row.part]].startswith(bit)
                    assert told["legal?"] == {"yes": "yes", "no": "NO"}[row.verdict]
                    if row.above_subfloor is not None:
                        assert told["OVER SUBFLOOR"] == f'{inches(row.above_subfloor)}"'
                    if row.tie:
                        assert told["tie on top plate"] == "yes"
                    assert row.element == told["for"].split()[-1] or len(told["for"]) > 20
    assert seen == Counter(dict.fromkeys({row.number for row in wall_holes(answer.model)}, 1))


@pytest.mark.parametrize(("width", "lettering"), WIDTHS)
@pytest.mark.parametrize("name", PLANS)
def test_no_text_leaves_its_frame_or_covers_another(name: str, width: float, lettering: float) -> None:
    for view, drawing in drawings(study(PLANS[name]), width, lettering):
        boxes = [(text, box) for text in texts(drawing) for box in text_boxes(text)]
        for text, box in boxes:
            assert box.left > -0.02 and box.right < width + 0.02, (view.name, text.text)
            assert box.bottom > -0.02 and box.top < drawing.height + 0.05, (view.name, text.text)
        for (one, a), (other, b) in combinations(boxes, 2):
            assert a.overlap(b) < 0.002, (view.name, one.text, other.text)
    for text in texts(wall_legend(width, lettering)):
        assert all(box.right <= width for box in text_boxes(text))


def test_the_kitchen_wall_worked_by_hand() -> None:
    """The wall from (120, 36) to (120, 116.5), 5-1/2 in deep. The washer's riser stands at y 46: 10 in from its south end,
    70-1/2 from its north one. Its cold comes up 14 in along at x 122, 0.75 in inside the east face at 122.75. The washer's
    tee is 12 in over the finished floor, which lies 1/4 in over the subfloor.
    """
    view, drawing = one_wall(PLANS["cottage-with-kitchen"], "kitchen wall")
    assert (view.hook.end, view.hook.near, view.hook.stands) == ("south", "east", "")
    riser = next(cut.numbers[0] for cut in view.cuts if cut.run == "r3")
    assert column(drawing, riser) == {
        "FROM SOUTH END": '10"',
        "or from north end": '70 1/2"',
        "FROM EAST FACE": '2 3/4"',
        "or from west face": '2 3/4"',
        "BIT, SOLE PLATE": '2-9/16"',
        "BIT, TOP PLATES": '2-1/8"',
        "for": '2" SAN r3',
        "FITTING, OVER SUBFLOOR": '12 1/4"',
        "steel shields": "",
        "legal?": "yes",
    }
    cold = next(cut.numbers[0] for cut in view.cuts if cut.run == "c8")
    told = column(drawing, cold)
    assert (told["FROM SOUTH END"], told["FROM EAST FACE"], told["BIT, SOLE PLATE"]) == ('14"', '3/4"', '7/8"')
    assert told["steel shields"] == "1: E"
    assert any(text.text == '12 1/4" washer' for text in texts(drawing))


def test_studs_stand_where_they_are_framed_and_say_their_near_side() -> None:
    """First centre 7-1/4 in from the start, 16 in apart: sides 3/4 in before; the last one 1-1/2 in before the end."""
    view, drawing = one_wall(PLANS["cottage-with-kitchen"], "kitchen wall")
    assert [stud.low for stud in view.studs] == [0.0, 6.5, 22.5, 38.5, 54.5, 70.5, 79.0]
    told = [text.text for text in texts(drawing)]
    assert all(f'{inches(stud.low)}"' in told for stud in view.studs)
    assert not any(stud.assumed for stud in view.studs)
    assert not any("assumed" in remark for remark in view.remarks)


def test_a_wall_drawn_from_its_far_end_is_told_from_the_south_or_west() -> None:
    """Drawn from (60, 100) west to (20, 100), studs 16 in from its east end: in the drawing the west end is hooked."""
    view, _ = one_wall(wet_walls(), "short wall")
    assert (view.hook.end, view.hook.other, view.hook.near) == ("west", "east", "south")
    assert [(stud.number, stud.low) for stud in view.studs] == [(3, 0.0), (2, 7.25), (1, 23.25), (0, 38.5)]
    (cut,) = view.cuts
    assert (cut.at, cut.across, cut.tie) == (20.0, 1.75, "yes")
    assert view.plates == (97.125 - 1.5, 97.125)


def test_studs_at_assumed_places_are_broken_and_said_to_be() -> None:
    view, drawing = one_wall(wet_walls(), "west wall")
    assert [stud.assumed for stud in view.studs] == [False, *[True] * 7, False]
    assert any("assumed places" in text.text for text in texts(drawing))
    walls = wet_walls().walls
    moved = replace(wet_walls(), walls=(replace(walls[0], stud_shifts=(JoistShift(2, 1.0),)), *walls[1:]))
    assert [stud.assumed for stud in one_wall(moved, "west wall")[0].studs].count(True) == 6


def test_the_sole_plate_is_drawn_to_its_scales() -> None:
    """The washer's 2-9/16 in hole: as wide along as the scale says, 2-9/16 / 8 in across at 1-1/2 in to the foot."""
    view, drawing = one_wall(PLANS["cottage-with-kitchen"], "kitchen wall")
    ratio = drawing.scale_ratio
    rounds = [stroke.points for stroke in drawing.strokes if isinstance(stroke, Line) and len(stroke.points) == 40]
    sizes = {
        (
            round(max(x for x, _ in one) - min(x for x, _ in one), 3),
            round(max(y for _, y in one) - min(y for _, y in one), 3),
        )
        for one in rounds
    }
    assert (round(2.5625 / ratio, 3), round(2.5625 / 8.0, 3)) in sizes
    assert len(rounds) == len(view.cuts)


def test_level_pipe_is_told_at_each_stud_with_its_rise_and_what_it_is_bored_with() -> None:
    """42 in over a floor 1/4 in over the subfloor, from y 116; the stud at y 124 is 8 in on: 42-1/4 + 1/6 in, 42-7/16."""
    view, drawing = one_wall(vent_along(wall(lumber="2x6"), to=148.0), "partition")
    cut = next(cut for cut in view.cuts if cut.kind == "hole")
    told = column(drawing, cut.numbers[0])
    assert (told["FROM SOUTH END"], told["OVER SUBFLOOR"], told["BIT, STUD"]) == ('64"', '42 7/16"', '2"')
    assert 'falls 1/4" in a foot toward the south end' in " ".join(view.remarks)


def test_a_notch_says_its_face_and_where_it_is_sawn() -> None:
    """The pipe 1.7 in off the middle of a 2x6, 60-1/4 in over the subfloor: 2.75 - 1.7 + 0.95 = 2 in deep, 0.95 in each way."""
    view, _ = one_wall(wet_walls(), "wet wall")
    cut = next(cut for cut in view.cuts if cut.kind == "notch")
    assert not cut.behind and cut.stud_bit == 'notch 2"'
    assert 'Notch in the east face: saw at 59 5/16" and at 61 3/16" over the subfloor, 2" deep.' in cut.notes


def test_a_cleanout_and_a_tie_are_told() -> None:
    view, drawing = one_wall(wet_walls(), "west wall")
    (cut,) = view.cuts
    assert cut.fittings == ('16 1/4"', '24 1/4"') and cut.shields == "4: W, E" and cut.tie == "yes"
    assert any(text.text == '24 1/4" cleanout' for text in texts(drawing))
    # the tie reaches 6 in past the 2-1/8 in hole at 60 in
    (tie,) = (steel for steel in view.steel if steel.kind == "tie")
    assert (tie.low, tie.high) == (60.0 - 1.0625 - 6.0, 60.0 + 1.0625 + 6.0)


def test_what_is_not_legal_is_black_and_said() -> None:
    view, drawing = one_wall(vent_along(wall(bearing=True)), "partition")
    cut = next(cut for cut in view.cuts if cut.kind == "hole")
    assert cut.verdict == "NOT LEGAL"
    assert column(drawing, cut.numbers[0])["legal?"] == "NO"
    assert any("a hole too wide for its stud" in text.text for text in texts(drawing))


def test_a_wall_without_pipes_is_drawn_bare() -> None:
    plan = replace(wet_walls(), walls=(*wet_walls().walls, Wall("b", (150.0, 20.0), (150.0, 80.0))))
    answer = study(plan)
    assert "wall b" not in [view.name for view in wall_views(answer)]
    bare = wall_view(answer, plan.walls[-1])
    assert bare.cuts == () and len(bare.studs) == 5
    assert wall_drawing(bare, scales_for(bare, 10.0, 0.08)[0], 10.0, 0.08).height > 1.0


def test_numbers_rise_from_the_hooked_end_wall_by_wall() -> None:
    model = study(wet_walls()).model
    order = [wall.id for wall in model.plan.walls]
    found = sorted(
        {(one.row.number, order.index(one.wood.wall.id), min(one.along, one.wood.length)) for one in bored_walls(model)}
    )
    assert [number for number, _, _ in found] == list(range(1, len(found) + 1))
    assert [wall for _, wall, _ in found] == sorted(wall for _, wall, _ in found)


def test_a_vents_upper_joint_stands_higher_by_its_rise() -> None:
    """v1 rises 1/4 in per foot over 60 in, 1-1/4 in: 45-1/4 in over the subfloor at r1, 46-1/2 at r3."""
    view, drawing = one_wall(wet_walls(), "wet wall")
    told = {text.text for text in texts(drawing)}
    assert {'45 1/4" v1', '46 1/2" v1'} <= told
    assert not any("longer than listed" in remark for remark in view.remarks), "nothing stands under v1's end at r3"


def test_a_piece_under_that_joint_is_said_to_be_longer() -> None:
    """A vent that comes to a riser with a lavatory under it: 24 in on, 1/2 in higher than the list has its joint."""
    plan = wet_walls()
    vent = replace(plan.vents[0], points=((100.0, 9.0), (100.0, 33.0)))
    low = replace(plan.risers[0], at=(100.0, 9.0))
    fixture = replace(plan.fixtures[0], at=(100.0, 9.0))
    drain = replace(plan.drains[0], points=((100.0, 9.0), (20.0, 9.0)))
    plan = replace(
        plan,
        vents=(vent,),
        risers=(low, *plan.risers[1:]),
        fixtures=(fixture, *plan.fixtures[1:]),
        drains=(drain, *plan.drains[1:]),
        exits=(replace(plan.exits[0], at=(20.0, 9.0)), *plan.exits[1:]),
    )
    view, _ = one_wall(plan, "wet wall")
    assert 'Cut the piece of r2 under v1 1/2" longer than listed: so much the run rises to it.' in view.remarks


def test_a_run_of_several_stretches_is_told_of_once() -> None:
    plan = wet_walls()
    vent = replace(plan.vents[0], points=((100.0, 30.0), (100.0, 60.0), (100.0, 90.0)))
    view, _ = one_wall(replace(plan, vents=(vent, plan.vents[1])), "wet wall")
    assert sum("v1 falls" in remark for remark in view.remarks) == 1
