"""What a flat wye takes from its branch's slope, and steep drains as advice.

Least slopes: IRC 2021 P3005.3 (1/4 in per ft to 2-1/2 in, 1/8 from 3 in), UPC 2021 708.1 (1/4). The rest is geometry,
worked by hand: cos 45 = 0.70711, so 1/4 leaves 0.17678 in per ft, and 1/4 on the branch takes 0.35355 on the barrel.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.plan.records import Drain, Exit, Fixture, Plan
from engine.takeoff.assembly import assembly
from tests.engine.checks.judged_plans import (
    amended,
    bare,
    broken,
    counts,
    drain,
    findings,
    holds_for,
    model_of,
    not_judged,
)

RULE = "slope-lost-in-flat-wye"
FLAT = 0.25 * math.sqrt(0.5)


def wye(size: str = "3", barrel: float = 0.25, branch: float = 0.25, book: str = "irc-2021", **given: object) -> Plan:
    """A main from west to east, with a branch that comes in from the north-west at 45 degrees."""
    return bare(
        rulebook=book,
        drains=(
            drain((100.0, 100.0), (140.0, 100.0), (240.0, 100.0), size="3", slope=barrel),
            Drain("d2", ((110.0, 130.0), (140.0, 100.0)), size=size, slope=branch, **given),  # type: ignore[arg-type]
        ),
        exits=(Exit("x1", (240.0, 100.0)),),
    )


class TestFlatWye:
    def test_three_inch_under_the_residential_code_is_only_told(self) -> None:
        """0.177 is more than the 1/8 that 3 in pipe needs (IRC 2021 P3005.3), and less than what is drawn."""
        found = broken(RULE, wye())
        assert (found.weight, found.limit, found.unit) == ("note", 0.25, "in per ft")
        assert found.measured == pytest.approx(FLAT)
        assert found.elements == ("d2", "d1")
        assert found.at[:2] == (140.0, 100.0)
        assert found.cites == "IRC 2021 P3005.3"
        assert "0.177 in per foot" in found.text

    def test_three_inch_under_the_uniform_code_is_to_be_looked_at(self) -> None:
        """0.177 is less than 1/4 (UPC 2021 708.1)."""
        found = broken(RULE, wye(book="upc-2021"))
        assert (found.weight, found.limit, found.cites) == ("look", 0.25, "UPC 2021 708.1")

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_two_inch_is_to_be_looked_at_in_both(self, book: str) -> None:
        assert broken(RULE, wye("2", book=book)).weight == "look"

    def test_both_cures_with_their_numbers(self) -> None:
        """Roll: tan r = (0.25 - 0.17678) / (12 sin 45) = 0.00863, so 0.49 degrees; barrel: 0.25 / cos 45 = 0.354."""
        mend = broken(RULE, wye("2")).mend
        assert "0.5 degrees" in mend
        assert "0.354 in per foot" in mend

    def test_a_barrel_just_steep_enough_holds(self) -> None:
        enough = 0.25 / math.sqrt(0.5)
        assert counts(RULE, wye("2", barrel=enough)) == (1, 0, 0, 0)
        assert counts(RULE, wye("2", barrel=enough - 1.0 / 16.0))[1] == 1

    def test_exactly_the_least_is_left(self) -> None:
        """A 3 in branch drawn at 1/4 on a barrel whose cosine leaves just 1/8: told, not to be looked at."""
        least = 0.125 / math.sqrt(0.5)
        assert broken(RULE, wye(barrel=least)).weight == "note"
        assert broken(RULE, wye(barrel=least - 1.0 / 16.0)).weight == "look"

    def test_a_place_that_wants_more_of_three_inch_pipe(self) -> None:
        assert broken(RULE, amended(wye(), "slope.least.3", 0.25)).weight == "look"

    def test_not_judged_without_the_least_for_the_size(self) -> None:
        (found,) = not_judged(RULE, wye("2"), lacking="slope.least.2")
        assert "2 in" in found.missing

    def test_the_branch_itself_is_counted_with_the_slope_it_was_given(self) -> None:
        assert holds_for("slope-too-small", wye("2"), "d2")

    def test_a_square_branch_a_rolled_and_a_dropping_one_do_not_apply(self) -> None:
        square = replace(wye(), drains=(wye().drains[0], Drain("d2", ((140.0, 140.0), (140.0, 100.0)), size="2")))
        assert counts(RULE, square) == (0, 0, 0, 0)
        assert counts(RULE, wye(join="drop", rise=12.0))[1] == 0
        # a wye rolled by 45 degrees shows its branch at atan(cos 45) = 35.26 degrees in plan
        aside = 30.0 * math.cos(math.radians(45.0))
        rolled = Drain("d2", ((110.0, 100.0 + aside), (140.0, 100.0)), size="2", join="rolled", roll=45.0)
        assert counts(RULE, replace(wye(), drains=(wye().drains[0], rolled)))[1] == 0

    def test_a_double_wye_is_rolled_for_one_branch_only(self) -> None:
        both = replace(
            wye("2"), drains=(*wye("2").drains, Drain("d3", ((110.0, 70.0), (140.0, 100.0)), size="2", slope=0.25))
        )
        parts = {part.kind for part in model_of(both).joinery.parts}
        assert "double_wye" in parts
        assert counts(RULE, both)[1] == 2

    def test_the_roll_stands_in_the_assembly_order(self) -> None:
        words = " ".join(step.text for step in assembly(model_of(wye("2"))))
        assert "0.5 of it rolled" in words


class TestSteep:
    """No code names a greatest slope (IRC 2021 P3005.3 by its silence; UPC 2021 708.1): advice, never a stop."""

    RULE = "steep-drain"

    def run(self, slope: float, book: str = "irc-2021") -> Plan:
        return replace(
            wye(barrel=slope, book=book), drains=(drain((100.0, 100.0), (240.0, 100.0), size="3", slope=slope),)
        )

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    @pytest.mark.parametrize("slope", [0.125, 0.25, 0.375, 0.5])
    def test_more_than_a_quarter_is_no_violation(self, slope: float, book: str) -> None:
        assert counts(self.RULE, self.run(slope, book)) == (1, 0, 0, 0)

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_past_a_half_inch_it_is_something_to_look_at(self, book: str) -> None:
        found = broken(self.RULE, self.run(0.5 + 1.0 / 16.0, book))
        assert (found.weight, found.measured, found.limit) == ("look", 0.5625, 0.5)
        assert found.cites == "common practice"
        assert "lawful" in found.text

    def test_from_45_degrees_on_a_pipe_counts_as_upright(self) -> None:
        assert counts(self.RULE, self.run(12.0)) == (0, 0, 0, 1)
        assert broken(self.RULE, self.run(11.9)).weight == "look"

    def test_a_place_that_draws_the_line_elsewhere(self) -> None:
        assert counts(self.RULE, amended(self.run(1.0), "slope.steep.over", 2.0)) == (1, 0, 0, 0)


class TestLeave:
    def test_an_eighth_for_four_inch_pipe_is_the_officials_to_allow(self) -> None:
        """UPC 2021 708.1: 1/8 in per ft for 4 in pipe only with leave (from memory)."""
        plan = bare(
            rulebook="upc-2021",
            drains=(drain((200.0, 100.0), (104.0, 100.0), size="4", slope=0.125),),
            exits=(Exit("x1", (104.0, 100.0)),),
        )
        assert "official" in broken("slope-too-small", plan).mend
        assert counts("slope-too-small", amended(plan, "slope.least.4", 0.125)) == (1, 0, 0, 0)
        less = replace(plan, drains=(replace(plan.drains[0], slope=0.0625),))
        assert "official" not in broken("slope-too-small", less).mend
        three = replace(plan, drains=(replace(plan.drains[0], size="3"),))
        assert "official" not in broken("slope-too-small", three).mend

    def test_the_fall_that_is_wanted_is_told_over_the_whole_run(self) -> None:
        """2-1/2 in over 40 ft is 1/16 in per foot: 5 in are wanted at 1/8, 10 at 1/4."""
        for book, wanted in (("irc-2021", "5 in"), ("upc-2021", "10 in")):
            plan = bare(
                rulebook=book,
                drains=(drain((480.0, 100.0), (0.0, 100.0), size="3", slope=2.5 / 40.0),),
                exits=(Exit("x1", (0.0, 100.0)),),
            )
            text = broken("slope-too-small", plan).text
            assert "per foot" in text
            assert f"over its 40'-0\" that is {wanted}, not 2 1/2 in" in text


class TestBellyBetween:
    def chain(self, *slopes: float) -> Plan:
        runs = tuple(
            drain((300.0 - 50.0 * n, 100.0), (250.0 - 50.0 * n, 100.0), size="3", slope=slope, id=f"d{n + 1}")
            for n, slope in enumerate(slopes)
        )
        return bare(drains=runs, exits=(Exit("x1", (300.0 - 50.0 * len(slopes), 100.0)),))

    def test_a_level_stretch_between_a_fall_and_a_rise_holds_water_too(self) -> None:
        found = broken("holds-water", self.chain(0.25, 0.0, -0.25))
        assert found.elements == ("d1", "d3")
        assert found.at[:2] == (250.0, 100.0)

    def test_a_level_stretch_that_falls_away_does_not(self) -> None:
        assert counts("holds-water", self.chain(0.25, 0.0, 0.25)) == (3, 0, 0, 0)

    def test_a_riser_that_comes_down_into_a_rising_run_fills_up(self, hand_floor: Callable[..., Plan]) -> None:
        plan = hand_floor()
        tilted = replace(plan, drains=(plan.drains[0], replace(plan.drains[1], slope=-0.25)))
        assert ("r1", "d2") in {found.elements for found in findings("holds-water", tilted)}

    def test_a_drop_into_a_trap_is_no_belly(self) -> None:
        plan = self.chain(-0.25)
        plan = replace(plan, fixtures=(Fixture("f1", "shower", (300.0, 100.0)),))
        assert counts("holds-water", plan)[1] == 0
        assert counts("runs-uphill", plan)[1] == 1
