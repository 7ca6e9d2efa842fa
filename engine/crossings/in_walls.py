"""in_walls(plan, network): where pipes stand in walls, and where level ones pass a wall's studs. Judges nothing.

Plumb pipe passes plates; level pipe in a wall passes its studs, or lies in a plate. What only enters a wall to end at
the pipe that stands there passes no stud but by that pipe's own place.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from engine.crossings.stretches import EXACT
from engine.drafting.cells import Cells
from engine.framing.studs import Stud, WallWood, stand
from engine.piping.flow import is_under
from engine.piping.records import Network, Node, Pipe
from engine.plan.dressed import WALL_DEPTH
from engine.plan.records import Plan, Point, Wall
from engine.plan.walls import holds
from engine.trade.pipe import drain

DEEPEST = max(WALL_DEPTH.values())
"""The deepest studs, inches: a point in a wall lies no farther from its middle line."""

_SQUARE = math.cos(math.radians(45.0))
"""Pipe nearer to its wall's line than this passes the studs' sides, other pipe their edges."""


class Upright(NamedTuple):
    """All plumb pipe at one point of a wall: `along` from its start and `left` of its centre line, inches.

    `parts` are its stretches over the joists as (low, high, size), heights in inches above the joists' top. `jointed`
    tells that a fitting stands in the wall, `waste` that waste runs down it.
    """

    elements: tuple[str, ...]
    wood: WallWood
    at: Point
    along: float
    left: float
    parts: tuple[tuple[float, float, float], ...]
    jointed: bool
    waste: bool

    @property
    def size(self) -> float:
        """The widest nominal size that stands in the wall."""
        return max(size for _, _, size in self.parts)

    def size_at(self, low: float, high: float) -> float | None:
        """The widest size that stands at any height between two; None where none does."""
        return max((size for a, b, size in self.parts if a < high - EXACT and b > low + EXACT), default=None)

    @property
    def at_studs(self) -> float | None:
        """The widest size that stands beside the studs; None where none does."""
        return self.size_at(self.wood.sole[1], self.wood.plates[0])

    @property
    def at_sole(self) -> float | None:
        """The widest size in the sole plate; None where none passes it."""
        return self.size_at(*self.wood.sole)

    @property
    def at_plates(self) -> float | None:
        """The widest size in the top plates; None where the pipe ends below them."""
        return self.size_at(*self.wood.plates)


class Lying(NamedTuple):
    """A level pipe where it lies in a wall, or crosses it.

    `low` and `high` are the ends of its way along the wall, `z` its axis, `lefts` how far it lies to the left of the
    wall's centre line at these ends, inches; `slant` the cosine of its angle to the wall's line. `ends_here` tells that
    it ends at plumb pipe in the wall.
    """

    pipe: Pipe
    wood: WallWood
    low: float
    high: float
    z: float
    lefts: tuple[float, float]
    slant: float
    ends_here: bool

    @property
    def along_it(self) -> bool:
        """Whether it runs rather along the wall than across it."""
        return self.slant > _SQUARE

    def left_at(self, along: float) -> float:
        """How far its axis lies to the left of the wall's centre line at a place along the wall, inches."""
        start, end = self.lefts
        way = self.high - self.low
        return start if way <= EXACT else start + (end - start) * min(1.0, max(0.0, (along - self.low) / way))

    @property
    def half(self) -> float:
        """Half the pipe's outside, inches."""
        return drain(self.pipe.size).od / 2.0

    @property
    def over_all(self) -> bool:
        """Whether it lies over the wall's plates."""
        return self.z - self.half >= self.wood.plates[1] - EXACT

    @property
    def in_plates(self) -> bool:
        """Whether its wood is the plates': the top ones, or the sole."""
        low, high = self.z - self.half, self.z + self.half
        return (high > self.wood.plates[0] + EXACT and not self.over_all) or low < self.wood.sole[1] - EXACT

    def studs(self) -> Iterator[Stud]:
        """The studs that it meets, in their order along the wall."""
        reach = 0.0 if self.along_it else self.half
        for stud in self.wood.studs:
            if self.low - reach < stud.high - EXACT and self.high + reach > stud.low + EXACT:
                yield stud


class InWalls(NamedTuple):
    """What stands in a plan's walls, and what lies in them."""

    upright: tuple[Upright, ...]
    lying: tuple[Lying, ...]


