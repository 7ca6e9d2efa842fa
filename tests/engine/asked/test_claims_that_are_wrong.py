"""Claims that are told again and again and that the program must not repeat: each is tried, and does not hold here."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine import rulebooks
from engine.crossings.limits import allowance
from engine.plan.records import Drain, Exit, Fixture, PinnedFitting, Riser
from engine.takeoff.answers import check_answer
from engine.trade.lumber import actual
from tests.engine.asked.asked_plans import ask, floor, joists, leaving, run, said
from tests.engine.checks.judged_plans import armed


class TestTrapArms:
    """Distances of the two families of code, swapped: IRC 2021 Table P3105.1 is the long one, UPC 2021 Table 1002.2 short."""

    @pytest.mark.parametrize(
        ("trap", "residential", "uniform"),
        [("1-1/4", 60.0, 30.0), ("1-1/2", 72.0, 42.0), ("2", 96.0, 60.0), ("3", 144.0, 72.0)],
    )
    def test_each_book_has_its_own(self, trap: str, residential: float, uniform: float) -> None:
        for book, limit in (("irc-2021", residential), ("upc-2021", uniform)):
            (trap_row,) = check_answer(ask(armed("kitchen_sink", 20.0, trap), book))["traps"]
            assert trap_row["limit"] == limit


class TestHoles:
    """ "Holes only in the middle third", "none in the middle half", "a third of the nominal depth": IRC 2021 R502.8.1."""

    def test_the_place_along_the_span_does_not_matter(self) -> None:
        for y in (12.0, 40.0, 60.0, 80.0, 108.0):
            plan = floor(
                joists(8.0, 24.0, 120.0),
                drains=(run((30.0, y), (2.0, y), size="1-1/2"),),
                exits=leaving((2.0, y), 4.6),
            )
            assert {cut.legal for cut in ask(plan).model.cuts} == {True}

    def test_a_third_of_the_real_depth(self) -> None:
        book = rulebooks.load("irc-2021")
        for lumber, depth in (("2x6", 5.5), ("2x8", 7.25), ("2x10", 9.25), ("2x12", 11.25)):
            assert actual(lumber).depth == depth
            assert allowance(depth, book).bore == pytest.approx(min(depth / 3.0, depth - 4.0))

    def test_a_two_by_twelve_takes_more_than_three_inches(self) -> None:
        assert allowance(11.25, rulebooks.load("irc-2021")).bore == pytest.approx(3.75)


class TestSanitaryTees:
    """ "For upright-to-level closet drains", "meant for level pipes": it is the reverse. IRC 2021 Table P3005.1."""

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_only_from_level_to_upright(self, book: str) -> None:
        values = rulebooks.load(book)
        assert values.text("fitting.sanitary_tee.vertical_to_horizontal") == "no"
        assert values.text("fitting.sanitary_tee.horizontal_to_horizontal") == "no"
        assert values.text("fitting.sanitary_tee.horizontal_to_vertical") != "no"

    def test_lying_on_its_side_it_stops(self) -> None:
        plan = floor(
            fixtures=(Fixture("sh", "shower", (40.0, 60.0)),),
            drains=(run((0.0, 20.0), (40.0, 20.0), (90.0, 20.0), size="3"), run((40.0, 60.0), (40.0, 20.0), id="d2")),
            exits=leaving((90.0, 20.0)),
            fittings=(PinnedFitting("p", (40.0, 20.0), "sanitary_tee"),),
        )
        assert len(said(ask(plan), "turn-in-wrong-fitting")) == 1


def test_a_sink_may_share_the_closets_line() -> None:
    """ "A sink may never share the toilet's line": it may, where each is vented and the pipe is wide enough."""
    plan = floor(
        fixtures=(
            Fixture("wc", "water_closet", (120.0, 20.0)),
            Fixture("ks", "kitchen_sink", (80.0, 50.0), turn=90.0),
        ),
        drains=(
            run((120.0, 20.0), (110.0, 20.0), (50.0, 20.0), (0.0, 20.0), id="m", size="3"),
            run((80.0, 50.0), (50.0, 20.0), id="k", size="2"),
        ),
        risers=(Riser("r1", (110.0, 20.0)), Riser("r2", (80.0, 50.0))),
        exits=leaving((0.0, 20.0)),
    )
    for book in ("irc-2021", "upc-2021"):
        answer = ask(plan, book)
        assert said(answer, "trap-without-vent") == []
        assert {trap.method for trap in answer.model.network.traps} == {"individual vent"}


def test_eighteen_to_thirty_belongs_to_the_standpipe() -> None:
    """ "A washer's trap stands 18 to 30 in above the floor": the numbers are the standpipe's, over its trap."""
    book = rulebooks.load("upc-2021")
    assert (book.number("standpipe.above_weir_least"), book.number("standpipe.above_weir_most")) == (18.0, 30.0)
    assert (book.number("standpipe.trap_above_floor_least"), book.number("standpipe.trap_above_floor_most")) == (
        6.0,
        18.0,
    )


def test_half_the_drain_is_not_all_that_sizes_a_vent() -> None:
    """ "Half of the drain is the vent's size": it is a floor. By the UPC a closet's is 2 in (Table 703.2, mark c)."""
    plan = floor(
        fixtures=(Fixture("wc", "water_closet", (100.0, 20.0)),),
        drains=(Drain("d", ((100.0, 20.0), (60.0, 20.0), (0.0, 20.0)), size="3"),),
        risers=(Riser("r1", (60.0, 20.0)),),
        exits=(Exit("x1", (0.0, 20.0)),),
    )
    for book, least in (("irc-2021", 1.5), ("upc-2021", 2.0)):
        vents = {pipe.size for pipe in ask(plan, book).model.network.pipes if pipe.system == "vent"}
        assert min(vents) >= least
        if book == "irc-2021":
            assert vents == {1.5}


def test_an_enlarged_pipe_earns_no_longer_arm() -> None:
    """The limit goes by the trap: a 1-1/2 in trap on 3 in pipe has 72 in (IRC), 42 in (UPC)."""
    plan = floor(
        fixtures=(Fixture("bt", "bathtub", (100.0, 40.0), trap_at=(100.0, 40.0)),),
        drains=(run((100.0, 40.0), (20.0, 40.0), (0.0, 40.0), size="3"),),
        risers=(Riser("r1", (20.0, 40.0)),),
        exits=leaving((0.0, 40.0)),
    )
    for book, limit in (("irc-2021", 72.0), ("upc-2021", 42.0)):
        (found,) = said(ask(replace(plan), book), "trap-too-far-from-vent")
        assert found.limit == limit
