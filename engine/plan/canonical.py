"""One way of writing what can be written in several, so that equal plans are equal values.

Points lie on the 1/1024 in grid, headings from 0 up to 360, and what is a field's default is left out. Reading a
file and every edit pass through here.
"""

from __future__ import annotations

from typing import TypeVar

import msgspec
from msgspec.structs import replace

from engine.plan.grid import on_grid, spot
from engine.plan.points import carried
from engine.plan.records import KINDS, Fixture, JoistField, Plan, Point

DECIMALS = 10
"""Decimals that any number of the grid needs; other numbers are kept to as many."""

T = TypeVar("T", bound=msgspec.Struct)


def canonical(thing: T) -> T:
    """An element or floor in its one way of being written; the very same object where it is so already."""
    thing = carried(thing, _on_grid)
    if isinstance(thing, Fixture):
        turn = heading(thing.turn)
        return thing if turn == thing.turn else replace(thing, turn=turn)
    if isinstance(thing, JoistField):
        width, length = thing.size
        spaced = thing.first is None or abs(thing.first - thing.spacing) < 1e-9
        made = replace(
            thing,
            size=(on_grid(width), on_grid(length)),
            first=None if spaced or thing.first is None else neat(thing.first),
            bearings=tuple(map(neat, thing.bearings)),
        )
        return thing if made == thing else made
    return thing


def canonical_plan(plan: Plan) -> Plan:
    """A whole plan in its one way of being written."""
    changes: dict[str, object] = {"floor": canonical(plan.floor)}
    for kind in KINDS:
        changes[kind] = tuple(map(canonical, getattr(plan, kind)))
    return replace(plan, **changes)


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
