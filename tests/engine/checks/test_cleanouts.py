"""Where the books want a cleanout.

IRC 2021 P3005.2.1 (every 100 ft), P3005.2.3 (10 ft from the sewer's junction), P3005.2.4 (over 45 degrees, 40 ft), P3005.2.5
exception (a removable trap, one pipe size larger; from memory); UPC 2021 707.4
(upper ends, 5 ft, sinks, 72 degrees, 100 ft, 135 degrees).
"""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace

from engine.plan.records import Cleanout, Drain, Exit, Fixture, Plan, Riser
from tests.engine.checks.cleaned_plans import SIXTEENTH, UPC, looked_at, outside, path, straight
from tests.engine.checks.judged_plans import amended, armed, bare, broken, counts, drain, findings

K1 = Cleanout("k1", (120.0, 100.0))


def at(x: float, y: float = 100.0, name: str = "k1") -> Cleanout:
    return Cleanout(name, (x, y))


class TestAtTheSewer:
    RULE = "no-cleanout-at-sewer"

    def test_exactly_ten_feet_up_the_drain_holds(self) -> None:
        assert counts(self.RULE, straight(120.0, at(120.0))) == (1, 0, 0, 0)

    def test_a_sixteenth_more_is_a_stop(self) -> None:
        found = broken(self.RULE, straight(120.0 + SIXTEENTH, at(120.0 + SIXTEENTH)))
        assert (found.weight, found.measured, found.limit, found.unit) == ("stop", 120.0625, 120.0, "in")
        assert found.elements == ("x1", "k1")
        assert found.at[:2] == (0.0, 100.0)
        assert found.cites == "IRC 2021 P3005.2.3"

    def test_none_at_all_is_to_be_looked_at_since_one_may_stand_outside(self) -> None:
        found = broken(self.RULE, straight(60.0))
        assert (found.weight, found.elements, found.measured, found.limit) == ("look", ("x1",), None, 120.0)
        assert "x1" in found.mend

    def test_one_that_will_stand_outside_is_enough(self) -> None:
        assert counts(self.RULE, outside(straight(400.0))) == (1, 0, 0, 0)

    def test_a_closet_that_can_be_pulled_does_not_count(self) -> None:
        closet = straight(60.0, fixtures=(Fixture("wc1", "water_closet", (60.0, 100.0)),))
        assert counts(self.RULE, closet) == (0, 1, 0, 0)
        assert counts(self.RULE, amended(closet, "cleanout.closet_counts", True)) == (0, 1, 0, 0)

    def test_the_way_goes_along_the_drain_round_its_corner(self) -> None:
        assert counts(self.RULE, path((60.0, 160.0), (60.0, 100.0), (0.0, 100.0), cleanouts=(at(60.0, 160.0),)))[0] == 1
        long = path((60.0, 160.5), (60.0, 100.0), (0.0, 100.0), cleanouts=(at(60.0, 160.5),))
        assert broken(self.RULE, long).measured == 120.5

    def test_a_turn_down_that_makes_it_too_far_is_something_to_look_at(self) -> None:
        """No joists: the axis lies at the joists' top, and the tail ends 24 in below."""
        assert counts(self.RULE, straight(96.0, at(96.0), how="turn-down")) == (1, 0, 0, 0)
        found = broken(self.RULE, straight(100.0, at(100.0), how="turn-down"))
        assert (found.weight, found.measured, found.limit) == ("look", 124.0, 120.0)

    def test_each_exit_is_asked_for_itself(self) -> None:
        two = straight(60.0)
        two = replace(
            two,
            drains=(*two.drains, drain((60.0, 300.0), (0.0, 300.0), id="d2")),
            exits=(two.exits[0], Exit("x2", (0.0, 300.0), cleanout_outside=True)),
        )
        assert counts(self.RULE, two) == (1, 1, 0, 0)

    def test_an_exit_that_nothing_drains_to_does_not_apply(self) -> None:
        assert counts(self.RULE, bare(exits=(Exit("x1", (0.0, 0.0)),))) == (0, 0, 0, 1)

    def test_a_place_that_wants_it_nearer(self) -> None:
        found = broken(self.RULE, amended(straight(60.0, at(60.0)), "cleanout.sewer_junction_within", 30.0))
        assert (found.limit, found.cites) == (30.0, "IRC 2021 P3005.2.3, amended")

    def test_the_uniform_code_names_no_distance(self) -> None:
        assert looked_at(self.RULE, straight(60.0, rulebook=UPC))["does_not_apply"] == 1

    def test_not_judged_without_the_value(self) -> None:
        assert looked_at(self.RULE, straight(60.0), "cleanout.sewer_junction_within")["not_judged"] == 1