def in_walls(plan: Plan, network: Network, walls: Cells[Wall]) -> InWalls:
    """The pipes in a plan's walls; `walls` are its walls by place."""
    plumb: dict[Point, list[Pipe]] = {}
    level: list[Pipe] = []
    for pipe in network.pipes:
        if pipe.run == 0.0:
            if not (is_under(pipe.start) and is_under(pipe.end)):
                plumb.setdefault((pipe.start.x, pipe.start.y), []).append(pipe)
        elif not is_under(pipe.start) and not is_under(pipe.end):
            level.append(pipe)
    named = {riser.at: riser.wall for riser in plan.risers if riser.wall is not None}
    subfloor = plan.floor.subfloor
    met = {(node.x, node.y, node.level) for pipe in level for node in (pipe.start, pipe.end)}
    upright: list[Upright] = []
    for point, pipes in plumb.items():
        found = [wall for wall in walls.near(point, DEEPEST) if holds(wall, point)]
        if found:
            wall = next((one for one in found if one.id == named.get(point)), found[0])
            upright.append(_upright(stand(wall, subfloor), point, pipes, met))
    ends = {(one.wood.wall.id, one.at) for one in upright}
    stood = {one.wood.wall.id: one.wood for one in upright}
    lying = [one for pipe in level for one in _lying(pipe, walls, subfloor, ends, stood)]
    return InWalls(tuple(upright), tuple(lying))


def _upright(wood: WallWood, point: Point, pipes: list[Pipe], met: set[tuple[float, float, float]]) -> Upright:
    along, left = wood.where(point)
    low, high = wood.sole[1], wood.plates[0]
    joints = (node for pipe in pipes for node in (pipe.start, pipe.end) if (node.x, node.y, node.level) in met)
    return Upright(
        elements=tuple(dict.fromkeys(pipe.element for pipe in pipes)),
        wood=wood,
        at=point,
        along=along,
        left=left,
        parts=tuple(sorted((*sorted((_z(pipe.start), _z(pipe.end))), pipe.size) for pipe in pipes)),  # type: ignore[misc]
        jointed=any(low < node.level < high for node in joints),
        waste=any(pipe.system == "waste" for pipe in pipes),
    )


def _z(node: Node) -> float:
    """A node's height; whatever lies under the floor counts as at the joists' top, below every wall."""
    return 0.0 if is_under(node) else node.level


def _lying(
    pipe: Pipe, walls: Cells[Wall], subfloor: float, ends: set[tuple[str, Point]], stood: dict[str, WallWood]
) -> Iterator[Lying]:
    start, end = (pipe.start.x, pipe.start.y), (pipe.end.x, pipe.end.y)
    middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    for wall in walls.near(middle, math.dist(start, end) / 2.0 + DEEPEST):
        if wall.start == wall.end:
            continue
        wood = stood.get(wall.id) or stood.setdefault(wall.id, stand(wall, subfloor))
        (a0, l0), (a1, l1) = wood.where(start), wood.where(end)
        within = _within(l0, l1, -wood.depth / 2.0, wood.depth / 2.0)
        between = _within(a0, a1, 0.0, wood.length)
        if within is None or between is None:
            continue
        first, last = max(within[0], between[0]), min(within[1], between[1])
        if (last - first) * pipe.run <= EXACT:
            continue
        (low, left_low), (high, left_high) = sorted(
            (a0 + share * (a1 - a0), l0 + share * (l1 - l0)) for share in (first, last)
        )
        half = (first + last) / 2.0
        z0, z1 = pipe.start.level, pipe.end.level
        yield Lying(
            pipe,
            wood,
            low,
            high,
            z0 + half * (z1 - z0),
            (left_low, left_high),
            abs(a1 - a0) / math.dist(start, end),
            (wall.id, start) in ends or (wall.id, end) in ends,
        )


def _within(start: float, end: float, low: float, high: float) -> tuple[float, float] | None:
    """The shares of a way from `start` to `end` that lie between two bounds; None where none do."""
    if start == end:
        return (0.0, 1.0) if low <= start <= high else None
    first, last = sorted(((low - start) / (end - start), (high - start) / (end - start)))
    first, last = max(0.0, first), min(1.0, last)
    return (first, last) if first < last else None
