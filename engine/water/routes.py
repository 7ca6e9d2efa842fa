"""routes(plan): the way of the water to each fixture, by the runs as drawn.

Each water system welds only to itself, where points are equal. Cold comes from the inlets, hot from the water
heaters. A fixture is reached by a run with a point within its own footprint's reach; supply stubs need less
precision than drains, so no exact point is asked for.
"""

from __future__ import annotations

import heapq
import math

from engine.plan.records import Fixture, Plan, Point, Record, Water
from engine.trade import fixtures as trade


class Route(Record, frozen=True, gc=False):
    """How one fixture gets one water.

    `stub` is the run's point that comes up nearest to it (None when no run comes near), `gap` how far that is,
    `reach` how far it may be, `length` the developed plan length from the source (None when the run leads back
    to none).
    """

    fixture: str
    water: Water
    stub: Point | None
    gap: float | None
    reach: float
    length: float | None


def routes(plan: Plan) -> tuple[Route, ...]:
    """A route for each fixture and each water that it takes, in file order."""
    found: list[Route] = []
    lengths = {water: _from_sources(plan, water) for water in ("cold", "hot")}
    points = {water: _points(plan, water) for water in ("cold", "hot")}
    for fixture in plan.fixtures:
        spec = trade.fixture(fixture.kind)
        for water, wanted in (("cold", spec.cold), ("hot", spec.hot)):
            if wanted and not (water == "hot" and fixture.kind == "water_heater"):
                found.append(_route(fixture, water, points[water], lengths[water]))
    return tuple(found)


def reach_of(fixture: Fixture) -> float:
    """How far from a fixture's point its supply may come up, inches: its longer side."""
    spec = trade.fixture(fixture.kind)
    return max(fixture.width or spec.width, fixture.depth or spec.depth)


def _route(fixture: Fixture, water: str, points: list[Point], lengths: dict[Point, float]) -> Route:
    reach = reach_of(fixture)
    near = min(points, key=lambda p: math.dist(p, fixture.at), default=None)
    gap = None if near is None else math.dist(near, fixture.at)
    if near is None or gap is None or gap > reach:
        return Route(fixture.id, "cold" if water == "cold" else "hot", None, gap, reach, None)
    return Route(fixture.id, "cold" if water == "cold" else "hot", near, gap, reach, lengths.get(near))


def _points(plan: Plan, water: str) -> list[Point]:
    return [point for supply in plan.supplies if supply.water == water for point in supply.points]


def _from_sources(plan: Plan, water: str) -> dict[Point, float]:
    """The developed length from the nearest source to every point that the water reaches, inches."""
    joined: dict[Point, list[tuple[Point, float]]] = {}
    for supply in plan.supplies:
        if supply.water != water:
            continue
        for a, b in zip(supply.points, supply.points[1:], strict=False):
            run = math.dist(a, b)
            joined.setdefault(a, []).append((b, run))
            joined.setdefault(b, []).append((a, run))
    lengths: dict[Point, float] = {}
    queue = [(0.0, point) for point in _sources(plan, water, joined)]
    heapq.heapify(queue)
    while queue:
        length, point = heapq.heappop(queue)
        if point in lengths:
            continue
        lengths[point] = length
        for other, run in joined[point]:
            if other not in lengths:
                heapq.heappush(queue, (length + run, other))
    return lengths


def _sources(plan: Plan, water: str, joined: dict[Point, list[tuple[Point, float]]]) -> list[Point]:
    if water == "cold":
        return [inlet.at for inlet in plan.inlets if inlet.at in joined]
    found: list[Point] = []
    for heater in plan.fixtures:
        if heater.kind != "water_heater":
            continue
        near = min(joined, key=lambda p: math.dist(p, heater.at), default=None)
        if near is not None and math.dist(near, heater.at) <= reach_of(heater):
            found.append(near)
    return found
