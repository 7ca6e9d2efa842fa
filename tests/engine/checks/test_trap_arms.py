"""Trap arms: how far to the vent, how far they fall, how near the crown. IRC 2021 at its limits and a sixteenth past.

Read: Table P3105.1 and its worked examples ("Fixture Vents Must Connect Within the Allowed Trap Arm Distance",
"Maximum Length for Fixture Drains", "What is the minimum and maximum slope of the trap arm of a plumbing drain?",
"Q&A: slope for trap arm"), P3105.2 ("Q&A: total fall in a fixture drain"), P3105.3 ("Locating Plumbing Vents").
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.plan.records import Exit, Fixture, MeasuredTakeOff, PinnedFitting, Plan, Riser
from tests.engine.checks.judged_plans import (
    amended,
    armed,
    bare,
    broken,
    common_vent,
    counts,
    drain,
    findings,
    holds_for,
    model_of,
    not_judged,
)

Floor = Callable[..., Plan]
SIXTEENTH = 1.0 / 16.0
WEIR = {"1-1/2": 5.25, "2": 6.9375, "3": 9.1875}
"""A trap's inlet axis to its weir: three radii of the short bend, 1.75, 2.3125 and 3.0625 (assumed)."""

ARMS = [("1-1/4", 60.0, 0.25), ("1-1/2", 72.0, 0.25), ("2", 96.0, 0.25), ("3", 144.0, 0.125), ("4", 192.0, 0.125)]
"""IRC 2021 Table P3105.1: trap, length in inches, the slope it is given for."""


def bay(kind: str, length: float, pipe: str, trap: str, slope: float = 0.25) -> Plan:
    """A tub or shower whose arm runs so far in the bay, weir to a dry riser on its drain, which goes on to an exit."""
    start, vent = (440.0, 100.0), (440.0 - WEIR[trap] - length, 100.0)
    return bare(
        fixtures=(Fixture("f1", kind, start, trap=trap, trap_at=start, name="the tub"),),  # type: ignore[arg-type]
        drains=(drain(start, vent, (vent[0] - 40.0, 100.0), size=pipe, slope=slope),),
        risers=(Riser("r1", vent),),
        exits=(Exit("x1", (vent[0] - 40.0, 100.0)),),
    )


