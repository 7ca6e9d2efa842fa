"""Studs as they are laid out: none missing, none in another's place, the spacing kept."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.framing.studs import stand
from engine.plan.records import JoistShift, Wall

quick = settings(max_examples=150, deadline=None)


def laid(length: float, **given: object) -> list[float]:
    return [stud.centre for stud in stand(Wall("w", (0.0, 0.0), (length, 0.0), **given), 0.75).studs]  # type: ignore[arg-type]


def test_an_eight_foot_wall_at_sixteen_inches() -> None:
    assert laid(96.0) == [0.75, 16.0, 32.0, 48.0, 64.0, 80.0, 95.25]


def test_the_first_stud_sets_all_others_even_past_one_spacing() -> None:
    assert laid(60.0, first_stud=20.0) == [0.75, 4.0, 20.0, 36.0, 52.0, 59.25]


def test_plates_and_height() -> None:
    wood = stand(Wall("w", (0.0, 0.0), (0.0, 96.0)), 0.75)
    assert (wood.sole, wood.plates) == ((0.75, 2.25), (94.875, 97.875))
    single = stand(Wall("w", (0.0, 0.0), (0.0, 96.0), height=80.0, top_plate="single"), 0.75)
    assert single.plates == (79.25, 80.75)
    # north-south: west is to the left
    assert wood.where((-1.0, 30.0)) == (30.0, 1.0)
    assert wood.at(30.0, 1.0) == (-1.0, 30.0)


def test_a_doubled_stud_has_its_second_beyond_it_and_the_last_before() -> None:
    studs = stand(Wall("w", (0.0, 0.0), (96.0, 0.0), doubled=(1, 6)), 0.75).studs
    assert [(stud.low, stud.high) for stud in studs if stud.doubled] == [(15.25, 18.25), (93.0, 96.0)]


def test_a_stud_moves_as_it_is_told() -> None:
    assert laid(96.0, stud_shifts=(JoistShift(2, -1.5),))[2] == 30.5


walls = st.builds(
    lambda length, spacing, first, doubled: Wall(
        "w", (0.0, 0.0), (length, 0.0), stud_spacing=spacing, first_stud=first, doubled=doubled
    ),
    st.floats(3.0, 480.0),
    st.floats(6.0, 48.0),
    st.none() | st.floats(0.75, 96.0),
    st.lists(st.integers(0, 12), max_size=4).map(tuple),
)


@quick
@given(walls)
def test_none_overlap_and_none_are_missing(wall: Wall) -> None:
    studs = stand(wall, 0.75).studs
    length = wall.end[0]
    assert studs[0].low == 0.0 and studs[-1].high == pytest.approx(length)
    assert [stud.number for stud in studs] == list(range(len(studs)))
    for one, after in pairwise(studs):
        assert one.high <= after.low + 1e-6
        assert after.centre - one.centre <= wall.stud_spacing + 1.5 + 1e-6
    commons = [stud.centre for stud in studs if stud.kind == "common"]
    for a, b in pairwise(commons):
        assert b - a == pytest.approx(wall.stud_spacing)
    assert all(stud.high - stud.low == pytest.approx(3.0 if stud.doubled else 1.5) for stud in studs)
