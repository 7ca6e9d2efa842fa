"""Traps in the bay: 24 in down, 30 in aside (IRC 2021 P3201.6, read in "Fixture Traps" and Q&A that quote it), and
room below the joists (common practice, no source).

A 2 in trap is assumed from its short bend's 2.3125: weir 6.9375 along the arm, belly 2 x 2.3125 + 2.375 / 2 =
5.8125 under the arm's axis. A shower's outlet lies 1.25 above the joists, 3/4 subfloor, 1/4 finish and 1/4 strainer;
a 2 in bore is 2.049.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.plan.records import Exit, Fixture, JoistField, MeasuredTakeOff, Plan
from tests.engine.checks.judged_plans import amended, armed, bare, broken, counts, drain, model_of, not_judged

Floor = Callable[..., Plan]
SIXTEENTH = 1.0 / 16.0
WEIR = 6.9375


def shower(exit_z: float | None, **given: object) -> Plan:
    """A shower whose arm runs 48 in past its weir to an exit at a height: the axis at the weir is 1 in higher."""
    start, end = (200.0, 50.0), (200.0 - WEIR - 48.0, 50.0)
    return replace(
        bare(
            fixtures=(Fixture("sh1", "shower", start, name="the shower"),),
            drains=(drain(start, end, size="2"),),
            exits=(Exit("x1", end, pinned_z=exit_z),),
        ),
        **given,
    )


class TestOutletToWeir:
    rule = "weir-too-low"
    # 1.25 - (axis - 2.049 / 2) = 24 where the axis is -21.7255, so the exit stands at -22.7255
    at_limit = 1.25 + 2.049 / 2.0 - 24.0 - 1.0

    def test_twenty_four_inches_hold(self) -> None:
        assert counts(self.rule, shower(self.at_limit)) == (1, 0, 0, 0)
        assert counts(self.rule, shower(-8.0)) == (1, 0, 0, 0)

    def test_a_sixteenth_more_is_a_stop(self) -> None:
        found = broken(self.rule, shower(self.at_limit - SIXTEENTH))
        assert (found.weight, found.elements, found.unit) == ("stop", ("sh1",), "in")
        assert found.measured == pytest.approx(24.0625, abs=1e-9)
        assert found.limit == 24.0
        assert found.cites == "IRC 2021 P3201.6"
        assert found.at == pytest.approx((200.0, 50.0, self.at_limit - SIXTEENTH + 1.0))
        assert "the shower" in found.text

    def test_the_exits_window_is_held_by_the_same_limit(self) -> None:
        """Left open, the exit never stands where the weir would be too low."""
        (window,) = model_of(shower(None)).windows
        assert window.low == pytest.approx(self.at_limit)
        assert counts(self.rule, shower(None)) == (1, 0, 0, 0)

    def test_closets_do_not_apply_and_a_lavatory_is_counted_by_its_drain_in_the_wall(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor()) == (1, 0, 0, 1)

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_a_sinks_drain_low_in_the_wall(self, book: str) -> None:
        """IRC 2021 P3201.6, UPC 2021 1001.2. A sink's outlet lies 28 in up (a bowl 8 in deep under 36, assumed): 4 is 24 below."""
        low = replace(armed("kitchen_sink", 8.0, outlet_above_floor=4.0), rulebook=book)
        assert counts(self.rule, low) == (1, 0, 0, 0)
        found = broken(self.rule, replace(armed("kitchen_sink", 8.0, outlet_above_floor=3.9375), rulebook=book))
        assert (found.measured, found.limit, found.elements) == (24.0625, 24.0, ("f1",))
        assert "4 in above the floor" in found.mend

    def test_its_rim_moves_its_outlet(self) -> None:
        plan = armed("kitchen_sink", 8.0, outlet_above_floor=4.0, rim_above_floor=37.0)
        assert broken(self.rule, plan).measured == 25.0

    def test_a_standpipe_has_a_rule_of_its_own(self) -> None:
        assert counts(self.rule, armed("washer_standpipe", 8.0)) == (0, 0, 0, 1)

    def test_not_judged_without_a_height(self) -> None:
        (found,) = not_judged(self.rule, shower(None, exits=()))
        assert found.elements == ("sh1",)
        assert "the shower" in found.missing

    def test_a_place_that_allows_less(self) -> None:
        found = broken(self.rule, amended(shower(self.at_limit), "outlet_to_weir.most", 20))
        assert (found.limit, found.cites) == (20.0, "IRC 2021 P3201.6, amended")


