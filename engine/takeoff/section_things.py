"""The fittings that stand along a line, for its long section: where, how high, and how far each reaches."""

from __future__ import annotations

import math
from collections.abc import Sequence

from engine.checks.model import Model
from engine.joinery.records import Part, Port
from engine.plan.flooring import finished_at
from engine.plan.records import Point, Record
from engine.takeoff.cutlist import named
from engine.water.network import WATERS

_SAME = 1.0 / 64.0
_DOWNSTREAM = ("run_out", "outlet")
_STEEP = 0.5
"""A port that points up or down by more than this share of its length counts as upright."""

Place = tuple[Point, Point, float, float]
"""A straight stretch in plan, from its lower to its upper end, and the distances at which the two lie."""


class Thing(Record, frozen=True, gc=False):
    """A fitting: its name, its place, and how far it reaches from there to the faces of its hubs, inches.

    `ahead` is upstream along the line, `back` downstream, `up` and `down` plumb; `size` is the widest of its pipes
    on the line, `joins` what else of the plan meets in it.
    """

    part: str
    kind: str
    words: str
    station: float
    z: float
    size: float
    ahead: float
    back: float
    up: float
    down: float
    elements: tuple[str, ...]


def fittings_on(model: Model, places: Sequence[Place], pipes: set[str]) -> tuple[Thing, ...]:
    """The fittings below the finished floor that join any of these pipes (a water line's by its own id), by distance."""
    found = []
    for part in model.joinery.parts:
        if part.centre[2] > finished_at(model.plan, (part.centre[0], part.centre[1])) + _SAME:
            continue
        mine = [port for port in part.ports if _pipe_of(port) in pipes]
        if not mine and (part.system not in WATERS or pipes.isdisjoint(part.elements)):
            continue
        station = _station(places, (part.centre[0], part.centre[1]))
        if station is not None:
            found.append(_thing(part, mine, station))
    return tuple(sorted(found, key=lambda thing: (thing.station, thing.z, thing.part)))


def _thing(part: Part, mine: list[Port], station: float) -> Thing:
    reach = {"ahead": 0.0, "back": 0.0, "up": 0.0, "down": 0.0}
    for port in part.ports if part.system not in WATERS else ():
        steep = port.toward[2]
        if abs(steep) > _STEEP:
            side = "up" if steep > 0.0 else "down"
        elif port in mine:
            side = "back" if port.role in _DOWNSTREAM else "ahead"
        else:
            continue
        hub = port.depth if port.end == "hub" else 0.0
        reach[side] = max(reach[side], port.takeoff.length + hub)
    return Thing(
        part=part.id,
        kind=part.kind,
        words=named(part),
        station=station,
        z=part.centre[2],
        size=max((port.size for port in mine), default=max(part.size, default=0.0)),
        elements=part.elements,
        **reach,
    )


def _pipe_of(port: Port) -> str:
    """The pipe that a port takes, by the id it has before couplings part it."""
    return (port.pipe or "").partition("~")[0]


def _station(places: Sequence[Place], at: Point) -> float | None:
    """How far along the line a plan point lies; None where it is not on it."""
    for start, end, begins, ends in places:
        length = math.dist(start, end)
        if not length:
            if math.dist(start, at) < _SAME:
                return begins
            continue
        along, beyond = math.dist(start, at), math.dist(end, at)
        if abs(along + beyond - length) < _SAME:
            return ends - beyond if along > _SAME else ends - length
    return None
