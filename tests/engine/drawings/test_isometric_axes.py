"""The isometric axes in numbers, from each of the four corners.

Level axes at 30 degrees, plumb drawn plumb (Piping Isometrics lecture): cos 30 = 0.8660, sin 30 = 0.5.
"""

from __future__ import annotations

import math

import pytest

from engine.drawings.isometric.axes import CORNERS, away, project
from engine.joinery.records import Space


@pytest.mark.parametrize(
    ("point", "place"),
    [
        ((1.0, 0.0, 0.0), (0.866, 0.5)),
        ((0.0, 1.0, 0.0), (-0.866, 0.5)),
        ((0.0, 0.0, 1.0), (0.0, 1.0)),
        (
            (12.0, 12.0, 0.0),
            (0.0, 12.0),
        ),  # a 45-degree pipe: the diagonal of the square on two axes, here plumb on paper
        ((12.0, -12.0, 0.0), (20.785, 0.0)),  # the other diagonal: 24 x 0.866
        ((10.0, 4.0, -6.0), (5.196, 1.0)),  # (10 - 4) x 0.866; -6 + 14 x 0.5
    ],
)
def test_from_the_south_west(point: Space, place: tuple[float, float]) -> None:
    assert project(point) == pytest.approx(place, abs=1e-3)


@pytest.mark.parametrize(
    ("turn", "north", "east"),
    [
        (0, (-0.866, 0.5), (0.866, 0.5)),
        (1, (0.866, 0.5), (0.866, -0.5)),
        (2, (0.866, -0.5), (-0.866, -0.5)),
        (3, (-0.866, -0.5), (-0.866, 0.5)),
    ],
)
def test_quarter_turns(turn: int, north: tuple[float, float], east: tuple[float, float]) -> None:
    """From the south-east, say, north points away to the upper right and east toward the looker's right."""
    assert project((0.0, 1.0, 0.0), turn) == pytest.approx(north, abs=1e-3)
    assert project((1.0, 0.0, 0.0), turn) == pytest.approx(east, abs=1e-3)
    assert project((0.0, 0.0, 1.0), turn) == pytest.approx((0.0, 1.0))


def test_four_turns_come_round() -> None:
    assert len(CORNERS) == 4
    for point in ((3.0, -7.0, 2.0), (0.0, 5.0, -1.0)):
        assert project(point, 4) == pytest.approx(project(point, 0))
        assert project(point, -1) == pytest.approx(project(point, 3))


@pytest.mark.parametrize("turn", range(4))
def test_every_axis_keeps_its_full_length(turn: int) -> None:
    for axis in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)):
        assert math.hypot(*project(axis, turn)) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("turn", "near"), [(0, (-1.0, -1.0)), (1, (1.0, -1.0)), (2, (1.0, 1.0)), (3, (-1.0, 1.0))], ids=CORNERS
)
def test_the_corner_that_one_looks_from_is_nearest(turn: int, near: tuple[float, float]) -> None:
    x, y = near
    assert away((x, y, 0.0), turn) < away((-x, -y, 0.0), turn)
    assert away((0.0, 0.0, 1.0), turn) < away((0.0, 0.0, 0.0), turn)
