"""Dry vents on their way: IRC 2021 P3102.1, P3102.2, P3104.2 to P3104.5; UPC 2021 905.1 to 905.3, 906.1.

Rims are typed in, so that no trade datum decides a limit. The finished floor lies 1 in over the joists' top (3/4 subfloor,
1/4 finish), so a height above the floor and the height z differ by that.
"""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace

from engine.plan.records import Drain, Fixture, Riser, Vent
from tests.engine.checks.dry_plans import FOOT, SIXTEENTH, UPC, bay, branch, leaning, sinks
from tests.engine.checks.judged_plans import amended, bare, broken, counts, drain, findings, model_of, not_judged


class TestTakeOff:
    """IRC 2021 P3104.3 above the centre line (read), 45 degrees by common practice; UPC 905.2."""

    rule = "vent-leaves-drain-flat"

    def test_a_riser_on_the_drain_leaves_plumb(self) -> None:
        assert counts(self.rule, bay(0.0)) == (1, 0, 0, 0)

    def test_a_run_drawn_level_leaves_at_the_side(self) -> None:
        found = broken(self.rule, bay(30.0, slope=0.0))
        assert (found.elements, found.measured, found.limit, found.unit) == (("v1",), 0.0, 45.0, "degrees")
        assert found.cites == "IRC 2021 P3104.3"
        assert "90 degrees off plumb" in found.text

    @pytest.mark.parametrize("off_plumb", [45.0, 30.0])
    def test_forty_five_degrees_hold(self, off_plumb: float) -> None:
        # the second leans less than a vent's slope can say (12 in per ft), so it is a rolled branch
        plan = bay(4.0, slope=leaning(off_plumb)) if off_plumb == 45.0 else branch(60.0)
        assert findings(self.rule, plan) == []

    def test_half_a_degree_flatter_is_a_stop(self) -> None:
        found = broken(self.rule, bay(4.0, slope=leaning(45.5)))
        assert found.measured == pytest.approx(44.5)
        assert found.cites == "common practice"

    def test_a_branch_bent_52_and_a_half_off_plumb(self) -> None:
        """A 60 degree street bend and a 22-1/2: 52.5 degrees off plumb, more than 45."""
        for plan in (bay(12.0, slope=leaning(52.5)), branch(37.5)):
            found = broken(self.rule, plan)
            assert found.measured == pytest.approx(37.5)
            assert "52.5 degrees off plumb" in found.text

    def test_a_wye_rolled_by_45_degrees_counts_by_its_roll(self) -> None:
        """Its branch shows 35.3 degrees to the main in plan, and climbs 30; inspectors read the roll."""
        lie = math.atan(math.cos(math.radians(45.0)))
        upper = (round((60.0 + 4.0 * math.cos(lie)) * 1024) / 1024, round((100.0 + 4.0 * math.sin(lie)) * 1024) / 1024)
        plan = bay(0.0)
        run = Drain("d2", (upper, FOOT), size="2", join="rolled", roll=45.0)
        plan = replace(plan, drains=(*plan.drains, run), risers=(Riser("r1", upper),))
        for rule in (self.rule, "vent-lies-flat", "vent-too-far-from-wall"):
            assert findings(rule, plan) == [], rule

    def test_the_uniform_code_cites_its_own_section(self) -> None:
        assert broken(self.rule, bay(30.0, slope=0.25, rulebook=UPC)).cites == "UPC 2021 905.2"

    def test_a_place_that_asks_for_more(self) -> None:
        assert broken(self.rule, amended(bay(4.0, slope=12.0), "vent.takeoff_least", 60)).limit == 60.0

    def test_a_vent_that_goes_on_above_its_tee_does_not_apply(self) -> None:
        plan = replace(sinks(42.0), vents=(), risers=(Riser("r1", (100.0, 100.0)), Riser("r2", (160.0, 100.0))))
        assert counts(self.rule, plan) == (0, 0, 0, 2)


