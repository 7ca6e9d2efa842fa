"""Studs laid out: none missing, none overlapping, the spacing kept, wherever a wall lies; and the pipes that meet them."""

from __future__ import annotations

import math
from itertools import pairwise

from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Polygon

from engine.checks.wall_sites import pipes_in_walls
from engine.framing.studs import WallWood, stand
from engine.plan.records import Floor, JoistField, Plan, Vent, Wall
from engine.study import work_out

SUBFLOOR = 0.75
APART = st.sampled_from((12.0, 16.0, 19.25, 24.0))
FIRST = st.one_of(st.none(), st.integers(12, 400).map(lambda n: n / 16.0))
LENGTH = st.integers(49, 4000).map(lambda n: n / 16.0)
ANGLE = st.integers(0, 359).map(math.radians)


def made(length: float, apart: float, first: float | None, angle: float = 0.0, **more: object) -> WallWood:
    end = (length * math.cos(angle), length * math.sin(angle))
    return stand(Wall("w1", (0.0, 0.0), end, stud_spacing=apart, first_stud=first, **more), SUBFLOOR)  # type: ignore[arg-type]


@given(LENGTH, APART, FIRST, ANGLE)
def test_none_is_missing_and_none_overlaps(length: float, apart: float, first: float | None, angle: float) -> None:
    studs = made(length, apart, first, angle).studs
    assert studs[0].low == 0.0
    assert math.isclose(studs[-1].high, length, abs_tol=1e-6)
    assert [stud.number for stud in studs] == list(range(len(studs)))
    for before, after in pairwise(studs):
        assert after.low >= before.high - 1e-6
        # one more stud would have found room if two stood more than a spacing and a stud apart
        assert after.centre - before.centre <= apart + 1.5 + 1e-6


@given(LENGTH, APART, FIRST)
def test_common_studs_keep_the_spacing(length: float, apart: float, first: float | None) -> None:
    for stud in made(length, apart, first).studs:
        if stud.kind == "common":
            steps = (stud.centre - (apart if first is None else first)) / apart
            assert math.isclose(steps, round(steps), abs_tol=1e-6)


@given(LENGTH, APART, FIRST, st.sets(st.integers(0, 20), max_size=6))
def test_doubled_studs_overlap_none(length: float, apart: float, first: float | None, doubled: set[int]) -> None:
    studs = made(length, apart, first, doubled=tuple(doubled)).studs
    assert all(after.low >= before.high - 1e-6 for before, after in pairwise(studs))
    assert all(math.isclose(stud.high - stud.low, 3.0 if stud.doubled else 1.5, abs_tol=1e-6) for stud in studs)
    assert all(stud.number in doubled for stud in studs if stud.doubled)


@given(APART, FIRST, *(st.integers(1, 94) for _ in range(2)), *(st.integers(-24, 24) for _ in range(2)))
def test_every_pipe_through_a_stud_is_found(
    apart: float, first: float | None, west: int, east: int, low: int, high: int
) -> None:
    """Against shapely: the studs whose rectangle a pipe's axis enters are those that the crossings name."""
    start, end = (float(west), 50.0 + low / 16.0), (float(east), 50.0 + high / 16.0)
    assume(abs(east - west) > 4)
    wall = Wall("w1", (0.0, 50.0), (96.0, 50.0), stud_spacing=apart, first_stud=first)
    plan = Plan(
        floor=Floor(outline=((0.0, 0.0), (96.0, 0.0), (96.0, 100.0), (0.0, 100.0)), subfloor=SUBFLOOR),
        fields=(JoistField("j1", (0.0, 0.0), (96.0, 100.0), direction="east-west"),),
        walls=(wall,),
        vents=(Vent("v1", (start, end), above_floor=60.0, size="1-1/2"),),
    )
    wood = stand(wall, SUBFLOOR)
    half, axis = wood.depth / 2.0, LineString((start, end))
    expected = set()
    for stud in wood.studs:
        box = Polygon(
            [wood.at(a, b) for a, b in ((stud.low, half), (stud.high, half), (stud.high, -half), (stud.low, -half))]
        )
        if axis.intersection(box).length > 1e-6:
            expected.add(stud.number)
    found = {stud.number for lying in pipes_in_walls(work_out(plan)).lying for stud in lying.studs()}
    assert found == expected


def test_a_wall_too_short_for_two_studs_has_one() -> None:
    assert [(stud.low, stud.high) for stud in made(2.5, 16.0, None).studs] == [(0.0, 1.5)]
