"""What a tape finds at a wall's end: the outside of the floor's framing, another wall, or only the plate's own end."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.framing.studs import stand
from engine.plan.records import Wall
from engine.study import study
from engine.takeoff.wall_hooks import WallHook, wall_hook
from tests.engine.wet_walls import wet_walls


def hooked(wall: Wall) -> WallHook:
    plan = replace(wet_walls(), walls=(*wet_walls().walls, wall))
    return wall_hook(study(plan).model, stand(wall, plan.floor.subfloor))


@pytest.mark.parametrize(
    ("start", "end", "stands"),
    [
        # joists run north: rims in the south, end joists in the west
        ((150.0, 0.0), (150.0, 90.0), "flush with the outside of the south rim; the plate may stop short of it, at south wall"),
        ((0.0, 80.0), (70.0, 80.0), "flush with the outside of the west end joist; the plate may stop short of it, at west wall"),
        ((150.0, 3.5), (150.0, 90.0), "against south wall"),
        ((102.75, 80.0), (170.0, 80.0), "against wet wall"),
        ((150.0, 10.0), (150.0, 90.0), ""),
    ],
)  # fmt: skip
def test_what_stands_there(start: tuple[float, float], end: tuple[float, float], stands: str) -> None:
    assert hooked(Wall("m", start, end)).stands == stands
    assert hooked(Wall("m", end, start)).stands == stands


@pytest.mark.parametrize(
    ("start", "end", "named", "forward"),
    [
        ((150.0, 10.0), (150.0, 90.0), ("south", "north", "east", "west"), True),
        ((150.0, 90.0), (150.0, 10.0), ("south", "north", "east", "west"), False),
        ((150.0, 50.0), (190.0, 50.0), ("west", "east", "south", "north"), True),
        ((190.0, 50.0), (150.0, 50.0), ("west", "east", "south", "north"), False),
        ((150.0, 50.0), (190.0, 90.0), ("south-west", "north-east", "south-east", "north-west"), True),
    ],
)
def test_the_hooked_end_is_the_western_or_southern_one(
    start: tuple[float, float], end: tuple[float, float], named: tuple[str, ...], forward: bool
) -> None:
    hook = hooked(Wall("m", start, end))
    assert (hook.end, hook.other, hook.near, hook.far) == named
    assert hook.forward is forward


@pytest.mark.parametrize(
    ("start", "end", "named"),
    [
        ((238.25, 0.0), (238.25, 120.0), ("north", "south", "west", "east")),
        ((1.75, 0.0), (1.75, 120.0), ("south", "north", "east", "west")),
        ((0.0, 1.75), (240.0, 1.75), ("east", "west", "north", "south")),
        ((0.0, 118.25), (240.0, 118.25), ("west", "east", "south", "north")),
    ],
)
def test_an_outside_wall_is_seen_from_within(
    start: tuple[float, float], end: tuple[float, float], named: tuple[str, ...]
) -> None:
    for wall in (Wall("m", start, end, exterior=True), Wall("m", end, start, exterior=True)):
        hook = hooked(wall)
        assert (hook.end, hook.other, hook.near, hook.far) == named


def test_a_place_is_the_same_from_either_way_of_drawing() -> None:
    """(150, 30), 1 in east of the middle of a 2x4: 20 in from the south end, 3/4 in from the east face."""
    for start, end in (((149.0, 10.0), (149.0, 90.0)), ((149.0, 90.0), (149.0, 10.0))):
        wall = Wall("m", start, end)
        wood, hook = stand(wall, 0.75), hooked(wall)
        along, left = wood.where((150.0, 30.0))
        assert (hook.along(along), hook.across(left)) == (pytest.approx(20.0), pytest.approx(0.75))
