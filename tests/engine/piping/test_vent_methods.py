"""Which way of venting the pipes make: IRC 2021 P3106 to P3114, UPC 2021 905 to 911, read off drawn plans."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine import rulebooks
from engine.piping import network
from engine.piping.records import Network, Trap
from engine.plan.records import Exit, Fixture, Plan, Riser
from engine.rulebooks import RuleBook
from tests.engine.checks.judged_plans import bare, drain
from tests.engine.checks.vented_plans import by, column, island_sink, level_branch


def built(plan: Plan) -> Network:
    return network.build(plan, rulebooks.load(plan.rulebook, plan.amendments))


def traps(plan: Plan) -> dict[str, Trap]:
    return {trap.fixture: trap for trap in built(plan).traps}


def methods(plan: Plan) -> dict[str, str | None]:
    return {name: trap.method for name, trap in traps(plan).items()}


class TestOneLevel:
    """IRC 2021 P3107.1, P3107.2: two traps, the vent at the meeting of their drains or below it."""

    back_to_back = column(("lavatory", 18.0), ("lavatory", 18.0))

    def test_back_to_back_on_one_tee(self) -> None:
        assert methods(self.back_to_back) == dict.fromkeys(("f1", "f2"), "common vent at one level")
        (way,) = built(self.back_to_back).ways
        assert (way.source, way.members, way.pipes) == ("r1", ("f1", "f2"), ())
        assert "meets that of f2 at one level" in traps(self.back_to_back)["f1"].told

    def test_by_the_uniform_code_too(self) -> None:
        """UPC 2021 905.6 (from memory)."""
        assert methods(by("upc-2021", self.back_to_back)) == dict.fromkeys(("f1", "f2"), "common vent at one level")

    def test_three_are_too_many(self) -> None:
        three = replace(
            self.back_to_back,
            fixtures=(
                *self.back_to_back.fixtures,
                Fixture("f3", "lavatory", (240.0, 240.0), turn=90.0, outlet_above_floor=18.0, arm=8.0),
            ),
        )
        found = traps(three)
        assert {trap.method for trap in found.values()} == {None}
        assert found["f1"].breaks == "common_vent.traps_most"

    def below(self, book: str) -> dict[str, Trap]:
        """Two showers' drains meet at (200, 100); the vent stands 20 in further down, 20 in from the meeting."""
        plan = bare(
            rulebook=book,
            fixtures=(Fixture("a", "shower", (240.0, 100.0)), Fixture("b", "shower", (214.0, 114.0))),
            drains=(
                drain((240.0, 100.0), (200.0, 100.0), (180.0, 100.0), (100.0, 100.0), id="m", size="2"),
                drain((214.0, 114.0), (200.0, 100.0), id="n", size="2"),
            ),
            risers=(Riser("r1", (180.0, 100.0)),),
            exits=(Exit("x1", (100.0, 100.0)),),
        )
        return traps(plan)

    def test_the_vent_may_stand_below_the_meeting(self) -> None:
        found = self.below("irc-2021")
        assert {trap.method for trap in found.values()} == {"common vent at one level"}
        # 40 to the meeting and 20 on, less the trap's own 6.9375
        assert found["a"].length == pytest.approx(60.0 - 6.9375)
        assert found["a"].beyond == ("m.1",) and found["a"].arm == ("m.0",)
        assert found["a"].fall == pytest.approx((60.0 - 6.9375) / 48.0)

    def test_by_the_uniform_code_it_may_not(self) -> None:
        assert {trap.method for trap in self.below("upc-2021").values()} == {None}

    def test_another_drain_between_leaves_them_without(self) -> None:
        plan = bare(
            fixtures=(
                Fixture("a", "shower", (240.0, 100.0)),
                Fixture("b", "shower", (214.0, 114.0)),
                Fixture("c", "shower", (204.0, 114.0)),
            ),
            drains=(
                drain((240.0, 100.0), (200.0, 100.0), (190.0, 100.0), (180.0, 100.0), (100.0, 100.0), id="m", size="3"),
                drain((214.0, 114.0), (200.0, 100.0), id="n", size="2"),
                drain((204.0, 114.0), (190.0, 100.0), id="o", size="2"),
            ),
            risers=(Riser("r1", (180.0, 100.0)),),
            exits=(Exit("x1", (100.0, 100.0)),),
        )
        assert set(methods(plan).values()) == {None}


