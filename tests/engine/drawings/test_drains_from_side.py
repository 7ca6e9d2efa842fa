"""Drains from the side: every place of the height table once with its figures, the true fall, nothing over another."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from itertools import pairwise, takewhile
from pathlib import Path

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings

from engine.checks.model import Model
from engine.drawings import Drawing, Line, Text
from engine.drawings.from_side import Layout, Strip, line_drawing, line_legend, scales_for
from engine.drawings.from_side.pipes import AXIS
from engine.drawings.from_side.slopes import slopes
from engine.drawings.labels import text_boxes
from engine.drawings.scales import Scales
from engine.lengths import inches
from engine.plan.file import read
from engine.plan.records import Drain, Exit, Plan
from engine.study import study, work_out
from engine.takeoff.drain_lines import Lines, drain_lines
from engine.takeoff.heights import HeightRow, height_table
from engine.takeoff.supports import supports
from tests.engine import coarse_plans
from tests.engine.plan import drawn_plans

Floor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))
WIDTHS = ((10.0, 0.0727), (16.0, 0.0872), (7.4, 0.0727))


def drawn_of(model: Model, width: float, height: float) -> tuple[Lines, list[tuple[Strip, Scales, Drawing]]]:
    lines = drain_lines(model, supports(model))
    if not lines.drawn:
        return lines, []
    layout = Layout(model, lines.drawn, width, height)
    found = []
    for scales in scales_for(layout):
        found += [(one, scales, line_drawing(one, scales, layout)) for one in layout.strips(scales.along)]
    return lines, found


def texts(drawing: Drawing) -> list[Text]:
    return [stroke for stroke in drawing.strokes if isinstance(stroke, Text)]


def columns(strip: Strip, drawing: Drawing) -> list[list[str]]:
    """What stands under each place, from the distance down, read off the strokes in the columns' order."""
    label = next(text for text in texts(drawing) if text.text == "ALONG FROM EXIT")
    heads = [t for t in texts(drawing) if t.anchor == "middle" and t.bold and abs(t.at[1] - label.at[1]) < 0.02]
    heads.sort(key=lambda text: text.at[0])
    assert len(heads) == len(strip.places)
    found = []
    for head in heads:
        below = [t for t in texts(drawing) if t.anchor == "middle" and abs(t.at[0] - head.at[0]) < 1e-6]
        below = [t for t in below if t.at[1] <= head.at[1]]
        found.append([t.text for t in sorted(below, key=lambda text: -text.at[1])])
    return found


def first_scale(found: list[tuple[Strip, Scales, Drawing]]) -> list[tuple[Strip, Drawing]]:
    return [(strip, drawing) for strip, scales, drawing in found if scales == found[0][1]]


def down(value: float | None) -> str:
    assert value is not None
    return f'{inches(value)}"' if value > -1.0 / 32.0 else f'{inches(-value)}" above'


def key(row: HeightRow) -> tuple[str, str, str, str]:
    return row.element, f'{inches(row.along)}"', down(row.centre_down), down(row.bottom_down)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_drain_row_of_the_height_table_stands_once_to_the_sixteenth(path: Path) -> None:
    plan = read(path)
    model = study(plan).model
    drains = {drain.id for drain in plan.drains}
    lines, found = drawn_of(model, *WIDTHS[0])
    assert lines.left_out == ()
    printed: Counter[tuple[str, str, str, str]] = Counter()
    for strip, drawing in first_scale(found):
        for figures in columns(strip, drawing):
            printed[strip.line.element, figures[1], figures[2], figures[3]] += 1
    wanted = Counter(key(row) for row in height_table(model) if row.element in drains)
    assert printed == wanted


def test_the_branch_by_hand(hand_floor: Floor) -> None:
    """42 in of main, 9.8995 in aslant and 27.25 in to the riser, at 1/4 in a foot; joists at x 48 and 64 are cut.

    The axis leaves the main 6.3125 in down; joist 3 is 14.8995 in on: 6.3125 - 14.8995 / 48 = 6.0021; its 2-1/8 in bit
    (IRC 2021 R502.8.1 leaves 2 in at each edge). From its south end: the branch lies 69 in from the outside face, the joist
    begins 1-1/2 in inside it.
    """
    _, found = drawn_of(work_out(hand_floor()), *WIDTHS[0])
    (pair,) = [(strip, drawing) for strip, drawing in first_scale(found) if strip.line.element == "d2"]
    strip, drawing = pair
    figures = next(
        column for column, place in zip(columns(*pair), strip.places, strict=True) if place.row.what == "joist 3"
    )
    # 79.1495 in of line altogether, joist 3 at 56.8995 from the exit, so 22.25 from the upper end
    assert figures[:5] == ['56 7/8"', '22 1/4"', '6"', '6 15/16"', '3 1/4" up']
    assert figures[6:] == ['67 1/2"', "–", '2-1/8" bit']
    said = [text.text for text in texts(drawing)]
    assert "JOINS d1" in said and '42" FROM EXIT x1' in said
    assert [(slope.heading, slope.fall) for slope in slopes(strip.line)] == [
        ("south-west", pytest.approx(0.25)),
        ("west", pytest.approx(0.25)),
    ]


