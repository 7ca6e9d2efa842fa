"""What a pointer can be drawn to: the marks and lines of one plan and its framing, gathered once."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from enum import IntEnum
from itertools import pairwise
from typing import Literal, NamedTuple

from engine.drafting.beside import lanes
from engine.drafting.cells import Cells
from engine.drafting.stubs import Stub, all_stubs
from engine.framing.records import Framing, Joist
from engine.framing.rows import rows
from engine.plan.outline import called
from engine.plan.points import Run, runs
from engine.plan.records import Drain, Exit, Fixture, Inlet, Plan, Point, Riser, Supply, Vent
from engine.plan.welds import WALL_OUTLETS, comes_down, outlet
from engine.trade.fixtures import fixture as known

Layer = Literal["under", "overhead", "cold", "hot"]
"""What is being drawn: waste and vents under the floor, vents overhead, cold water, hot water."""

LAYERS: frozenset[Layer] = frozenset(("under", "overhead", "cold", "hot"))
_WASTE: frozenset[Layer] = frozenset(("under", "overhead"))
_UNDER: frozenset[Layer] = frozenset(("under",))
_COLD: frozenset[Layer] = frozenset(("cold",))
_HOT: frozenset[Layer] = frozenset(("hot",))


class Rank(IntEnum):
    """What a pointer is drawn to first."""

    OUTLET = 0
    END = 1
    VERTEX = 2
    MEETING = 3
    RUN = 4
    BESIDE = 5
    WALL = 6
    BAY = 7
    HEADING = 8
    GRID = 9
    FREE = 10


class Mark(NamedTuple):
    """A point to be drawn to, why, and whose it is."""

    rank: Rank
    at: Point
    reason: str
    element: str
    layers: frozenset[Layer]


class Guide(NamedTuple):
    """A straight stretch to be drawn to; `name` is how a meeting with another one is told."""

    rank: Rank
    start: Point
    end: Point
    reason: str
    name: str
    element: str | None
    layers: frozenset[Layer]


class Candidates:
    """All marks and guides of a plan and its framing, ready to be asked many times while a pointer moves."""

    __slots__ = ("guides", "marks")

    def __init__(self, plan: Plan, framing: Framing, leave_out: Collection[str] = ()) -> None:
        self.marks: Cells[Mark] = Cells()
        self.guides: Cells[Guide] = Cells()
        self._outlets(plan, leave_out)
        for run in runs(plan):
            if run.id not in leave_out:
                self._run(run)
        for wall in plan.walls:
            if wall.id not in leave_out and wall.start != wall.end:
                name = f"the middle of {called(wall)}"
                self._guide(Guide(Rank.WALL, wall.start, wall.end, name, name, wall.id, LAYERS))
        corners = plan.floor.outline
        for start, end in pairwise((*corners, corners[0])):
            name = "the floor's edge"
            self._guide(Guide(Rank.WALL, start, end, name, name, None, LAYERS))
        for start, end in bay_lines(framing):
            name = "the middle of the joist bay"
            self._guide(Guide(Rank.BAY, start, end, name, name, None, LAYERS))

    def _outlets(self, plan: Plan, leave_out: Collection[str]) -> None:
        for fixture in plan.fixtures:
            if fixture.id not in leave_out:
                self._fixture(fixture)
        names = {fixture.id: fixture.name or f"the {known(fixture.kind).words}" for fixture in plan.fixtures}
        for stub in all_stubs(plan):
            if stub.fixture not in leave_out:
                self._stub(stub, names[stub.fixture])
        things: tuple[tuple[Riser | Exit | Inlet, frozenset[Layer]], ...] = (
            *((riser, _WASTE) for riser in plan.risers),
            *((exit_, _UNDER) for exit_ in plan.exits),
            *((inlet, _COLD) for inlet in plan.inlets),
        )
        for thing, layers in things:
            if thing.id not in leave_out:
                self._mark(Mark(Rank.OUTLET, thing.at, called(thing), thing.id, layers))

        for riser in plan.risers:
            down = comes_down(riser)
            if down is not None and riser.id not in leave_out:
                self._mark(Mark(Rank.OUTLET, down, f"where {called(riser)} comes down", riser.id, _UNDER))

    def _fixture(self, fixture: Fixture) -> None:
        drained = outlet(fixture)
        if drained is not None:
            layers = _WASTE if fixture.kind in WALL_OUTLETS else _UNDER
            what = "trap" if fixture.kind == "bathtub" else "outlet"
            self._mark(Mark(Rank.OUTLET, drained, f"{what} of {called(fixture)}", fixture.id, layers))

    def _stub(self, stub: Stub, name: str) -> None:
        water = _COLD if stub.water == "cold" else _HOT
        self._mark(Mark(Rank.OUTLET, stub.at, f"{stub.water} for {name}", stub.fixture, water))

    def _run(self, run: Run) -> None:
        layers, name = frozenset((layer_of(run),)), called(run)
        last = len(run.points) - 1
        for index, point in enumerate(run.points):
            end = index in (0, last)
            self._mark(
                Mark(Rank.END if end else Rank.VERTEX, point, f"{'end' if end else 'point'} of {name}", run.id, layers)
            )
        for start, end_ in pairwise(run.points):
            if start != end_:
                self._guide(Guide(Rank.RUN, start, end_, f"on {name}", name, run.id, layers))
        if isinstance(run, Supply):
            self._beside(run, name)

    def _beside(self, run: Supply, name: str) -> None:
        """Where a tube of the other water lies against a run. Nothing is joined there, so no element draws it."""
        other, reason = _HOT if run.water == "cold" else _COLD, f"beside {name}"
        for lane in lanes(run):
            self._guide(Guide(Rank.BESIDE, *lane, reason, f"the line {reason}", None, other))

    def _mark(self, mark: Mark) -> None:
        self.marks.put(mark, mark.at)

    def _guide(self, guide: Guide) -> None:
        self.guides.put(guide, guide.start, guide.end)


def layer_of(run: Drain | Vent | Supply) -> Layer:
    """The layer that a run lies in."""
    if isinstance(run, Supply):
        return run.water
    return "overhead" if isinstance(run, Vent) and run.above_floor is not None else "under"


def bay_lines(framing: Framing) -> list[tuple[Point, Point]]:
    """The middle lines of all joist bays, halfway between the faces of neighbouring joists, south or west end first."""
    lines: list[tuple[Point, Point]] = []
    for sticks in rows(framing).values():
        axis = 0 if sticks[0].along[1] else 1
        for place in range(len(sticks)):
            lines += _bays_after(sticks, place, axis)
    return lines


def _bays_after(sticks: Sequence[Joist], place: int, axis: int) -> Iterator[tuple[Point, Point]]:
    """The middle lines of the bays on the far side of a joist, by what stands next to each part of it."""
    stick, other = sticks[place], 1 - axis
    face = stick.start[axis] + stick.thickness / 2.0
    bare = [(stick.start[other], stick.end[other])]
    while bare and (place := place + 1) < len(sticks):
        following = sticks[place]
        first, last = following.start[other], following.end[other]
        met = [(max(a, first), min(b, last)) for a, b in bare if max(a, first) < min(b, last)]
        bare = [part for a, b in bare for part in ((a, min(b, first)), (max(a, last), b)) if part[0] < part[1]]
        middle = (face + following.start[axis] - following.thickness / 2.0) / 2.0
        if middle > face:
            yield from (((middle, a), (middle, b)) if axis == 0 else ((a, middle), (b, middle)) for a, b in met)
