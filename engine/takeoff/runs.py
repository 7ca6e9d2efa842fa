"""Drawn runs as they lie: their pipes strung together from the upper end down, with places and heights along them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from engine.checks.model import Model
from engine.crossings.records import Crossing
from engine.crossings.windows import mid_depth, supply_axis
from engine.piping.records import Pipe
from engine.plan.records import Point, Supply
from engine.takeoff.naming import crossings_on
from engine.takeoff.records import System
from engine.takeoff.section_legs import rolls, taken_by
from engine.trade import pipe as trade


@dataclass(slots=True, frozen=True)
class Stretch:
    """One straight level stretch: `begins` is how far along the run it starts, `z0` and `z1` its axis heights.

    Where the run rolls onto its main, `rolled` inches of the stretch's end lie in the roll, which goes from `z1` down to
    `foot`.
    """

    pipe: str
    start: Point
    end: Point
    begins: float
    z0: float | None
    z1: float | None
    rolled: float = 0.0
    foot: float = 0.0

    @property
    def length(self) -> float:
        """Plan length, inches."""
        return math.dist(self.start, self.end)

    def at(self, along: float) -> Point:
        """The plan point so far along the run."""
        share = (along - self.begins) / self.length if self.length else 0.0
        (x0, y0), (x1, y1) = self.start, self.end
        return (x0 + share * (x1 - x0), y0 + share * (y1 - y0))

    def z(self, along: float) -> float | None:
        """The axis' height so far along the run, inches from the joists' top; None where it is not known."""
        if self.z0 is None or self.z1 is None:
            return None
        sloping, along = self.length - self.rolled, along - self.begins
        if along > sloping and self.rolled:
            return self.z1 + (along - sloping) / self.rolled * (self.foot - self.z1)
        return self.z0 + (along / sloping if sloping else 0.0) * (self.z1 - self.z0)


@dataclass(slots=True)
class Run:
    """The level pipes of one drawn element, from the upper end down, and where they cross joists."""

    element: str
    system: System
    size: float
    od: float
    material: str
    stretches: list[Stretch] = field(default_factory=list)
    crossings: list[tuple[float, Crossing]] = field(default_factory=list)

    @property
    def length(self) -> float:
        """Plan length of the whole run, inches."""
        last = self.stretches[-1]
        return last.begins + last.length

    def stretch(self, along: float) -> Stretch:
        """The stretch that lies so far along the run."""
        return next((s for s in self.stretches if along <= s.begins + s.length), self.stretches[-1])

    def corners(self) -> list[float]:
        """How far along the run its ends and inner vertices lie."""
        return [*(stretch.begins for stretch in self.stretches), self.length]


def runs(model: Model) -> Iterator[Run]:
    """Every drawn run with level pipes: drains and vents as the water and the air go, then supplies as drawn."""
    crossed = crossings_on(model)
    by_element: dict[str, list[Pipe]] = {}
    drawn = {run.id for run in model.plan.drains} | {run.id for run in model.plan.vents}
    for pipe in model.network.pipes:
        if pipe.run > 0.0 and pipe.element in drawn:
            by_element.setdefault(pipe.element, []).append(pipe)
    for element, pipes in by_element.items():
        for chain in _chains(pipes):
            yield _of_pipes(model, crossed, element, chain)
    for supply in model.plan.supplies:
        yield _of_supply(model, crossed, supply)


def _chains(pipes: list[Pipe]) -> Iterator[list[Pipe]]:
    """The pipes of one element, each after the one that flows into it."""
    into = {pipe.end for pipe in pipes}
    after = {pipe.start: pipe for pipe in pipes}
    done: set[str] = set()
    for first in [*(pipe for pipe in pipes if pipe.start not in into), *pipes]:
        chain: list[Pipe] = []
        pipe: Pipe | None = first
        while pipe is not None and pipe.id not in done:
            done.add(pipe.id)
            chain.append(pipe)
            pipe = after.get(pipe.end)
        if chain:
            yield chain


def _of_pipes(model: Model, crossed: dict[str, list[Crossing]], element: str, chain: list[Pipe]) -> Run:
    first = chain[0]
    run = Run(element, first.system, first.size, trade.drain(first.size).od, model.plan.material)
    begins = 0.0
    for pipe in chain:
        start, end = (pipe.start.x, pipe.start.y), (pipe.end.x, pipe.end.y)
        run.stretches.append(Stretch(pipe.id, start, end, begins, *_heights(model, pipe)))
        run.crossings += [(begins + crossing.position, crossing) for crossing in crossed.get(pipe.id, ())]
        begins += pipe.run
    run.crossings.sort(key=lambda pair: pair[0])
    return run


def _heights(model: Model, pipe: Pipe) -> tuple[float | None, float | None, float, float]:
    """A stretch's heights: at its start, where its own slope ends, how much of it lies in a roll, and at the roll's foot.

    Down to the roll the pipe keeps its slope, as its bores are laid out; the roll takes what an open climb came to more.
    """
    z0, z1 = model.heights.get(pipe.start), model.heights.get(pipe.end)
    roll = model.network.waste_from(pipe.end)
    foot = None if roll is None or not rolls(roll) else model.heights.get(roll.end)
    if roll is None or foot is None or z0 is None or z1 is None:
        return z0, z1, 0.0, 0.0
    taken = taken_by(model, roll, pipe)
    return z0, z0 - pipe.slope * (pipe.run - taken) / 12.0, taken, foot


def _of_supply(model: Model, crossed: dict[str, list[Crossing]], supply: Supply) -> Run:
    size = trade.nominal(supply.size)
    run = Run(supply.id, supply.water, size, trade.tube(size).od + 2.0 * supply.insulation, "PEX")
    nowhere = supply.down is None and not model.framing.joists
    z = None if nowhere else supply_axis(supply, mid_depth(model.framing))
    begins = 0.0
    for number, (start, end) in enumerate(pairwise(supply.points)):
        if start == end:
            continue
        name = f"{supply.id}.{number}"
        run.stretches.append(Stretch(name, start, end, begins, z, z))
        run.crossings += [(begins + crossing.position, crossing) for crossing in crossed.get(name, ())]
        begins += math.dist(start, end)
    run.crossings.sort(key=lambda pair: pair[0])
    return run
