"""The finished floor over a line, for its long section: how high it lies, stretch by stretch."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from engine.plan.flooring import finished_at
from engine.plan.records import Plan, Point, Record


class Finished(Record, frozen=True, gc=False):
    """A stretch of the line over which the finished floor lies `z` over the joists' top: where it begins and ends, inches."""

    begins: float
    ends: float
    z: float


def finished_over(plan: Plan, places: Sequence[tuple[Point, Point, float, float]]) -> tuple[Finished, ...]:
    """The finished floor over the legs of a line, told as plan lines with the distances where they begin and end.

    Over a line that only stands plumb it is one stretch of no length.
    """
    found: list[Finished] = []
    for start, end, begins, ends in places:
        if ends <= begins:
            continue
        steps = sorted({0.0, 1.0, *_crossed(plan, start, end)})
        for low, high in pairwise(steps):
            middle = (low + high) / 2.0
            at = (start[0] + (end[0] - start[0]) * middle, start[1] + (end[1] - start[1]) * middle)
            z = finished_at(plan, at)
            here = Finished(begins + (ends - begins) * low, begins + (ends - begins) * high, z)
            if found and found[-1].z == z and found[-1].ends == here.begins:
                here = Finished(found.pop().begins, here.ends, z)
            found.append(here)
    if not found:
        return tuple(Finished(begins, ends, finished_at(plan, at)) for at, _, begins, ends in places[:1])
    return tuple(found)


def _crossed(plan: Plan, start: Point, end: Point) -> Iterator[float]:
    """Where a straight stretch crosses the lines along the edges of flooring areas, as shares of its length."""
    for area in plan.flooring_areas:
        for axis in (0, 1):
            way = end[axis] - start[axis]
            for edge in (area.start[axis], area.end[axis]):
                if way and 0.0 < (share := (edge - start[axis]) / way) < 1.0:
                    yield share
