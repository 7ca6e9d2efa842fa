"""Joist elevations: every cut once, its figures those of the cut, everything within its frame, nothing over another."""

from __future__ import annotations

import re
from collections import Counter
from itertools import combinations
from pathlib import Path

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings

from engine.drawings import Drawing, Line, Text
from engine.drawings.columns import shortened
from engine.drawings.elevations import Elevation, elevation_drawing, elevation_legend, elevations, parted, scales_for
from engine.drawings.elevations.holes import mouth
from engine.drawings.elevations.stick import Stick
from engine.drawings.labels import text_boxes
from engine.lengths import inches
from engine.plan.file import read
from engine.plan.records import Floor, JoistField, Plan, Supply
from engine.study import Study, study
from engine.takeoff.boring import hook, lines
from engine.takeoff.naming import numbered_cuts
from tests.engine.coarse_plans import plans

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))
WIDTHS = ((10.0, 5.0 / 64.0), (16.0, 3.0 / 32.0), (7.4, 5.0 / 64.0))


def drawings(answer: Study, width: float, lettering: float) -> list[tuple[Elevation, Drawing]]:
    parts = [part for one in elevations(answer) for part in parted(one, width, lettering)]
    scales = scales_for(parts, width, lettering)
    return [(part, elevation_drawing(part, scales[0], width, lettering)) for part in parts]


def texts(drawing: Drawing) -> list[Text]:
    return [stroke for stroke in drawing.strokes if isinstance(stroke, Text)]


def column(drawing: Drawing, number: int) -> list[str]:
    """What stands under a number's mark, from the top down."""
    (mark,) = [text for text in texts(drawing) if text.bold and text.anchor == "middle" and text.text == str(number)]
    under = [text for text in texts(drawing) if text.anchor == "middle" and abs(text.at[0] - mark.at[0]) < 1e-6]
    return [text.text for text in sorted(under, key=lambda text: -text.at[1]) if text.at[1] < mark.at[1] - 1e-6]


def bath(**changes: object) -> Plan:
    """A 10 ft square floor of 2x10 at 16 in, with one cold run square across the joists at 40 in."""
    floor = Floor(((0.0, 0.0), (120.0, 0.0), (120.0, 120.0), (0.0, 120.0)))
    field = JoistField("f1", (0.0, 0.0), (120.0, 120.0))
    run = Supply("c1", "cold", ((8.0, 40.0), (40.0, 40.0)))
    return msgspec.structs.replace(Plan(floor=floor, fields=(field,), supplies=(run,)), **changes)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_cut_stands_once_with_the_figures_of_the_cut(path: Path) -> None:
    answer = study(read(path))
    drawn = drawings(answer, *WIDTHS[0])
    seen = Counter(number for one, _ in drawn for cut in one.cuts for number in cut.numbers)
    assert seen == Counter(number for number, _ in numbered_cuts(answer.model))
    by_number = dict(numbered_cuts(answer.model))
    for one, drawing in drawn:
        for cut in one.cuts:
            if len(cut.numbers) > 1:
                continue
            made = by_number[cut.numbers[0]]
            figures = column(drawing, cut.numbers[0])
            assert figures[2:4] == [f'{inches(value)}"' for value in (made.down_from_top, made.up_from_bottom)]
            if cut.near == cut.behind:
                assert figures[:2] == [f'{inches(value)}"' for value in (made.from_start, made.from_end)]
            else:
                assert figures[0] == f'{inches(cut.near)}" *'
                assert (cut.near + cut.behind) / 2.0 == pytest.approx(made.from_start)
            assert figures[4] == (f'{made.bit}"' if made.kind == "bore" else "notch")
            assert figures[6] == {True: "yes", False: "NO", None: "not judged"}[made.legal]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_joists_share_a_drawing_only_with_the_same_figures(path: Path) -> None:
    answer = study(read(path))
    by_number = dict(numbered_cuts(answer.model))
    for one in elevations(answer):
        for cut in one.cuts:
            assert [by_number[number].joist for number in cut.numbers] == list(one.joists)
            told = {
                (
                    *map(inches, (made.from_start, made.from_end, made.down_from_top, made.up_from_bottom)),
                    made.bit,
                    made.element,
                    made.legal,
                )
                for made in (by_number[number] for number in cut.numbers)
            }
            assert len(told) == 1


def test_the_fuller_sample_has_three_joists_alike() -> None:
    titles = [one.title for one in elevations(study(read(SAMPLES[0])))]
    assert titles == [f"JOIST {n}" for n in range(1, 9)] + ["JOISTS 9, 10 AND 11"]


@pytest.mark.parametrize(("width", "lettering"), WIDTHS)
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_no_text_leaves_its_frame_or_covers_another(path: Path, width: float, lettering: float) -> None:
    for _, drawing in drawings(study(read(path)), width, lettering):
        boxes = [(text, box) for text in texts(drawing) for box in text_boxes(text)]
        for text, box in boxes:
            assert box.left > -0.02 and box.right < width + 0.02, text.text
            assert box.bottom > -0.02 and box.top < drawing.height + 0.05, text.text
        for (one, a), (other, b) in combinations(boxes, 2):
            assert a.overlap(b) < 0.002, (one.text, other.text)
    for text in texts(elevation_legend(width, lettering)):
        assert all(box.right <= width for box in text_boxes(text))


