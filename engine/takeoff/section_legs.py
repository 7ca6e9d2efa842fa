"""The pipes of a long section strung together: each straight stretch with its distances and heights."""

from __future__ import annotations

import math
from typing import Literal

from engine.checks.model import Model
from engine.piping.records import Pipe
from engine.plan.records import Passing, Point, Record
from engine.takeoff.fall_path import FallPath, Step
from engine.takeoff.records import System
from engine.trade import pipe as trade


class Leg(Record, frozen=True, gc=False):
    """One straight stretch: its axis runs from `begins`, `z0` up to `ends`, `z1`. An upright pipe begins where it ends."""

    pipe: str
    element: str
    system: System
    shape: Literal["level", "plumb", "inclined"]
    size: float
    od: float
    passing: Passing
    begins: float
    ends: float
    z0: float
    z1: float
    start: Point
    end: Point

    def z(self, station: float) -> float:
        """The axis' height at a distance from the exit."""
        share = (station - self.begins) / (self.ends - self.begins) if self.ends > self.begins else 0.0
        return self.z0 + share * (self.z1 - self.z0)


def legs_of(model: Model, path: FallPath) -> tuple[Leg, ...]:
    """The pipes strung together; a roll takes its share of the run that ends in it."""
    legs: list[Leg] = []
    base = taken = 0.0
    for number, step in enumerate(path.steps):
        z0, z1 = model.heights[step.lower], model.heights[step.upper]
        pipe, lower, upper = step.pipe, step.lower[:2], step.upper[:2]
        if rolls(pipe):
            run = path.steps[number + 1] if number + 1 < len(path.steps) else step
            taken = taken_by(model, pipe, run.pipe)
            legs.append(_leg(pipe, base, base + taken, z0, z1, lower, _toward(run, taken)))
            continue
        legs.append(_leg(pipe, base + taken, base + pipe.run, z0, z1, _toward(step, taken), upper))
        base += pipe.run
        taken = 0.0
    return tuple(legs)


def rolls(pipe: Pipe) -> bool:
    """Whether a pipe is the roll that closes a run's end onto its main; it has no length of its own in plan."""
    return pipe.shape == "inclined" and pipe.run == 0.0


def taken_by(model: Model, roll: Pipe, run: Pipe) -> float:
    """How much of a run's plan length the roll at its end takes, inches."""
    if not roll.climb:
        return 0.0
    climb = abs(model.heights[roll.start] - model.heights[roll.end])
    return min(climb / math.tan(math.radians(abs(roll.climb))), run.run)


def _toward(step: Step, taken: float) -> Point:
    """The plan point so far up a pipe from its lower end."""
    share = taken / step.pipe.run if step.pipe.run else 0.0
    (x0, y0), (x1, y1) = step.lower[:2], step.upper[:2]
    return (x0 + share * (x1 - x0), y0 + share * (y1 - y0))


def _leg(pipe: Pipe, begins: float, ends: float, z0: float, z1: float, start: Point, end: Point) -> Leg:
    return Leg(
        pipe=pipe.id,
        element=pipe.element,
        system=pipe.system,
        shape=pipe.shape,
        size=pipe.size,
        od=trade.drain(pipe.size).od,
        passing=pipe.passing,
        begins=begins,
        ends=ends,
        z0=z0,
        z1=z1,
        start=start,
        end=end,
    )


def upright(model: Model, step: Step, station: float) -> Leg:
    """The pipe through the floor at the upper end."""
    z0, at = model.heights.get(step.lower, 0.0), step.lower[:2]
    return _leg(step.pipe, station, station, z0, step.upper.level, at, at)


def tail_of(model: Model, name: str, first: Leg) -> Leg | None:
    """The pipe that goes plumb from an exit to its tail; none where it goes out through the rim."""
    exit_ = next(one for one in model.plan.exits if one.id == name)
    if exit_.how != "turn-down":
        return None
    return Leg(
        pipe=f"{name}.tail",
        element=name,
        system=first.system,
        shape="plumb",
        size=first.size,
        od=first.od,
        passing="through",
        begins=0.0,
        ends=0.0,
        z0=exit_.tail_z,
        z1=first.z0,
        start=exit_.at,
        end=exit_.at,
    )