class TestDistance:
    rule = "trap-too-far-from-vent"

    @pytest.mark.parametrize(("trap", "most", "slope"), ARMS)
    def test_the_tables_length_holds(self, trap: str, most: float, slope: float) -> None:
        assert counts(self.rule, armed("kitchen_sink", most, trap, slope)) == (1, 0, 0, 0)

    @pytest.mark.parametrize(("trap", "most", "slope"), ARMS)
    def test_a_sixteenth_more_is_a_stop(self, trap: str, most: float, slope: float) -> None:
        found = broken(self.rule, armed("kitchen_sink", most + SIXTEENTH, trap, slope))
        assert (found.weight, found.elements, found.unit) == ("stop", ("f1",), "in")
        assert (found.measured, found.limit) == (most + SIXTEENTH, most)
        assert found.cites == "IRC 2021 Table P3105.1"
        # at the tee: the kitchen sink's outlet is 16 above a finished floor at 1
        assert found.at == (240.0, 240.0, 17.0)
        assert "the sink" in found.text and f"{trap} in trap" in found.text

    @pytest.mark.parametrize("trap", ["1-1/2", "2", "3"])
    def test_in_the_bay_it_counts_from_the_weir(self, trap: str) -> None:
        most = {size: length for size, length, _ in ARMS}[trap]
        assert counts(self.rule, bay("bathtub", most, trap, trap)) == (1, 0, 0, 0)
        assert broken(self.rule, bay("bathtub", most + SIXTEENTH, trap, trap)).measured == most + SIXTEENTH

    @pytest.mark.parametrize(("trap", "limit"), [("1-1/2", 72.0), ("2", 96.0)])
    def test_a_larger_pipe_does_not_lengthen_it(self, trap: str, limit: float) -> None:
        """A tub 12 ft from its vent in 3 in pipe: the table goes by the trap (P3105.1), which a tub has in 1-1/2 or 2."""
        plan = bay("bathtub", 144.0, "3", trap)
        found = broken(self.rule, plan)
        assert (found.measured, found.limit) == (144.0, limit)
        # and 3 in of fall at 1/4 is one diameter of its pipe, no more
        assert counts("arm-falls-too-far", plan) == (1, 0, 0, 0)

    def test_with_a_three_inch_trap_it_passes(self) -> None:
        plan = bay("bathtub", 144.0, "3", "3")
        assert counts(self.rule, plan) == counts("arm-falls-too-far", plan) == (1, 0, 0, 0)

    def test_a_kitchen_sink_across_the_room(self) -> None:
        """A sink moved 120 in from its stack: 120 against 72."""
        found = broken(self.rule, armed("kitchen_sink", 120.0))
        assert (found.measured, found.limit) == (120.0, 72.0)

    def test_a_closet_has_no_limit(self, hand_floor: Floor) -> None:
        """Self-siphoning fixtures are excepted (P3105.1, exception); the hand floor's closet is 30 in from its vent."""
        assert counts(self.rule, hand_floor()) == (1, 0, 0, 1)

    def test_a_place_that_limits_closets(self, hand_floor: Floor) -> None:
        limited = amended(amended(hand_floor(), "trap_arm.closet_limited", True), "trap_arm.length.3", 30.0)
        assert counts(self.rule, limited) == (2, 0, 0, 0)
        shorter = amended(amended(hand_floor(), "trap_arm.closet_limited", True), "trap_arm.length.3", 29.9375)
        found = broken(self.rule, shorter)
        assert (found.elements, found.measured, found.limit) == (("wc1",), 30.0, 29.9375)

    def test_no_vent_no_distance(self, hand_floor: Floor) -> None:
        plan = hand_floor(lavatory=False)
        assert counts(self.rule, plan) == (0, 0, 0, 1)
        unvented = replace(
            armed("kitchen_sink", 200.0), fixtures=(Fixture("f1", "bathtub", (240.0, 240.0)),), risers=()
        )
        assert counts(self.rule, unvented) == (0, 0, 0, 1)

    def test_not_judged_where_the_book_has_no_row(self) -> None:
        (found,) = not_judged(self.rule, armed("kitchen_sink", 12.0, "2"), lacking="trap_arm.length.2")
        assert "2 in trap" in found.missing

    def test_two_on_one_tee_are_each_measured(self, hand_floor: Floor) -> None:
        assert counts(self.rule, common_vent(hand_floor())) == (2, 0, 0, 1)

    def test_a_county_with_shorter_arms(self) -> None:
        plan = armed("kitchen_sink", 72.0, "2")
        assert counts(self.rule, plan)[0] == 1
        found = broken(self.rule, amended(plan, "trap_arm.length.2", 60.0))
        assert (found.measured, found.limit, found.cites) == (72.0, 60.0, "IRC 2021 Table P3105.1, amended")