class TestTwoLevels:
    """IRC 2021 P3107.3 (from memory): the vent goes straight on above the upper of two on one upright drain."""

    stacked = column(("lavatory", 20.0), ("kitchen_sink", 16.0))

    def test_a_lavatory_over_a_sink(self) -> None:
        assert methods(self.stacked) == dict.fromkeys(("f1", "f2"), "common vent at two levels")
        (way,) = built(self.stacked).ways
        assert (way.starter, way.members, way.source) == ("f1", ("f1", "f2"), "r1")
        assert len(way.pipes) == 1

    def test_the_uniform_code_calls_it_a_wet_vent(self) -> None:
        """UPC 2021 908.1, and its training page's example of a lavatory that wet-vents a kitchen sink."""
        assert methods(by("upc-2021", self.stacked)) == dict.fromkeys(("f1", "f2"), "vertical wet vent")

    def test_a_drain_at_the_risers_foot(self) -> None:
        """A floor outlet that joins where the upright drain turns level is the lower of the two."""
        plan = column(("kitchen_sink", 16.0))
        plan = replace(
            plan,
            fixtures=(*plan.fixtures, Fixture("sh", "shower", (280.0, 240.0))),
            drains=(*plan.drains, drain((280.0, 240.0), (240.0, 240.0), id="d2", size="2")),
        )
        assert methods(plan)["sh"] == "common vent at two levels"


class TestUpright:
    """IRC 2021 P3108.4 (from memory), P3109 (from memory); UPC 2021 908.1."""

    def test_three_lavatories_on_one_upright_drain(self) -> None:
        plan = column(("lavatory", 30.0), ("lavatory", 22.0), ("lavatory", 14.0), size="2")
        assert methods(plan) == dict.fromkeys(("f1", "f2", "f3"), "vertical wet vent")
        assert [way.members for way in built(plan).ways] == [("f1", "f2", "f3")]

    def test_with_a_sink_it_is_a_waste_stack(self) -> None:
        plan = column(("lavatory", 30.0), ("kitchen_sink", 22.0), ("lavatory", 14.0), size="2", vent="2")
        found = methods(plan)
        # the sink is the lower of two on its stretch; the third makes a stack of it
        assert found["f3"] == "waste stack vent"
        assert built(plan).ways[-1].members[-1] == "f3"

    def test_the_uniform_code_takes_fixtures_of_two_units(self) -> None:
        plan = by("upc-2021", column(("lavatory", 30.0), ("kitchen_sink", 22.0), ("lavatory", 14.0), size="2"))
        assert methods(plan) == dict.fromkeys(("f1", "f2", "f3"), "vertical wet vent")

    def test_and_none_of_three(self) -> None:
        """A washer's standpipe gives 3 units by UPC 2021 Table 702.1; 2 may join (908.1)."""
        plan = by("upc-2021", column(("lavatory", 30.0), ("washer_standpipe", 14.0), size="3"))
        found = traps(plan)["f2"]
        assert (found.method, found.breaks) == (None, "vertical_wet_vent.fixture_most")

    def test_what_drains_through_a_trap_counts_with_it(self) -> None:
        """A laundry tub gives 2 units by UPC 2021 Table 702.1, two on one trap 4; a bar sink gives 1, two of them 2."""
        for kind, method, why in (
            ("laundry_tub", None, "f2 gives 4 fixture units"),
            ("bar_sink", "vertical wet vent", ""),
        ):
            plan = by("upc-2021", column(("lavatory", 30.0), (kind, 14.0), size="3"))
            assert traps(plan)["f2"].method == "vertical wet vent"
            beside = Fixture("f3", plan.fixtures[1].kind, (240.0, 270.0), through="f2")
            found = traps(replace(plan, fixtures=(*plan.fixtures, beside)))["f2"]
            assert found.method == method
            assert found.why.startswith(why)

    def test_what_one_trap_gives_is_what_stands_at_it(self) -> None:
        """Six heads are 2 + 5 x 1 = 7 units by UPC 2021 Table 702.1, no fixture of 2; a kitchen group stays 2."""
        shower = bare(fixtures=(Fixture("f1", "shower", (240.0, 240.0), heads=6),))
        assert built(by("upc-2021", shower)).loads.given_by("f1") == 7
        washed = Fixture("f2", "dishwasher", (260.0, 240.0), through="f1")
        sink = bare(fixtures=(Fixture("f1", "kitchen_sink", (240.0, 240.0)), washed))
        assert [built(by(book, sink)).loads.given_by("f1") for book in ("irc-2021", "upc-2021")] == [2, 2]

    def test_a_fixture_without_units_is_not_judged(self) -> None:
        plan = by("upc-2021", column(("lavatory", 30.0), ("kitchen_sink", 14.0), size="2"))
        full = rulebooks.load("upc-2021")
        kept = {value.key: value for value in full if not value.key.startswith(("dfu.kitchen_sink", "dfu.by_trap"))}
        ruled_out = dict.fromkeys(
            ("common_vent.two_levels", "stack_vent", "circuit_vent", "combination"), "no such rule"
        )
        book = RuleBook(full.name, full.title, full.short, full.notice, kept, ruled_out)
        found = {trap.fixture: trap for trap in network.build(plan, book).traps}["f2"]
        assert (found.method, found.recognised) == (None, False)
        assert "how many fixture units f2 gives" in found.why


