"""The axis of a drain between its nodes: its height there less the fall. Worked by hand."""

from __future__ import annotations

import pytest

from engine.crossings.axis import drain_axis_at
from engine.plan.records import Drain, Exit, Floor, Plan
from engine.study import work_out

PLAN = Plan(
    floor=Floor(outline=((0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0))),
    drains=(Drain("d1", ((220.0, 100.0), (100.0, 100.0), (20.0, 20.0)), size="3", slope=0.25),),
    exits=(Exit("x1", (20.0, 20.0), pinned_z=-10.0),),
)


@pytest.mark.parametrize(
    ("point", "z"),
    [
        ((20.0, 20.0), -10.0),
        # 80 x 1.41421 = 113.137 in up the run: 2.35702 in
        ((100.0, 100.0), -7.64298),
        # 60 in farther: 1.25 in
        ((160.0, 100.0), -6.39298),
        # half the slanting stretch
        ((60.0, 60.0), -8.82149),
    ],
)
def test_along_the_run(point: tuple[float, float], z: float) -> None:
    model = work_out(PLAN)
    assert drain_axis_at(model.network, model.heights, point) == pytest.approx(z, abs=1e-4)


def test_beside_it_there_is_none() -> None:
    model = work_out(PLAN)
    assert drain_axis_at(model.network, model.heights, (160.0, 100.5)) is None
    assert drain_axis_at(model.network, {}, (160.0, 100.0)) is None
