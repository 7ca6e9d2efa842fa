"""routes(...): the way of the water to each fixture, by the runs as drawn.

Cold comes from the inlets, hot from the water heaters. A fixture is reached by a run with a point at its stub, else
by the nearest within its own reach; supply stubs need less precision than drains, so no exact point is asked for.
"""

from __future__ import annotations

import math

import networkx as nx

from engine.plan.records import Plan, Point, Record, Water
from engine.water.network import WATERS, Taker, WaterNetwork


class Route(Record, frozen=True, gc=False):
    """How one fixture gets one water.

    `stub` is the run's point that comes up nearest to it (None when none is in reach), `gap` how far that is,
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
        _route(network, taker, water, lengths[water])
        for taker in network.takers
        for water in WATERS
        if taker.takes(water) and not (water == "hot" and taker.fixture.kind == "water_heater")
    )


def _route(network: WaterNetwork, taker: Taker, water: Water, lengths: dict[Point, float]) -> Route:
    near = network.nearest_point(water, taker)
    gap = None if near is None else math.dist(near, taker.fixture.at)
    return Route(taker.fixture.id, water, near, gap, taker.reach, None if near is None else lengths.get(near))


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
    heaters = (taker for taker in network.takers if taker.fixture.kind == "water_heater")
    return {near for heater in heaters if (near := network.nearest_point(water, heater)) is not None}
