"""Cleanouts as they are drawn: size, room before them, walls, crawl space, the way in.

IRC 2021 P3005.2.5 (as the pipe; a stack's one smaller, from memory), P3005.2.9 (18 in), P3005.2.10 (1-1/2 in behind the wall's
face, 24 in crawl space; from memory); UPC 2021 Table 707.1 (from memory), 707.9 (18 in to 2 in pipe, 24 in over, 18 in
crawl space, 30 in way, 5 ft from the way in).
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Cleanout, Fixture, Hatch, JoistField, MeasuredTakeOff, Plan, Point, Wall
from engine.trade.fittings import takeoff
from tests.engine.checks.cleaned_plans import SIXTEENTH, UPC, looked_at, straight
from tests.engine.checks.judged_plans import amended, armed, broken, counts, model_of, not_judged

BOOKS = ["irc-2021", UPC]


def ended(size: str = "3", book: str = "irc-2021", length: float = 100.0) -> Plan:
    """A run whose upper end is closed by a cleanout, which looks east there."""
    return straight(length, Cleanout("k1", (length, 100.0)), size=size, rulebook=book)


def raised(book: str = "irc-2021", **given: object) -> Plan:
    """A lavatory's riser in a wall that runs north, with a cleanout in it."""
    plan = armed("lavatory", 8.0)
    values: dict[str, object] = {"above_floor": 8.0, "turn": 0.0, **given}
    return replace(
        plan,
        rulebook=book,
        walls=(Wall("w1", (240.0, 100.0), (240.0, 400.0)),),
        risers=(replace(plan.risers[0], wall="w1", size="2"),),
        cleanouts=(Cleanout("k1", (240.0, 240.0), **values),),  # type: ignore[arg-type]
    )


class TestSize:
    RULE = "cleanout-too-small"

    @pytest.mark.parametrize(
        ("book", "bore", "least", "less"),
        [
            ("irc-2021", "3", "3", "2"),
            ("irc-2021", "2", "2", "1-1/2"),
            ("irc-2021", "4", "4", "3"),
            (UPC, "2", "1-1/2", "1-1/4"),
            (UPC, "3", "3", "2"),
            (UPC, "4", "4", "3"),
        ],
    )
    def test_as_big_as_the_table_says_holds_and_the_next_smaller_is_a_stop(
        self, book: str, bore: str, least: str, less: str
    ) -> None:
        """UPC: 3 in pipe takes 2-1/2, which stores don't stock; 2 in is too small."""
        assert counts(self.RULE, ended(bore, book)) == (1, 0, 0, 0)
        sized = ended(bore, book)
        assert counts(self.RULE, replace(sized, cleanouts=(Cleanout("k1", (100.0, 100.0), size=least),)))[0] == 1  # type: ignore[arg-type]
        found = broken(self.RULE, replace(sized, cleanouts=(Cleanout("k1", (100.0, 100.0), size=less),)))  # type: ignore[arg-type]
        assert (found.weight, found.unit) == ("stop", "in")
        assert found.cites == ("IRC 2021 P3005.2.5" if book != UPC else "UPC 2021 Table 707.1")

    def test_in_a_stack_one_size_smaller_holds_and_two_do_not(self) -> None:
        assert counts(self.RULE, raised(size="1-1/2"))[:2] == (1, 0)
        assert broken(self.RULE, raised(size="1-1/4")).limit == 1.5

    def test_one_that_opens_no_drain_does_not_apply(self) -> None:
        plan = straight(100.0, Cleanout("k1", (50.0, 100.0)))
        assert counts(self.RULE, plan) == (0, 0, 0, 1)
        assert any("k1" in fault.elements for fault in model_of(plan).joinery.faults)

    def test_not_judged_without_the_pipes_size(self) -> None:
        (found,) = not_judged(self.RULE, ended("3"), lacking="cleanout.size.3")
        assert "3 in" in found.missing

    def test_a_place_that_asks_less(self) -> None:
        small = replace(ended("3"), cleanouts=(Cleanout("k1", (100.0, 100.0), size="2"),))
        assert counts(self.RULE, amended(small, "cleanout.size.3", 2.0)) == (1, 0, 0, 0)


