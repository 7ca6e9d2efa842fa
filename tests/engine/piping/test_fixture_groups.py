"""Fixture groups: IRC 2021 Table P3004.1. Full-bath group 5, kitchen group 2 and 3-1/2 baths 11 were read in exam pages,
the others are from memory. The UPC adds fixtures up."""

from __future__ import annotations

import random
import time
from itertools import permutations

import pytest

from engine.piping.fixture_units import Units, units_of
from engine.piping.groups import Grouping, Load
from engine.plan.records import Amendment, Fixture
from engine.rulebooks import load

WC, LAV, TUB, SHOWER = "water_closet", "lavatory", "bathtub", "shower"
BATH = (WC, LAV, TUB)
OLD = "old closet"
"""A closet that takes 3.5 gal a flush."""


def members(*kinds: str, book: str = "irc-2021") -> list[Units]:
    found = []
    for number, kind in enumerate(kinds):
        gallons = 3.5 if kind == OLD else None
        one = Fixture(f"f{number}", WC if kind == OLD else kind, (0.0, 0.0), gallons=gallons)  # type: ignore[arg-type]
        units = units_of(load(book), one)
        assert units is not None
        found.append(units)
    return found


def together(*kinds: str, book: str = "irc-2021", amended: tuple[Amendment, ...] = ()) -> Load:
    return Grouping(load(book, amended)).load(members(*kinds, book=book))


@pytest.mark.parametrize(
    ("kinds", "load", "alone"),
    [
        # one bath
        (BATH, 5, 6),
        ((WC, LAV, SHOWER), 5, 6),
        ((WC, LAV), 4, 4),
        ((WC, TUB), 5, 5),
        ((LAV, TUB), 3, 3),
        # a tub and a shower: the group counts one of them, 5 + 2
        ((*BATH, SHOWER), 7, 8),
        # a second lavatory: 5 + 1
        ((*BATH, LAV), 6, 7),
        ((*BATH, "bidet"), 6, 7),
        # a closet over 1.6 gal: 6, half bath 5
        ((OLD, LAV, TUB), 6, 7),
        ((OLD, LAV), 5, 5),
        # several: 1-1/2, 2, 2-1/2, 3, 3-1/2 baths
        ((*BATH, WC, LAV), 7, 10),
        (BATH * 2, 8, 12),
        ((*BATH * 2, WC, LAV), 9, 16),
        (BATH * 3, 10, 18),
        ((*BATH * 3, WC, LAV), 11, 22),
        # 2 for each further full bath
        (BATH * 4, 12, 24),
        ((*BATH * 5, WC, LAV), 15, 34),
        # two closets with three lavatories and one tub: 1-1/2 baths and a lavatory, 7 + 1
        ((WC, WC, LAV, LAV, LAV, TUB), 8, 11),
        # two closets with one lavatory: a full bath and a closet, 5 + 3
        ((WC, WC, LAV, TUB), 8, 9),
        # two half baths have no row together: 4 + 4
        ((WC, LAV, WC, LAV), 8, 8),
        # an old closet is in no row of several baths: 5 + 6
        ((*BATH, OLD, LAV, TUB), 11, 13),
        # kitchen and laundry
        (("kitchen_sink", "dishwasher"), 2, 4),
        (("kitchen_sink",), 2, 2),
        (("washer_standpipe", "laundry_tub"), 3, 4),
        (("washer_standpipe", "laundry_tub", "laundry_tub"), 5, 6),
        # the whole of a small house: 5 + 2 + 3
        ((*BATH, "kitchen_sink", "dishwasher", "washer_standpipe", "laundry_tub"), 10, 14),
        ((), 0, 0),
    ],
)
def test_what_fixtures_give_together(kinds: tuple[str, ...], load: float, alone: float) -> None:
    found = together(*kinds)
    assert (found.units, found.alone) == (load, alone)


