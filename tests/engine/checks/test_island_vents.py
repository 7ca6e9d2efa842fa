"""An island's vent: IRC 2021 P3112 (by New York City 916, Chicago 913.3); UPC 2021 909.1 (by its 2015 text)."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Fixture, PinnedFitting, Vent, Wall
from engine.study import study
from tests.engine.checks.island_plans import RETURN, SINK, WALL, beside, island
from tests.engine.checks.judged_plans import amended, armed, broken, counts, findings, not_judged

RULES = (
    "island-vent-wrong-fixture",
    "island-vent-near-a-wall",
    "island-loop-too-low",
    "island-drain-shared",
    "island-loop-bends",
    "island-vent-in-vent-fittings",
    "island-foot-falls-too-little",
    "island-vent-no-cleanout",
    "island-vent-joins-small",
)
BOTH = ("irc-2021", "upc-2021")


@pytest.mark.parametrize("rule", RULES)
def test_a_plan_without_an_island_has_nothing_to_judge(rule: str) -> None:
    assert counts(rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)


@pytest.mark.parametrize("book", BOTH)
def test_a_right_island_breaks_nothing(book: str) -> None:
    found = study(island(book))
    assert found.model.network.traps[0].method == "island vent"
    assert [one.text for one in found.findings if one.rule in RULES] == []
    dry = {
        "vent-lies-flat",
        "vent-too-far-from-wall",
        "vent-joins-too-low",
        "vent-holds-water",
        "vent-leaves-drain-flat",
    }
    assert [one.text for one in found.findings if one.rule in dry] == []


class TestFixture:
    """Sinks and lavatories: IRC P3112.1; UPC 909.1."""

    rule = "island-vent-wrong-fixture"

    @pytest.mark.parametrize("kind", ["kitchen_sink", "lavatory"])
    @pytest.mark.parametrize("book", BOTH)
    def test_sinks(self, kind: str, book: str) -> None:
        assert counts(self.rule, island(book, kind)) == (1, 0, 0, 0)

    @pytest.mark.parametrize(("book", "cites"), [("irc-2021", "IRC 2021 P3112.1"), ("upc-2021", "UPC 2021 909.1")])
    def test_a_washer(self, book: str, cites: str) -> None:
        found = broken(self.rule, island(book, "washer_standpipe", vent="2"))
        assert found.cites == cites
        assert found.elements == ("ks1", "r1")

    def test_a_place_that_takes_no_lavatory(self) -> None:
        plan = amended(island(kind="lavatory"), "island_vent.allows.lavatory", False)
        assert len(findings(self.rule, plan)) == 1


class TestHeight:
    """The sink's rim 36 in up, its outlet 28; the loop over the outlet (IRC), or within 3 in of the rim (UPC)."""

    rule = "island-loop-too-low"

    @pytest.mark.parametrize("book", BOTH)
    def test_as_it_is_drawn_of_itself(self, book: str) -> None:
        assert counts(self.rule, island(book)) == (1, 0, 0, 0)

    @pytest.mark.parametrize(
        ("book", "least", "cites"),
        [("irc-2021", 28.0, "IRC 2021 P3112.2"), ("upc-2021", 33.0, "UPC 2021 909.1")],
    )
    def test_at_the_limit_and_a_sixteenth_under(self, book: str, least: float, cites: str) -> None:
        assert counts(self.rule, island(book, top=least)) == (1, 0, 0, 0)
        found = broken(self.rule, island(book, top=least - 1.0 / 16.0))
        assert (found.measured, found.limit, found.unit, found.cites) == (least - 1.0 / 16.0, least, "in", cites)

    def test_it_is_the_corner_between_the_two_leaning_legs(self) -> None:
        """Three bends: the uprights end 6 in lower, half of the 12 in between them, at 45 degrees."""
        from tests.engine.checks.judged_plans import model_of

        over = [pipe for pipe in model_of(island("upc-2021")).network.pipes if pipe.id.startswith("r1.over")]
        assert sorted({round(node.level, 6) for pipe in over for node in (pipe.start, pipe.end)}) == [28.0, 34.0]

    def test_a_rim_typed_over_takes_the_outlet_along(self) -> None:
        """Rim 34, so outlet 26 (IRC) and drainboard 31 (UPC)."""
        for book, least in (("irc-2021", 26.0), ("upc-2021", 31.0)):
            plan = island(book, top=least)
            lower = replace(plan, fixtures=(replace(plan.fixtures[0], rim_above_floor=34.0),))
            assert counts(self.rule, lower) == (1, 0, 0, 0)
            short = replace(lower, risers=(replace(plan.risers[0], above_floor=least - 0.0625), plan.risers[1]))
            assert broken(self.rule, short).limit == least

    def test_a_place_that_asks_for_more(self) -> None:
        assert broken(self.rule, amended(island(top=30.0), "island_vent.above_outlet", 4)).limit == 32.0
        assert findings(self.rule, amended(island("upc-2021", top=31.0), "island_vent.below_rim_most", 5)) == []