def bay(clear: float, size: str = "3", book: str = "irc-2021") -> Plan:
    """A run that ends toward a rim, its adapter's face so far from it.

    The adapter's hub ends the run, and its face lies 1 in beyond the stop (assumed, see the assumptions).
    """
    plan = ended(size, book)
    east = 100.0 + 1.0 + clear + 1.5
    field = JoistField("j1", (-200.0, 0.0), (200.0 + east, 240.0), direction="east-west", spacing=48.0)
    return replace(plan, fields=(field,))


class TestRoom:
    RULE = "cleanout-without-room"

    @pytest.mark.parametrize(("book", "size", "least"), [("irc-2021", "3", 18.0), (UPC, "2", 18.0), (UPC, "3", 24.0)])
    def test_just_the_room_holds_and_a_sixteenth_less_is_a_stop(self, book: str, size: str, least: float) -> None:
        assert counts(self.RULE, bay(least, size, book)) == (1, 0, 0, 0)
        found = broken(self.RULE, bay(least - SIXTEENTH, size, book))
        assert (found.weight, found.measured, found.limit) == ("stop", pytest.approx(least - SIXTEENTH), least)
        assert found.elements[0] == "k1"
        assert found.cites == ("IRC 2021 P3005.2.9" if book != UPC else "UPC 2021 707.9")

    def test_a_joist_across_the_bay_stands_in_the_way(self) -> None:
        """Joists at 16 in: the next one is less than 18 in away wherever the plug lies."""
        plan = replace(ended("2"), fields=(JoistField("j1", (-200.0, 0.0), (480.0, 240.0), direction="north-south"),))
        assert broken(self.RULE, plan).limit == 18.0

    def test_under_the_joists_the_wood_is_out_of_the_way(self) -> None:
        plan = bay(6.0)
        hung = replace(
            plan,
            drains=(replace(plan.drains[0], passing="under"),),
            exits=(replace(plan.exits[0], pinned_z=-16.0),),
        )
        assert counts(self.RULE, hung) == (1, 0, 0, 0)

    def test_not_judged_where_no_wood_is_drawn(self) -> None:
        (found,) = not_judged(self.RULE, ended())
        assert "joists" in found.missing

    def test_not_judged_without_the_value(self) -> None:
        assert len(not_judged(self.RULE, bay(20.0), lacking="cleanout.clear.3")) == 1

    def test_a_place_that_keeps_twelve_inches(self) -> None:
        assert counts(self.RULE, amended(bay(12.0), "cleanout.clear.3", 12.0)) == (1, 0, 0, 0)

    @pytest.mark.parametrize(("gap", "held"), [(18.0, 1), (18.0 - SIXTEENTH, 0)])
    def test_a_wall_across_the_room(self, gap: float, held: int) -> None:
        """From this wall's face (1-3/4 + 1/2) to the other's."""
        x = 240.0 + 2.25 + gap + 2.25
        plan = raised()
        facing = replace(plan, walls=(*plan.walls, Wall("w2", (x, 200.0), (x, 300.0))))
        assert counts(self.RULE, facing) == (held, 1 - held, 0, 0)

    def test_a_closet_in_front_stands_in_the_way_and_a_lavatory_hangs_over_it(self) -> None:
        plan = raised()
        closet = Fixture("wc1", "water_closet", (258.0, 240.0), turn=0.0)
        assert counts(self.RULE, replace(plan, fixtures=(*plan.fixtures, closet)))[1] == 1
        assert counts(self.RULE, plan) == (1, 0, 0, 0)
        beside = replace(closet, at=(258.0, 280.0))
        assert counts(self.RULE, replace(plan, fixtures=(*plan.fixtures, beside)))[0] == 1

    def test_no_wall_drawn_is_not_judged(self) -> None:
        assert (
            len(not_judged(self.RULE, replace(raised(), walls=(), risers=(replace(raised().risers[0], wall=None),))))
            == 1
        )


