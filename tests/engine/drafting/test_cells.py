"""Nothing near a point is missed, whatever cell it lies in."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from engine.drafting.cells import SIDE, Cells
from engine.plan.axis import distance, foot
from engine.plan.records import Point

coordinates = st.integers(-10 * 1024, 10 * 1024).map(lambda n: n * SIDE / 2048.0)
points = st.tuples(coordinates, coordinates)


@given(st.lists(st.tuples(points, points), max_size=12), points, st.floats(0, 100))
def test_stretches_within_reach_are_found(stretches: list[tuple[Point, Point]], at: Point, reach: float) -> None:
    cells: Cells[int] = Cells()
    for number, (a, b) in enumerate(stretches):
        cells.put(number, a, b)
    found = cells.near(at, reach)
    within = [n for n, (a, b) in enumerate(stretches) if distance(foot(a, b, at) if a != b else a, at) < reach - 0.01]
    assert set(within) <= set(found)
    assert found == sorted(set(found))


@given(st.lists(points, max_size=20), points, st.floats(0, 100))
def test_points_within_reach_are_found(spots: list[Point], at: Point, reach: float) -> None:
    cells: Cells[Point] = Cells()
    for spot in spots:
        cells.put(spot, spot)
    assert {spot for spot in spots if distance(spot, at) <= reach} <= set(cells.near(at, reach))


def test_far_things_are_left_out() -> None:
    cells: Cells[str] = Cells()
    for number in range(100):
        cells.put(f"{number}", (number * SIDE, 0.0))
    assert cells.near((0.0, 0.0), 1.0) == ["0"]
    assert len(cells.near((0.0, 0.0), SIDE * 50)) <= 52
