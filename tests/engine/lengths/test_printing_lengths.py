"""Lengths as a drawing shows them: feet-inches with the zero kept, sixteenths, limits to the safe side."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.lengths import down, feet_inches, inches, metric, mixed, nearest, up


@pytest.mark.parametrize(
    ("x", "shown"),
    # Nearest 1/16, worked by hand: 0.03 x 16 = 0.48 -> 0; 0.04 x 16 = 0.64 -> 1; 11.97 x 16 = 191.5 -> 192 = 1 ft
    [
        (0.03, '0"'),
        (0.04, '1/16"'),
        (7.25, '7 1/4"'),
        (11.96, '11 15/16"'),
        (11.97, "1'-0\""),
        (54.5, "4'-6 1/2\""),
        (120, "10'-0\""),
        (12.0625, "1'-0 1/16\""),
        (-7.25, '-7 1/4"'),
        (-12.0625, "-1'-0 1/16\""),
        (-0.01, '0"'),
    ],
)
def test_feet_and_inches(x: float, shown: str) -> None:
    assert feet_inches(x) == shown


def test_inches_are_bare_and_in_lowest_terms() -> None:
    assert inches(65.8906) == "65 7/8"
    assert inches(6.125) == "6 1/8"
    assert inches(54.5) == "54 1/2"
    assert inches(0.0) == "0"
    assert mixed(1.5, joint="-") == "1-1/2"
    assert inches(1 / 64, 64) == "1/64"


def test_limits_are_rounded_to_the_safe_side() -> None:
    # A third of 7.25 is 2.4167: 2-7/16 would be over the limit, so 2-3/8 is shown (IRC R502.8.1)
    assert down(7.25 / 3) == 2.375
    assert down(9.25 / 3) == 3.0625
    assert up(2.4167) == 2.4375
    assert down(3.75) == up(3.75) == 3.75


def test_a_sum_of_floats_that_lies_on_a_mark_stays_there() -> None:
    assert down(0.1 + 0.2 + 0.7) == 1.0
    assert up(0.1 * 3 + 0.7) == 1.0


@given(st.floats(-1e5, 1e5), st.sampled_from([8, 16, 32]))
def test_rounding_keeps_its_side_and_never_moves_a_whole_mark(x: float, denominator: int) -> None:
    assert down(x, denominator) <= x + 1e-8
    assert up(x, denominator) >= x - 1e-8
    assert x - down(x, denominator) < 1 / denominator
    assert up(x, denominator) - x < 1 / denominator
    assert down(x, denominator) <= nearest(x, denominator) <= up(x, denominator)


@given(st.integers(-(10**6), 10**6))
def test_a_mark_is_left_alone(sixteenths: int) -> None:
    x = sixteenths / 16
    assert down(x) == up(x) == nearest(x) == x
    assert math.copysign(1.0, nearest(0.0 * x)) == 1.0


def test_metric_is_for_display() -> None:
    assert metric(3.5) == "89 mm"
    assert metric(120) == "3.048 m"
    assert metric(39.37) == "1.000 m"