def test_a_2x10_worked_by_the_code() -> None:
    """IRC R502.8.1: no hole within 2 in of either edge, no notch in the middle third of the span.

    A 10 ft floor: joists 120 - 2 x 1-1/2 = 117 in, bearing 2 in at each end, clear span 113 in; the middle third lies
    from 2 + 113/3 = 39.667 to 2 + 226/3 = 77.333 in, printed outward: 39 5/8 to 77 3/8.
    """
    (one,) = elevations(study(bath()))
    assert (one.edge, one.depth, one.length) == (2.0, 9.25, 117.0)
    (third,) = one.thirds
    assert (third.low, third.high) == pytest.approx((39.6667, 77.3333), abs=1e-3)
    assert third.ends == ('39 5/8"', '77 3/8"')
    # joists at 16 and 32 in; the run lies 40 in from the outside face, the joist begins 1-1/2 in inside it
    assert [(cut.numbers, cut.along, cut.other) for cut in one.cuts] == [((1, 2), '38 1/2"', '78 1/2"')]
    assert (one.hook.end, one.hook.stands, one.hook.seen) == (
        "south",
        "stands against the north face of the south rim",
        "east",
    )


def test_the_bands_are_drawn_two_inches_deep() -> None:
    (one,) = elevations(study(bath()))
    scales = scales_for((one,), 10.0, 5.0 / 64.0)[0]
    drawing = elevation_drawing(one, scales, 10.0, 5.0 / 64.0)
    levels = sorted(
        {
            round(stroke.points[0][1], 6)
            for stroke in drawing.strokes
            if isinstance(stroke, Line)
            and len(stroke.points) == 2
            and stroke.points[0][1] == stroke.points[1][1]
            and stroke.dashes
            and abs(stroke.points[1][0] - stroke.points[0][0]) > 5.0
        }
    )
    assert (levels[1] - levels[0]) * scales.up.ratio == pytest.approx(9.25 - 2.0 - 2.0)


def test_the_line_that_joists_share() -> None:
    answer = study(bath())
    (line,) = lines(answer.model)
    assert (line.along, [number for number, _ in line.cuts]) == (38.5, [1, 2])


def test_a_hole_at_an_angle_tells_both_faces() -> None:
    """At 45 degrees a hole through 1-1/2 in wood comes out 1-1/2 in farther: 3/4 in to either side of the middle."""
    answer = study(bath(supplies=(Supply("c1", "cold", ((8.0, 32.0), (24.0, 48.0))),)))
    (one,) = elevations(answer)
    (cut,) = one.cuts
    # it crosses the joist at 16 in where y is 40; eastward it runs north, so the east face has it 3/4 in farther
    assert (cut.at, cut.near, cut.behind) == pytest.approx((38.5, 39.25, 37.75))
    assert (cut.along, cut.other) == ('39 1/4" *', '77 3/4" *')
    (note,) = cut.notes
    assert all(words in note for words in ("east face", 'west face 37 3/4"', '38 1/2"'))


def test_a_notch_tells_where_it_is_sawn() -> None:
    answer = study(bath(supplies=(Supply("c1", "cold", ((8.0, 40.0), (24.0, 40.0)), passing="notched"),)))
    (one,) = elevations(answer)
    (cut,) = one.cuts
    half = cut.length / 2.0
    assert cut.kind == "notch"
    assert any(f'saw at {inches(38.5 - half)}" and at {inches(38.5 + half)}"' in note for note in cut.notes)


def test_engineered_wood_has_no_bands_and_says_so() -> None:
    field = JoistField("f1", (0.0, 0.0), (120.0, 120.0), member="engineered")
    (one,) = elevations(study(bath(fields=(field,))))
    assert one.edge is None and one.thirds == ()
    assert any("ENGINEERED" in fact for fact in one.facts)
    assert all(cut.verdict == "NOT LEGAL" for cut in one.cuts)


def test_a_floor_without_cuts_has_no_elevation() -> None:
    assert elevations(study(bath(supplies=()))) == ()


def test_a_long_name_is_cut_off_in_its_column() -> None:
    assert shortened("x" * 40, 0.08, 0.5).endswith("...")
    assert shortened("d4", 0.08, 0.5) == "d4"


@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])
@given(plans())
def test_on_any_floor_every_cut_is_drawn_once_within_its_joist(plan: Plan) -> None:
    answer = study(plan)
    drawn = drawings(answer, *WIDTHS[0])
    seen = Counter(number for one, _ in drawn for cut in one.cuts for number in cut.numbers)
    assert seen == Counter(number for number, _ in numbered_cuts(answer.model))
    for one, drawing in drawn:
        stick = Stick(1.0, 1.0, 16.0, 8.0)
        right, top = stick.at(one.length, one.depth)
        for cut in one.cuts:
            for x, y in mouth(stick, one, cut, cut.near):
                assert 1.0 - 1e-9 <= x <= right + 1e-9 and 1.0 - 1e-9 <= y <= top + 1e-9
        for text in texts(drawing):
            if re.fullmatch(r"\d+", text.text):
                assert all(box.left > -0.02 and box.right < 10.02 for box in text_boxes(text))


def test_every_member_names_what_its_end_stands_against() -> None:
    answer = study(bath())
    told = {joist.id: hook(answer.model, joist).stands for joist in answer.model.framing.joists}
    assert {told[name] for name in told if "rim" not in name} == {"stands against the north face of the south rim"}
    assert told["f1.rim-south"] == ""