class TestConcealed:
    RULE = "cleanout-concealed"

    @pytest.mark.parametrize("book", BOOKS)
    def test_one_that_opens_along_its_wall_is_inside_it(self, book: str) -> None:
        found = broken(self.RULE, raised(book, turn=90.0))
        assert (found.weight, found.elements) == ("stop", ("k1", "w1"))
        assert found.cites == ("IRC 2021 P3005.2.10" if book != UPC else "UPC 2021 707.9")

    @pytest.mark.parametrize("turn", [0.0, 180.0])
    def test_out_of_either_face_holds(self, turn: float) -> None:
        assert counts(self.RULE, raised(turn=turn)) == (1, 0, 0, 0)

    def standing(self, off: float) -> Plan:
        """The riser so far off its wall's middle, away from where its cleanout opens."""
        plan = raised()
        there: Point = (240.0 - off, 240.0)
        return replace(
            plan,
            drains=(replace(plan.drains[0], points=(there, plan.drains[0].points[1])),),
            fixtures=(replace(plan.fixtures[0], at=there),),
            risers=(replace(plan.risers[0], at=there),),
            cleanouts=(replace(plan.cleanouts[0], at=there),),
        )

    def test_an_inch_and_a_half_behind_the_face_holds_and_a_sixteenth_more_is_a_stop(self) -> None:
        """A tee measured to its face at 2 in: 2-1/4 in from the wall's middle line to its face, so 1/4 in behind it."""
        measured = (MeasuredTakeOff("test_tee", "2x2x2", "branch", 2.0),)
        known = takeoff("test_tee", (2.0, 2.0, 2.0), "branch", measured).tolerance
        deep = 1.5 - 0.25
        assert counts(self.RULE, replace(self.standing(deep - known), takeoffs=measured)) == (1, 0, 0, 0)
        found = broken(self.RULE, replace(self.standing(deep + known + SIXTEENTH), takeoffs=measured))
        assert (found.weight, found.measured, found.limit) == ("stop", pytest.approx(1.5625 + known), 1.5)

    def test_not_judged_where_the_tees_own_length_makes_the_difference(self) -> None:
        """2 in test tee: face 1-15/16 in before the axis, known to 1/2 in (assumed)."""
        deep = 1.5 - (2.25 - 1.9375)
        assert counts(self.RULE, self.standing(deep - 0.5)) == (1, 0, 0, 0)
        (found,) = not_judged(self.RULE, self.standing(deep))
        assert "tee" in found.missing
        assert counts(self.RULE, self.standing(deep + 0.5 + SIXTEENTH)) == (0, 1, 0, 0)

    def test_the_uniform_code_names_no_such_depth(self) -> None:
        assert (
            counts(self.RULE, replace(raised(UPC), walls=(Wall("w1", (240.0, 100.0), (240.0, 400.0), finish=3.0),)))[1]
            == 0
        )

    def test_one_under_the_floor_does_not_apply(self) -> None:
        assert counts(self.RULE, ended()) == (0, 0, 0, 1)

    def test_a_place_that_allows_it(self) -> None:
        assert counts(self.RULE, amended(raised(turn=90.0), "cleanout.concealed_allowed", True)) == (0, 0, 0, 1)

    def test_not_judged_without_the_value(self) -> None:
        assert looked_at(self.RULE, raised(), "cleanout.concealed_allowed")["not_judged"] == 1


