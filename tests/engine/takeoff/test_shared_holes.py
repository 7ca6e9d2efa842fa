"""A hole that tubes share, in the lists and drawings: told once, with all that pass, and bored once.

Bare 1/2 in tubes 0.625 wide at y 40 and 40.625 through 2x10s of a floor 120 x 108: bit 1-3/8, its middle at 38.8125 of the
joist's 105 from its south end. Depth 4 in.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from engine.drawings.elevations import elevation_drawing, elevations, scales_for
from engine.drawings.elevations.columns import rows
from engine.drawings.plan import plan_drawing
from engine.drawings.strokes import Text
from engine.plan.records import Floor, JoistField, Plan, Supply
from engine.planset.elevation_sheets import line_rows
from engine.study import Study, study
from engine.takeoff.answers import check_answer
from engine.takeoff.boring import faces, lines
from engine.takeoff.joist_cuts import cut_rows
from engine.takeoff.levers import Lever, lever
from engine.takeoff.long_section import LongSection, long_section
from engine.takeoff.naming import numbered_cuts
from engine.takeoff.supports import supports


def studied(*supplies: Supply) -> Study:
    field = JoistField("F", (0.0, 0.0), (120.0, 108.0))
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    return study(Plan(floor=Floor(outline=outline), fields=(field,), supplies=supplies))


def tube(name: str, y: float, water: str = "cold", **given: Any) -> Supply:
    points = ((8.0, y), (56.0, y))
    return Supply(name, water, **({"points": points, "insulation": 0.0, "down": 4.0} | given))  # type: ignore[arg-type]


@pytest.fixture
def pair() -> Study:
    return studied(tube("c1", 40.0), tube("h1", 40.625, "hot"))


def section_of(answer: Study, name: str) -> LongSection:
    found = long_section(answer.model, next(run for run in answer.plan.supplies if run.id == name))
    assert found is not None
    return found


def test_the_answer_for_programs_names_all(pair: Study) -> None:
    cuts = check_answer(pair)["joist_cuts"]
    assert [cut["joist"] for cut in cuts] == ["F.1", "F.2", "F.3"]
    first = cuts[0]
    assert (first["pipe"], first["element"], first["bit"]) == ("c1.0", "c1", "1-3/8")
    assert (first["pipes"], first["elements"]) == (["c1.0", "h1.0"], ["c1", "h1"])
    alone = check_answer(studied(tube("c1", 40.0)))["joist_cuts"][0]
    assert (alone["pipes"], alone["elements"]) == (["c1.0"], ["c1"])


def test_the_schedule_has_a_row_for_each_hole(pair: Study) -> None:
    found = cut_rows(pair.model)
    assert [row.number for row in found] == [1, 2, 3]
    row = found[0]
    assert (row.pipe, row.system, row.bit) == ("1/2 in, c1; 1/2 in, h1", "cold, hot", "1-3/8")
    assert (row.from_end, row.end, row.down_from_top, row.verdict) == (38.8125, "south", 4.0, "yes")


def test_the_line_across_joists_names_both_runs(pair: Study) -> None:
    (line,) = lines(pair.model)
    assert (line.along, len(line.cuts)) == (38.8125, 3)
    (row,) = line_rows(pair)
    assert row[3:5] == ("c1, h1", '1-3/8"')


def test_the_elevation_shows_the_tubes_in_their_hole(pair: Study) -> None:
    (drawn,) = elevations(pair)
    assert drawn.title == "JOISTS 1, 2 AND 3"
    (cut,) = drawn.cuts
    assert (cut.pipes, cut.runs) == (('1/2" CW c1', '1/2" HW h1'), ("c1", "h1"))
    # 40 and 40.625 less the rim's 1.5; 9.25 - 4 up
    assert cut.tubes == ((38.5, 5.25, 0.625), (39.125, 5.25, 0.625))
    assert [row.words for row in rows(drawn)][4:7] == ["BIT", "for", "and"]
    scales = scales_for([drawn], 10.0, 5 / 64)[0]
    told = [
        stroke.text for stroke in elevation_drawing(drawn, scales, 10.0, 5 / 64).strokes if isinstance(stroke, Text)
    ]
    assert {'1/2" CW c1', '1/2" HW h1', '1-3/8"'} <= set(told)


def test_a_hole_for_one_pipe_gets_no_further_row() -> None:
    (drawn,) = elevations(studied(tube("c1", 40.0)))
    assert "and" not in [row.words for row in rows(drawn)]
    assert drawn.cuts[0].tubes == ()


def test_the_plan_marks_it_once(pair: Study) -> None:
    def marks(answer: Study) -> int:
        drawing = plan_drawing(answer, 16.0, 10.0)
        return sum(isinstance(one, Text) and one.text in ("1", "2", "3") and one.bold for one in drawing.strokes)

    assert len(numbered_cuts(pair.model)) == 3
    assert marks(pair) == marks(studied(tube("c1", 40.0)))


def test_each_tube_is_held_by_the_joists_it_passes(pair: Study) -> None:
    held = [(one.element, one.joist) for one in supports(pair.model) if one.kind == "bored joist"]
    assert held == [(run, f"F.{n}") for run in ("c1", "h1") for n in (1, 2, 3)]


def test_the_strip_of_either_tube_shows_the_whole_hole() -> None:
    answer = studied(tube("c1", 40.0, down=4.0), tube("h1", 40.375, "hot", down=4.5))
    for name, z in (("c1", -4.0), ("h1", -4.5)):
        woods = section_of(answer, name).woods
        assert [wood.joist for wood in woods] == ["F.1", "F.2", "F.3"]
        for wood in woods:
            assert wood.cut is not None
            assert (wood.z, wood.middle, wood.cut.elements) == (z, -4.25, ("c1", "h1"))


def test_a_tube_alone_lies_in_the_middle_of_its_hole() -> None:
    (wood, *_) = section_of(studied(tube("c1", 40.0)), "c1").woods
    assert wood.middle == wood.z == -4.0


def test_a_tubes_height_is_held_by_the_hole_that_it_shares() -> None:
    # bit 1-3/8: middle from -9.25 + 2 + 0.6875 to -2.6875; c1 lies 1/4 in over the middle, h1 as much under it
    answer = studied(tube("c1", 40.0, down=4.0), tube("h1", 40.375, "hot", down=4.5))
    for name, over in (("c1", 0.25), ("h1", -0.25)):
        section = section_of(answer, name)
        held = lever(answer.model, section, section.legs[0])
        assert isinstance(held, Lever)
        assert (held.low, held.high) == (-6.5625 + over, -2.6875 + over)
        assert "wood above the hole that it shares" in held.high_by


def test_at_an_angle_it_comes_to_each_face_where_its_tubes_do() -> None:
    # 3 in 4 up: over half of 1.5 thick 0.5625 to either side
    def slanting(name: str, y: float, water: str) -> Supply:
        return tube(name, y, water, points=((40.0, y), (56.0, y + 12.0)))

    answer = studied(slanting("c1", 40.0, "cold"), slanting("h1", 40.78125, "hot"))
    (made,) = answer.model.cuts
    met = faces(answer.model, answer.model.joists[made.joist], made)
    assert met is not None
    assert met == pytest.approx((made.from_start + 0.5625, made.from_start - 0.5625))
    (drawn,) = elevations(answer)
    first, second = drawn.cuts[0].tubes
    assert (first[0] + second[0]) / 2.0 == pytest.approx(met[0])
    assert math.isclose(second[0] - first[0], 0.78125)