def test_plumbing_exam_flashcards() -> None:
    """Kitchen sink 2, laundry sink 2, bathtub 2, lavatory 1, closet of 1.6 gal 3: 10 in all (plumbing exam flashcards,
    UPC values). With the IRC's groups: full bath 5, sink 2, laundry tub 2: 9 (worked by hand)."""
    kinds = ("kitchen_sink", "laundry_tub", TUB, LAV, WC)
    assert together(*kinds, book="upc-2021").units == 10
    assert together(*kinds).units == 9


def test_a_tiny_house_by_the_uniform_code() -> None:
    """Closet, lavatory, shower, kitchen, washer: 3 + 1 + 2 + 2 + 3 = 11 (worked by hand)."""
    assert together(WC, LAV, SHOWER, "kitchen_sink", "washer_standpipe", book="upc-2021").units == 11


def test_a_group_is_never_less_than_its_largest_member() -> None:
    heads = Fixture("sh", SHOWER, (0.0, 0.0), heads=6)
    six = units_of(load("irc-2021"), heads)
    assert six is not None
    # the group counts a shower of one head, 5; the other five heads come on top: 5 + 10
    assert Grouping(load("irc-2021")).load([*members(WC, LAV), six]).units == 15
    low = (Amendment("dfu.group.full_bath", 1, said_by="the county", on="2026-01-05"),)
    assert together(*BATH, amended=low).units == 3


def test_an_amended_group_that_gives_no_less_is_not_used() -> None:
    dear = (Amendment("dfu.group.kitchen", 9, said_by="the county", on="2026-01-05"),)
    assert together("kitchen_sink", "dishwasher", amended=dear).units == 4


def test_said_in_words() -> None:
    assert together(WC, LAV, TUB).told == "full-bath group 5, in place of 3 + 1 + 2 = 6"
    assert (
        together(WC, LAV, TUB, "kitchen_sink").told == "full-bath group 5, in place of 3 + 1 + 2 = 6; with 2: 7 in all"
    )
    assert together(WC, LAV).told == "half-bath group 4, in place of 3 + 1 = 4"
    assert together(LAV, TUB).told == "1 + 2 = 3"
    assert together(LAV).told == "1"
    several = together(*BATH, WC, LAV).told
    assert several == "group of 1-1/2 baths 7, in place of 3 + 3 + 1 + 1 + 2 = 10"


def test_the_order_of_the_fixtures_does_not_matter() -> None:
    kinds = (WC, LAV, TUB, WC, LAV, SHOWER)
    assert {together(*order).units for order in permutations(kinds)} == {8}


def _least_by_trying(kinds: list[str]) -> float:
    """The least load by trying every number of full and half baths, from the table's rows."""
    several = {(1, 1): 7, (2, 0): 8, (2, 1): 9, (3, 0): 10, (3, 1): 11, (4, 0): 12, (4, 1): 13, (5, 0): 14, (5, 1): 15}
    closets, lavatories = kinds.count(WC), kinds.count(LAV)
    bathing = kinds.count(TUB) + kinds.count(SHOWER)
    best = float("inf")
    for full in range(min(closets, lavatories, bathing) + 1):
        for half in range(min(closets, lavatories) - full + 1):
            rest = 3 * (closets - full - half) + (lavatories - full - half) + 2 * (bathing - full)
            best = min(best, 5 * full + 4 * half + rest)
            for (many, halves), units in several.items():
                if many <= full and halves <= half:
                    best = min(best, units + 5 * (full - many) + 4 * (half - halves) + rest)
    return best


def test_no_other_counting_gives_less() -> None:
    draw = random.Random(4)
    for _ in range(400):
        kinds = draw.choices((WC, LAV, TUB, SHOWER), k=draw.randint(0, 14))
        if min(kinds.count(WC), kinds.count(LAV)) > 5:
            continue
        assert together(*kinds).units == _least_by_trying(kinds), kinds


def test_a_hundred_baths_are_counted_at_once() -> None:
    start = time.perf_counter()
    # 10 for three baths and 2 for each of the other 97
    assert together(*BATH * 100).units == 204
    assert time.perf_counter() - start < 0.25
