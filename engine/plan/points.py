"""Where each record keeps its plan points, so that moving, turning and rounding need to know it only once."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeVar

from msgspec.structs import replace

from engine.plan.records import (
    AirOpening,
    Beam,
    Cleanout,
    Drain,
    Exit,
    Fixture,
    Floor,
    FlooringArea,
    FloorOpening,
    Hatch,
    Inlet,
    JoistField,
    PinnedFitting,
    Plan,
    Point,
    Riser,
    Supply,
    Vent,
    Wall,
)

Run = Drain | Vent | Supply
"""What is drawn point by point along a pipe's axis."""

SPOTS: dict[type, tuple[str, ...]] = {
    JoistField: ("corner",),
    FloorOpening: ("start", "end"),
    FlooringArea: ("start", "end"),
    Beam: ("start", "end"),
    Wall: ("start", "end"),
    AirOpening: ("start", "end"),
    Fixture: ("at", "trap_at"),
    Riser: ("at", "returns"),
    Exit: ("at",),
    Inlet: ("at",),
    PinnedFitting: ("at",),
    Cleanout: ("at",),
    Hatch: ("at",),
}
PATHS: dict[type, str] = {Drain: "points", Vent: "points", Supply: "points", Floor: "outline"}

T = TypeVar("T")


def carried(thing: T, to: Callable[[Point], Point]) -> T:
    """The same thing with each of its points where `to` puts it; the very same object when none changes."""
    kind = type(thing)
    path = PATHS.get(kind)
    if path is not None:
        points: tuple[Point, ...] = getattr(thing, path)
        put = tuple(map(to, points))
        return thing if put == points else replace(thing, **{path: put})  # type: ignore[type-var]
    changes = {}
    for name in SPOTS.get(kind, ()):
        point: Point | None = getattr(thing, name)
        if point is not None and (there := to(point)) != point:
            changes[name] = there
    return replace(thing, **changes) if changes else thing  # type: ignore[type-var]


def points_of(thing: object) -> tuple[Point, ...]:
    """A thing's plan points in order; a field's corner only."""
    path = PATHS.get(type(thing))
    if path is not None:
        points: tuple[Point, ...] = getattr(thing, path)
        return points
    return tuple(p for name in SPOTS.get(type(thing), ()) if (p := getattr(thing, name)) is not None)


def point_count(plan: Plan) -> int:
    """How many points the plan's runs have together."""
    return sum(len(run.points) for run in runs(plan))


def runs(plan: Plan) -> Iterator[Run]:
    """All runs of the plan: drains, vents, supplies."""
    yield from plan.drains
    yield from plan.vents
    yield from plan.supplies
