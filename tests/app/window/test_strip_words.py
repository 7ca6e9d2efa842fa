"""Heights on the strip in words: limits to the safe side, each field counted its own way."""

from __future__ import annotations

import pytest

from app.strip.wording import height, limit, measure, shown, tape, value_of
from engine.takeoff.levers import Lever


def held(field: str, z: float, low: float | None, high: float | None, zero: float = 0.0) -> Lever:
    words = {"pinned_z": "exit x1", "rise": "d2 over its main", "down": "water line c1"}[field]
    sign = -1.0 if field == "down" else 1.0
    return Lever(field, ("e1",), words, False, (), 0.0, z, zero, sign, low, high, "above", "below")  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("lever", "now", "highest", "lowest"),
    [
        # depths count down: the highest is rounded to a greater depth, the lowest to a lesser (worked by hand)
        (held("pinned_z", -7.427, -7.625, -7.2292), "7 7/16 in down at exit x1", "7 1/4", "7 5/8"),
        (held("down", -6.0, -6.34, -2.91), "6 in down at water line c1", "2 15/16", "6 5/16"),
        # a climb counts up: the highest is rounded down, the lowest up
        (held("rise", 2.0, 1.03, 3.04, zero=-6.0), "8 in over its main", "9", "7 1/16"),
        (held("pinned_z", -5.0, None, -4.4), "5 in down at exit x1", "4 7/16", "no limit"),
        # no sixteenth lies between them: in decimals
        (held("pinned_z", -6.025, -6.04, -6.01), "6 in down at exit x1", "6.010", "6.040"),
    ],
)
def test_limits_are_rounded_inward(lever: Lever, now: str, highest: str, lowest: str) -> None:
    assert (height(lever), limit(lever, "high"), limit(lever, "low")) == (now, highest, lowest)


@pytest.mark.parametrize("field", ["pinned_z", "rise", "down"])
def test_what_is_read_comes_back(field: str) -> None:
    lever = held(field, -5.25, None, None, zero=-8.0 if field == "rise" else 0.0)
    assert value_of(lever, shown(lever, -5.25)) == -5.25
    assert tape(lever, -5.25) == ("2 3/4" if field == "rise" else "5 1/4")


def test_a_height_off_the_tape_is_told_in_decimals() -> None:
    assert measure(held("pinned_z", -6.0208, None, None), -6.0208) == "6.021"
