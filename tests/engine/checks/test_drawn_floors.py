"""Floors that can't be built as they are drawn: bare floor, fields over each other, wide bays, what names no joist.

Common practice, no source, but for the panels' 24 in ("Material Selection, Dimensions, and Span Tables").
"""

from __future__ import annotations

import pytest

from engine.checks.drawn_floors import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome
from engine.plan.records import DoubledJoist, Floor, JoistField, JoistShift, MeasuredJoist, Plan, Point, Wall
from engine.study import work_out

JUDGES = {rule.id: rule.judge for rule in RULES}
SQUARE: tuple[Point, ...] = ((0.0, 0.0), (240.0, 0.0), (240.0, 120.0), (0.0, 120.0))


def said(
    rule: str, *fields: JoistField, outline: tuple[Point, ...] = SQUARE, walls: tuple[Wall, ...] = ()
) -> list[Outcome]:
    return list(JUDGES[rule](work_out(Plan(floor=Floor(outline=outline), fields=fields, walls=walls))))


def west(wide: float = 120.0, **given: object) -> JoistField:
    return JoistField("j1", (0.0, 0.0), (wide, 120.0), **given)  # type: ignore[arg-type]


def east(corner: float = 120.0, **given: object) -> JoistField:
    return JoistField("j2", (corner, 0.0), (240.0 - corner, 120.0), **given)  # type: ignore[arg-type]


class TestBareFloor:
    @pytest.mark.parametrize(("corner", "expected"), [(120.0, Holds), (144.0, Holds), (144.0625, Finding)])
    def test_panels_bridge_a_gap_of_24_in(self, corner: float, expected: type[Outcome]) -> None:
        (found,) = said("floor-without-joists", west(), east(corner))
        assert type(found) is expected
        if isinstance(found, Finding):
            # 24-1/16 x 120 in over 144
            assert (found.measured, found.unit) == (pytest.approx(24.0625 * 120.0 / 144.0), "sq ft")
            assert 120.0 < found.at[0] < corner

    def test_a_floor_without_any_is_left_to_the_rules_that_need_them(self) -> None:
        assert [type(one) for one in said("floor-without-joists")] == [DoesNotApply]


class TestOverlaps:
    @pytest.mark.parametrize(("corner", "expected"), [(120.0, Holds), (120.0 - 1 / 16, Finding), (100.0, Finding)])
    def test_fields_may_touch(self, corner: float, expected: type[Outcome]) -> None:
        (found,) = said("fields-overlap", west(), east(corner))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.weight, found.elements, found.measured) == ("stop", ("j1", "j2"), 120.0 - corner)

    def test_off_the_floor_that_cuts_them_off_they_may_lie_over_each_other(self) -> None:
        ell: tuple[Point, ...] = ((0.0, 0.0), (240.0, 0.0), (240.0, 60.0), (120.0, 60.0), (120.0, 120.0), (0.0, 120.0))
        low = JoistField("j2", (120.0, 0.0), (120.0, 60.0))
        wide = JoistField("j1", (0.0, 60.0), (240.0, 60.0), to_outline=True)
        rest = JoistField("j3", (0.0, 0.0), (120.0, 60.0))
        over_it = JoistField("j4", (130.0, 70.0), (60.0, 40.0))
        assert [type(one) for one in said("fields-overlap", wide, low, rest, over_it, outline=ell)] == [Holds]

    def test_one_alone_does_not_apply(self) -> None:
        assert [type(one) for one in said("fields-overlap", west())] == [DoesNotApply]


class TestBays:
    @pytest.mark.parametrize(("by", "expected"), [(8.0, Holds), (8.0625, Finding), (-8.0625, Finding)])
    def test_a_joist_moved_so_that_a_bay_is_wider_than_24_in(self, by: float, expected: type[Outcome]) -> None:
        (found,) = said("bay-too-wide", west(shifts=(JoistShift(3, by),)))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.measured, found.limit, found.weight) == (24.0625, 24.0, "look")
            assert ("j1.2 and j1.3" if by > 0 else "j1.3 and j1.4") in found.text

    def test_the_first_bay_counts(self) -> None:
        (found,) = said("bay-too-wide", west(first=26.0))
        # the end joist's middle stands 3/4 in in
        assert isinstance(found, Finding)
        assert found.measured == 25.25


class TestNames:
    # 120 in at 16: joists 0 to 8
    def test_the_last_joist_is_there_and_the_next_is_not(self) -> None:
        there = west(doubled=(DoubledJoist(8),), shifts=(JoistShift(1, 1.0),), measured=(MeasuredJoist(7, 9.5),))
        assert [type(one) for one in said("says-of-what-is-not-there", there)] == [Holds]
        (found,) = said(
            "says-of-what-is-not-there", west(doubled=(DoubledJoist(9),), measured=(MeasuredJoist(40, 9.5),))
        )
        assert isinstance(found, Finding)
        assert "joist 9 (they are numbered 0 to 8); joist 40" in found.text

    def test_rows_and_bearings_past_the_end(self) -> None:
        (found,) = said("says-of-what-is-not-there", west(blocking=(60.0, 180.0), bearings=(121.0,)))
        assert isinstance(found, Finding)
        assert found.text.endswith("a row of blocks at 15'-0\" of 10'-0\"; a bearing at 10'-1\" of 10'-0\".")

    def test_studs(self) -> None:
        # 120 in: ends, and studs at 16 ... 112: numbered 0 to 8
        wall = Wall("w1", (0.0, 60.0), (120.0, 60.0), doubled=(8,))
        assert [type(one) for one in said("says-of-what-is-not-there", walls=(wall,))] == [Holds]
        lost = Wall("w1", (0.0, 60.0), (120.0, 60.0), doubled=(9,))
        (found,) = said("says-of-what-is-not-there", walls=(lost,))
        assert isinstance(found, Finding)
        assert found.elements == ("w1",)
