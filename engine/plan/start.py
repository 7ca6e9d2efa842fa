"""The empty floor that a new plan begins with."""

from __future__ import annotations

from typing import Literal

from engine.plan.dressed import WALL_DEPTH
from engine.plan.edits import require_sound
from engine.plan.edits.checking import checked
from engine.plan.records import Floor, JoistField, Plan, Wall
from engine.plan.timber import Species

Lumber = Literal["2x4", "2x6", "2x8", "2x10", "2x12"]
Direction = Literal["north-south", "east-west"]


def new_floor(
    width: float,
    length: float,
    lumber: Lumber = "2x10",
    spacing: float = 16.0,
    direction: Direction = "north-south",
    subfloor: float = 0.75,
    finish: float = 0.25,
    species: Species | None = None,
) -> Plan:
    """A rectangular floor with its joists laid out and four outside walls on its edge.

    `width` (x) and `length` (y) are the outside of the framing, inches. The walls are 2x4, their outer stud faces on
    the framing's outside; south and north walls go through, the others stand between them. Raises
    :class:`engine.plan.edits.EditError` for measures that no floor can have.
    """
    depth = WALL_DEPTH["2x4"]
    half = depth / 2.0
    field = checked(
        JoistField(
            "j1", (0.0, 0.0), (width, length), lumber=lumber, spacing=spacing, direction=direction, species=species
        )
    )
    width, length = field.size
    south, north, west, east = half, length - half, half, width - half
    return require_sound(
        Plan(
            floor=checked(
                Floor(((0.0, 0.0), (width, 0.0), (width, length), (0.0, length)), subfloor=subfloor, finish=finish)
            ),
            fields=(field,),
            walls=(
                checked(Wall("w1", (0.0, south), (width, south), exterior=True, name="south wall")),
                checked(Wall("w2", (east, depth), (east, length - depth), exterior=True, name="east wall")),
                checked(Wall("w3", (0.0, north), (width, north), exterior=True, name="north wall")),
                checked(Wall("w4", (west, depth), (west, length - depth), exterior=True, name="west wall")),
            ),
        )
    )
