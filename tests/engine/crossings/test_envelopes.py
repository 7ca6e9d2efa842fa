"""Rectangles that touch, found the same way by both ways of asking, and as shapely finds them pair by pair."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given
from hypothesis import strategies as st

from engine.crossings import envelopes
from engine.crossings.envelopes import touching

place = st.integers(0, 60).map(lambda n: n / 4.0)
boxes = st.lists(st.tuples(place, place, place, place), min_size=1, max_size=12).map(
    lambda found: tuple(np.array([(x, y, x + wide, y + high) for x, y, wide, high in found]).T)
)


@given(boxes, boxes)
def test_both_ways_find_what_shapely_finds(some: envelopes.Envelopes, others: envelopes.Envelopes) -> None:
    one, other = shapely.box(*some), shapely.box(*others)
    wanted = {(i, j) for i, a in enumerate(one) for j, b in enumerate(other) if shapely.intersects(a, b)}
    found = {}
    for few in (0, envelopes.FEW):
        before, envelopes.FEW = envelopes.FEW, few
        try:
            first, second = touching(some, others)
        finally:
            envelopes.FEW = before
        assert len(first) == len(wanted)
        found[few] = set(zip(first.tolist(), second.tolist(), strict=True))
    assert all(pairs == wanted for pairs in found.values())