def test_the_exit_says_between_which_heights_it_may_lie(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    model = work_out(msgspec.structs.replace(plan, exits=(msgspec.structs.replace(plan.exits[0], ground_z=-30.0),)))
    _, found = drawn_of(model, *WIDTHS[0])
    said = [text.text for text in texts(found[0][2])]
    (window,) = [window for window in model.windows if window.exit == "x1"]
    assert f'AXIS {inches(-window.chosen)}" DOWN' in " ".join(said)
    assert 'GROUND 30" DOWN' in said


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_axis_is_drawn_at_its_true_fall(path: Path) -> None:
    for strip, scales, drawing in drawn_of(study(read(path)).model, *WIDTHS[0])[1]:
        axes = [stroke for stroke in drawing.strokes if isinstance(stroke, Line) and stroke.dashes == AXIS]
        assert axes
        rates = {round(abs(slope.fall), 4) for slope in slopes(strip.line)} | {
            round(abs(leg.z1 - leg.z0) / (leg.ends - leg.begins) * 12.0, 4)
            for leg in strip.line.section.legs
            if leg.ends > leg.begins
        }
        for axis in axes:
            (x0, y0), (x1, y1) = axis.points
            if abs(x1 - x0) > 0.02:
                fall = abs(y1 - y0) * scales.up.ratio / (abs(x1 - x0) * scales.along.ratio) * 12.0
                assert any(abs(fall - rate) < 1e-3 for rate in rates)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_strips_meet_at_a_letter_that_stands_twice(path: Path) -> None:
    for width, height in WIDTHS:
        strips = [strip for strip, _ in first_scale(drawn_of(study(read(path)).model, width, height)[1])]
        letters = Counter(name for strip in strips for name in (strip.before, strip.after) if name)
        assert set(letters.values()) <= {2}
        for a, b in pairwise(strips):
            assert a.after == (b.before if a.line.element == b.line.element else "")
            assert not a.after or a.high == b.low


def test_the_fuller_sample_breaks_its_long_branch() -> None:
    strips = [strip for strip, _ in first_scale(drawn_of(study(read(SAMPLES[0])).model, *WIDTHS[0])[1])]
    assert [(strip.line.element, strip.after) for strip in strips] == [
        ("d1", ""),
        ("d4", "A"),
        ("d4", ""),
        ("d3", ""),
        ("d2", ""),
    ]


def assert_clear(found: list[tuple[Strip, Scales, Drawing]]) -> None:
    """No text over another, and all within the paper."""
    for _, _, drawing in found:
        boxes = [(text, box) for text in texts(drawing) for box in text_boxes(text)]
        for text, box in boxes:
            assert box.left > -0.02 and box.right < drawing.width + 0.02, text.text
            assert box.bottom > -0.02 and box.top < drawing.height + 0.05, text.text
        boxes.sort(key=lambda pair: pair[1].left)
        for n, (one, a) in enumerate(boxes):
            for other, b in takewhile(lambda pair, a=a: pair[1].left < a.right, boxes[n + 1 :]):
                assert a.overlap(b) < 0.002, (one.text, other.text)
        for stroke in drawing.strokes:
            for x, y in getattr(stroke, "points", ()):
                assert -0.05 < x < drawing.width + 0.05 and -0.05 < y < drawing.height + 0.05


@pytest.mark.parametrize(("width", "height"), WIDTHS)
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_no_text_leaves_its_frame_or_covers_another(path: Path, width: float, height: float) -> None:
    assert_clear(drawn_of(study(read(path)).model, width, height)[1])
    for text in texts(line_legend(width, height, belly=True)):
        assert all(box.right <= width for box in text_boxes(text))


@given(coarse_plans.bathrooms())
@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
def test_any_bathroom_is_clear_and_told_whole(plan: Plan) -> None:
    check_any(plan)


@given(coarse_plans.plans())
@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
def test_any_plan_where_pipes_meet_is_clear_and_told_whole(plan: Plan) -> None:
    check_any(msgspec.structs.replace(plan, amendments=()))


@given(drawn_plans.plans())
@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
def test_any_drawn_plan_is_clear_and_told_whole(plan: Plan) -> None:
    check_any(msgspec.structs.replace(plan, amendments=()))


def check_any(plan: Plan) -> None:
    model = work_out(plan)
    lines, found = drawn_of(model, *WIDTHS[0])
    assert_clear(found)
    drains = {drain.id for drain in plan.drains}
    covered = {row.element for row in height_table(model) if row.element in drains}
    assert covered <= {line.element for line in lines.drawn} | set(lines.left_out)
    for line in lines.drawn:
        places = [place.station for place in line.places]
        assert places == sorted(places)
        assert all(line.begins - 1e-6 <= station <= line.ends + 1e-6 for station in places)
    if found:
        told = Counter(id(place) for strip, _ in first_scale(found) for place in strip.places)
        assert told == Counter(id(place) for line in lines.drawn for place in line.places)


def test_a_run_that_comes_to_no_exit_is_named(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    lost = Drain(id="d9", points=((90.0, 60.0), (90.0, 20.0)), size="2")
    plan = msgspec.structs.replace(plan, drains=(*plan.drains, lost), exits=(*plan.exits, Exit(id="x9", at=(5.0, 5.0))))
    lines = drain_lines(work_out(plan))
    assert lines.left_out == ("d9",)
    assert [line.element for line in lines.drawn] == ["d1"]


def test_a_drop_is_told_in_the_title(hand_floor: Floor) -> None:
    plan = hand_floor()
    drains = (plan.drains[0], msgspec.structs.replace(plan.drains[1], join="drop", rise=9.0))
    _, found = drawn_of(work_out(msgspec.structs.replace(plan, drains=drains)), *WIDTHS[0])
    said = " ".join(text.text for strip, _, drawing in found if strip.line.element == "d2" for text in texts(drawing))
    assert '9" OF IT IN THE DROP ONTO d1' in said
    assert re.search(r'FALLS \d+ \d+/\d+" IN ALL', said)
