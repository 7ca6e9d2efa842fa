"""The least circle round several circles, against sums by hand and against every other middle."""

import math

import hypothesis.strategies as st
import pytest
from hypothesis import given, settings

from engine.crossings.circles import Circle, least_round

measure = st.integers(-64, 64).map(lambda n: n / 16)
circles = st.lists(
    st.builds(Circle, measure, measure, st.integers(1, 32).map(lambda n: n / 16)), min_size=1, max_size=9
)


def test_one_is_its_own() -> None:
    assert least_round([Circle(1.0, 2.0, 0.5)]) == Circle(1.0, 2.0, 0.5)


def test_one_within_another_counts_for_nothing() -> None:
    assert least_round([Circle(0.25, 0.0, 0.5), Circle(0.0, 0.0, 1.0)]) == Circle(0.0, 0.0, 1.0)


def test_two_of_two_widths() -> None:
    # from -1 to 3 + 2 = 5: 6 wide, its middle at 2
    assert least_round([Circle(0.0, 0.0, 1.0), Circle(3.0, 0.0, 2.0)]) == Circle(2.0, 0.0, 3.0)


def test_three_round_a_middle() -> None:
    # the middle of a right triangle 6 by 8 is 5 from each corner
    found = least_round([Circle(0.0, 0.0, 1.0), Circle(6.0, 0.0, 1.0), Circle(0.0, 8.0, 1.0)])
    assert found == pytest.approx(Circle(3.0, 4.0, 6.0))


def test_nothing_has_none() -> None:
    with pytest.raises(ValueError, match="expected a circle"):
        least_round([])


@settings(max_examples=300, deadline=None)
@given(circles)
def test_it_holds_all_and_no_middle_does_with_less(given_: list[Circle]) -> None:
    found = least_round(given_)
    assert max(map(found.reach, given_)) == pytest.approx(found.radius, abs=1e-7)
    for n in range(16):
        for step in (1e-3, 0.1, 1.0):
            angle = math.pi * n / 8
            other = Circle(found.x + step * math.cos(angle), found.y + step * math.sin(angle), 0.0)
            assert max(map(other.reach, given_)) >= found.radius - 1e-7
    assert least_round(given_[::-1]) == pytest.approx(found, abs=1e-6)
