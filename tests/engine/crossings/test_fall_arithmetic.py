"""How far a drain can fall through bored joists before it runs out of wood: the exit's window on a straight run.

The sum: a hole may lie anywhere between 2 in from the joist's top and 2 in from its bottom (IRC 2021 R502.8.1), so that the
fall is the depth less 4 in less the hole, the run is the fall over the slope, and the joists crossed are the run over the
spacing, rounded down, and one (arithmetic; the same idea in "Maximum Distance for Plumbing Pipes in Floor Joists"). Depths
7.25, 9.25, 11.25; bits 2-1/8 for 1-1/2 in, 2-9/16 for 2 in, 3-5/8 for 3 in pipe.
"""

from __future__ import annotations

from itertools import pairwise

import pytest

from engine.crossings.records import Window
from engine.plan.records import Drain, DrainSize, Exit, Floor, JoistField, Plan
from engine.study import work_out
from engine.takeoff.heights import height_table


def across(lumber: str, size: str, joists: int, spacing: float, slope: float = 0.25) -> Plan:
    """A drain square across so many joists, 3 in past the first and the last, that leaves level."""
    width = spacing * (joists + 2)
    start, end = (spacing - 3.0, 30.0), (spacing * joists + 3.0, 30.0)
    return Plan(
        floor=Floor(((0.0, 0.0), (width, 0.0), (width, 60.0), (0.0, 60.0))),
        fields=(JoistField("f", (0.0, 0.0), (width, 60.0), lumber=lumber, spacing=spacing),),  # type: ignore[arg-type]
        drains=(Drain("d", (start, end), size=size, slope=slope),),  # type: ignore[arg-type]
        exits=(Exit("x", end, how="through-rim"),),
    )


def window_of(plan: Plan, joists: int) -> Window:
    model = work_out(plan)
    assert len(model.crossings) == joists
    return model.windows[0]


@pytest.mark.parametrize(
    ("lumber", "size", "slope", "fall", "at_16", "at_24"),
    [
        ("2x8", "1-1/2", 0.25, 1.125, 4, 3),
        ("2x10", "1-1/2", 0.25, 3.125, 10, 7),
        ("2x10", "2", 0.25, 2.6875, 9, 6),
        ("2x12", "1-1/2", 0.25, 5.125, 16, 11),
        ("2x12", "2", 0.25, 4.6875, 15, 10),
        ("2x12", "3", 0.25, 3.625, 11, 8),
        ("2x12", "3", 0.125, 3.625, 22, 15),
    ],
)
def test_a_straight_run_fits_across_so_many_joists_and_not_one_more(
    lumber: str, size: DrainSize, slope: float, fall: float, at_16: int, at_24: int
) -> None:
    for spacing, joists in ((16.0, at_16), (24.0, at_24)):
        most = window_of(across(lumber, size, joists, spacing, slope), joists)
        past = window_of(across(lumber, size, joists + 1, spacing, slope), joists + 1)
        step = slope * spacing / 12.0
        for window, crossed in ((most, joists), (past, joists + 1)):
            assert window.low is not None
            assert window.high is not None
            assert window.high - window.low == pytest.approx(fall - (crossed - 1) * step)
        assert fall - (joists - 1) * step >= 0.0 > fall - joists * step


@pytest.mark.parametrize(("lumber", "size"), [("2x6", "1-1/2"), ("2x8", "2"), ("2x10", "3")])
def test_where_no_bore_may_be_so_wide_the_wood_sets_no_window(lumber: str, size: DrainSize) -> None:
    """A third of the depth: 1.83 in a 2x6, 2.417 in a 2x8, 3.083 in a 2x10 (IRC 2021 R502.8.1)."""
    window = window_of(across(lumber, size, 1, 16.0), 1)
    assert window.low is None


@pytest.mark.parametrize(("spacing", "drop"), [(12.0, 0.25), (16.0, 1 / 3), (24.0, 0.5)])
def test_from_bay_to_bay_a_quarter_inch_to_the_foot(spacing: float, drop: float) -> None:
    rows = [row for row in height_table(work_out(across("2x12", "2", 5, spacing))) if row.what.startswith("joist")]
    assert [row.held for row in rows] == ["bored joist"] * 5
    downs = [row.centre_down for row in rows]
    assert all(b is not None and a is not None and b - a == pytest.approx(drop) for a, b in pairwise(downs))