class TestCrawlSpace:
    RULE = "cleanout-in-low-crawl-space"

    def crawl(self, high: float | None, book: str, *hatches: Hatch) -> Plan:
        plan = ended(book=book)
        return replace(plan, floor=replace(plan.floor, crawl=high), hatches=hatches)

    @pytest.mark.parametrize(("book", "least"), [("irc-2021", 24.0), (UPC, 18.0)])
    def test_just_high_enough_holds_and_a_sixteenth_less_is_a_stop(self, book: str, least: float) -> None:
        assert counts(self.RULE, self.crawl(least, book)) == (1, 0, 0, 0)
        found = broken(self.RULE, self.crawl(least - SIXTEENTH, book))
        assert (found.weight, found.measured, found.limit) == ("stop", least - SIXTEENTH, least)
        assert found.cites == ("IRC 2021 P3005.2.10" if book != UPC else "UPC 2021 707.9")

    @pytest.mark.parametrize("book", BOOKS)
    def test_not_judged_while_the_height_is_not_given(self, book: str) -> None:
        (found,) = not_judged(self.RULE, self.crawl(None, book))
        assert found.elements == ("k1",)
        assert "clear height" in found.missing

    def test_a_way_narrower_than_30_in_is_looked_at_by_the_uniform_code_alone(self) -> None:
        wide, narrow = Hatch("h1", (90.0, 90.0), clear=30.0), Hatch("h1", (90.0, 90.0), clear=30.0 - SIXTEENTH)
        assert counts(self.RULE, self.crawl(40.0, UPC, wide)) == (1, 0, 0, 0)
        found = broken(self.RULE, self.crawl(40.0, UPC, narrow))
        assert (found.weight, found.measured, found.limit) == ("look", 29.9375, 30.0)
        assert counts(self.RULE, self.crawl(40.0, "irc-2021", narrow)) == (1, 0, 0, 0)

    def test_one_above_the_floor_does_not_apply(self) -> None:
        assert counts(self.RULE, raised()) == (0, 0, 0, 1)

    def test_a_place_that_wants_36_in(self) -> None:
        assert counts(self.RULE, amended(self.crawl(30.0, "irc-2021"), "cleanout.crawl_space_least", 36.0))[1] == 1

    def test_not_judged_without_the_value(self) -> None:
        assert looked_at(self.RULE, self.crawl(30.0, "irc-2021"), "cleanout.crawl_space_least")["not_judged"] == 1


class TestFromTheHatch:
    RULE = "cleanout-far-from-hatch"

    def hatched(self, *far: float, book: str = UPC) -> Plan:
        hatches = tuple(Hatch(f"h{n}", (100.0, 100.0 + away)) for n, away in enumerate(far))
        return replace(ended(book=book), hatches=hatches)

    def test_five_feet_hold_and_a_sixteenth_more_is_a_stop(self) -> None:
        assert counts(self.RULE, self.hatched(60.0)) == (1, 0, 0, 0)
        found = broken(self.RULE, self.hatched(60.0 + SIXTEENTH))
        assert (found.weight, found.elements, found.measured, found.limit) == ("stop", ("k1", "h0"), 60.0625, 60.0)
        assert found.cites == "UPC 2021 707.9"

    def test_the_nearest_way_in_counts(self) -> None:
        assert counts(self.RULE, self.hatched(200.0, 50.0)) == (1, 0, 0, 0)

    def test_not_judged_while_no_way_in_is_drawn(self) -> None:
        (found,) = not_judged(self.RULE, self.hatched())
        assert "no way in" in found.missing

    def test_the_twenty_feet_of_older_editions_by_amendment(self) -> None:
        assert counts(self.RULE, amended(self.hatched(240.0), "cleanout.from_access_most", 240.0)) == (1, 0, 0, 0)

    def test_one_above_the_floor_does_not_apply(self) -> None:
        assert counts(self.RULE, raised(UPC)) == (0, 0, 0, 1)

    def test_the_residential_code_names_no_distance(self) -> None:
        assert looked_at(self.RULE, self.hatched(400.0, book="irc-2021"))["does_not_apply"] == 1

    def test_not_judged_without_the_value(self) -> None:
        assert looked_at(self.RULE, self.hatched(10.0), "cleanout.from_access_most")["not_judged"] == 1