class TestSharpTurns:
    RULE = "sharp-turn-without-cleanout"

    def bent(self, degrees: float, up: float = 100.0, *cleanouts: Cleanout, **given: object) -> Plan:
        """A run that turns once, so far below its upper end; the turn is at (200, 200)."""
        heading = math.radians(degrees)
        upper = (200.0 + up * math.cos(heading), 200.0 + up * math.sin(heading))
        return path(upper, (200.0, 200.0), (100.0, 200.0), cleanouts=cleanouts, **given)  # type: ignore[arg-type]

    def test_45_degrees_is_no_sharp_turn(self) -> None:
        assert counts(self.RULE, self.bent(45.0)) == (0, 0, 0, 1)

    @pytest.mark.parametrize("degrees", [60.0, 90.0])
    def test_the_next_bend_that_is_sold_is_a_stop(self, degrees: float) -> None:
        found = broken(self.RULE, self.bent(degrees))
        assert (found.weight, found.measured, found.limit, found.unit) == ("stop", degrees, 45.0, "degrees")
        assert found.at[:2] == (200.0, 200.0)
        assert found.cites == "IRC 2021 P3005.2.4"

    def test_two_eighth_bends_turn_as_far_and_neither_is_sharp(self) -> None:
        assert counts(self.RULE, path((300.0, 300.0), (300.0, 220.0), (280.0, 200.0), (100.0, 200.0))) == (0, 0, 0, 1)

    def test_a_cleanout_at_the_turn_holds(self) -> None:
        assert counts(self.RULE, self.bent(90.0, 100.0, Cleanout("k1", (200.0, 200.0)))) == (1, 0, 0, 0)

    def test_one_forty_feet_up_the_drain_holds_and_a_sixteenth_further_does_not(self) -> None:
        near = path((480.0, 240.0), (0.0, 240.0), (0.0, 0.0), cleanouts=(at(480.0, 240.0),))
        assert counts(self.RULE, near) == (1, 0, 0, 0)
        upper = (480.0 + SIXTEENTH, 240.0)
        far = path(upper, (0.0, 240.0), (0.0, 0.0), cleanouts=(at(*upper),))
        assert counts(self.RULE, far) == (0, 1, 0, 0)
        assert "40'-0 1/16\"" in broken(self.RULE, far).text

    def test_of_the_turns_that_one_cleanout_would_serve_the_first_is_told(self) -> None:
        z = path((300.0, 300.0), (300.0, 200.0), (100.0, 200.0), (100.0, 0.0))
        assert broken(self.RULE, z).at[:2] == (300.0, 200.0)
        assert counts(self.RULE, z) == (1, 1, 0, 0)

    def test_a_turn_past_the_first_ones_reach_is_told_too(self) -> None:
        z = path((490.0, 300.0), (490.0, 200.0), (9.0, 200.0), (9.0, 0.0))
        assert [found.at[:2] for found in findings(self.RULE, z)] == [(490.0, 200.0), (9.0, 200.0)]

    def test_a_branch_that_joins_square_turns_nothing(self) -> None:
        tee = straight(200.0)
        tee = replace(
            tee,
            drains=(
                drain((200.0, 100.0), (100.0, 100.0), (0.0, 100.0), size="3"),
                Drain("d2", ((100.0, 200.0), (100.0, 100.0)), size="2"),
            ),
        )
        assert counts(self.RULE, tee) == (0, 0, 0, 2)

    @pytest.mark.parametrize(("size", "served"), [("1-1/2", True), ("2", True), ("3", False)])
    def test_a_trap_that_comes_off_counts_for_pipe_a_size_larger(self, size: str, served: bool) -> None:
        """IRC 2021 P3005.2.5, exception: a 1-1/2 in trap serves 1-1/2 and 2 in pipe."""
        sink = armed("kitchen_sink", 8.0)
        sink = replace(
            sink,
            drains=(drain((240.0, 240.0), (200.0, 240.0), (200.0, 100.0), size=size),),
            exits=(Exit("x1", (200.0, 100.0)),),
        )
        assert counts(self.RULE, sink)[:2] == ((1, 0) if served else (0, 1))

    def test_a_trap_that_is_glued_under_the_floor_does_not_count(self) -> None:
        shower = path(
            (240.0, 240.0),
            (200.0, 240.0),
            (200.0, 100.0),
            size="2",
            fixtures=(Fixture("f1", "shower", (240.0, 240.0)),),
        )
        assert counts(self.RULE, shower) == (0, 1, 0, 0)

    def test_a_closet_counts_where_the_official_says_so(self) -> None:
        closet = self.bent(90.0, 100.0, fixtures=(Fixture("f1", "water_closet", (200.0, 300.0)),))
        assert counts(self.RULE, closet) == (0, 1, 0, 0)
        assert counts(self.RULE, amended(closet, "cleanout.closet_counts", True)) == (1, 0, 0, 0)

    def test_a_riser_s_cleanout_above_the_floor_counts_by_its_whole_way(self) -> None:
        """From 12 in over a floor 1 in thick down to the drain at the joists' top: 13 in more than the run."""
        plan = armed("kitchen_sink", 8.0)
        plan = replace(
            plan,
            drains=(drain((240.0, 240.0), (240.0, 100.0), (100.0, 100.0), size="3"),),
            exits=(Exit("x1", (100.0, 100.0)),),
            cleanouts=(Cleanout("k1", (240.0, 240.0), above_floor=8.0),),
        )
        assert counts(self.RULE, plan) == (1, 0, 0, 0)
        assert counts(self.RULE, amended(plan, "cleanout.turn_reach", 145.0))[1] == 1

    def test_a_place_that_lets_sixth_bends_pass(self) -> None:
        assert counts(self.RULE, amended(self.bent(60.0), "cleanout.turn_over", 60.0)) == (0, 0, 0, 1)

    def test_the_uniform_code_adds_turns_up_instead(self) -> None:
        assert looked_at(self.RULE, self.bent(90.0, rulebook=UPC))["does_not_apply"] == 1

    def test_not_judged_without_the_value(self) -> None:
        assert looked_at(self.RULE, self.bent(90.0), "cleanout.turn_over")["not_judged"] == 1