class TestLie:
    """IRC 2021 P3104.4; UPC 905.3: plumb until six inches over the rim of the highest fixture served."""

    rule = "vent-lies-flat"

    @pytest.mark.parametrize("book", ["irc-2021", UPC])
    def test_six_inches_over_the_rim_hold_and_a_sixteenth_less_does_not(self, book: str) -> None:
        # rim 36, so 42 in above the floor
        assert counts(self.rule, replace(sinks(42.0), rulebook=book))[1:3] == (0, 0)
        found = broken(self.rule, replace(sinks(42.0 - SIXTEENTH), rulebook=book))
        assert (found.elements, found.unit, found.limit) == (("v1",), "in", 6.0)
        assert found.measured == pytest.approx(6.0 - SIXTEENTH)
        assert found.cites == {"irc-2021": "IRC 2021 P3104.4", UPC: "UPC 2021 905.3"}[book]
        assert "42 in above the floor" in found.mend

    def test_only_the_fixtures_that_it_serves_count(self) -> None:
        """The vent carries the air of the sink alone: with a low rim it may turn at 36, whatever the lavatory's is."""
        assert findings(self.rule, sinks(36.0, rim=30.0)) == []

    def test_a_run_under_the_floor_is_a_stop_by_both_books(self) -> None:
        found = broken(self.rule, bay(12.0, slope=leaning(52.5)))
        assert found.measured == pytest.approx(37.5)
        assert (found.limit, found.unit) == (45.0, "degrees")
        assert found.cites == "IRC 2021 P3104.4"
        assert "official" not in found.mend
        other = broken(self.rule, bay(30.0, rulebook=UPC))
        assert other.cites == "UPC 2021 905.3"
        assert "official" in other.mend

    def test_forty_five_degrees_count_as_vertical(self) -> None:
        assert counts(self.rule, bay(4.0, slope=12.0)) == (2, 0, 0, 0)
        assert broken(self.rule, bay(4.0, slope=leaning(45.5))).measured == pytest.approx(44.5)

    def test_where_the_official_lets_it_lie_it_is_laid_as_a_drain(self) -> None:
        """UPC 905.3: structural conditions; drainage fittings, graded to drain: 2 in pipe at 1/4 (UPC 708.1)."""
        leave = amended(bay(30.0, slope=0.25, rulebook=UPC), "vent.low_allowed", True)
        assert findings(self.rule, leave) == [] == findings("vent-too-far-from-wall", leave)
        flat = amended(bay(30.0, slope=0.1875, rulebook=UPC), "vent.low_allowed", True)
        found = broken(self.rule, flat)
        assert (found.measured, found.limit, found.cites) == (0.1875, 0.25, "UPC 2021 905.3, amended")

    def test_a_drain_that_carries_nothing_is_a_vent_too(self) -> None:
        found = broken(self.rule, branch(45.0, rise=3.0, aside=30.0))
        assert (found.elements, found.measured) == (("d2",), 0.0)
        # rolled by 45 degrees with a rise of 12 in, its branch takes the whole 12 in
        assert findings(self.rule, branch(45.0, rise=12.0, aside=12.0)) == []
        assert broken(self.rule, branch(45.0, rise=12.0 - SIXTEENTH, aside=12.0)).elements == ("d2",)

    def test_not_judged_where_the_rim_is_not_known(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr("engine.checks.served._rim", lambda _model, _fixture: None)
        (found,) = not_judged(self.rule, sinks(60.0))
        assert "the sink" in found.missing and "not known" in found.missing

    def test_a_known_rim_that_is_too_high_decides_without_the_unknown_one(
        self, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        model = model_of(sinks(30.0))
        assert model.plan.fixtures[0].rim_above_floor == 36.0
        assert broken(self.rule, sinks(30.0)).measured == pytest.approx(-6.0)

    def test_a_vent_that_serves_nothing_does_not_apply(self) -> None:
        plan = bare(
            vents=(Vent("v1", ((0.0, 0.0), (50.0, 0.0)), above_floor=20.0),), risers=(Riser("r1", (50.0, 0.0)),)
        )
        assert counts(self.rule, plan)[:3] == (0, 0, 0)

    def test_a_place_that_asks_for_more(self) -> None:
        assert broken(self.rule, amended(sinks(42.0), "vent.above_rim", 8)).limit == 8.0


class TestReach:
    """What a vent gains sideways it must rise (45 degrees): from an axis 4 in down, 4 in. Worked by hand."""

    rule = "vent-too-far-from-wall"

    def test_as_far_as_the_drain_is_deep(self) -> None:
        assert counts(self.rule, bay(4.0, slope=12.0)) == (1, 0, 0, 0)
        found = broken(self.rule, bay(4.0 + SIXTEENTH, slope=12.0))
        assert (found.measured, found.limit, found.unit) == (4.0625, 4.0, "in")
        assert found.elements == ("v1", "r1")

    def test_a_wall_twelve_inches_away(self) -> None:
        """A closet's vent and a wall 12 in off: at 45 degrees that takes 12 in of rise, and there are about 4."""
        found = broken(self.rule, bay(12.0, slope=leaning(52.5)))
        assert (found.measured, found.limit) == (12.0, 4.0)
        assert "12 in sideways" in found.text and "nearer to the wall" in found.mend

    def test_a_deeper_drain_reaches_farther(self) -> None:
        assert counts(self.rule, bay(12.0, slope=12.0, z=-12.0)) == (1, 0, 0, 0)

    def test_turns_count_along_the_way(self) -> None:
        plan = bay(4.0, slope=12.0, z=-6.0)
        bent = replace(
            plan,
            vents=(Vent("v1", (FOOT, (60.0, 104.0), (63.0, 104.0)), size="2", slope=12.0),),
            risers=(Riser("r1", (63.0, 104.0)),),
        )
        assert broken(self.rule, bent).measured == 7.0

    def test_a_riser_on_the_drain_holds_and_one_above_a_tee_says_nothing(self) -> None:
        assert counts(self.rule, bay(0.0, z=-1.0)) == (1, 0, 0, 0)
        assert counts(self.rule, sinks(42.0)) == (0, 0, 0, 1)

    def test_a_vent_that_reaches_no_riser_is_left_to_other_rules(self) -> None:
        assert counts(self.rule, replace(bay(12.0), risers=())) == (0, 0, 0, 1)

    def test_not_judged_without_a_height(self) -> None:
        (found,) = not_judged(self.rule, replace(bay(12.0), exits=()))
        assert "height" in found.missing

    def test_where_pipe_counts_as_vertical_from_less(self) -> None:
        """At 30 degrees from level a vent gains 4 / tan 30 = 6.93 in."""
        plan = amended(bay(6.9), "slope.vertical_from", 30)
        assert findings(self.rule, plan) == []
        assert broken(self.rule, amended(bay(7.0), "slope.vertical_from", 30)).limit == pytest.approx(6.9282, abs=1e-4)


class TestGrade:
    """IRC 2021 P3104.2 (read in a state's copy); UPC 905.1 (from memory)."""

    rule = "vent-holds-water"

    def test_a_fall_back_to_the_drain_holds(self) -> None:
        for slope in (0.25, 1.0 / 64.0):
            assert findings(self.rule, sinks(42.0, slope=slope)) == []

    def test_level_is_a_stop(self) -> None:
        found = broken(self.rule, sinks(42.0, slope=0.0))
        assert (found.elements, found.measured, found.limit, found.unit) == (("v1",), 0.0, 0.0, "in per ft")
        assert found.cites == "IRC 2021 P3104.2"
        assert broken(self.rule, replace(sinks(42.0, slope=0.0), rulebook=UPC)).cites == "UPC 2021 905.1"

    def test_falling_toward_a_riser_that_begins_there_is_a_stop(self) -> None:
        plan = sinks(42.0, slope=-0.25)
        dry = replace(plan, fixtures=plan.fixtures[:1], drains=plan.drains[:1])
        found = broken(self.rule, dry)
        assert (found.elements, found.measured) == (("v1",), -0.25)
        assert found.at[:2] == (160.0, 100.0)

    def test_falling_to_the_other_riser_drains_as_well_where_that_stands_on_a_drain(self) -> None:
        assert findings(self.rule, sinks(42.0, slope=-0.25)) == []

    def test_a_vent_that_comes_down_again_stands_full(self) -> None:
        """Up one riser, over at 60 in, down a middle one to 45 in, on to the one through the roof."""
        plan = sinks(60.0)
        plan = replace(
            plan,
            fixtures=plan.fixtures[:1],
            drains=plan.drains[:1],
            vents=(*plan.vents, Vent("v2", ((160.0, 100.0), (200.0, 100.0)), above_floor=45.0)),
            risers=(plan.risers[0], Riser("r2", (160.0, 100.0), top="none"), Riser("r3", (200.0, 100.0))),
        )
        (found,) = findings(self.rule, plan)
        assert found.at == (160.0, 100.0, 46.0)
        assert "stands" in found.text

    def test_a_vent_that_joins_no_drain_does_not_apply(self) -> None:
        plan = bare(
            vents=(Vent("v1", ((0.0, 0.0), (50.0, 0.0)), above_floor=60.0),), risers=(Riser("r1", (50.0, 0.0)),)
        )
        assert counts(self.rule, plan)[:3] == (0, 0, 0)


class TestJoins:
    """IRC 2021 P3104.5; UPC 905.3: six inches over the highest flood rim that either vent serves."""

    rule = "vent-joins-too-low"

    def test_the_higher_of_the_two_rims_decides(self) -> None:
        # the run serves a 30 in rim and may lie at 36; it joins the vent of a lavatory with a 31 in rim: 37
        assert counts(self.rule, sinks(37.0, rim=30.0)) == (1, 0, 0, 0)
        found = broken(self.rule, sinks(37.0 - SIXTEENTH, rim=30.0))
        assert findings("vent-lies-flat", sinks(37.0 - SIXTEENTH, rim=30.0)) == []
        assert found.measured == pytest.approx(6.0 - SIXTEENTH)
        assert (found.limit, found.unit) == (6.0, "in")
        assert set(found.elements) == {"v1", "r2"}
        assert found.cites == "IRC 2021 P3104.5"
        assert broken(self.rule, replace(sinks(36.0, rim=30.0), rulebook=UPC)).cites == "UPC 2021 905.3"

    def test_two_vents_that_meet_in_a_third_count_all_that_come_together(self) -> None:
        """A third fixture with a 45 in rim comes in at the same height: the join is then too low at 42."""
        plan = sinks(42.0)
        c = (160.0, 160.0)
        plan = replace(
            plan,
            fixtures=(
                *plan.fixtures,
                Fixture("wm1", "washer_standpipe", c, turn=0.0, name="washer", rim_above_floor=45.0),
            ),
            drains=(*plan.drains, drain(c, (200.0, 160.0), (200.0, 60.0), (160.0, 60.0), id="d3", size="2")),
            vents=(*plan.vents, Vent("v2", (c, (160.0, 100.0)), above_floor=42.0)),
            risers=(*plan.risers, Riser("r3", c, top="none")),
        )
        found = broken(self.rule, plan)
        assert "washer" in found.text
        assert found.measured == pytest.approx(-3.0)

    def test_a_join_in_the_drain_itself_is_too_low(self) -> None:
        """An overhead run at the height of the lavatory's own tee, 18 in up: where the waste comes in."""
        found = broken(self.rule, sinks(18.0, rim=6.0))
        assert found.measured == pytest.approx(18.0 - 31.0)

    def test_not_judged_where_a_rim_is_not_known(self, monkeypatch: pytest.MonkeyPatch) -> None:
        known = {"lav1": 32.0}
        monkeypatch.setattr("engine.checks.served._rim", lambda _model, fixture: known.get(fixture.id))
        (found,) = not_judged(self.rule, sinks(60.0))
        assert "the sink" in found.missing
        # the lavatory's rim alone is enough to say that 36 is too low
        assert broken(self.rule, sinks(36.0)).measured == pytest.approx(5.0)

    def test_a_vent_by_itself_joins_nothing(self) -> None:
        assert counts(self.rule, bay(0.0)) == (0, 0, 0, 1)

    def test_a_place_that_asks_for_more(self) -> None:
        assert broken(self.rule, amended(sinks(42.0), "vent.join_above_rim", 8)).limit == 8.0