class TestLying:
    """IRC 2021 P3108.1, P3108.2.1; UPC 2021 908.2.1."""

    def test_a_kitchen_through_it_stops_it(self) -> None:
        plan = level_branch("shower", "shower", "water_closet")
        sink = replace(plan.fixtures[1], kind="kitchen_sink", at=plan.fixtures[1].at)
        foreign = replace(plan, fixtures=(plan.fixtures[0], sink, plan.fixtures[2]))
        found = traps(foreign)["f3"]
        assert (found.method, found.breaks) == (None, "wet_vent.groups_most")
        assert "f2 drains through" in found.why

    def test_a_closet_may_start_it_by_one_book_only(self) -> None:
        """UPC 2021 908.2.1 (read in its training page): the dry vent never starts at a closet."""
        plan = level_branch("water_closet", "shower")
        assert methods(plan)["f2"] == "horizontal wet vent"
        # the uniform code takes the same pipes as a circuit vent (911), which stands between the two furthest upstream
        assert methods(by("upc-2021", plan))["f2"] == "circuit vent"
        # a lavatory's drain that drops into the branch leaves no circuit
        lavatory = Fixture("lav", "lavatory", (390.0, 114.0), turn=90.0)
        main, shower = plan.drains
        onto = (390.0, 100.0)
        main = replace(main, points=(*(p for p in main.points if p[0] > 420.0), (420.0, 100.0), onto, main.points[-1]))
        last = Fixture("sh", "shower", (364.0, 114.0))
        runs = (
            main,
            shower,
            drain((390.0, 114.0), onto, id="l", size="2"),
            drain((364.0, 114.0), (350.0, 100.0), id="s", size="2"),
        )
        main = replace(main, points=(*main.points[:-1], (350.0, 100.0), main.points[-1]))
        joined = replace(plan, fixtures=(*plan.fixtures, lavatory, last), drains=(main, *runs[1:]))
        found = traps(by("upc-2021", joined))["sh"]
        assert (found.method, found.breaks) == (None, "wet_vent.closet_last") or found.breaks.startswith(
            "wet_vent.dry_from"
        )

    def test_a_run_that_drops_onto_it_is_not_vented(self) -> None:
        plan = level_branch("shower", "water_closet")
        joined = replace(plan, drains=(plan.drains[0], replace(plan.drains[1], join="drop")))
        found = traps(joined)["f2"]
        assert (found.method, found.breaks) == (None, "wet_vent.joins_level")

    def test_a_pipe_that_carries_nothing_is_a_vent_lying_flat(self) -> None:
        """A stub of drain from a vent's foot to the shower's drain: air, and no water to keep it clean."""
        plan = bare(
            fixtures=(Fixture("sh", "shower", (214.0, 114.0)),),
            drains=(
                drain((240.0, 100.0), (200.0, 100.0), (100.0, 100.0), id="m", size="2"),
                drain((214.0, 114.0), (200.0, 100.0), id="n", size="2"),
            ),
            risers=(Riser("r1", (240.0, 100.0)),),
            exits=(Exit("x1", (100.0, 100.0)),),
        )
        found = traps(plan)["sh"]
        assert (found.method, found.breaks) == (None, "vent.above_rim")

    def test_two_upstream_of_the_vented_one_are_too_many(self) -> None:
        """IRC 2021 P3108.2.1 (from memory), UPC 2021 908.2.1: one wet-vented drain upstream of the dry-vented."""
        foot = (240.0, 240.0)
        plan = column(("lavatory", 18.0))

        def joined(*starts: tuple[float, float]) -> Plan:
            fixtures = [Fixture(f"s{n}", "shower", at) for n, at in enumerate(starts, 1)]
            runs = [drain(at, foot, id=f"b{n}", size="2") for n, at in enumerate(starts, 1)]
            return replace(plan, fixtures=(*plan.fixtures, *fixtures), drains=(*plan.drains, *runs))

        assert methods(joined((280.0, 240.0)))["s1"] == "horizontal wet vent"
        both = traps(joined((280.0, 240.0), (268.0, 268.0)))
        assert both["s1"].method is None
        assert both["s1"].breaks == "wet_vent.upstream_most"


