"""What stands on the floor: every fixture's body and every wall, sorted by place."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from engine.drafting.bodies import Body, body_of
from engine.drafting.room import TOUCH, Obstacle, obstacles
from engine.plan.records import Fixture, Plan, Point, Wall

CELL = 120.0
"""Edge of the search grid's cells, inches: more than any fixture's room reaches past its point."""

Cell = tuple[int, int]
Boxed = tuple[Obstacle, float, float, float, float]
"""Something that takes room, with the rectangle round it: west, south, east, north."""

_DIAGONAL = math.sqrt(2.0)


class Standing:
    """The bodies, and what stands near a place."""

    def __init__(self, plan: Plan) -> None:
        self._walls: dict[Cell, list[Wall]] = {}
        for wall in plan.walls:
            for cell in _covered((wall.start, wall.end)):
                self._walls.setdefault(cell, []).append(wall)
        self.bodies: dict[str, Body] = {one.id: body_of(one, self.walls_near(one.at)) for one in plan.fixtures}
        self._obstacles: dict[Cell, list[Boxed]] = {}
        self._bodied: dict[str, Boxed] = {}
        for obstacle in obstacles(plan, self.bodies):
            xs, ys = [x for x, _ in obstacle.corners], [y for _, y in obstacle.corners]
            boxed = (obstacle, min(xs), min(ys), max(xs), max(ys))
            if obstacle.what == "fixture":
                self._bodied[obstacle.element] = boxed
            for cell in _covered(obstacle.corners):
                self._obstacles.setdefault(cell, []).append(boxed)
        self._fixtures: dict[Cell, list[Fixture]] = {}
        for fixture in plan.fixtures:
            self._fixtures.setdefault(_cell(fixture.at), []).append(fixture)

    def has_body(self, fixture: str) -> bool:
        """Whether a fixture has a body whose place is known."""
        return fixture in self._bodied

    def meeting(self, fixture: str) -> list[Obstacle]:
        """What the rectangle round a fixture's body, north up, shares room with; nothing for one without a body."""
        boxed = self._bodied.get(fixture)
        if boxed is None:
            return []
        own, left, low, right, high = boxed
        found = {
            one.element: one
            for cell in _covered(own.corners)
            for one, west, south, east, north in self._obstacles[cell]
            if west < right - TOUCH and east > left + TOUCH and south < high - TOUCH and north > low + TOUCH
        }
        found.pop(fixture, None)
        return list(found.values())

    def walls_near(self, point: Point) -> list[Wall]:
        """The walls that pass a place within a cell of it."""
        return list({wall.id: wall for cell in _round(point) for wall in self._walls.get(cell, ())}.values())

    def near(self, fixture: Fixture, reach: float) -> list[Obstacle]:
        """What might stand within `reach` inches, a cell's width at most, of a fixture's body."""
        body, (x, y) = self.bodies[fixture.id], fixture.at
        far = min(CELL, reach + max(abs(body.back), abs(body.front), abs(body.left), abs(body.right)) * _DIAGONAL)
        found = {
            one.element: one
            for cell in _round(fixture.at)
            for one, west, south, east, north in self._obstacles.get(cell, ())
            if west <= x + far and east >= x - far and south <= y + far and north >= y - far
        }
        return list(found.values())

    def fixtures_near(self, point: Point) -> list[Fixture]:
        """The fixtures within a cell of a place."""
        return [one for cell in _round(point) for one in self._fixtures.get(cell, ())]


def _cell(point: Point) -> Cell:
    return math.floor(point[0] / CELL), math.floor(point[1] / CELL)


def _round(point: Point) -> Iterator[Cell]:
    column, row = _cell(point)
    return ((i, j) for i in (column - 1, column, column + 1) for j in (row - 1, row, row + 1))


def _covered(points: Iterable[Point]) -> Iterator[Cell]:
    """The cells of the rectangle round some points."""
    xs, ys = zip(*points, strict=True)
    columns = range(math.floor(min(xs) / CELL), math.floor(max(xs) / CELL) + 1)
    rows = range(math.floor(min(ys) / CELL), math.floor(max(ys) / CELL) + 1)
    return ((i, j) for i in columns for j in rows)
