"""Pipes in walls as the rules look at them: where they stand and lie, the holes that they ask for, and how both are told."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.crossings.in_walls import DEEPEST, InWalls, Upright, in_walls
from engine.drafting.cells import Cells, by_place
from engine.framing.studs import Stud, WallWood, stand
from engine.lengths import inches
from engine.plan.records import Point, Wall, Water
from engine.plan.walls import holds
from engine.trade.bits import bit_for
from engine.trade.openings import hub
from engine.trade.pipe import drain, label

SUBJECT = "walls"
"""What the rules on walls are listed under."""

_COMPASS = ("east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east")


@once_a_model
def walls_by_place(model: Model) -> Cells[Wall]:
    """The plan's walls, sorted for questions about places."""
    return by_place(model.plan.walls)


@once_a_model
def pipes_in_walls(model: Model) -> InWalls:
    """All pipe that stands or lies in the plan's walls."""
    return in_walls(model.plan, model.network, walls_by_place(model))


class Rise(NamedTuple):
    """Water tube that comes up in a wall: `along` from its start and `left` of its centre line, inches."""

    element: str
    water: Water
    wood: WallWood
    at: Point
    along: float
    left: float
    size: float


@once_a_model
def water_rises(model: Model) -> tuple[Rise, ...]:
    """The tubes that end at a point in a wall, or at a fixture's stub there; where the service comes in is none."""
    stubs = {(water, at) for taker in model.water.takers for water, at in taker.stubs}
    inlets = {inlet.at for inlet in model.plan.inlets}
    found = []
    for water, meetings in model.water.meetings.items():
        for at, ends in meetings.items():
            if at in inlets or (len(ends) > 1 and (water, at) not in stubs):
                continue
            wall = next((one for one in walls_by_place(model).near(at, DEEPEST) if holds(one, at)), None)
            if wall is not None:
                wood = stand(wall, model.plan.floor.subfloor)
                found.append(Rise(ends[0].element, water, wood, at, *wood.where(at), max(end.size for end in ends)))
    return tuple(found)


def water_floor_rises(model: Model) -> Iterator[tuple[str, float, Point]]:
    """The tubes that come up to a fixture through the floor alone, in no wall: each one's run, size and place."""
    inlets = {inlet.at for inlet in model.plan.inlets}
    in_wall = {(rise.water, rise.at) for rise in water_rises(model)}
    for water, meetings in model.water.meetings.items():
        for at, ends in meetings.items():
            served = len(ends) == 1 and at not in inlets and (water, at) not in in_wall
            if served and model.water.nearest_taker(water, at) is not None:
                yield ends[0].element, ends[0].size, at


def plate_hole(outside: float) -> tuple[float, str | None]:
    """The hole that plumb pipe so wide outside wants in a plate, inches, and its bit; its own width where none is listed."""
    bit = bit_for(outside)
    return (outside, None) if bit is None else (bit.diameter, bit.label)


def radius_in_wall(one: Upright) -> tuple[float, str]:
    """Half of what stands widest beside the studs, inches, and that in words: the pipe, or a fitting's hub round it."""
    size = one.at_studs or one.size
    if one.jointed:
        return hub(size) / 2.0, f"hub on {label(size)} in pipe"
    return drain(size).od / 2.0, f"{label(size)} in pipe"


def carries(wall: Wall) -> bool:
    """Whether the code's stricter numbers for studs and plates hold: a bearing wall's, or an outside wall's."""
    return wall.bearing or wall.exterior


def wall_words(wall: Wall) -> str:
    """A wall by the name that its owner gave it, else by its id."""
    return wall.name or f"wall {wall.id}"


def kind_words(wall: Wall) -> str:
    """What kind of wall the code takes it for: ``a bearing wall``."""
    return "a bearing wall" if wall.bearing else "an outside wall" if wall.exterior else "a wall that bears nothing"


def stud_words(wood: WallWood, stud: Stud) -> str:
    """A stud in words: by its number, or as the one at an end."""
    start, end = end_names(wood)
    where = wall_words(wood.wall)
    if stud.kind == "end":
        return f"the {start if stud.number == 0 else end} end stud of {where}"
    return f"stud {stud.number} of {where}"


@cache
def toward(way: Point) -> str:
    """The compass's name for a plan heading, to the eighth."""
    return _COMPASS[round(math.degrees(math.atan2(way[1], way[0])) / (360.0 / len(_COMPASS))) % len(_COMPASS)]


def end_names(wood: WallWood) -> tuple[str, str]:
    """The compass's names of a wall's two ends, its start first."""
    east, north = wood.along
    return toward((-east, -north)), toward((east, north))


def face_names(wood: WallWood) -> tuple[str, str]:
    """The compass's names of a wall's two faces, that to the left of its centre line first."""
    east, north = wood.along
    return toward((-north, east)), toward((north, -east))


def along_words(wood: WallWood, by: float) -> str:
    """A move along a wall, in inches and toward which of its ends."""
    start, end = end_names(wood)
    return f"{inches(abs(by))} in {end if by > 0.0 else start}"


def above_floor(model: Model, z: float) -> float:
    """A height over the finished floor, inches."""
    return z - model.plan.floor.finished_z
