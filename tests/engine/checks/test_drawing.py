"""Checks of the drawing itself: what is joined, what only looks joined, where it all leads (common practice, no source).

Not one of these limits comes from a book, so nothing can be amended; a vent without air cites IRC 2021 P3102.1.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.plan.records import Drain, Exit, Fixture, Inlet, Plan, Riser, Supply, Vent
from tests.engine.checks.judged_plans import bare, broken, counts, drain, findings, holds_for, not_judged

Floor = Callable[..., Plan]
SIXTEENTH = 1.0 / 16.0


def also(plan: Plan, *drains: Drain) -> Plan:
    return replace(plan, drains=(*plan.drains, *drains))


class TestDrawnTwice:
    rule = "drawn-twice"

    def test_each_stretch_once_holds(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor()) == (2, 0, 0, 0)

    def test_a_stretch_drawn_over_another_is_a_stop(self, hand_floor: Floor) -> None:
        found = broken(self.rule, also(hand_floor(), drain((36.0, 20.0), (36.0, 62.0), id="d9")))
        assert (found.weight, found.elements, found.cites) == ("stop", ("d9", "d1"), "common practice")
        assert (found.measured, found.limit, found.unit) == (None, None, "")
        assert found.at[:2] == (36.0, 20.0)

    def test_a_run_that_turns_back_on_itself(self) -> None:
        plan = bare(drains=(drain((0.0, 0.0), (50.0, 0.0), (0.0, 0.0)),), exits=(Exit("x1", (0.0, 0.0)),))
        assert broken(self.rule, plan).elements == ("d1",)

    def test_crossing_and_partly_covering_runs_hold(self, hand_floor: Floor) -> None:
        for run in (drain((20.0, 80.0), (60.0, 80.0), id="d9"), drain((36.0, 80.0), (36.0, 30.0), id="d9")):
            assert findings(self.rule, also(hand_floor(), run)) == []

    def test_two_risers_at_one_point(self, hand_floor: Floor) -> None:
        plan = hand_floor()
        twice = replace(plan, risers=(*plan.risers, Riser("r2", plan.risers[0].at)))
        assert broken(self.rule, twice).elements == ("r2", "r1")


class TestLooksJoined:
    rule = "end-not-joined"

    def short_by(self, plan: Plan, gap: float) -> Plan:
        """The hand floor with a further run that ends so far east of the main's axis, where the main has no point."""
        return also(plan, drain((60.0, 40.0), (36.0 + gap, 40.0), id="d9"))

    @pytest.mark.parametrize("gap", [0.0, 1.0 / 1024.0, 0.25, 0.5])
    def test_within_half_an_inch_is_a_stop(self, hand_floor: Floor, gap: float) -> None:
        found = broken(self.rule, self.short_by(hand_floor(), gap))
        assert (found.weight, found.elements, found.cites) == ("stop", ("d9", "d1"), "common practice")
        assert (found.measured, found.limit, found.unit) == (gap, 0.0, "in")
        assert found.at[:2] == (36.0 + gap, 40.0)
        assert "d1" in found.mend

    def test_a_sixteenth_further_off_is_another_place(self, hand_floor: Floor) -> None:
        assert findings(self.rule, self.short_by(hand_floor(), 0.5 + SIXTEENTH)) == []

    def test_a_shared_point_holds(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor()) == (2, 0, 0, 0)

    def test_risers_exits_and_outlets_are_looked_at_too(self) -> None:
        main = bare(drains=(drain((100.0, 100.0), (20.0, 100.0), size="3"),), exits=(Exit("x1", (20.0, 100.0)),))
        for thing in (
            replace(main, risers=(Riser("q1", (60.0, 100.25)),)),
            replace(main, exits=(Exit("q1", (60.0, 100.25)),)),
            replace(main, fixtures=(Fixture("q1", "shower", (60.0, 100.25)),)),
            replace(main, vents=(Vent("q1", ((60.0, 140.0), (60.0, 100.25))),)),
            replace(main, fixtures=(Fixture("q1", "bathtub", (40.0, 90.0), trap_at=(60.0, 100.25)),)),
        ):
            found = broken(self.rule, thing)
            assert (found.elements, found.measured) == (("q1", "d1"), 0.25)

    def test_only_a_tub_has_its_trap_beside_it(self) -> None:
        main = bare(drains=(drain((100.0, 100.0), (20.0, 100.0), size="3"),), exits=(Exit("x1", (20.0, 100.0)),))
        stray = replace(main, fixtures=(Fixture("q1", "shower", (40.0, 90.0), trap_at=(60.0, 100.25)),))
        assert findings(self.rule, stray) == []


