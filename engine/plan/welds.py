"""Where pipes are joined: vertices that are equal, at one level, of one system.

Waste pipes (drains, vents, risers, fixtures, exits) weld to each other, cold water to cold, hot to hot. All that
lies under the floor is one level; overhead vents weld at equal height; a riser, and what empties into a wall,
meets every level at its point.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from engine.plan.points import Run
from engine.plan.records import Drain, Exit, Fixture, Inlet, Plan, Point, Riser, Supply

System = Literal["waste", "cold", "hot"]

UNDER = float("-inf")
"""The level of everything under the floor."""

FLOOR_OUTLETS = frozenset({"water_closet", "shower", "bathtub", "floor_drain"})
"""Fixtures whose drain run starts under the floor."""

WALL_OUTLETS = frozenset(
    {"lavatory", "kitchen_sink", "washer_standpipe", "bar_sink", "laundry_tub", "dishwasher", "bidet"}
)
"""Fixtures that empty into a riser in the wall, at its very point."""

Fixed = Fixture | Riser | Exit | Inlet
"""What stands at a point and holds the runs that end there."""


class Place(NamedTuple):
    """A spot where pipes can be joined; `level` is None where a thing meets every level."""

    system: System
    point: Point
    level: float | None


def level_of(run: Run) -> tuple[System, float]:
    """The system and level of a run: `UNDER`, or an overhead vent's height above the finished floor."""
    if isinstance(run, Supply):
        return run.water, UNDER
    if isinstance(run, Drain) or run.above_floor is None:
        return "waste", UNDER
    return "waste", run.above_floor


def outlet(fixture: Fixture) -> Point | None:
    """Where a fixture's drain run starts: under a tub's trap, else at its point.

    None for what only takes water, and for what drains through another fixture's trap.
    """
    if fixture.through is not None:
        return None
    if fixture.kind in WALL_OUTLETS:
        return fixture.at
    if fixture.kind not in FLOOR_OUTLETS:
        return None
    return fixture.trap_at if fixture.kind == "bathtub" and fixture.trap_at is not None else fixture.at


def comes_down(riser: Riser) -> Point | None:
    """Where a riser that turns over comes down onto its drain; None for all others."""
    return riser.returns if riser.top == "loop" else None


def grips(thing: Fixed) -> tuple[Place, ...]:
    """The places at which a standing thing holds pipe ends."""
    if isinstance(thing, Riser):
        down = comes_down(thing)
        return (Place("waste", thing.at, None), *((Place("waste", down, UNDER),) if down is not None else ()))
    if isinstance(thing, Exit):
        return (Place("waste", thing.at, UNDER),)
    if isinstance(thing, Inlet):
        return (Place("cold", thing.at, None),)
    water = (Place("cold", thing.at, None), Place("hot", thing.at, None))
    drained = outlet(thing)
    if drained is None:
        return water
    return (Place("waste", drained, None if thing.kind in WALL_OUTLETS else UNDER), *water)


class Grips:
    """A set of places held by standing things, asked by a pipe's system, point and level."""

    __slots__ = ("_levels",)

    def __init__(self, things: tuple[Fixed, ...] = ()) -> None:
        self._levels: dict[tuple[System, Point], set[float | None]] = {}
        for thing in things:
            for place in grips(thing):
                self._levels.setdefault((place.system, place.point), set()).add(place.level)

    def hold(self, system: System, point: Point, level: float) -> bool:
        """Whether a pipe of that system has its vertex at that point and level held."""
        levels = self._levels.get((system, point))
        return levels is not None and (None in levels or level in levels)


def standing(plan: Plan) -> tuple[Fixed, ...]:
    """Everything in the plan that stands at a point and can hold pipe ends."""
    return (*plan.fixtures, *plan.risers, *plan.exits, *plan.inlets)
