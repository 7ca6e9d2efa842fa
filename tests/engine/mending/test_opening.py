"""What opens an empty exit window, against sums by hand.

The small cottage by the UPC: a closet asks for a long sweep, so its bend lies at 0.5 - 3 - 4.0625 = -6.5625 or lower,
which is 80 in of main at 1/4 in per foot over the exit: the exit at -8.2292. Its lavatory's branch meets the main 56 in
above the exit and 12 in on crosses joist f1.2, whose bore of 2-1/8 in wants its axis at 2 - 9.25 + 1.0625 = -6.1875 or
higher: (56 + 12) / 48 = 1.4167 over the exit, which is then at -7.6042. They exclude each other by 0.625 in.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.mending.heights import is_open
from engine.mending.opening.excluding import exclusion
from engine.mending.opening.quick import windows_of
from engine.mending.opening.ways import LOOKS, openings_of
from engine.mending.trying import after_it
from engine.plan.edits import set_field, set_fields
from engine.plan.file import read
from engine.plan.records import Plan
from engine.study import Study, study

SHUT = Path(__file__).parent / "shut"
"""Cottages judged by the UPC whose exit windows are empty."""


def cottage(name: str) -> Plan:
    return read(SHUT / f"{name}.jway")


@pytest.fixture(scope="module")
def shut() -> Study:
    return study(cottage("small-cottage"))


def test_the_two_limits_that_exclude_each_other_with_their_ways(shut: Study) -> None:
    (window,) = shut.model.windows
    out = exclusion(shut, window)
    assert out is not None
    assert out.apart == pytest.approx(0.625)
    assert (out.low.joist, out.low.run, out.high.bound.element) == ("f1.2", "d2", "wc1")
    assert out.low.lengths == pytest.approx({"d2": 12.0, "d1": 56.0})
    assert out.high.lengths == pytest.approx({"d1": 80.0})


def test_the_slope_that_the_sum_asks_for(shut: Study) -> None:
    """12 in of branch must rise 0.625 in more: 0.25 + 0.625 = 7/8 in per foot; 1/8 in of room asks for 1 in per foot."""
    ideas = {idea.words: idea for idea in openings_of(shut, "x1")}
    opened = {}
    for slope in ("7/8", "1"):
        idea = ideas[f"Give d2 a slope of {slope} in per foot"]
        window = next(one for one in windows_of(idea.make()) if one.exit == "x1")
        opened[slope] = (window.high or 0.0) - (window.low or 0.0)
        assert idea.gains is not None
        assert idea.gains(windows_of(idea.make())) == (
            "one height serves" if slope == "7/8" else "the window opens to 1/8 in"
        )
    assert opened == pytest.approx({"7/8": 0.0, "1": 0.125})


def test_deeper_lumber_lowers_the_bore_by_what_it_is_deeper(shut: Study) -> None:
    """A 2x12 is 2 in deeper: the bore may lie 2 in lower, and the window opens by 2 - 0.625 in."""
    idea = next(one for one in openings_of(shut, "x1") if one.words.startswith("Frame f1 with 2x12"))
    window = next(one for one in windows_of(idea.make()) if one.exit == "x1")
    assert (window.high or 0.0) - (window.low or 0.0) == pytest.approx(1.375)
    assert idea.gains is not None
    assert idea.gains((window,)) == "the window opens to 1 3/8 in"


def test_a_branch_that_is_let_down_onto_its_main_no_longer_holds_the_exit_up(shut: Study) -> None:
    words = [idea.words for idea in openings_of(shut, "x1")]
    assert any(one.startswith("Roll d2 up from its main by 22.5 degrees") for one in words)


@pytest.mark.parametrize("name", ["small-cottage", "larger-cottage", "cottage-with-mistakes"])
def test_whatever_is_told_to_open_a_window_does(name: str) -> None:
    before = study(cottage(name))
    empty = [window for window in before.model.windows if window.exit is not None and not is_open(window)]
    assert empty
    for window in empty:
        assert window.exit is not None
        ideas = list(openings_of(before, window.exit))
        assert ideas
        assert len(ideas) <= LOOKS
        for idea in ideas:
            after = after_it(before, idea)
            assert after is not None, idea.words
            mine = next(one for one in after.windows if one.exit == window.exit)
            assert is_open(mine), idea.words


def test_two_changes_where_none_does_alone() -> None:
    """The larger cottage lacks 2.01 in: 2x12 gives 2 in, and 12 in of branch at 7/16 in per foot 0.1875 in more."""
    before = study(cottage("larger-cottage"))
    ideas = {idea.words: idea for idea in openings_of(before, "x1")}
    idea = ideas["Frame f1 with 2x12, and give d4 a slope of 7/16 in per foot"]
    window = next(one for one in windows_of(idea.make()) if one.exit == "x1")
    assert (window.high or 0.0) - (window.low or 0.0) == pytest.approx(2.0 + 0.1875 - 2.0104, abs=1e-3)


def test_an_open_window_needs_nothing(shut: Study) -> None:
    lawful = study(set_field(shut.plan, "d2", "slope", 1.0))
    assert list(openings_of(lawful, "x1")) == []
    assert list(openings_of(shut, "x9")) == []


def test_a_pinned_exit_is_let_go_of_with_it(shut: Study) -> None:
    held = study(set_fields(shut.plan, "x1", pinned_z=-7.0))
    ideas = list(openings_of(held, "x1"))
    assert ideas and all("leave the height of x1 to the program" in idea.words for idea in ideas)
    assert all(idea.make().exits[0].pinned_z is None or "pin x1" in idea.words for idea in ideas)


def test_the_windows_alone_are_those_of_the_study(shut: Study) -> None:
    assert windows_of(shut.plan) == shut.model.windows
