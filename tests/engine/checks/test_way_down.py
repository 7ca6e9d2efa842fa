"""The drain's way to the ground: frost round the drop (IRC 2021 P2603.5, UPC 2021 312.6: 32 deg F), sleeves through concrete
(IRC P2603.4: two pipe sizes larger, read in an inspection checklist; P2603.3 and UPC 312.10 from memory)."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from engine.checks.records import Finding, NotJudged
from engine.plan.records import Exit, JoistField, Plan
from engine.study import work_out
from engine.takeoff.marking import layout
from engine.takeoff.schedules import taken_off
from engine.trade import sleeves
from tests.engine.checks.judged_plans import amended, bare, broken, counts, drain, outcomes

FROST, SLEEVE, UPC = "drop-open-to-frost", "no-sleeve", "upc-2021"
OUT = (200.0, 240.0)
HOLDS, BROKEN, UNJUDGED, NOTHING = (1, 0, 0, 0), (0, 1, 0, 0), (0, 0, 1, 0), (0, 0, 0, 1)


def leaving(cold: float | None = 18.0, book: str = "irc-2021", crawl: float | None = None, **exit_: Any) -> Plan:
    """A 3 in drain that turns down at (200, 240) in a field of 2x10s."""
    plan = bare(
        rulebook=book,
        fields=(JoistField("f", (0.0, 0.0), (480.0, 480.0)),),
        drains=(drain((248.0, 240.0), OUT, size="3"),),
        exits=(Exit("x1", OUT, **{"pinned_z": -6.0} | exit_),),
    )
    return replace(plan, floor=replace(plan.floor, design_temp=cold, crawl=crawl))


class TestFrost:
    @pytest.mark.parametrize("book", ["irc-2021", UPC])
    @pytest.mark.parametrize(("cold", "found"), [(32.0, BROKEN), (32.0625, NOTHING), (-20.0, BROKEN)])
    def test_at_the_limit_and_a_sixteenth_past_it(
        self, book: str, cold: float, found: tuple[int, int, int, int]
    ) -> None:
        assert counts(FROST, leaving(cold, book)) == found

    @pytest.mark.parametrize("guard", ["box", "heat", "box-and-heat"])
    def test_what_guards_it_holds(self, guard: str) -> None:
        assert counts(FROST, leaving(frost_guard=guard)) == HOLDS

    def test_what_the_finding_says(self) -> None:
        # 2x10s end 9.25 down, the ground lies 24 down
        found = broken(FROST, leaving(ground_z=-24.0))
        assert (found.weight, found.measured, found.limit, found.unit) == ("look", 18.0, 32.0, "°F")
        assert found.text.startswith("14 3/4 in of the drop of x1 stands open")
        assert found.cites == "IRC 2021 P2603.5"

    def test_a_crawl_space_tells_where_the_ground_is(self) -> None:
        assert broken(FROST, leaving(crawl=18.0)).text.startswith("18 in of the drop")
        assert broken(FROST, leaving()).text.startswith("The drop of x1")

    def test_a_pipe_that_goes_into_the_ground_in_the_joists_stands_nowhere_open(self) -> None:
        assert counts(FROST, leaving(ground_z=-9.25)) == NOTHING
        assert counts(FROST, leaving(ground_z=-9.3125)) == BROKEN

    def test_an_unknown_winter(self) -> None:
        (found,) = outcomes(FROST, leaving(None))
        assert isinstance(found, NotJudged)
        assert "design temperature" in found.missing

    def test_what_goes_on_outside_the_rim_is_not_drawn(self) -> None:
        assert counts(FROST, leaving(how="through-rim")) == UNJUDGED
        assert counts(FROST, leaving(40.0, how="through-rim")) == NOTHING

    def test_a_place_with_its_own_number(self) -> None:
        assert counts(FROST, amended(leaving(36.0), "exit.freezes_at", 40)) == BROKEN


class TestSleeves:
    @pytest.mark.parametrize(
        ("book", "meets", "sleeve", "found"),
        [
            ("irc-2021", "foundation", None, BROKEN),
            ("irc-2021", "foundation", "4", BROKEN),
            ("irc-2021", "foundation", "5", HOLDS),
            ("irc-2021", "foundation", "6", HOLDS),
            (UPC, "foundation", None, BROKEN),
            (UPC, "foundation", "4", HOLDS),
            ("irc-2021", "slab", None, BROKEN),
            ("irc-2021", "slab", "4", HOLDS),
            ("irc-2021", "ground", None, NOTHING),
            ("irc-2021", None, None, UNJUDGED),
        ],
    )
    def test_what_it_passes_and_in_what(
        self, book: str, meets: str | None, sleeve: str | None, found: tuple[int, int, int, int]
    ) -> None:
        assert counts(SLEEVE, leaving(book=book, meets=meets, sleeve=sleeve)) == found

    def test_what_the_finding_says(self) -> None:
        found = broken(SLEEVE, leaving(meets="foundation", sleeve="4"))
        assert (found.weight, found.measured, found.limit, found.cites) == ("stop", 4.0, 5.0, "IRC 2021 P2603.4")
        assert "6 in sleeve, the next that is sold" in found.mend
        assert broken(SLEEVE, leaving(meets="slab")).weight == "look"

    def test_an_exit_that_nothing_reaches_has_no_size_to_go_by(self) -> None:
        plan = replace(leaving(meets="foundation", sleeve="6"), drains=())
        (found,) = outcomes(SLEEVE, plan)
        assert isinstance(found, NotJudged)
        assert "size" in found.missing

    def test_a_book_that_asks_for_one_size_up(self) -> None:
        plan = leaving(meets="foundation", sleeve="4")
        assert counts(SLEEVE, amended(plan, "exit.sleeve_sizes_up", 1)) == HOLDS
        assert counts(SLEEVE, amended(plan, "exit.sleeved_wall", False)) == NOTHING

    def test_without_the_number_any_sleeve_will_do(self) -> None:
        plan = leaving(meets="foundation", sleeve="3")
        assert counts(SLEEVE, plan, lacking="exit.sleeve_sizes_up") == HOLDS

    @pytest.mark.parametrize(("pipe", "least"), [(1.5, 3.0), (2.0, 3.0), (3.0, 6.0), (4.0, 6.0)])
    def test_two_sizes_up_by_what_is_sold(self, pipe: float, least: float) -> None:
        """The codes' tables have 1-1/4, 1-1/2, 2, 2-1/2, 3, 4, 5, 6 and 8 in pipe."""
        assert sleeves.sold(sleeves.up(pipe, 2)) == least