class TestFall:
    rule = "arm-falls-too-far"

    @pytest.mark.parametrize(
        ("trap", "slope", "length", "fall", "holds"),
        [
            # "Maximum Length for Fixture Drains", "What is the minimum and maximum slope of the trap arm ...?"
            ("2", 0.25, 96.0, 2.0, True),
            ("2", 0.375, 96.0, 3.0, False),
            ("2", 0.5, 48.0, 2.0, True),
            # "Q&A: slope for trap arm"
            ("3", 0.125, 144.0, 1.5, True),
            ("3", 0.25, 144.0, 3.0, True),
            ("1-1/2", 0.25, 84.0, 1.75, False),
            # each row of Table P3105.1 falls one diameter or less at its own slope
            ("1-1/4", 0.25, 60.0, 1.25, True),
            ("1-1/2", 0.25, 72.0, 1.5, True),
            ("4", 0.125, 192.0, 2.0, True),
            # a sixteenth past one diameter
            ("2", 0.25, 99.0, 2.0625, False),
            ("1-1/2", 0.25, 75.0, 1.5625, False),
        ],
    )
    def test_one_nominal_diameter(self, trap: str, slope: float, length: float, fall: float, holds: bool) -> None:
        plan = armed("kitchen_sink", length, trap, slope)
        if holds:
            assert counts(self.rule, plan) == (1, 0, 0, 0)
            return
        found = broken(self.rule, plan)
        assert (found.weight, found.elements, found.unit) == ("stop", ("f1",), "in")
        assert found.measured == pytest.approx(fall, abs=1e-9)
        assert found.limit == {"1-1/2": 1.5, "2": 2.0}[trap]
        assert found.cites == "IRC 2021 P3105.2"
        assert found.at == (240.0, 240.0, 17.0)

    def test_seven_feet_of_inch_and_a_half_fails_both(self) -> None:
        plan = armed("kitchen_sink", 84.0, "1-1/2")
        assert broken("trap-too-far-from-vent", plan).limit == 72.0
        assert broken(self.rule, plan).limit == 1.5

    def test_eight_feet_at_three_eighths_is_bound_by_its_fall_alone(self) -> None:
        plan = armed("kitchen_sink", 96.0, "2", 0.375)
        assert counts("trap-too-far-from-vent", plan)[0] == 1
        assert broken(self.rule, plan).measured == 3.0

    def test_in_the_bay_it_counts_from_the_weir(self) -> None:
        assert counts(self.rule, bay("bathtub", 96.0, "2", "2")) == (1, 0, 0, 0)
        found = broken(self.rule, bay("bathtub", 96.0 + 3.0, "2", "2"))
        assert found.measured == pytest.approx(2.0625)
        assert found.limit == 2.0

    def test_a_combination_takes_the_arm_below_its_vent(self) -> None:
        """A long-turn branch drops the arm before air can get in: a sanitary tee is what an arm enters.

        Inside a 1-1/2 combination: wye branch 2.3125 (0.7071 x 1.9 + 0.95 up to a sixteenth) and street eighth
        bend 1.8125 make 4.125 aslant, so 4.125 x 0.7071 = 2.9168 down.
        """
        plan = replace(
            armed("kitchen_sink", 30.0),
            fittings=(PinnedFitting("p1", (240.0, 240.0), "combo_wye_eighth_bend", level="wall"),),
        )
        found = broken(self.rule, plan)
        assert found.measured == pytest.approx(0.625 + 4.125 * 0.5**0.5)
        assert found.limit == 1.5
        assert "sanitary tee" in found.mend
        # the fittings table itself allows the pattern
        assert findings("turn-in-wrong-fitting", plan) == []
        tee = replace(plan, fittings=(replace(plan.fittings[0], pattern="sanitary_tee"),))
        assert counts(self.rule, tee) == (1, 0, 0, 0)

    def test_a_measured_combination_may_drop_less(self) -> None:
        # lower leg 1.125 measured, the wye's 0.4375 (0.7071 x 1.9 - 0.95, up): 0.6875 + 0.625 = 1.3125
        plan = replace(
            armed("kitchen_sink", 30.0),
            fittings=(PinnedFitting("p1", (240.0, 240.0), "combo_wye_eighth_bend", level="wall"),),
            takeoffs=(MeasuredTakeOff("combo_wye_eighth_bend", "1-1/2", "run_out", 1.125),),
        )
        assert counts(self.rule, plan) == (1, 0, 0, 0)

    def test_a_gentle_roll_counts_as_fall(self, hand_floor: Floor) -> None:
        """A rolled fitting's climb is part of the arm's fall; under 45 degrees it is no drop (chapter 2, definitions)."""
        for rise, holds in ((1.0, True), (3.0, False)):
            plan = rolled_shower(hand_floor(), 22.5, rise)
            fall = (36.0 - WEIR["2"]) / 48.0 + rise
            if holds:
                assert holds_for(self.rule, plan, "sh1")
            else:
                (found,) = findings(self.rule, plan)
                assert found.measured == pytest.approx(fall)
                assert found.limit == 2.0

    def test_a_steep_roll_is_a_drop(self, hand_floor: Floor) -> None:
        trap = next(t for t in model_of(rolled_shower(hand_floor(), 45.0, 3.0)).network.traps if t.fixture == "sh1")
        assert (trap.drops, trap.method) == (True, None)

    def test_a_closet_may_drop(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor()) == (1, 0, 0, 1)

    def test_two_on_one_tee_are_each_measured(self, hand_floor: Floor) -> None:
        assert counts(self.rule, common_vent(hand_floor())) == (2, 0, 0, 1)

    def test_a_place_that_allows_half_a_diameter(self) -> None:
        plan = amended(armed("kitchen_sink", 96.0, "2"), "trap_arm.fall_diameters", 0.5)
        found = broken(self.rule, plan)
        assert (found.measured, found.limit, found.cites) == (2.0, 1.0, "IRC 2021 P3105.2, amended")


