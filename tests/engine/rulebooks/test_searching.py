"""Any value is found by plain words: those that it is told in, and others that people have for the same."""

from __future__ import annotations

import pytest

from engine.rulebooks import load, means, names
from engine.rulebooks.searching import search


def keys(book: str, words: str) -> list[str]:
    return [value.key for value in search(load(book), words)]


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("trap arm 2 in", "trap_arm.length.2"),
        ("how far is a 1-1/2 trap from its vent", None),
        ("farthest trap vent 1-1/2", "trap_arm.length.1-1/2"),
        ("AAV", "valve.above_branch"),
        ("admittance accepted", "valve.allowed"),
        ("toilet least drain", "closet.least_drain"),
        ("slope 3", "slope.least.3"),
        ("pitch 3", "slope.least.3"),
        ("P3105.1 3", "trap_arm.length.3"),
        ("cleanout clear room", "cleanout.clear.1-1/4"),
        ("fixture units washer", "dfu.washer_standpipe"),
        ("vent roof", "vent.roof_above"),
        ("joist hole", "joist.bore.fraction"),
        ("wet vent closet last", "wet_vent.closet_last"),
        ("xylophone", None),
    ],
)
def test_by_words(words: str, first: str | None) -> None:
    found = keys("irc-2021", words)
    assert (found[0] if found else None) == first, found[:5]


def test_what_stands_only_in_the_other_book_is_found_there() -> None:
    assert keys("upc-2021", "closet vent distance")[0].startswith("trap_arm.closet")
    assert "trap_arm.closet_length.3" not in keys("irc-2021", "closet vent distance")


def test_no_words_find_everything_in_the_book_s_order() -> None:
    assert keys("irc-2021", "  ") == list(load("irc-2021").keys())


@pytest.mark.parametrize("name", names())
def test_every_value_is_found_by_the_words_that_it_is_told_in(name: str) -> None:
    for value in load(name):
        found = [one.key for one in search(load(name), means(value.key))]
        assert value.key in found[:3], (value.key, found[:3])