class TestWhereItLeads:
    def test_a_run_that_ends_in_the_bay(self, hand_floor: Floor) -> None:
        rule = "drain-reaches-no-exit"
        assert counts(rule, hand_floor()) == (2, 0, 0, 0)
        found = broken(rule, also(hand_floor(), drain((80.0, 40.0), (80.0, 20.0), id="d9")))
        assert (found.weight, found.elements, found.cites) == ("stop", ("d9",), "common practice")
        assert found.at[:2] == (80.0, 20.0)
        # all runs of the lost drain are named at once
        assert {"d1", "d2"} <= set(broken(rule, replace(hand_floor(), exits=())).elements)

    def test_an_exit_without_a_drain(self, hand_floor: Floor) -> None:
        rule = "exit-joins-nothing"
        assert counts(rule, hand_floor()) == (1, 0, 0, 0)
        plan = hand_floor()
        found = broken(rule, replace(plan, exits=(*plan.exits, Exit("x2", (90.0, 50.0)))))
        assert (found.weight, found.elements, found.at) == ("stop", ("x2",), (90.0, 50.0, 0.0))

    def test_drains_in_a_ring(self, hand_floor: Floor) -> None:
        rule = "waste-ring"
        assert counts(rule, hand_floor()) == (2, 0, 0, 0)
        ring = drain((36.0, 92.0), (20.0, 92.0), (20.0, 62.0), (36.0, 62.0), id="d9")
        found = broken(rule, also(hand_floor(), ring))
        assert found.weight == "stop"
        assert found.elements in (("d9",), ("d1",))

    def test_two_exits_on_one_drain(self, hand_floor: Floor) -> None:
        plan = hand_floor()
        found = broken("waste-ring", replace(plan, exits=(*plan.exits, Exit("x2", (36.0, 92.0)))))
        assert found.elements == ("x2", "x1")
        two = replace(plan, exits=(*plan.exits, Exit("x2", (36.0, 20.0))))
        assert broken("waste-ring", two).elements == ("x2", "x1")

    def test_a_vent_that_stops_in_a_wall(self, hand_floor: Floor) -> None:
        rule = "vent-reaches-no-air"
        assert counts(rule, hand_floor()) == (1, 0, 0, 0)
        plan = replace(hand_floor(), vents=(Vent("v1", ((100.0, 69.0), (100.0, 90.0)), above_floor=42.0),))
        found = broken(rule, plan)
        assert (found.weight, found.elements, found.cites) == ("stop", ("v1",), "IRC 2021 P3102.1")

    def test_a_riser_that_is_capped_gives_no_air(self, hand_floor: Floor) -> None:
        plan = hand_floor()
        capped = replace(plan, risers=(replace(plan.risers[0], top="capped", above_floor=60.0),))
        assert broken("vent-reaches-no-air", capped).elements == ("r1",)

    def test_where_no_vent_is_drawn_none_is_looked_at(self, hand_floor: Floor) -> None:
        assert counts("vent-reaches-no-air", hand_floor(lavatory=False)) == (0, 0, 0, 0)


class TestRisers:
    def test_one_that_meets_nothing(self, hand_floor: Floor) -> None:
        rule, plan = "riser-joins-nothing", hand_floor()
        assert counts(rule, plan) == (1, 0, 0, 0)
        alone = replace(plan, risers=(*plan.risers, Riser("r2", (100.0, 50.0))))
        found = broken(rule, alone)
        assert (found.weight, found.elements, found.at) == ("stop", ("r2",), (100.0, 50.0, 0.0))
        # through the roof, but with nothing under it
        assert holds_for(rule, plan, "r1")

    @pytest.mark.parametrize(("above", "holds"), [(18.0 + SIXTEENTH, True), (18.0, False), (12.0, False)])
    def test_one_that_ends_under_what_meets_it(self, hand_floor: Floor, above: float, holds: bool) -> None:
        """The lavatory's tee stands 18 in above the floor."""
        rule, plan = "riser-too-short", hand_floor()
        cut = replace(plan, risers=(replace(plan.risers[0], top="capped", above_floor=above),))
        if holds:
            assert counts(rule, cut) == (1, 0, 0, 0)
            return
        found = broken(rule, cut)
        assert (found.weight, found.elements, found.unit) == ("stop", ("r1",), "in")
        assert (found.measured, found.limit) == pytest.approx((above, 18.0))