class TestAside:
    rule = "trap-too-far-aside"

    def tub(self, east: float, north: float = 0.0) -> Plan:
        at = (100.0, 100.0)
        trap = (100.0 + east, 100.0 + north)
        return bare(
            fixtures=(Fixture("bt1", "bathtub", at, trap_at=trap, name="the tub"),),
            drains=(drain(trap, (trap[0] + 60.0, trap[1]), size="1-1/2"),),
            exits=(Exit("x1", (trap[0] + 60.0, trap[1])),),
        )

    def test_thirty_inches_hold(self) -> None:
        # also aslant: 18 and 24 make 30
        for plan in (self.tub(0.0), self.tub(12.0), self.tub(30.0), self.tub(18.0, 24.0)):
            assert counts(self.rule, plan) == (1, 0, 0, 0)

    def test_a_sixteenth_more_is_a_stop(self) -> None:
        found = broken(self.rule, self.tub(30.0 + SIXTEENTH))
        assert (found.weight, found.elements, found.unit) == ("stop", ("bt1",), "in")
        assert (found.measured, found.limit) == (30.0625, 30.0)
        assert found.cites == "IRC 2021 P3201.6"
        assert found.at == (130.0625, 100.0, 0.0)

    def test_a_trap_pushed_aside_by_a_floor_member_passes_both_limits(self) -> None:
        """A tub whose trap hangs 12 in beside its outlet, past a floor member, about 10 in down: 12 <= 30, 10 <= 24."""
        plan = self.tub(12.0)
        # 1-1/2 in: bore 1.592, outlet at 2, weir 5.25 of 60 in along, so 54.75 / 48 above the exit
        exit_z = 2.0 - 10.0 + 1.592 / 2.0 - 54.75 / 48.0
        plan = replace(plan, exits=(replace(plan.exits[0], pinned_z=exit_z),))
        assert counts(self.rule, plan) == counts("weir-too-low", plan) == (1, 0, 0, 0)
        assert broken("weir-too-low", amended(plan, "outlet_to_weir.most", 9.9375)).measured == pytest.approx(10.0)

    def test_what_has_no_trap_beside_its_outlet_does_not_apply(self) -> None:
        plan = bare(
            fixtures=(
                Fixture("bt1", "bathtub", (100.0, 100.0)),
                Fixture("sh1", "shower", (150.0, 100.0), trap_at=(250.0, 100.0)),
                Fixture("wh1", "water_heater", (10.0, 10.0)),
            )
        )
        assert counts(self.rule, plan) == (0, 0, 0, 3)

    def test_it_needs_no_more_than_the_two_places(self) -> None:
        """Nothing is missing for it: it judges a tub that has no drain yet."""
        assert broken(self.rule, replace(self.tub(31.0), drains=(), exits=())).measured == 31.0

    def test_a_northern_state_holds_to_less(self) -> None:
        found = broken(self.rule, amended(self.tub(16.0), "outlet_to_trap.sideways_most", 15))
        assert (found.measured, found.limit, found.cites) == (16.0, 15.0, "IRC 2021 P3201.6, amended")
        assert counts(self.rule, amended(self.tub(15.0), "outlet_to_trap.sideways_most", 15)) == (1, 0, 0, 0)


class TestBelowTheJoists:
    rule = "trap-below-joists"
    field = (JoistField("f1", (0.0, 0.0), (300.0, 100.0)),)
    # axis at the weir -3.4375, belly 5.8125 lower: the underside of a 2x10 at -9.25
    at_limit = -9.25 + 5.8125 - 1.0

    def test_a_belly_level_with_the_joists_holds(self) -> None:
        assert counts(self.rule, shower(self.at_limit, fields=self.field)) == (1, 0, 0, 0)

    def test_a_sixteenth_lower_is_to_look_at(self) -> None:
        found = broken(self.rule, shower(self.at_limit - SIXTEENTH, fields=self.field))
        assert (found.weight, found.elements, found.unit) == ("look", ("sh1",), "in")
        assert found.measured == pytest.approx(9.3125)
        assert found.limit == 9.25
        assert found.cites == "common practice"
        assert "1/16 in below" in found.text

    def test_closets_and_traps_in_the_wall_do_not_apply(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor()) == (0, 0, 0, 2)

    def test_not_judged_without_joists_or_height(self) -> None:
        (found,) = not_judged(self.rule, shower(self.at_limit))
        assert "no joists are drawn" in found.missing
        (found,) = not_judged(self.rule, shower(None, exits=(), fields=self.field))
        assert "height" in found.missing

    def test_a_trap_that_was_measured_counts_as_measured(self) -> None:
        """Of radius 2 rather than 2.3125: weir 6, belly 4 + 1.1875 = 5.1875, floor 1.5 x 2.049 + 2 + 0.154 = 5.2275."""
        flat = (MeasuredTakeOff("p_trap", "2", "run_out", 6.0),)
        plan = shower(self.at_limit - SIXTEENTH, fields=self.field)
        assert counts(self.rule, replace(plan, takeoffs=flat)) == (1, 0, 0, 0)


class TestFrostBelowTheJoists:
    """Water freezes at 32 deg F: IRC 2021 P3201.3 has traps protected from it; UPC 2021 312.6, from memory."""

    rule = "trap-below-joists"

    def low(self, winter: float | None, book: str = "irc-2021") -> Plan:
        plan = shower(-9.0, fields=(JoistField("f1", (0.0, 0.0), (300.0, 100.0)),), rulebook=book)
        return replace(plan, floor=replace(plan.floor, design_temp=winter))

    @pytest.mark.parametrize(("book", "section"), [("irc-2021", "IRC 2021 P3201.3"), ("upc-2021", "UPC 2021 312.6")])
    def test_at_freezing_and_a_degree_over(self, book: str, section: str) -> None:
        cold, mild = (broken(self.rule, self.low(winter, book)) for winter in (32.0, 33.0))
        assert cold.cites == section
        assert "frost in a winter of 32 deg F" in cold.text
        assert "insulate" in cold.mend
        assert mild.cites == "common practice"
        assert "frost" not in mild.text
        assert "insulate" not in mild.mend

    def test_the_winter_is_not_known(self) -> None:
        found = broken(self.rule, self.low(None))
        assert "frost in a cold winter" in found.text
        assert found.cites == "common practice"

    def test_a_place_with_its_own_temperature(self) -> None:
        found = broken(self.rule, amended(self.low(40.0), "trap.freezes_at", 45))
        assert found.cites == "IRC 2021 P3201.3, amended"