class TestTurnsThatAddUp:
    RULE = "turns-without-cleanout"

    def turning(self, *turns: float, cleanouts: tuple[Cleanout, ...] = (), leg: float = 60.0) -> Plan:
        """A run whose stretches, 60 in each, turn left by these angles one after the other."""
        heading, points = 0.0, [(200.0, 200.0), (200.0 + leg, 200.0)]
        for turn in turns:
            heading += math.radians(turn)
            points.append((points[-1][0] + leg * math.cos(heading), points[-1][1] + leg * math.sin(heading)))
        return path(*points, cleanouts=cleanouts, rulebook=UPC)

    def test_45_and_45_and_22_and_a_half_hold(self) -> None:
        """112.5 of 135; a riser that turns up to a plug at the upper end is no part of the run."""
        plan = self.turning(45.0, 45.0, 22.5, cleanouts=(at(200.0, 200.0),))
        assert counts(self.RULE, plan) == (1, 0, 0, 0)

    def test_exactly_135_holds(self) -> None:
        assert counts(self.RULE, self.turning(45.0, 45.0, 45.0)) == (1, 0, 0, 0)

    def test_the_next_angle_that_is_sold_is_a_stop(self) -> None:
        """45 + 45 + 45 + 22-1/2 = 157-1/2: the run's own cleanout and one more for the turns."""
        plan = self.turning(45.0, 45.0, 45.0, 22.5, cleanouts=(at(200.0, 200.0),))
        found = broken(self.RULE, plan)
        assert (found.weight, found.measured, found.limit, found.unit) == ("stop", 157.5, 135.0, "degrees")
        assert found.at[:2] == pytest.approx(plan.drains[0].points[-2])
        assert found.cites == "UPC 2021 707.4"

    def test_a_cleanout_on_the_way_begins_the_sum_anew(self) -> None:
        plan = self.turning(90.0, 90.0)
        assert counts(self.RULE, plan)[1] == 1
        second = plan.drains[0].points[2]
        assert counts(self.RULE, replace(plan, cleanouts=(Cleanout("k1", second),))) == (1, 0, 0, 0)

    def test_each_full_sum_is_told(self) -> None:
        """90 + 90 is past 135, and so are the next two."""
        assert len(findings(self.RULE, self.turning(90.0, 90.0, -90.0, -90.0))) == 2

    def test_a_straight_line_does_not_apply(self) -> None:
        assert counts(self.RULE, straight(200.0, rulebook=UPC)) == (0, 0, 0, 1)

    def test_a_place_that_counts_less(self) -> None:
        assert broken(self.RULE, amended(self.turning(90.0), "cleanout.turns_sum_over", 60.0)).measured == 90.0

    def test_the_residential_code_judges_each_turn(self) -> None:
        plan = replace(self.turning(90.0, 90.0), rulebook="irc-2021")
        assert looked_at(self.RULE, plan)["does_not_apply"] == 1

    def test_not_judged_without_the_value(self) -> None:
        assert looked_at(self.RULE, self.turning(90.0), "cleanout.turns_sum_over")["not_judged"] == 1


