"""Bigger plans for timing: one plan's drawing laid side by side many times, each copy with its own exit."""

from __future__ import annotations

import math
from typing import Any

import msgspec

from engine.plan.grid import shifted
from engine.plan.records import KINDS, Plan, Record

GAP = 24.0
SPOTS = ("at", "start", "end", "corner", "trap_at")
IDS = ("id", "wall")


def tiled(plan: Plan, copies: int) -> Plan:
    """`copies` of the plan in a near-square block; ids are marked with the copy's number."""
    xs, ys = zip(*plan.floor.outline, strict=True)
    step_x, step_y = max(xs) - min(xs) + GAP, max(ys) - min(ys) + GAP
    columns = math.ceil(math.sqrt(copies))
    places = [(copy % columns * step_x, copy // columns * step_y, f".{copy}") for copy in range(copies)]
    collections = {
        name: tuple(_copied(element, *place) for place in places for element in getattr(plan, name)) for name in KINDS
    }
    rows = math.ceil(copies / columns)
    west, south = min(xs), min(ys)
    east, north = west + columns * step_x - GAP, south + rows * step_y - GAP
    outline = ((west, south), (east, south), (east, north), (west, north))
    floor = msgspec.structs.replace(plan.floor, outline=outline)
    return msgspec.structs.replace(plan, floor=floor, rulings=(), **collections)


def _copied(element: Record, dx: float, dy: float, mark: str) -> Record:
    changes: dict[str, Any] = {}
    for name in element.__struct_fields__:
        value = getattr(element, name)
        if value is None:
            continue
        if name in SPOTS:
            changes[name] = shifted(value, dx, dy)
        elif name == "points":
            changes[name] = tuple(shifted(point, dx, dy) for point in value)
        elif name in IDS:
            changes[name] = f"{value}{mark}"
    return msgspec.structs.replace(element, **changes)