class TestBoughtAndTold:
    def test_a_sleeve_with_its_seal(self) -> None:
        lines = taken_off(work_out(leaving(meets="foundation", sleeve="6"))).trip.lines
        assert [(one.size, one.need, one.spares) for one in lines if one.kind == "wall_sleeve"] == [("6", 1, 0)]
        assert [one.need for one in lines if one.kind == "sleeve_sealant"] == [1]

    def test_the_box_goes_from_the_joists_into_the_ground(self) -> None:
        # 24 - 9.25 + 6 into the ground = 20-3/4; inside 3.5 + 2 x 1 = 5-1/2, its wide sides 2 x 2 in more
        lines = taken_off(work_out(leaving(frost_guard="box", ground_z=-24.0))).trip.lines
        (foam,) = (one for one in lines if one.kind == "frost_box")
        assert foam.part == "rigid foam board for a frost box, 2 in thick"
        assert (foam.need, foam.unit) == (1, "4 by 8 ft board")
        assert "two sides 5 1/2 in and two 9 1/2 in wide, 20 3/4 in long" in foam.why

    def test_without_the_ground_its_length_says_what_it_rests_on(self) -> None:
        lines = taken_off(work_out(leaving(frost_guard="box-and-heat"))).trip.lines
        whys = [one.why for one in lines if one.kind in ("frost_box", "heat_cable")]
        assert len(whys) == 2
        assert all("14 3/4 in" in why and "the ground's height is not given" in why for why in whys)

    def test_nothing_is_bought_for_bare_ground(self) -> None:
        kinds = {one.kind for one in taken_off(work_out(leaving(meets="ground"))).trip.lines}
        assert not kinds & {"wall_sleeve", "sleeve_sealant", "frost_box", "heat_cable"}

    def test_it_is_told_where_the_marks_are_struck(self) -> None:
        plan = leaving(meets="foundation", sleeve="6", frost_guard="box", ground_z=-20.0)
        (mark,) = (mark for mark in layout(work_out(plan)).marks if mark.kind == "exit")
        assert mark.walls == (
            "its tail ends 24 in below the joists' top, 4 in into the ground, which lies 20 in below it, passes a "
            "foundation wall or footing in a 6 in sleeve, boxed in 2 in foam from the joists into the ground"
        )

    def test_a_tail_that_ends_over_the_ground_says_so(self) -> None:
        (mark,) = (mark for mark in layout(work_out(leaving(ground_z=-30.0))).marks if mark.kind == "exit")
        assert "6 in over the ground" in mark.walls


def test_findings_name_the_exit() -> None:
    for rule, plan in ((FROST, leaving()), (SLEEVE, leaving(meets="slab"))):
        (found,) = outcomes(rule, plan)
        assert isinstance(found, Finding)
        assert found.elements == ("x1",)