class TestUpperEnds:
    RULE = "upper-end-without-cleanout"

    def run(self, length: float, *cleanouts: Cleanout, **given: object) -> Plan:
        return straight(length, *cleanouts, rulebook=UPC, **given)  # type: ignore[arg-type]

    def test_a_run_of_five_feet_needs_one_and_a_shorter_one_does_not(self) -> None:
        found = broken(self.RULE, self.run(60.0))
        assert (found.weight, found.measured, found.limit) == ("stop", 60.0, 60.0)
        assert found.at[:2] == (60.0, 100.0)
        assert found.elements == ("d1",)
        assert found.cites == "UPC 2021 707.4"
        assert counts(self.RULE, self.run(60.0 - SIXTEENTH)) == (0, 0, 0, 1)

    def test_a_cleanout_at_the_end_holds(self) -> None:
        assert counts(self.RULE, self.run(200.0, at(200.0))) == (1, 0, 0, 0)

    def test_one_a_little_way_down_leaves_a_short_run_above_it(self) -> None:
        def cornered(up: float) -> Plan:
            return path((200.0, 100.0 + up), (200.0, 100.0), (0.0, 100.0), cleanouts=(at(200.0),), rulebook=UPC)

        assert counts(self.RULE, cornered(59.0)) == (1, 0, 0, 0)
        assert counts(self.RULE, cornered(60.0)) == (0, 1, 0, 0)

    def test_a_two_way_cleanout_outside_stands_for_the_building_drains_own(self) -> None:
        plan = replace(
            self.run(200.0),
            drains=(
                drain((200.0, 100.0), (100.0, 100.0), (0.0, 100.0), size="3"),
                Drain("d2", ((100.0, 200.0), (100.0, 100.0)), size="2"),
            ),
        )
        assert counts(self.RULE, plan) == (0, 2, 0, 0)
        assert [found.elements for found in findings(self.RULE, outside(plan))] == [("d2",)]

    @pytest.mark.parametrize(("kind", "needs"), [("kitchen_sink", True), ("lavatory", False)])
    def test_a_short_run_needs_one_where_it_takes_a_sink(self, kind: str, needs: bool) -> None:
        plan = replace(armed(kind, 8.0), rulebook=UPC)
        assert counts(self.RULE, plan) == ((0, 1, 0, 0) if needs else (0, 0, 0, 1))

    def test_a_sinks_is_wanted_in_its_riser_and_there_it_holds(self) -> None:
        """12 in over the floor as usual, but 7 in clear below a tee at 17 (common practice): 10."""
        plan = replace(armed("kitchen_sink", 8.0, outlet_above_floor=17.0), rulebook=UPC)
        found = broken(self.RULE, plan)
        assert found.elements == ("d1", "r1")
        assert found.at == (240.0, 240.0, 11.0)
        there = replace(plan, cleanouts=(Cleanout("k1", (240.0, 240.0), above_floor=10.0),))
        assert counts(self.RULE, there) == (1, 0, 0, 0)

    def test_pipe_within_72_degrees_of_plumb_needs_none(self) -> None:
        """72 from plumb is 18 from level: 12 tan 18 = 3.899 in per foot."""
        steep = 12.0 * math.tan(math.radians(18.0))
        plan = self.run(200.0)
        for slope, needed in ((steep + 0.001, 0), (steep - SIXTEENTH, 1)):
            assert counts(self.RULE, replace(plan, drains=(replace(plan.drains[0], slope=slope),)))[1] == needed

    def test_arms_above_the_floor_do_not_apply(self) -> None:
        assert counts(self.RULE, replace(armed("lavatory", 70.0), rulebook=UPC)) == (0, 0, 0, 1)

    def test_a_place_that_lets_longer_runs_pass(self) -> None:
        assert counts(self.RULE, amended(self.run(100.0), "cleanout.short_run", 120.0)) == (0, 0, 0, 1)

    def test_the_residential_code_asks_none_of_it(self) -> None:
        assert looked_at(self.RULE, straight(200.0))["does_not_apply"] == 1

    def test_not_judged_without_the_value(self) -> None:
        assert looked_at(self.RULE, self.run(200.0), "cleanout.short_run")["not_judged"] == 1


