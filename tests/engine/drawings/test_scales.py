"""The largest architect's scale that fits. Fits worked by hand: a floor of 8.5 x 24 ft is 4.25 x 12 in at 1/2 scale."""

from __future__ import annotations

import pytest

from engine.drawings.scales import STANDARD, largest


@pytest.mark.parametrize(
    ("paper", "ratio"),
    [
        ((16.0, 9.0), 24.0),  # 12 x 4.25 at 1/2 in
        ((10.0, 6.0), 32.0),  # 9 x 3.19 at 3/8 in
        ((8.0, 6.0), 48.0),  # 6 x 2.13 at 1/4 in
        ((12.0, 4.25), 24.0),  # exactly
        ((11.99, 4.25), 32.0),
    ],
)
def test_the_largest_that_fits(paper: tuple[float, float], ratio: float) -> None:
    assert largest(24 * 12.0, 8.5 * 12.0, *paper).ratio == ratio


def test_names_say_the_ratio() -> None:
    # 1/4 in on paper is 12 in of floor: 48 to 1
    assert {scale.name: scale.ratio for scale in STANDARD}['1/4" = 1\'-0"'] == 48.0
    assert [scale.ratio for scale in STANDARD] == sorted(scale.ratio for scale in STANDARD)


def test_what_fits_no_standard_scale_is_drawn_all_the_same_and_says_so() -> None:
    scale = largest(24_000.0, 24_000.0, 10.0, 7.0)
    assert 24_000.0 / scale.ratio <= 7.0
    assert scale.name == "1 : 4000 (no standard scale)"
