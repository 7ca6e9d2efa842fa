"""Least fall by size, no uphill, no belly. Limits: IRC 2021 P3005.3, read in "Horizontal Drainage Pipe Needs Minimum
Slope to Carry Solids" and in Q&A pages that quote the section."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.plan.records import Drain, Exit, Plan, Vent
from engine.study import study
from tests.engine.checks.judged_plans import (
    amended,
    armed,
    bare,
    broken,
    counts,
    drain,
    findings,
    holds_for,
    model_of,
    not_judged,
)

Floor = Callable[..., Plan]
SIXTEENTH = 1.0 / 16.0
LEAST = [("1-1/4", 0.25), ("1-1/2", 0.25), ("2", 0.25), ("3", 0.125), ("4", 0.125)]
"""IRC 2021 P3005.3: 1/4 in per ft to 2-1/2 in, 1/8 from 3 in on."""


def run(size: str, slope: float | None) -> Plan:
    """One run of 96 in to an exit."""
    return bare(
        drains=(drain((200.0, 100.0), (104.0, 100.0), size=size, slope=slope),), exits=(Exit("x1", (104.0, 100.0)),)
    )


class TestTooLittle:
    @pytest.mark.parametrize(("size", "least"), LEAST)
    def test_exactly_the_least_holds(self, size: str, least: float) -> None:
        assert counts("slope-too-small", run(size, least)) == (1, 0, 0, 0)

    @pytest.mark.parametrize(("size", "least"), LEAST)
    def test_a_sixteenth_less_is_a_stop(self, size: str, least: float) -> None:
        found = broken("slope-too-small", run(size, least - SIXTEENTH))
        assert (found.weight, found.elements, found.unit) == ("stop", ("d1",), "in per ft")
        assert (found.measured, found.limit) == (least - SIXTEENTH, least)
        assert found.cites == "IRC 2021 P3005.3"
        assert found.at[:2] == (152.0, 100.0)
        assert f"{least:g} in per foot" in found.mend

    @pytest.mark.parametrize(("size", "least"), LEAST)
    @pytest.mark.parametrize("more", [0.25, 1.0, 12.0])
    def test_no_slope_is_too_much(self, size: str, least: float, more: float) -> None:
        """The code has no greatest slope (IRC 2021 P3005.3)."""
        assert counts("slope-too-small", run(size, least + more)) == (1, 0, 0, 0)

    def test_a_level_run_falls_too_little_and_does_not_rise(self) -> None:
        assert broken("slope-too-small", run("3", 0.0)).measured == 0.0
        assert counts("runs-uphill", run("3", 0.0)) == (1, 0, 0, 0)

    def test_the_runs_own_slope_goes_before_the_plans(self) -> None:
        assert counts("slope-too-small", replace(run("2", None), slope=0.125))[1] == 1
        assert counts("slope-too-small", replace(run("2", 0.25), slope=0.125))[1] == 0

    def test_plumb_pipe_rising_pipe_and_vents_do_not_apply(self, hand_floor: Floor) -> None:
        # the closet's drop and the riser's drain; the main's two stretches, the branch's two and the lavatory's arm
        assert counts("slope-too-small", hand_floor()) == (5, 0, 0, 2)
        assert counts("slope-too-small", run("2", -0.25)) == (0, 0, 0, 1)
        dry = replace(run("2", 0.25), vents=(Vent("v1", ((200.0, 100.0), (200.0, 150.0)), slope=0.0, size="2"),))
        assert counts("slope-too-small", dry) == (1, 0, 0, 0)

    def test_a_traps_arm_in_the_wall_falls_as_the_plan_says(self) -> None:
        found = broken("slope-too-small", armed("lavatory", 12.0, slope=0.125))
        assert (found.elements, found.measured, found.limit) == (("f1",), 0.125, 0.25)

    @pytest.mark.parametrize(("rule", "slope"), [("slope-too-small", 0.125), ("steep-drain", 0.75)])
    def test_a_run_that_others_join_is_told_once_over_its_whole_length(self, rule: str, slope: float) -> None:
        points = ((260.0, 100.0), (200.0, 100.0), (20.0, 100.0))
        plan = replace(
            run("2", slope), drains=(drain(*points, size="2", slope=slope),), exits=(Exit("x1", points[-1]),)
        )
        found = broken(rule, plan)
        assert (found.elements, found.measured) == (("d1",), slope)
        # 20 ft: 5 in at 1/4 in per ft; 3/4 in takes 5 in more than 1/2
        assert "5 in" in found.text
        assert found.at[0] == 110.0

    def test_not_judged_without_the_value_for_the_size(self) -> None:
        (found,) = not_judged("slope-too-small", run("2", 0.25), lacking="slope.least.2")
        assert found.elements == ("d1",)
        assert "2 in" in found.missing

    def test_a_place_that_wants_more(self) -> None:
        """Some places hold 3 in pipe to 1/4 in per ft, as one page on the 2024 edition prints it."""
        assert counts("slope-too-small", run("3", 0.125))[1] == 0
        found = broken("slope-too-small", amended(run("3", 0.125), "slope.least.3", 0.25))
        assert (found.measured, found.limit, found.cites) == (0.125, 0.25, "IRC 2021 P3005.3, amended")

    def test_a_quarter_inch_in_four_feet_is_not_a_quarter_inch_in_a_foot(self) -> None:
        """2-1/2 in of fall in 40 ft: 1/16 in per ft. At 1/8 the run wants 5 in, at 1/4 it wants 10."""
        long = replace(
            run("3", 2.5 / 40.0),
            drains=(drain((480.0, 100.0), (0.0, 100.0), size="3", slope=2.5 / 40.0),),
            exits=(Exit("x1", (0.0, 100.0)),),
        )
        found = broken("slope-too-small", long)
        assert (found.measured, found.limit) == (0.0625, 0.125)
        assert "per foot" in found.text


class TestUphill:
    def test_any_rise_is_a_stop(self) -> None:
        found = broken("runs-uphill", run("3", -SIXTEENTH))
        assert (found.weight, found.elements) == ("stop", ("d1",))
        assert (found.measured, found.limit, found.unit) == (-SIXTEENTH, 0.0, "in per ft")
        assert found.cites == "IRC 2021 P3005.3"

    @pytest.mark.parametrize("slope", [0.0, SIXTEENTH, 0.25])
    def test_what_does_not_rise_holds(self, slope: float) -> None:
        assert counts("runs-uphill", run("3", slope)) == (1, 0, 0, 0)

    def test_plumb_pipe_is_not_looked_at(self, hand_floor: Floor) -> None:
        # two stretches of the main, two of the branch, one arm
        assert counts("runs-uphill", hand_floor()) == (5, 0, 0, 0)

    def test_slope_goes_along_the_flow_whatever_the_compass_says(self) -> None:
        """An arm that runs west above a main that runs east is not on its head: each falls along its own flow."""
        out_and_back = bare(
            drains=(
                drain((60.0, 100.0), (40.0, 100.0), (40.0, 60.0), size="3"),
                drain((40.0, 60.0), (200.0, 60.0), size="3", id="d2"),
            ),
            exits=(Exit("x1", (200.0, 60.0)),),
        )
        assert counts("runs-uphill", out_and_back) == (3, 0, 0, 0)
        headings = {pipe.heading[0] for pipe in model_of(out_and_back).network.pipes}
        assert headings >= {1.0, -1.0}

    def test_the_way_it_was_drawn_does_not_matter(self) -> None:
        turned = replace(run("3", -0.25), drains=(drain((104.0, 100.0), (200.0, 100.0), size="3", slope=-0.25),))
        assert broken("runs-uphill", turned) == broken("runs-uphill", run("3", -0.25))


class TestBelly:
    def run(self, upper: float, lower: float) -> Plan:
        return bare(
            drains=(
                drain((200.0, 100.0), (150.0, 100.0), size="3", slope=upper),
                drain((150.0, 100.0), (104.0, 100.0), size="3", slope=lower, id="d2"),
            ),
            exits=(Exit("x1", (104.0, 100.0)),),
        )

    def test_a_fall_into_a_rise_holds_water(self) -> None:
        found = broken("holds-water", self.run(0.25, -SIXTEENTH))
        assert (found.weight, found.elements) == ("stop", ("d1", "d2"))
        assert (found.measured, found.limit, found.unit) == (-SIXTEENTH, 0.0, "in per ft")
        assert found.at[:2] == (150.0, 100.0)
        assert found.cites == "IRC 2021 P3005.3"

    @pytest.mark.parametrize(
        ("upper", "lower"), [(0.25, 0.25), (0.25, 0.0), (0.25, 1.0), (-0.25, -0.25), (-0.25, 0.25)]
    )
    def test_no_low_place_no_water(self, upper: float, lower: float) -> None:
        assert counts("holds-water", self.run(upper, lower)) == (2, 0, 0, 0)

    def test_at_its_low_place_the_model_is_lowest(self) -> None:
        heights = model_of(self.run(0.25, -0.25)).heights
        low = min(heights.items(), key=lambda item: item[1])[0]
        assert (low.x, low.y) == (150.0, 100.0)


class TestTrueSquares:
    """Fittings that are exactly square and a flange that is level: the slope is in the heights, not in the parts."""

    def test_ten_feet_at_a_quarter_fall_two_and_a_half(self) -> None:
        plan = run("3", 0.25)
        long = replace(plan, drains=(drain((224.0, 100.0), (104.0, 100.0), size="3", slope=0.25),))
        heights = {node.x: z for node, z in model_of(long).heights.items()}
        # hangers at 5 ft and 10 ft: 60 / 48 = 1.25, 120 / 48 = 2.5
        assert heights[224.0] - heights[104.0] == 2.5

    def test_no_finding_and_no_fitting_comes_of_the_slope(self, hand_floor: Floor) -> None:
        found = study(hand_floor(lavatory=False))
        assert {one.rule for one in found.findings} & {
            "slope-too-small",
            "runs-uphill",
            "steep-drain",
            "no-height-fits",
        } == set()
        assert {part.turn for part in found.model.joinery.parts} == {0.0, 90.0}

    @pytest.mark.parametrize("slope", [0.125, 0.25, 1.0])
    def test_a_branch_in_a_flat_wye_keeps_its_own_slope(self, slope: float) -> None:
        """Left flat, a wye's branch would have 0.707 of the main's slope; it is rolled that little, and no finding."""
        plan = bare(
            drains=(
                drain((40.0, 200.0), (40.0, 140.0), (40.0, 40.0), size="3"),
                Drain("d2", ((60.0, 160.0), (40.0, 140.0)), size="3", slope=slope),
            ),
            exits=(Exit("x1", (40.0, 40.0)),),
        )
        assert holds_for("slope-too-small", plan, "d2")
        assert findings("runs-uphill", plan) == []
        heights = {(node.x, node.y): z for node, z in model_of(plan).heights.items()}
        assert heights[60.0, 160.0] - heights[40.0, 140.0] == pytest.approx(20.0 * 2**0.5 * slope / 12.0)
