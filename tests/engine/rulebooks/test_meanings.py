"""Every value of a book can be told in plain words, and found by them."""

from __future__ import annotations

import re

import pytest

from engine.rulebooks import load, means, names
from engine.rulebooks.meaning import explained, row_words, table_of


@pytest.mark.parametrize("name", names())
def test_every_value_on_the_shelf_is_explained(name: str) -> None:
    assert sorted({table_of(value.key) for value in load(name)} - explained()) == []


def test_nothing_is_explained_that_no_book_has() -> None:
    assert sorted(explained() - {table_of(value.key) for name in names() for value in load(name)}) == []


@pytest.mark.parametrize("name", names())
def test_no_two_values_are_called_the_same(name: str) -> None:
    words = [means(value.key) for value in load(name)]
    assert sorted({word for word in words if words.count(word) > 1}) == []


@pytest.mark.parametrize("name", names())
def test_a_yes_or_no_is_asked_with_whether(name: str) -> None:
    for value in load(name):
        assert means(value.key).startswith("whether") == (value.unit == "yes/no"), value.key
        assert re.fullmatch(r"[A-Za-z0-9 ',()./-]+", means(value.key)), value.key


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("trap_arm.length.2", "farthest from a trap's weir to its vent (2 in)"),
        ("cleanout.size.2-1/2", "least size of a cleanout (2-1/2 in)"),
        ("dfu.washer_standpipe", "fixture units of a fixture (washer standpipe)"),
        ("fitting.wye.horizontal_to_vertical", "where a wye may turn the flow (from level to plumb)"),
        ("load.building_drain.1/4.3", "most fixture units on a building drain that falls 1/4 in per ft (3 in)"),
        ("trap.takes.kitchen_sink.dishwasher", "whether this may drain through a kitchen sink's trap (dishwasher)"),
        ("made_up.by_another.book", "made up: by another: book"),
    ],
)
def test_a_row_is_told_after_its_table(key: str, words: str) -> None:
    assert means(key) == words


def test_a_slope_is_no_size() -> None:
    assert (row_words("3"), row_words("1/4"), row_words("under_3")) == ("3 in", "1/4", "under 3")
