"""The empty floor."""

from __future__ import annotations

import pytest

from engine.framing.layout import lay_out
from engine.plan.dressed import JOIST_THICKNESS, WALL_DEPTH
from engine.plan.edits import EditError
from engine.plan.file import dumps, loads
from engine.plan.start import new_floor
from engine.trade.lumber import actual, listed


def test_a_floor_of_ten_by_twenty() -> None:
    plan = new_floor(120, 240, lumber="2x8", spacing=12, direction="east-west", subfloor=0.625, finish=0.5)
    assert plan.floor.outline == ((0, 0), (120, 0), (120, 240), (0, 240))
    assert plan.floor.finished_z == 1.125
    (field,) = plan.fields
    assert (field.corner, field.size, field.lumber, field.spacing) == ((0, 0), (120, 240), "2x8", 12)
    assert {joist.along for joist in lay_out(plan).joists if joist.kind == "common"} == {(1.0, 0.0)}
    assert loads(dumps(plan)) == plan


def test_walls_stand_with_their_outer_faces_on_the_edge() -> None:
    walls = {wall.name: wall for wall in new_floor(120, 240).walls}
    assert all(wall.exterior and wall.lumber == "2x4" for wall in walls.values())
    assert walls["south wall"].start[1] - 3.5 / 2 == 0
    assert walls["north wall"].start[1] + 3.5 / 2 == 240
    assert walls["west wall"].start[0] - 3.5 / 2 == 0
    assert walls["east wall"].start[0] + 3.5 / 2 == 120


def test_a_measure_off_the_grid_is_brought_to_it_everywhere() -> None:
    plan = new_floor(120.3, 240)
    width = plan.fields[0].size[0]
    assert width * 1024 == int(width * 1024)
    assert plan.floor.outline[1][0] == width
    assert plan.walls[0].end[0] == width


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"width": 5.0}, "width to be a number from 12 to 2400"),
        ({"length": float("nan")}, "length to be a number"),
        ({"spacing": 0.0}, "spacing"),
        ({"lumber": "2x14"}, "lumber"),
        ({"subfloor": -1.0}, "subfloor"),
    ],
)
def test_a_floor_that_can_not_be_is_refused(change: dict[str, object], said: str) -> None:
    with pytest.raises(EditError, match=said):
        new_floor(**{"width": 120.0, "length": 240.0, **change})  # type: ignore[arg-type]


def test_dressed_sizes_are_those_of_the_trade() -> None:
    assert all(actual(name).thickness == JOIST_THICKNESS for name in listed())
    assert {name: actual(name).depth for name in WALL_DEPTH} == WALL_DEPTH