class TestWall:
    """UPC 909.1: for islands; a 1-1/2 in trap's arm may be 42 in (UPC Table 1002.2)."""

    rule = "island-vent-near-a-wall"

    def wall(self, away: float) -> Wall:
        """A wall whose near stud face lies so far east of the trap at (100, 68): half of 3-1/2 in behind it."""
        return Wall("w2", (100.0 + away + 1.75, 0.0), (100.0 + away + 1.75, 130.0), name="the pantry's wall")

    def test_at_the_limit_and_a_sixteenth_past(self) -> None:
        plan = island("upc-2021")
        found = broken(self.rule, replace(plan, walls=(*plan.walls, self.wall(42.0))))
        assert (found.weight, found.measured, found.limit, found.cites) == ("look", 42.0, 42.0, "UPC 2021 909.1")
        assert counts(self.rule, replace(plan, walls=(*plan.walls, self.wall(42.0625)))) == (1, 0, 0, 0)

    def test_no_wall_at_all(self) -> None:
        plan = island("upc-2021")
        bare = replace(plan, walls=(), risers=(plan.risers[0], replace(plan.risers[1], wall=None)))
        assert counts(self.rule, bare) == (1, 0, 0, 0)

    def test_the_other_book_has_no_such_rule(self) -> None:
        plan = island()
        found = study(replace(plan, walls=(*plan.walls, self.wall(10.0))))
        assert found.looked_at[self.rule]["does_not_apply"] == 1
        assert [one for one in found.findings if one.rule == self.rule] == []

    def test_not_judged_without_the_arms_length(self) -> None:
        assert not_judged(self.rule, island("upc-2021"), lacking="trap_arm.length.1-1/2") != []

    def test_a_place_that_lets_it_stand_anywhere(self) -> None:
        plan = island("upc-2021")
        near = replace(plan, walls=(*plan.walls, self.wall(10.0)))
        assert counts(self.rule, amended(near, "island_vent.only_islands", False)) == (0, 0, 0, 1)


class TestUpstream:
    """UPC 909.1: no other fixture above the return."""

    rule = "island-drain-shared"

    def test_its_own_sink_with_a_dishwasher(self) -> None:
        plan = island("upc-2021")
        through = Fixture("rf1", "refrigerator", (60.0, 60.0), through="ks1")
        assert counts(self.rule, replace(plan, fixtures=(*plan.fixtures, through))) == (1, 0, 0, 0)

    def test_another_below_it(self) -> None:
        assert counts(self.rule, beside(island("upc-2021"), (150.0, 60.0))) == (1, 0, 0, 0)

    def test_another_above_it(self) -> None:
        found = broken(self.rule, beside(island("upc-2021"), (106.0, 60.0)))
        assert (found.measured, found.limit, found.cites) == (1.0, 0.0, "UPC 2021 909.1")
        assert found.elements == ("r1", "lav1")

    def test_the_other_book_has_no_such_rule(self) -> None:
        found = study(beside(island(), (106.0, 60.0)))
        assert found.looked_at[self.rule] == {"holds": 0, "broken": 0, "not_judged": 0, "does_not_apply": 1}

    def test_a_place_that_lets_it_be_shared(self) -> None:
        plan = amended(beside(island("upc-2021"), (106.0, 60.0)), "island_vent.alone_upstream", False)
        assert counts(self.rule, plan) == (0, 0, 0, 1)