class TestCircuit:
    """IRC 2021 P3110 (from memory but for the count): the vent stands between the two drains furthest upstream."""

    def test_floor_drains_on_one_branch(self) -> None:
        plan = level_branch("floor_drain", "floor_drain", "floor_drain", "shower")
        assert methods(plan) == dict.fromkeys(("f1", "f2", "f3", "f4"), "circuit vent")
        (way,) = built(plan).ways
        assert (way.starter, way.members) == ("f1", ("f1", "f2", "f3", "f4"))

    def test_the_vent_further_down_does_not_make_one(self) -> None:
        plan = level_branch("floor_drain", "floor_drain", "floor_drain", "floor_drain", vent_after=2)
        found = methods(plan)
        assert found["f1"] != "circuit vent" and found["f4"] != "circuit vent"

    def test_eight_and_nine(self) -> None:
        eight = level_branch(*["floor_drain"] * 8, size="4")
        assert set(methods(eight).values()) == {"circuit vent"}
        nine = traps(level_branch(*["floor_drain"] * 9, size="4"))
        assert nine["f9"].method != "circuit vent"
        assert nine["f8"].method == "circuit vent"


class TestCombination:
    """IRC 2021 P3111; UPC 2021 910."""

    def test_a_sink_with_no_wall_behind_it(self) -> None:
        plan = island_sink()
        found = traps(plan)["sink"]
        assert found.method == "combination waste and vent"
        # its arm counts to where it turns down, 8 in as the kitchen sink's data have it
        assert found.length == pytest.approx(8.0)
        assert not found.drops

    def test_what_may_not(self) -> None:
        """No closet, no tub: a laundry tub may, a bathtub or a bidet not."""
        assert traps(island_sink("laundry_tub"))["sink"].method == "combination waste and vent"
        assert traps(island_sink("bidet"))["sink"].method is None

    def test_not_beside_a_fixture_that_may_not(self) -> None:
        plan = island_sink()
        shower = Fixture("sh", "shower", (150.0, 160.0))
        joined = replace(
            plan,
            fixtures=(*plan.fixtures, shower),
            drains=(*plan.drains, drain((150.0, 160.0), (180.0, 130.0), id="d3", size="2")),
        )
        found = traps(joined)["sink"]
        assert (found.method, found.breaks.rsplit(".", 1)[0]) == (None, "combination.allows")

    def test_the_uniform_code_has_it_too(self) -> None:
        assert traps(by("upc-2021", island_sink()))["sink"].method == "combination waste and vent"


class TestBookThatIsSilent:
    def test_what_a_book_does_not_tell_is_not_judged(self) -> None:
        from engine.rulebooks import RuleBook

        plan = TestOneLevel.back_to_back
        book = rulebooks.load("irc-2021")
        kept = {value.key: value for value in book if not value.key.startswith("common_vent.")}
        bare_book = RuleBook(book.name, book.title, book.short, book.notice, kept)
        found = network.build(plan, bare_book).traps
        assert {(trap.method, trap.recognised) for trap in found} == {(None, False)}
        assert "common vents" in found[0].why
