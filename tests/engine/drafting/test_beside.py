"""The lines along which a tube lies against another: bare 1/2 in tubes 5/8 in apart, on both sides, round turns."""

from __future__ import annotations

import math
from itertools import pairwise

import hypothesis.strategies as st
import pytest
from hypothesis import given, settings

from engine.drafting.beside import apart, in_common, lanes, neighbour
from engine.drafting.snapping import candidates, snap
from engine.framing.layout import lay_out
from engine.plan import edits
from engine.plan.axis import distance
from engine.plan.grid import STEP
from engine.plan.records import Plan, Point, Supply
from engine.plan.start import new_floor

COLD = Supply("s1", "cold", ((20.0, 30.0), (60.0, 30.0), (60.0, 70.0)), insulation=0.0)


def plan_with(run: Supply) -> Plan:
    return edits.add(new_floor(120, 240), run)


@pytest.mark.parametrize(
    ("size", "insulation", "expected"),
    [("1/2", 0.0, 0.625), ("1/2", 0.5, 1.625), ("3/4", 0.0, 0.75), ("3/4", 0.25, 1.25)],
)
def test_how_far_the_new_tube_lies(size: str, insulation: float, expected: float) -> None:
    assert apart(Supply("s1", "cold", COLD.points, size=size, insulation=insulation)) == expected  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("point", "snapped", "reason"),
    [
        ((36.2, 29.4), (36.0, 29.375), "beside cold water run s1"),
        ((36.2, 30.7), (36.0, 30.625), "beside cold water run s1"),
        ((60.5, 29.5), (60.625, 29.375), "beside cold water run s1, where it turns"),
        ((59.5, 30.5), (59.375, 30.625), "beside cold water run s1, where it turns"),
    ],
)
def test_the_other_water_is_drawn_beside(point: Point, snapped: Point, reason: str) -> None:
    plan = plan_with(COLD)
    found = snap(point, candidates(plan, lay_out(plan)), 0.4, layer="hot")
    assert (found.point, found.reason, found.element) == (snapped, reason, None)


def test_it_draws_from_half_as_far_as_other_lines() -> None:
    plan = plan_with(COLD)
    near = candidates(plan, lay_out(plan))
    assert snap((36.3, 28.7), near, 1.4, layer="hot").point == (36.0, 29.375)
    # 3/4 in off the line, over half of 1.4
    assert snap((36.3, 28.6), near, 1.4, layer="hot").point == (36.0, 29.0)


@pytest.mark.parametrize("layer", ["cold", "under", "overhead", None])
def test_nothing_else_is(layer: str | None) -> None:
    plan = plan_with(COLD)
    found = snap((36.2, 29.4), candidates(plan, lay_out(plan)), 0.4, layer=layer)  # type: ignore[arg-type]
    assert "beside" not in found.reason


place = st.integers(0, 16 * 100).map(lambda n: n / 16)
paths = st.lists(st.tuples(place, place), min_size=2, max_size=5).map(
    lambda points: tuple(p for n, p in enumerate(points) if n == 0 or p != points[n - 1])
)


@settings(max_examples=200, deadline=None)
@given(paths.filter(lambda points: len(points) > 1), st.sampled_from(["3/8", "1/2", "3/4", "1"]))
def test_a_line_runs_along_its_stretch_and_never_into_it(points: tuple[Point, ...], size: str) -> None:
    run = Supply("s1", "cold", points, size=size, insulation=0.0)  # type: ignore[arg-type]
    found = list(lanes(run))
    stretches = list(pairwise(points))
    assert len(found) == 2 * len(stretches)
    for lane, (a, b) in zip(found, [*stretches, *stretches], strict=True):
        length = distance(a, b)
        for end in lane:
            off = abs((end[0] - a[0]) * (b[1] - a[1]) - (end[1] - a[1]) * (b[0] - a[0])) / length
            assert apart(run) - 1e-9 <= off <= apart(run) + 4.0 * STEP
        assert distance(*lane) >= length - 1e-6


def test_a_diagonal_line_stays_one() -> None:
    diagonal = Supply("s1", "cold", ((20.0, 20.0), (50.0, 50.0)), insulation=0.0)
    for start, end in lanes(diagonal):
        assert end[0] - start[0] == end[1] - start[1] == 30.0
        assert math.dist(start, (20.0, 20.0)) >= 0.625


class TestNeighbour:
    def test_the_run_that_it_lies_against(self) -> None:
        plan = plan_with(COLD)
        assert neighbour(plan, "hot", ((10.0, 29.375), (60.625, 29.375))) == COLD
        assert neighbour(plan, "hot", ((60.625, 29.375), (10.0, 29.375))) == COLD

    @pytest.mark.parametrize(
        "points",
        [
            ((10.0, 29.3125), (60.0, 29.3125)),
            ((70.0, 29.375), (90.0, 29.375)),
            ((40.0, 20.0), (40.0, 40.0)),
            ((5.0, 29.375), (20.25, 29.375)),
        ],
    )
    def test_none_farther_off_past_its_end_across_it_or_by_its_tip(self, points: tuple[Point, ...]) -> None:
        assert neighbour(plan_with(COLD), "hot", points) is None

    def test_none_of_the_same_water(self) -> None:
        assert neighbour(plan_with(COLD), "cold", ((10.0, 29.375), (60.0, 29.375))) is None

    def test_of_several_the_one_for_the_longest_way(self) -> None:
        short = Supply("s2", "cold", ((30.0, 28.75), (36.0, 28.75)), insulation=0.0)
        plan = edits.add(plan_with(COLD), short)
        assert neighbour(plan, "hot", ((20.0, 29.375), (60.0, 29.375))) == COLD

    def test_what_it_takes_over(self) -> None:
        run = Supply("s1", "cold", COLD.points, size="3/4", insulation=0.25, down=6.0, passing="under")
        assert in_common(run) == {"insulation": 0.25, "down": 6.0, "passing": "under"}
