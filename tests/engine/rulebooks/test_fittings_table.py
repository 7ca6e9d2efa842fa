"""Table P3005.1 whole, as printed in the International Residential Code 2012, section P3005 (unchanged in 2021)."""

import pytest

from engine.rulebooks import load

CHANGES = ("horizontal_to_vertical", "vertical_to_horizontal", "horizontal_to_horizontal")

PRINTED = {
    # pattern: horizontal to vertical, vertical to horizontal, horizontal to horizontal
    "sixteenth_bend": ("yes", "yes", "yes"),
    "eighth_bend": ("yes", "yes", "yes"),
    "sixth_bend": ("yes", "yes", "yes"),
    "quarter_bend": ("yes", "a", "a"),
    "short_sweep": ("yes", "ab", "a"),
    "long_sweep_quarter_bend": ("yes", "yes", "yes"),
    "sanitary_tee": ("c", "no", "no"),
    "wye": ("yes", "yes", "yes"),
    "combo_wye_eighth_bend": ("yes", "yes", "yes"),
}


@pytest.mark.parametrize(("pattern", "change"), [(pattern, change) for pattern in PRINTED for change in CHANGES])
def test_each_cell(pattern: str, change: str) -> None:
    book, key = load("irc-2021"), f"fitting.{pattern}.{change}"
    assert book.text(key) == PRINTED[pattern][CHANGES.index(change)]
    assert book.cite(key) == "IRC 2021 Table P3005.1"
    assert book.value(key).choices == ("yes", "no", "a", "ab", "c")


def test_the_table_has_no_other_cell() -> None:
    book = load("irc-2021")
    cells = [key for key in book.keys("fitting") if key.rsplit(".", 1)[-1] in CHANGES]
    assert len(cells) == len(PRINTED) * len(CHANGES) == 27


def test_its_footnotes() -> None:
    """a: fixture drains of 2 in or smaller; b: 3 in and larger; c: double patterns by P3005.1.1."""
    book = load("irc-2021")
    assert book.number("fitting.note_a.largest_fixture_drain") == 2
    assert book.number("fitting.note_b.least") == 3
    assert book.flag("fitting.note_c.double_takes_closets") is False
    assert book.number("fitting.double_sanitary_tee.closet_run_least") == 18


def test_the_exception_under_a_closet_is_marked_as_memory() -> None:
    """P3005.1.4: a 3 in quarter bend under a closet, its section number from memory."""
    value = load("irc-2021").value("closet.quarter_bend_under_flange")
    assert value.value is True
    assert value.standing == "memory"
    assert load("irc-2021").number("closet.least_drain") == 3
