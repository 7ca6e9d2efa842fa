"""What one fixture gives the drains: IRC 2021 Table P3004.1 (rows from memory but for those said to be read) and UPC 2021
Table 702.1 (a county's excerpt)."""

from __future__ import annotations

from typing import Any

import pytest

from engine.piping.fixture_units import units_of
from engine.plan.records import Amendment, Fixture
from engine.rulebooks import load

BOTH = ("irc-2021", "upc-2021")


def units(book: str, kind: str, **given: Any) -> float | None:
    found = units_of(load(book), Fixture("f1", kind, (0.0, 0.0), **given))  # type: ignore[arg-type]
    return None if found is None else found.units


@pytest.mark.parametrize(
    ("kind", "irc", "upc"),
    [
        ("water_closet", 3, 3),
        ("lavatory", 1, 1),
        ("bathtub", 2, 2),
        ("shower", 2, 2),
        ("kitchen_sink", 2, 2),
        ("washer_standpipe", 2, 3),
        ("bar_sink", 1, 1),
        ("laundry_tub", 2, 2),
        ("dishwasher", 2, 2),
        ("bidet", 1, 1),
        ("floor_drain", 0, 2),
    ],
)
def test_single_fixtures(kind: str, irc: float, upc: float) -> None:
    assert (units("irc-2021", kind), units("upc-2021", kind)) == (irc, upc)


@pytest.mark.parametrize("book", BOTH)
@pytest.mark.parametrize(("gallons", "given"), [(None, 3), (1.28, 3), (1.6, 3), (1.625, 4), (3.5, 4)])
def test_a_closet_by_its_flush(book: str, gallons: float | None, given: float) -> None:
    """To 1.6 gal a flush 3 units, over it 4 (IPC 709.1 in an exam page; UPC in a public answer on shared vents)."""
    assert units(book, "water_closet", gallons=gallons) == given


def test_a_shower_s_further_heads() -> None:
    """IRC: six heads count 6 x 2 = 12 ("shower with six heads"). UPC: 2 and 1 for each further head: 2 + 5 = 7."""
    assert [units("irc-2021", "shower", heads=n) for n in (1, 2, 6)] == [2, 4, 12]
    assert [units("upc-2021", "shower", heads=n) for n in (1, 2, 6)] == [2, 3, 7]


def test_a_bidet_on_a_larger_trap_counts_two_by_the_uniform_code() -> None:
    assert [units("upc-2021", "bidet", trap=size) for size in ("1-1/4", "1-1/2")] == [1, 2]
    assert [units("irc-2021", "bidet", trap=size) for size in ("1-1/4", "1-1/2")] == [1, 1]


def test_a_dishwasher_on_the_sink_s_trap() -> None:
    """UPC: the sink counts 2 with or without it. IRC: 2 of its own, and the kitchen group takes them together."""
    assert units("upc-2021", "dishwasher", through="ks") == 0
    assert units("irc-2021", "dishwasher", through="ks") == 2


def test_what_drains_nothing_has_no_units() -> None:
    assert units("irc-2021", "water_heater") is None


def test_an_amended_row() -> None:
    book = load("irc-2021", (Amendment("dfu.washer_standpipe", 3, said_by="the county", on="2026-01-05"),))
    found = units_of(book, Fixture("wm", "washer_standpipe", (0.0, 0.0)))
    assert found is not None and (found.units, found.key) == (3, "dfu.washer_standpipe")
