"""One way of writing what can be written in several, so that equal things are equal values.

Points and sizes lie on the 1/1024 in grid; whatever is read is brought there. Every edit also brings headings to
0 up to 360, leaves out a first joist that stands where it would by itself, begins what lies between two
corners at the south-west one, and forgets the heading of a cleanout at the end of a run, which opens away from the flow.
"""

from __future__ import annotations

from typing import TypeVar

import msgspec
from msgspec.structs import replace

from engine.plan.grid import on_grid, spot
from engine.plan.points import carried
from engine.plan.records import KINDS, Cleanout, Fixture, FlooringArea, FloorOpening, JoistField, Plan, Point

DECIMALS = 10
"""Decimals that any number of the grid needs; other numbers are kept to as many."""

T = TypeVar("T", bound=msgspec.Struct)


def gridded(thing: T) -> T:
    """An element or floor with its points and size on the grid; the very same object where they are already."""
    thing = carried(thing, _on_grid)
    if isinstance(thing, JoistField):
        size = (on_grid(thing.size[0]), on_grid(thing.size[1]))
        return thing if size == thing.size else replace(thing, size=size)
    return thing


def gridded_plan(plan: Plan) -> Plan:
    """A whole plan with its points and sizes on the grid."""
    things = {kind: tuple(map(gridded, getattr(plan, kind))) for kind in KINDS}
    return replace(plan, floor=gridded(plan.floor), **things)


def canonical(thing: T) -> T:
    """An element or floor in its one way of being written; the very same object where it is so already."""
    thing = gridded(thing)
    if isinstance(thing, Fixture):
        turn = heading(thing.turn)
        return thing if turn == thing.turn else replace(thing, turn=turn)
    if isinstance(thing, Cleanout):
        opens = 0.0 if thing.above_floor is None else heading(thing.turn)
        return thing if opens == thing.turn else replace(thing, turn=opens)
    if isinstance(thing, JoistField):
        spaced = thing.first is None or abs(thing.first - thing.spacing) < 1e-9
        first = None if spaced or thing.first is None else neat(thing.first)
        made = replace(
            thing,
            first=first,
            bearings=tuple(map(neat, thing.bearings)),
            blocking=tuple(map(neat, thing.blocking)),
            laps=tuple(map(neat, thing.laps)),
        )
        return thing if made == thing else made
    if isinstance(thing, FloorOpening | FlooringArea):
        (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(thing.start, thing.end, strict=True))
        corners = ((x0, y0), (x1, y1))
        return thing if corners == (thing.start, thing.end) else replace(thing, start=corners[0], end=corners[1])
    return thing


def heading(degrees: float) -> float:
    """An angle brought to 0 up to 360, to ten decimals."""
    turned = round(degrees % 360.0, DECIMALS) + 0.0
    return 0.0 if turned >= 360.0 else turned


def neat(number: float) -> float:
    """A computed length without its arithmetic's last bits: on the grid where it is that near, else ten decimals."""
    near = on_grid(number)
    return near if abs(near - number) < 1e-9 else round(number, DECIMALS) + 0.0


def _on_grid(point: Point) -> Point:
    return spot(*point)