class TestSpacing:
    RULE = "cleanouts-far-apart"

    @pytest.mark.parametrize("book", ["irc-2021", UPC])
    def test_exactly_100_feet_holds_and_a_sixteenth_more_does_not(self, book: str) -> None:
        assert counts(self.RULE, straight(1200.0, rulebook=book)) == (1, 0, 0, 0)
        found = broken(self.RULE, straight(1200.0 + SIXTEENTH, rulebook=book))
        assert (found.weight, found.measured, found.limit) == ("stop", 1200.0625, 1200.0)
        assert found.at[:2] == (SIXTEENTH, 100.0)

    def test_a_cleanout_on_the_way_begins_anew(self) -> None:
        bent = path((1000.0, 1000.0), (1000.0, 100.0), (0.0, 100.0))
        assert broken(self.RULE, bent).measured == 1900.0
        assert counts(self.RULE, replace(bent, cleanouts=(at(1000.0),))) == (2, 0, 0, 0)

    def test_a_branchs_way_goes_on_down_the_main(self) -> None:
        plan = path((1010.0, 100.0), (1000.0, 100.0), (0.0, 100.0))
        plan = replace(plan, drains=(*plan.drains, Drain("d2", ((1000.0, 301.0), (1000.0, 100.0)), size="2")))
        assert broken(self.RULE, plan).measured == 1201.0

    def test_three_hundred_feet_need_two(self) -> None:
        corners = ((1000.0, 2000.0), (1000.0, 1500.0), (1000.0, 100.0), (0.0, 100.0))
        assert len(findings(self.RULE, path(*corners))) == 2

    def test_a_place_that_wants_them_closer(self) -> None:
        assert broken(self.RULE, amended(straight(700.0), "cleanout.spacing_most", 600.0)).limit == 600.0

    def test_plumb_pipe_and_vents_do_not_count(self) -> None:
        assert counts(self.RULE, bare(risers=(Riser("r1", (10.0, 10.0)),))) == (0, 0, 0, 0)

    def test_not_judged_without_the_value(self) -> None:
        assert looked_at(self.RULE, straight(60.0), "cleanout.spacing_most")["not_judged"] == 1


WANTED = {
    "irc-2021": ("no-cleanout-at-sewer", "sharp-turn-without-cleanout", "cleanouts-far-apart"),
    UPC: ("upper-end-without-cleanout", "turns-without-cleanout", "cleanouts-far-apart"),
}


class TestWholeHouse:
    @pytest.mark.parametrize("book", ["irc-2021", UPC])
    def test_one_outside_and_one_under_the_sink_satisfy_the_book(self, book: str) -> None:
        """A main from a closet, a lavatory's branch, a kitchen branch of 12 ft with a quarter turn."""
        plan = bare(
            rulebook=book,
            fixtures=(
                Fixture("wc1", "water_closet", (20.0, 104.0)),
                Fixture("lav1", "lavatory", (56.0, 80.0), turn=180.0),
                Fixture("ks1", "kitchen_sink", (120.0, 70.0), turn=0.0),
            ),
            drains=(
                drain((20.0, 104.0), (20.0, 80.0), (20.0, 24.0), (20.0, 10.0), size="3"),
                Drain("d2", ((56.0, 80.0), (20.0, 80.0)), size="1-1/2"),
                Drain("d4", ((120.0, 70.0), (120.0, 24.0), (20.0, 24.0)), size="2"),
            ),
            risers=(Riser("r1", (56.0, 80.0)), Riser("r2", (120.0, 70.0))),
            exits=(Exit("x1", (20.0, 10.0), cleanout_outside=True),),
            cleanouts=(Cleanout("k1", (120.0, 70.0), above_floor=9.0),),
        )
        for rule in WANTED[book]:
            assert counts(rule, plan)[0] > 0
            assert findings(rule, plan) == []
