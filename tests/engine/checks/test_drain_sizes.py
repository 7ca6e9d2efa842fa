"""Drains against their loads: IRC 2021 Tables P3004.1, P3005.4.1 and P3005.4.2, UPC 2021 Tables 702.1 and 703.2.

Where a number is said to be read, the source stands beside it in the rule book; the others are from memory. The
published examples are named at their tests; where one gives a plain number of units, it is set by an amendment.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.checks.records import DoesNotApply
from engine.piping.network import build
from engine.plan.records import Exit, Fixture
from engine.rulebooks import RuleBook, load
from engine.study import study
from tests.engine.checks.judged_plans import (
    JUDGES,
    amended,
    bare,
    broken,
    counts,
    drain,
    findings,
    holds_for,
    model_of,
    not_judged,
    outcomes,
)
from tests.engine.checks.sized_plans import branch, building_drain, by, in_wall, single

UPC = "upc-2021"


class TestLoad:
    rule = "drain-too-small"

    def test_drain_pipe_sizes_and_maximum_fixture_units(self) -> None:
        """28 units on 3 in: as building drain at 1/4 in per ft 28 of 42, as one branch 28 over 20 ("Drain pipe sizes and
        maximum drainage fixture units", IPC)."""
        assert holds_for(self.rule, building_drain(28), "m")
        found = next(one for one in findings(self.rule, branch(28, size="3", join="drop")) if one.elements == ("m",))
        assert (found.weight, found.measured, found.limit, found.unit) == ("stop", 28, 20, "fixture units")
        assert found.cites == "IRC 2021 Table P3005.4.1"
        assert "28 fixture units (14 + 14 = 28); a 3 in branch may carry 20" in found.text

    def test_as_one_stack(self) -> None:
        """28 of 48 down 3 in; the drop itself is no fault."""
        model = model_of(branch(28, size="3", join="drop"))
        drop = model.network.drain_sizes["m.drop"]
        assert (drop.kind, model.network.by_id["m.drop"].load) == ("vertical drain", 28)
        assert next(ask for ask in drop.asks if ask.by == "load").size == 3.0

    @pytest.mark.parametrize(
        ("units", "slope", "most"),
        [
            # "DWV sizing", IPC 2003: 35 of 36 at 1/8; 45 fails 36 and 42 and wants 1/2 in per ft, or 4 in at 1/8
            (35, 0.125, None),
            (45, 0.125, 36),
            (45, 0.25, 42),
            (45, 0.5, None),
            # exactly at the limit, and the next unit
            (36, 0.125, None),
            (37, 0.125, 36),
            (42, 0.25, None),
            (43, 0.25, 42),
            (50, 0.5, None),
            (51, 0.5, 50),
            # a slope between goes by the flatter column
            (43, 0.375, 42),
        ],
    )
    def test_the_building_drain_by_its_slope(self, units: float, slope: float, most: float | None) -> None:
        found = [one for one in findings(self.rule, building_drain(units, slope=slope)) if one.elements == ("m",)]
        assert [(one.measured, one.limit, one.cites) for one in found] == (
            [] if most is None else [(units, most, "IRC 2021 Table P3005.4.2")]
        )

    def test_four_inches_at_an_eighth(self) -> None:
        assert findings(self.rule, building_drain(45, size="4", slope=0.125)) == []

    def test_an_oversize_branch(self) -> None:
        """24 units on one branch: 3 in takes 20, so 4 in (plumber's exam questions on IPC 710.1(2))."""
        found = next(one for one in findings(self.rule, branch(24, size="3", join="drop")) if "m" in one.elements)
        assert found.limit == 20
        assert found.mend == "Make it 4 in."
        model = model_of(branch(24, size=None, join="drop"))
        assert model.network.by_id["m.0"].size == 4.0

    @pytest.mark.parametrize(("units", "most"), [(6, None), (7, 6)])
    def test_a_branch_at_its_limit_and_a_unit_past_it(self, units: float, most: float | None) -> None:
        """2 in takes 6 units ("2-inch drain capacity")."""
        found = [one for one in findings(self.rule, branch(units, join="drop")) if one.elements == ("m",)]
        assert [(one.weight, one.limit) for one in found] == ([] if most is None else [("stop", most)])

    def test_where_the_tables_differ_on_a_branch_of_the_building_drain_it_is_looked_at(self) -> None:
        """7 units on 2 in that runs level into the building drain: 21 by that table, 6 by the table of branches."""
        found = next(one for one in findings(self.rule, branch(7)) if one.elements == ("m",))
        assert (found.weight, found.measured, found.limit) == ("look", 7, 6)
        assert "either way" in found.text
        past_both = next(one for one in findings(self.rule, branch(22)) if one.elements == ("m",))
        assert (past_both.weight, past_both.limit, past_both.cites) == ("stop", 21, "IRC 2021 Table P3005.4.2")

    def test_an_automatic_size_takes_the_larger_answer(self) -> None:
        assert findings(self.rule, branch(7, size=None)) == []
        assert model_of(branch(7, size=None)).network.by_id["m.0"].size == 3.0

    def test_a_shower_with_six_heads(self) -> None:
        """6 x 2 = 12 units: 2 in takes 6, 3 in takes 20 ("shower with six heads", IRC)."""
        found = next(one for one in findings(self.rule, single("shower", size="2", heads=6)) if one.elements == ("d",))
        assert (found.measured, found.limit) == (12, 6)
        assert found.mend == "Make it 3 in: 2-1/2 in would do by the book, and is hard to buy."
        assert findings(self.rule, single("shower", heads=6)) == []

    def test_a_tub_s_level_drain_by_the_uniform_code(self) -> None:
        """2 units, where 1-1/2 in level takes 1 and 2 in 8; its trap arm does not count (UPC Table 703.2)."""
        found = broken(self.rule, by(UPC, single("bathtub", size="1-1/2")))
        assert (found.elements, found.measured, found.limit) == (("d",), 2, 1)
        assert found.cites == "UPC 2021 Table 703.2"
        assert findings(self.rule, by(UPC, single("bathtub", size="2"))) == []
        assert findings(self.rule, single("bathtub", size="1-1/2")) == [], "the IRC has 3"

    def test_two_lavatories_on_one_drain(self) -> None:
        """2 units: by the UPC 1-1/2 in level takes 1, so 2 in; by the IRC it takes 3 (public question on a double vanity)."""
        plan = in_wall("lavatory", "lavatory", drain_size="1-1/2")
        assert broken(self.rule, by(UPC, plan)).limit == 1
        assert findings(self.rule, plan) == []
        assert model_of(by(UPC, in_wall("lavatory", "lavatory"))).network.by_id["d.0"].size == 2.0

    def test_an_old_drain_under_a_new_shower(self) -> None:
        """A shower on 1-1/2 in: not by the UPC, whose trap is 2 in and whose level 1-1/2 in takes 1 unit; by the IRC a
        trap of 1-1/2 in and pipe of that size are enough for one head (two public threads)."""
        plan = single("shower", size="1-1/2", trap="1-1/2")
        assert broken(self.rule, by(UPC, plan)).limit == 1
        assert findings(self.rule, plan) == []

    @pytest.mark.parametrize(("units", "most"), [(28, None), (28.5, 28)])
    def test_flat_pipe_takes_less_by_the_uniform_code(self, units: float, most: float | None) -> None:
        """3 in takes 35; where the official lets it fall 1/8, 0.8 of that, 28 (from memory)."""
        plan = amended(by(UPC, building_drain(units, slope=0.125)), "slope.least.3", 0.125)
        found = [one.limit for one in findings(self.rule, plan) if one.elements == ("m",)]
        assert found == ([] if most is None else [pytest.approx(most)])

    def test_amended(self) -> None:
        plan = building_drain(28)
        assert broken(self.rule, amended(plan, "load.building_drain.1/4.3", 27)).limit == 27
        assert broken(self.rule, amended(plan, "load.building_drain.1/4.3", 27)).cites.endswith("amended")

    def test_not_judged_without_the_row(self) -> None:
        (found,) = not_judged(self.rule, building_drain(28), "load.building_drain.1/4.3")
        assert found.missing == "the book gives no load for 3 in pipe"

    def test_not_judged_where_the_book_gives_a_fixture_no_units(self) -> None:
        """By the IRC a kind that the table leaves out has no units; what it adds is not known."""
        book = load("irc-2021")
        kept = {value.key: value for value in book if value.key != "dfu.floor_drain"}
        fewer = RuleBook(book.name, book.title, book.short, book.notice, kept)
        plan = replace(building_drain(2), amendments=())
        model = model_of(plan)
        model.network, model.memo = build(plan, fewer), {}
        found = list(JUDGES[self.rule](model))
        assert any("no fixture units for floor drain f1" in getattr(one, "missing", "") for one in found)

    def test_nothing_drawn(self) -> None:
        assert outcomes(self.rule, replace(building_drain(2), fixtures=(), drains=())) == [DoesNotApply()]


class TestNumberOfFixtures:
    """IRC 2021 Table P3005.4.2, note a: two waste fixtures on a 1-1/2 in branch of the building drain, one where one is pumped or
    has a disposer; Table P3005.4.1, note a: 1-1/4 in takes one (all from memory)."""

    rule = "drain-takes-too-many-fixtures"

    def test_two_on_a_small_branch(self) -> None:
        assert findings(self.rule, branch(2, size="1-1/2", kind="lavatory", trap="1-1/4")) == []

    def test_a_third(self) -> None:
        plan = branch(2, size="1-1/2", kind="bathtub")
        third = Fixture("f3", "bathtub", (166.0, 114.0), trap_at=(166.0, 114.0))
        main = drain((200.0, 100.0), (152.0, 100.0), (100.0, 100.0), id="m", size="1-1/2")
        others = [one for one in plan.drains if one.id != "m"]
        own = drain((166.0, 114.0), (152.0, 100.0), id="b9")
        more = replace(plan, fixtures=(*plan.fixtures, third), drains=(*others, main, own))
        found = broken(self.rule, more)
        assert (found.measured, found.limit, found.unit) == (3, 2, "fixtures")
        assert found.cites == "IRC 2021 Table P3005.4.2, note a"
        assert counts(self.rule, by(UPC, more))[1] == 0
        assert broken(self.rule, amended(plan, "load.building_drain.fixtures_most.1-1/2", 1)).limit == 1

    def test_two_where_one_has_a_disposer(self) -> None:
        sink = Fixture("f1", "kitchen_sink", (240.0, 100.0), outlet_above_floor=16.0, disposer=True, turn=0.0)
        plan = branch(2, size="1-1/2", kind="bathtub")
        plan = replace(plan, fixtures=(sink, *plan.fixtures[1:]))
        found = broken(self.rule, plan)
        assert (found.measured, found.limit) == (2, 1)
        assert "disposer" in found.text
        assert findings(self.rule, replace(plan, fixtures=(replace(sink, disposer=False), *plan.fixtures[1:]))) == []

    def test_two_where_a_dishwasher_drains_through_one(self) -> None:
        sink = Fixture("f1", "kitchen_sink", (240.0, 100.0), outlet_above_floor=16.0, turn=0.0)
        dish = Fixture("dw", "dishwasher", (260.0, 100.0), through="f1")
        plan = branch(2, size="1-1/2", kind="bathtub")
        plan = replace(plan, fixtures=(sink, *plan.fixtures[1:], dish))
        assert broken(self.rule, plan).limit == 1

    def test_an_inch_and_a_quarter_takes_one(self) -> None:
        one = in_wall("lavatory", size="1-1/4", drain_size="1-1/4")
        assert findings(self.rule, one) == []
        two = in_wall("lavatory", "lavatory", size="1-1/4", drain_size="1-1/4")
        assert [(f.measured, f.limit) for f in findings(self.rule, two)] == [(2, 1), (2, 1)]

    def test_automatic_sizes_keep_to_it(self) -> None:
        assert findings(self.rule, branch(2, size=None, kind="bathtub")) == []


class TestClosets:
    """IRC 2021 Table P3005.4.1, note (from memory); UPC 2021 402.6.3 and Table 703.2 with its note on closets."""

    @pytest.mark.parametrize(
        ("book", "cites"), [("irc-2021", "IRC 2021 Table P3005.4.1, note"), (UPC, "UPC 2021 402.6.3, Table 703.2")]
    )
    def test_no_closet_on_less_than_three_inches(self, book: str, cites: str) -> None:
        rule = "closet-drain-too-small"
        found = broken(rule, by(book, single("water_closet", size="2")))
        assert (found.elements, found.measured, found.limit, found.cites) == (("d", "f1"), 2, 3, cites)
        assert findings(rule, by(book, single("water_closet", size="3"))) == []
        assert findings(rule, by(book, single("water_closet"))) == []
        assert broken(rule, amended(by(book, single("water_closet", size="3")), "closet.least_drain", 4)).limit == 4
        assert outcomes(rule, by(book, single("shower", size="2"))) == [DoesNotApply()]

    def closets(self, count: int, book: str = UPC) -> list[tuple[float | None, float | None]]:
        """So many closets on one level 3 in drain."""
        joints = [(400.0 - 40.0 * number, 100.0) for number in range(count)]
        starts = [(x + 14.0, 114.0) for x, _ in joints]
        plan = bare(
            fixtures=tuple(Fixture(f"f{n}", "water_closet", at) for n, at in enumerate(starts)),
            drains=(
                drain(*joints, (20.0, 100.0), id="m", size="3"),
                *(drain(a, b, id=f"b{n}", size="3") for n, (a, b) in enumerate(zip(starts, joints, strict=True))),
            ),
            exits=(Exit("x1", (20.0, 100.0)),),
        )
        return [(one.measured, one.limit) for one in findings("closets-too-many-on-drain", by(book, plan))]

    def test_three_closets_on_level_three_inch_pipe(self) -> None:
        """Three to the 2018 edition, read in Washington's amendments; a newer note allows five."""
        assert self.closets(3) == []
        assert self.closets(4) == [(4, 3)]
        assert self.closets(4, "irc-2021") == []


class TestSmallUprightPipe:
    """UPC 2021 Table 703.2, note: no sink of more than one unit on 1-1/2 in upright pipe."""

    rule = "sink-on-small-stack"

    def test_a_kitchen_sink_down_an_inch_and_a_half(self) -> None:
        found = broken(self.rule, by(UPC, in_wall("kitchen_sink", size="1-1/2")))
        assert (found.measured, found.limit, found.cites) == (1.5, 2, "UPC 2021 Table 703.2, note")
        assert findings(self.rule, by(UPC, in_wall("kitchen_sink", size="2"))) == []

    def test_a_sink_of_one_unit_may(self) -> None:
        assert outcomes(self.rule, by(UPC, in_wall("bar_sink", size="1-1/2"))) == [DoesNotApply()]
        assert outcomes(self.rule, by(UPC, in_wall("lavatory", size="1-1/2"))) == [DoesNotApply()]

    def test_amended(self) -> None:
        plan = amended(by(UPC, in_wall("kitchen_sink", size="1-1/2")), "load.stack_sink_units.1-1/2", 2)
        assert outcomes(self.rule, plan) == [DoesNotApply()]

    def test_the_residential_code_has_no_such_rule(self) -> None:
        looked = study(in_wall("kitchen_sink", size="1-1/2")).looked_at[self.rule]
        assert looked == {"holds": 0, "broken": 0, "not_judged": 0, "does_not_apply": 1}


class TestPastTheArm:
    """UPC 2021 Table 702.1, note: a kitchen sink's drain is 2 in past its trap arm of 1-1/2."""

    rule = "drain-too-small-past-arm"

    def test_a_kitchen_sink(self) -> None:
        found = findings(self.rule, by(UPC, in_wall("kitchen_sink", size="2", drain_size="1-1/2")))
        assert [(one.elements, one.measured, one.limit) for one in found] == [(("d", "f1"), 1.5, 2)]
        assert findings(self.rule, by(UPC, in_wall("kitchen_sink", size="2", drain_size="2"))) == []
        assert findings(self.rule, by(UPC, in_wall("kitchen_sink"))) == []

    def test_its_arm_keeps_its_trap_s_size(self) -> None:
        assert model_of(by(UPC, in_wall("kitchen_sink"))).network.by_id["f1.arm"].size == 1.5

    def test_the_residential_code_lets_it_keep_its_trap_s_size(self) -> None:
        assert model_of(in_wall("kitchen_sink")).network.by_id["d.0"].size == 1.5
        assert study(in_wall("kitchen_sink")).looked_at[self.rule]["does_not_apply"] == 1


class TestLargeFixture:
    """UPC 2021 Table 703.2, note: no six-unit trap on pipe under 3 in. A shower of five heads counts 2 + 4 = 6."""

    rule = "large-fixture-on-small-drain"

    def test_a_shower_of_five_heads(self) -> None:
        found = broken(self.rule, by(UPC, single("shower", size="2", heads=5)))
        assert (found.measured, found.limit) == (2, 3)
        assert findings(self.rule, by(UPC, single("shower", size="3", heads=5))) == []
        assert outcomes(self.rule, by(UPC, single("shower", size="2", heads=4))) == [DoesNotApply()]
        assert outcomes(self.rule, single("shower", size="2", heads=5)) == [DoesNotApply()]


class TestTallStack:
    """UPC 2021 Table 703.2: 1-1/2 in upright drain is 65 ft (780 in) at most; 2 in 85 ft."""

    rule = "stack-too-long"

    def test_at_its_limit_and_a_sixteenth_past_it(self) -> None:
        plan = by(UPC, in_wall("lavatory", size="1-1/2"))
        (tall,) = [one for one in model_of(plan).network.pipes if one.id == "r1.0"]
        model = model_of(plan)
        height = tall.start.level - model.heights[tall.end]
        assert counts(self.rule, amended(plan, "load.stack_length.1-1/2", height))[:2] == (1, 0)
        found = broken(self.rule, amended(plan, "load.stack_length.1-1/2", height - 1 / 16))
        assert (found.measured, found.unit) == (pytest.approx(height), "in")
        assert counts(self.rule, plan)[1] == 0

    def test_not_judged_without_the_row_or_the_height(self) -> None:
        plan = by(UPC, in_wall("lavatory", size="1-1/2"))
        assert counts(self.rule, plan, "load.stack_length.1-1/2")[2] == 1
        assert "height is not known" in not_judged(self.rule, replace(plan, exits=()))[0].missing

    def test_the_residential_code_sets_no_height(self) -> None:
        assert study(in_wall("lavatory")).looked_at[self.rule]["does_not_apply"] == 1