class TestBends:
    """UPC 909.1: one piece, or 45, 90 and 45 degrees."""

    rule = "island-loop-bends"

    def test_three_bends_of_itself(self) -> None:
        assert counts(self.rule, island("upc-2021")) == (1, 0, 0, 0)

    @pytest.mark.parametrize("at", [SINK, RETURN])
    def test_two_quarters_by_choice(self, at: tuple[float, float]) -> None:
        plan = island("upc-2021", fittings=(PinnedFitting("p1", at, "quarter_bend", level="wall"),))
        assert broken(self.rule, plan).cites == "UPC 2021 909.1"

    def test_three_by_choice_where_two_would_do(self) -> None:
        plan = island(fittings=(PinnedFitting("p1", SINK, "eighth_bend", level="wall"),))
        kinds = [part.kind for part in study(plan).model.joinery.parts if part.system == "vent"]
        assert (kinds.count("eighth_bend"), kinds.count("quarter_bend")) == (2, 1)

    def test_a_place_that_takes_two(self) -> None:
        plan = amended(island("upc-2021"), "island_vent.bend_in_three", False)
        assert counts(self.rule, plan) == (0, 0, 0, 1)
        kinds = [part.kind for part in study(plan).model.joinery.parts if part.system == "vent"]
        assert (kinds.count("eighth_bend"), kinds.count("quarter_bend")) == (0, 2)


class TestFittings:
    """Drainage fittings under the rim: IRC P3112.3; UPC 909.1, which wants a wye for the foot vent."""

    rule = "island-vent-in-vent-fittings"

    def test_what_is_chosen_of_itself(self) -> None:
        # the loop's two quarter bends, the foot's tee, the sweep in the wall
        assert counts(self.rule, island(cleanout=False)) == (4, 0, 0, 0)
        # three bends, the combination, the sweep
        assert counts(self.rule, island("upc-2021", cleanout=False)) == (5, 0, 0, 0)

    def test_a_tee_for_the_foot(self) -> None:
        foot = PinnedFitting("p1", RETURN, "sanitary_tee")
        assert findings(self.rule, island(fittings=(foot,))) == []
        found = broken(self.rule, island("upc-2021", fittings=(foot,)))
        assert (found.cites, "p1" in found.elements) == ("UPC 2021 909.1", True)

    def test_a_short_bend_where_it_stands_up(self) -> None:
        """A quarter bend from plumb to level: IRC Table P3005.1 mark a, for fixture drains; not at all in UPC 706.4."""
        foot = PinnedFitting("p1", WALL, "quarter_bend")
        assert broken(self.rule, island(fittings=(foot,))).cites == "IRC 2021 Table P3005.1"
        assert broken(self.rule, island("upc-2021", fittings=(foot,))).cites == "UPC 2021 706.4"

    def test_a_place_that_takes_the_tee(self) -> None:
        foot = PinnedFitting("p1", RETURN, "sanitary_tee")
        plan = island("upc-2021", fittings=(foot,))
        assert findings(self.rule, amended(plan, "island_vent.foot_by_wye", False)) == []