class TestOutlets:
    rule = "fixture-not-drained"

    def test_a_run_from_the_outlet_holds(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor()) == (2, 0, 0, 0)

    def test_a_run_an_inch_beside_it_is_none(self) -> None:
        plan = bare(
            fixtures=(Fixture("sh1", "shower", (100.0, 100.0), name="the shower"),),
            drains=(drain((101.0, 100.0), (20.0, 100.0), size="2"),),
            exits=(Exit("x1", (20.0, 100.0)),),
        )
        found = broken(self.rule, plan)
        assert (found.weight, found.elements, found.at) == ("stop", ("sh1",), (100.0, 100.0, 0.0))
        assert found.text == "No drain leaves the shower."

    def test_a_vent_above_it_is_no_drain(self) -> None:
        at = (100.0, 100.0)
        plan = bare(fixtures=(Fixture("lv1", "lavatory", at),), risers=(Riser("r1", at),))
        assert broken(self.rule, plan).elements == ("lv1",)

    def test_two_on_a_riser_with_nothing_below_are_none(self) -> None:
        at = (100.0, 100.0)
        sinks = (Fixture("lv1", "lavatory", at), Fixture("wm1", "washer_standpipe", at, turn=90.0))
        plan = bare(fixtures=sinks, risers=(Riser("r1", at),))
        assert [one.elements for one in findings(self.rule, plan)] == [("lv1",), ("wm1",)]

    def test_a_closet_straight_over_the_exit_is_drained(self) -> None:
        at = (100.0, 100.0)
        plan = bare(fixtures=(Fixture("wc1", "water_closet", at),), exits=(Exit("x1", at),))
        assert counts(self.rule, plan) == (1, 0, 0, 0)

    def test_what_only_takes_water_does_not_count(self) -> None:
        plan = bare(fixtures=(Fixture("wh1", "water_heater", (9.0, 9.0)), Fixture("rf1", "refrigerator", (9.0, 60.0))))
        assert counts(self.rule, plan) == (0, 0, 0, 0)


class TestWater:
    rule = "water-not-drawn"

    def plan(self, *supplies: Supply) -> Plan:
        """A closet, an inlet and a heater, far from each other."""
        return bare(
            fixtures=(Fixture("wc1", "water_closet", (100.0, 100.0)), Fixture("wh1", "water_heater", (300.0, 100.0))),
            inlets=(Inlet("i1", (20.0, 100.0)),),
            supplies=supplies,
        )

    def at_closet(self, *supplies: Supply) -> Plan:
        plan = self.plan(*supplies)
        return replace(plan, fixtures=plan.fixtures[:1])

    def test_a_run_that_comes_up_at_it_and_leads_to_the_inlet_holds(self) -> None:
        assert holds_for(self.rule, self.at_closet(Supply("c1", "cold", ((20.0, 100.0), (100.0, 100.0)))), "wc1")

    def test_where_no_run_comes_up_it_is_to_look_at(self) -> None:
        found = broken(self.rule, self.at_closet(Supply("c1", "cold", ((20.0, 100.0), (20.0, 300.0)))))
        assert (found.weight, found.elements, found.unit, found.cites) == ("look", ("wc1",), "in", "common practice")
        assert found.at == (100.0, 100.0, 0.0)
        assert found.limit is not None and 0.0 < found.limit < 80.0

    def test_hot_water_is_not_asked_for_a_closet(self) -> None:
        assert findings(self.rule, self.at_closet(Supply("c1", "cold", ((20.0, 100.0), (100.0, 100.0))))) == []

    def test_a_run_that_leads_back_to_no_inlet(self) -> None:
        found = broken(self.rule, self.at_closet(Supply("c1", "cold", ((30.0, 100.0), (100.0, 100.0)))))
        assert (found.measured, found.limit, found.unit) == (None, None, "")
        assert "no source" in found.text

    def test_with_no_run_at_all_it_is_not_judged_and_said_once(self) -> None:
        (found,) = not_judged(self.rule, self.plan())
        assert found.elements == ("wc1", "wh1")
        assert found.at == (100.0, 100.0, 0.0)
        assert counts(self.rule, self.plan()) == (0, 0, 1, 0)
        assert counts(self.rule, bare()) == (0, 0, 0, 0)
