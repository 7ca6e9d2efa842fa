"""routes(...): the way of the water to each fixture, by the runs as drawn.

Cold comes from the inlets, hot from the water heaters. A fixture is reached by a run with a point within the
fixture's own reach; supply stubs need less precision than drains, so no exact point is asked for.
"""

from __future__ import annotations

import math

import networkx as nx

from engine.plan.records import Plan, Point, Record, Water
from engine.water.network import WATERS, Taker, WaterNetwork


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


def routes(plan: Plan, network: WaterNetwork) -> tuple[Route, ...]:
    """A route for each fixture and each water that it takes, in file order."""
    lengths = {water: _from_sources(plan, network, water) for water in WATERS}
    return tuple(
        _route(taker, water, network.graphs[water], lengths[water])
        for taker in network.takers
        for water in WATERS
        if taker.takes(water) and not (water == "hot" and taker.fixture.kind == "water_heater")
    )


def _route(taker: Taker, water: Water, graph: nx.Graph[Point], lengths: dict[Point, float]) -> Route:
    at = taker.fixture.at
    near = min(graph, key=lambda point: math.dist(point, at), default=None)
    gap = None if near is None else math.dist(near, at)
    if near is None or gap is None or gap > taker.reach:
        return Route(taker.fixture.id, water, None, gap, taker.reach, None)
    return Route(taker.fixture.id, water, near, gap, taker.reach, lengths.get(near))


def _from_sources(plan: Plan, network: WaterNetwork, water: Water) -> dict[Point, float]:
    """The developed length from the nearest source to every point that the water reaches, inches."""
    graph = network.graphs[water]
    sources = _sources(plan, network, water)
    if not sources:
        return {}
    found: dict[Point, float] = nx.multi_source_dijkstra_path_length(graph, sources, weight="run")
    return found


def _sources(plan: Plan, network: WaterNetwork, water: Water) -> set[Point]:
    graph = network.graphs[water]
    if water == "cold":
        return {inlet.at for inlet in plan.inlets if inlet.at in graph}
    found: set[Point] = set()
    for taker in network.takers:
        if taker.fixture.kind != "water_heater":
            continue
        near = min(graph, key=lambda point: math.dist(point, taker.fixture.at), default=None)
        if near is not None and math.dist(near, taker.fixture.at) <= taker.reach:
            found.add(near)
    return found
