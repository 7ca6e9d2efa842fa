"""The water lines as graphs: one for cold, one for hot, each welded only to itself where points are equal."""

from __future__ import annotations

import math
from collections.abc import Iterator

import networkx as nx

from engine.drafting.stubs import all_stubs
from engine.plan.records import Fixture, Plan, Point, Record, Water
from engine.trade import fixtures as trade
from engine.trade.pipe import nominal

WATERS: tuple[Water, ...] = ("cold", "hot")


class TubeEnd(Record, frozen=True, gc=False):
    """One tube's end at a point: the way it leaves (a unit heading), its straight length, its size and its run."""

    toward: tuple[float, float]
    length: float
    size: float
    element: str


class Taker(Record, frozen=True, gc=False):
    """A fixture that takes water: which, within how many inches of it a supply comes up for it, and its own stubs."""

    fixture: Fixture
    reach: float
    cold: bool
    hot: bool
    stubs: tuple[tuple[Water, Point], ...] = ()

    def takes(self, water: Water) -> bool:
        """Whether it takes this water."""
        return self.cold if water == "cold" else self.hot

    def stub(self, water: Water) -> Point | None:
        """Where this water comes up for it; None when it takes none."""
        return next((at for its, at in self.stubs if its == water), None)


class WaterNetwork:
    """The tubes of a plan. `graphs` holds an undirected networkx graph for each water, whose edges carry the plan
    length ``run`` in inches; `meetings` the tube ends at each point; `takers` the fixtures in file order."""

    __slots__ = ("_points", "_served", "graphs", "meetings", "takers")

    def __init__(self, plan: Plan) -> None:
        self.graphs: dict[Water, nx.Graph[Point]] = {water: nx.Graph() for water in WATERS}
        self.meetings: dict[Water, dict[Point, list[TubeEnd]]] = {water: {} for water in WATERS}
        for supply in plan.supplies:
            graph, meetings, size = self.graphs[supply.water], self.meetings[supply.water], nominal(supply.size)
            for a, b in zip(supply.points, supply.points[1:], strict=False):
                run = math.dist(a, b)
                if run == 0.0:
                    continue
                graph.add_edge(a, b, run=run)
                way = ((b[0] - a[0]) / run, (b[1] - a[1]) / run)
                meetings.setdefault(a, []).append(TubeEnd(way, run, size, supply.id))
                meetings.setdefault(b, []).append(TubeEnd((-way[0], -way[1]), run, size, supply.id))
        self.takers = tuple(_takers(plan))
        self._points: dict[Water, dict[Cell, list[Point]]] = {water: {} for water in WATERS}
        for water, graph in self.graphs.items():
            for point in graph:
                self._points[water].setdefault(_cell(point), []).append(point)
        self._served: dict[Cell, list[Taker]] = {}
        for taker in self.takers:
            for cell in {*_cells(taker.fixture.at, taker.reach), *(_cell(at) for _, at in taker.stubs)}:
                self._served.setdefault(cell, []).append(taker)

    def nearest_taker(self, water: Water, at: Point) -> Fixture | None:
        """The fixture that a tube's end at `at` serves: the one whose stub it is, else the nearest within its reach."""
        best: tuple[float, Fixture] | None = None
        for taker in self._served.get(_cell(at), ()):
            if not taker.takes(water):
                continue
            if taker.stub(water) == at:
                return taker.fixture
            gap = math.dist(at, taker.fixture.at)
            if gap <= taker.reach and (best is None or gap < best[0]):
                best = (gap, taker.fixture)
        return best[1] if best is not None else None

    def nearest_point(self, water: Water, taker: Taker) -> Point | None:
        """The point of this water's runs that serves a fixture: at its stub, else the nearest within its reach."""
        stub, at = taker.stub(water), taker.fixture.at
        if stub in self.graphs[water]:
            return stub
        best: tuple[float, Point] | None = None
        for cell in _cells(at, taker.reach):
            for point in self._points[water].get(cell, ()):
                gap = math.dist(at, point)
                if gap <= taker.reach and (best is None or gap < best[0]):
                    best = (gap, point)
        return best[1] if best is not None else None


Cell = tuple[int, int]
CELL = 48.0
"""Edge of the search grid's cells, inches."""


def _cell(point: Point) -> Cell:
    return math.floor(point[0] / CELL), math.floor(point[1] / CELL)


def _cells(at: Point, reach: float) -> Iterator[Cell]:
    """The cells that the square of this reach about a point touches."""
    west, south = _cell((at[0] - reach, at[1] - reach))
    east, north = _cell((at[0] + reach, at[1] + reach))
    return ((x, y) for x in range(west, east + 1) for y in range(south, north + 1))


def _takers(plan: Plan) -> list[Taker]:
    """The fixtures that take water; a heater takes cold and gives hot, and both come up at it."""
    found: list[Taker] = []
    stubs: dict[str, list[tuple[Water, Point]]] = {}
    for stub in all_stubs(plan) if plan.supplies else ():
        stubs.setdefault(stub.fixture, []).append((stub.water, stub.at))
    for fixture in plan.fixtures:
        spec = trade.fixture(fixture.kind)
        hot = spec.hot or fixture.kind == "water_heater"
        if spec.cold or hot:
            reach = max(fixture.width or spec.width, fixture.depth or spec.depth)
            found.append(Taker(fixture, reach, spec.cold, hot, tuple(stubs.get(fixture.id, ()))))
    return found
