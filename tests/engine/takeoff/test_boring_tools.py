"""Every bit and saw of a job in one list; counted by hand."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest

from engine.plan.file import read
from engine.plan.records import Plan, Supply
from engine.study import work_out
from engine.takeoff.boring_tools import boring_tools, tools_to_buy
from engine.takeoff.marking import layout
from engine.takeoff.wall_holes import wall_holes

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))


def test_the_floor_worked_by_hand(hand_floor: Callable[..., Plan]) -> None:
    tube = Supply(id="c1", water="cold", points=((4.0, 10.0), (64.0, 10.0), (64.0, 64.0), (70.25, 64.0)), down=3.0)
    model = work_out(msgspec.structs.replace(hand_floor(), supplies=(tube,)))
    told = {tool.label: dict(tool.holes) for tool in boring_tools(model)}
    # 1-1/2 in pipe takes the 2-1/8 bit: d2 through joists 3 and 4, its riser through floor, both plates and roof
    assert told["2-1/8"] == {"joists": 2, "plates": 2, "roof": 1, "subfloor": 1}
    # 1/2 in tube comes up through floor and sole plate with the 7/8 bit; in the joists too, where it has no foam
    assert told["7/8"]["plates"] == told["7/8"]["subfloor"] == 1
    # the closet's 5 in hole is sawn round
    assert told["5"] == {"subfloor": 1}


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_no_hole_of_a_sample_is_left_out(path: Path) -> None:
    model = work_out(read(path))
    told = sum(count for tool in boring_tools(model) for _, count in tool.holes)
    floor = sum(
        hole.diameter is not None and hole.through in ("subfloor", "roof")
        for mark in layout(model).marks
        for hole in mark.holes
    )
    assert told == sum(bool(cut.bit) for cut in model.cuts) + len(wall_holes(model)) + floor
    assert [line.size for line in tools_to_buy(model)] == [tool.label for tool in boring_tools(model)]


def test_a_plan_without_pipe_asks_for_none(hand_floor: Callable[..., Plan]) -> None:
    bare = msgspec.structs.replace(hand_floor(), drains=(), fixtures=(), risers=(), exits=())
    assert boring_tools(work_out(bare)) == ()