class TestFall:
    """1/4 in per ft: UPC 909.1; IRC P3112.3 as a drain of 1-1/2 in (P3005.3)."""

    rule = "island-foot-falls-too-little"

    @pytest.mark.parametrize(("book", "cites"), [("irc-2021", "IRC 2021 P3005.3"), ("upc-2021", "UPC 2021 909.1")])
    def test_at_the_limit_and_a_sixteenth_under(self, book: str, cites: str) -> None:
        assert counts(self.rule, island(book, slope=0.25)) == (1, 0, 0, 0)
        found = broken(self.rule, island(book, slope=0.1875))
        assert (found.measured, found.limit, found.unit, found.cites) == (0.1875, 0.25, "in per ft", cites)

    def test_three_inch_pipe_may_lie_flatter_by_one_book(self) -> None:
        assert (
            counts(
                self.rule,
                replace(island(slope=0.125, vent="3"), vents=(Vent("v1", (RETURN, WALL), size="3", slope=0.125),)),
            )[1]
            == 0
        )
        plan = replace(island("upc-2021", vent="3"), vents=(Vent("v1", (RETURN, WALL), size="3", slope=0.125),))
        assert broken(self.rule, plan).limit == 0.25

    def test_not_judged_without_its_row(self) -> None:
        assert not_judged(self.rule, island(), lacking="slope.least.1-1/2") != []

    def test_a_place_that_asks_for_more(self) -> None:
        assert broken(self.rule, amended(island("upc-2021"), "island_vent.slope_least", 0.5)).limit == 0.5


class TestCleanout:
    """IRC P3112.3; UPC 909.1: in an upright part."""

    rule = "island-vent-no-cleanout"

    @pytest.mark.parametrize("book", BOTH)
    def test_over_the_return(self, book: str) -> None:
        assert counts(self.rule, island(book)) == (1, 0, 0, 0)

    @pytest.mark.parametrize("book", BOTH)
    def test_in_the_wall(self, book: str) -> None:
        plan = island(book)
        moved = replace(plan, cleanouts=(replace(plan.cleanouts[0], at=WALL, above_floor=12.0),))
        assert counts(self.rule, moved) == (1, 0, 0, 0)

    def test_in_the_drain_of_the_sink_it_does_not_count(self) -> None:
        plan = island()
        moved = replace(plan, cleanouts=(replace(plan.cleanouts[0], at=SINK),))
        assert len(findings(self.rule, moved)) == 1

    @pytest.mark.parametrize(("book", "cites"), [("irc-2021", "IRC 2021 P3112.3"), ("upc-2021", "UPC 2021 909.1")])
    def test_none(self, book: str, cites: str) -> None:
        found = broken(self.rule, island(book, cleanout=False))
        assert (found.measured, found.limit, found.cites) == (0.0, 1.0, cites)

    def test_a_place_that_wants_none(self) -> None:
        assert counts(self.rule, amended(island(cleanout=False), "island_vent.cleanout", False)) == (0, 0, 0, 1)


class TestFullSize:
    """IRC P3112.3 (from memory): the lowest point joins the drain full size."""

    rule = "island-vent-joins-small"

    def test_one_size_throughout(self) -> None:
        assert counts(self.rule, island()) == (1, 0, 0, 0)
        assert counts(self.rule, replace(island(vent="2"), vents=(Vent("v1", (RETURN, WALL), size="2"),))) == (
            1,
            0,
            0,
            0,
        )

    def test_a_foot_vent_a_size_over(self) -> None:
        plan = replace(island(), vents=(Vent("v1", (RETURN, WALL), size="2"),))
        found = broken(self.rule, plan)
        assert (found.measured, found.limit) == (1.5, 2.0)

    def test_the_other_book_sizes_it_as_any_vent(self) -> None:
        plan = replace(island("upc-2021"), vents=(Vent("v1", (RETURN, WALL), size="2"),))
        assert study(plan).looked_at[self.rule]["broken"] == 0

    def test_a_place_that_does_not_ask(self) -> None:
        plan = replace(island(), vents=(Vent("v1", (RETURN, WALL), size="2"),))
        assert counts(self.rule, amended(plan, "island_vent.full_size", False)) == (0, 0, 0, 1)