def rolled_shower(plan: Plan, roll: float, rise: float) -> Plan:
    """A shower square to the hand floor's main at (36, 40), its arm 36 in, joining it by a roll."""
    arm = drain((72.0, 40.0), (36.0, 40.0), id="d3", size="2", join="rolled", roll=roll, rise=rise)
    main = replace(plan.drains[0], points=((36.0, 92.0), (36.0, 62.0), (36.0, 40.0), (36.0, 20.0)))
    shower = Fixture("sh1", "shower", (72.0, 40.0))
    return replace(plan, fixtures=(*plan.fixtures, shower), drains=(main, plan.drains[1], arm))


class TestCrown:
    rule = "vent-at-the-crown"

    @pytest.mark.parametrize(("trap", "least"), [("1-1/4", 2.5), ("1-1/2", 3.0), ("2", 4.0), ("3", 6.0), ("4", 8.0)])
    def test_two_diameters(self, trap: str, least: float) -> None:
        assert counts(self.rule, armed("kitchen_sink", least, trap)) == (1, 0, 0, 0)
        found = broken(self.rule, armed("kitchen_sink", least - SIXTEENTH, trap))
        assert (found.weight, found.elements, found.unit) == ("stop", ("f1",), "in")
        assert (found.measured, found.limit) == (least - SIXTEENTH, least)
        assert found.cites == "IRC 2021 P3105.3"
        assert found.at == (240.0, 240.0, 17.0)

    def test_in_the_bay_it_goes_by_the_arms_pipe(self) -> None:
        assert counts(self.rule, bay("bathtub", 4.0, "2", "1-1/2")) == (1, 0, 0, 0)
        assert broken(self.rule, bay("bathtub", 4.0 - SIXTEENTH, "2", "1-1/2")).limit == 4.0

    def test_a_closet_and_a_trap_without_vent_do_not_apply(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor()) == (1, 0, 0, 1)
        assert counts(self.rule, hand_floor(lavatory=False)) == (0, 0, 0, 1)

    def test_two_on_one_tee_are_each_measured(self, hand_floor: Floor) -> None:
        assert counts(self.rule, common_vent(hand_floor())) == (2, 0, 0, 1)

    def test_a_place_that_wants_three(self) -> None:
        plan = amended(armed("kitchen_sink", 4.0, "2"), "trap_arm.crown_diameters", 3)
        assert broken(self.rule, plan).limit == 6.0


class TestSTrap:
    """IRC 2021 P3105.2, P3201.5; UPC 2021 1004.1: no vertical stretch between a trap's weir and its vent."""

    rule = "s-trap"

    def late(self, size: str) -> Plan:
        """A lavatory's arm turns down in the wall; the vent stands on the level drain under the floor, 20 in on."""
        plan = armed("lavatory", 12.0)
        return replace(
            plan,
            risers=(replace(plan.risers[0], top="none"), Riser("r2", (220.0, 240.0))),
            drains=(drain((240.0, 240.0), (220.0, 240.0), (200.0, 240.0), slope=0.25, size=size),),
        )

    def test_an_arm_that_turns_down_first(self) -> None:
        found = broken(self.rule, self.late("1-1/2"))
        assert (found.elements, found.weight) == (("f1",), "stop")
        assert "S-trap" in found.text
        assert found.cites == "IRC 2021 P3105.2, P3201.5"

    def test_by_the_uniform_code(self) -> None:
        assert broken(self.rule, replace(self.late("1-1/2"), rulebook="upc-2021")).elements == ("f1",)

    def test_a_wider_level_pipe_may_be_its_vent(self) -> None:
        """IRC 2021 P3111: 2 in pipe carries air over the water, and the fixture's own drain may drop to it."""
        assert counts(self.rule, self.late("2")) == (0, 0, 0, 1)

    def test_an_arm_level_to_its_vent(self) -> None:
        assert counts(self.rule, armed("lavatory", 12.0)) == (1, 0, 0, 0)

    def test_a_closet_may_drop(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor(lavatory=False)) == (0, 0, 0, 1)

    def test_a_place_that_lets_it(self) -> None:
        assert findings(self.rule, amended(self.late("1-1/2"), "trap_arm.drop_allowed", True)) == []
