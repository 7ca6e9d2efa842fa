"""A line that is too long is shortened where it says what its neighbours say too."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.panels.eliding import CUT, apart, elided

TRAPS = (
    "Trap below joists: The trap of shower hangs 2 3/8 in below the joists, where frost and knocks reach it.",
    "Trap below joists: The trap of second shower hangs 1 in below the joists, where frost and knocks reach it.",
    "Runs uphill: d3 rises 0.125 in per foot the way the water goes.",
)


def test_the_stretch_that_tells_a_text_apart_is_found_in_whole_words() -> None:
    first, second, alone = apart(TRAPS)
    assert TRAPS[0][slice(*first)] == "shower hangs 2 3/8"
    assert TRAPS[1][slice(*second)] == "second shower hangs 1"
    assert alone == (0, 0)


@pytest.mark.parametrize("width", [90, 60, 45, 36])
def test_what_differs_stays_and_the_rest_is_cut(width: int) -> None:
    for text, keep in zip(TRAPS[:2], apart(TRAPS)[:2], strict=True):
        shown = elided(text, keep, width, len)
        assert len(shown) <= width
        assert text[slice(*keep)] in shown
        assert CUT in shown


def test_where_all_differs_the_beginning_stays() -> None:
    text = "Bores close together: No wood is left between the bores for s1 and s2 in joist j1.4."
    assert elided(text, (22, len(text)), 50, len) == text[:49] + CUT


def test_a_text_that_stands_alone_is_cut_in_the_middle() -> None:
    assert elided(TRAPS[2], (0, 0), 30, len) == "Runs uphill: d3 …e water goes."


def test_what_fits_is_left_alone() -> None:
    assert elided("short", (0, 0), 5, len) == "short"


def test_no_letter_of_a_short_beginning_is_said_twice() -> None:
    assert elided("0000000abcdefg", (7, 8), 13, len) == "0000000a" + CUT


@given(st.text(max_size=60), st.data(), st.integers(3, 70))
def test_it_never_gets_too_long_nor_adds_anything(text: str, data: st.DataObject, width: int) -> None:
    start = data.draw(st.integers(0, len(text)))
    end = data.draw(st.integers(start, len(text)))
    shown = elided(text, (start, end), width, len)
    assert len(shown) <= max(width, len(text) if len(text) <= width else 2)
    if CUT not in text:
        parts = iter(text)
        assert all(letter in parts for letter in shown if letter != CUT)
