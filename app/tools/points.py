"""Points put into a run and taken out of it again, where the pointer is."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import NamedTuple

from engine.plan import edits
from engine.plan.axis import foot
from engine.plan.grid import spot
from engine.plan.points import Run
from engine.plan.records import Plan, Point

ON_AXIS = 1.0 / 64.0
"""A snapped place so near to a run's axis lies on it, inches."""


class Place(NamedTuple):
    """A place on a run: the number of the stretch, and the point of its axis."""

    segment: int
    at: Point


def place_on(run: Run, near: Point, wished: Point | None = None) -> Place:
    """The place of a run's axis nearest to a point; `wished` is taken instead where it lies on that stretch."""
    stretches = tuple(pairwise(run.points))
    segment = min(range(len(stretches)), key=lambda k: math.dist(foot(*stretches[k], near), near))
    start, end = stretches[segment]
    if wished is not None and math.dist(foot(start, end, wished), wished) <= ON_AXIS:
        return Place(segment, wished)
    return Place(segment, spot(*foot(start, end, near)))


def middle_of(run: Run) -> Place:
    """The middle of a run's longest stretch, for when no pointer says where."""
    stretches = tuple(pairwise(run.points))
    segment = max(range(len(stretches)), key=lambda k: math.dist(*stretches[k]))
    (x0, y0), (x1, y1) = stretches[segment]
    return Place(segment, spot((x0 + x1) / 2.0, (y0 + y1) / 2.0))


def nearest_point(run: Run, near: Point) -> int:
    """The number of the run's own point nearest to a place."""
    return min(range(len(run.points)), key=lambda k: math.dist(run.points[k], near))


def with_point(plan: Plan, run: Run, place: Place) -> Plan:
    """The plan with a new point in a run. EditError when the run has one there already."""
    if place.at in run.points:
        raise edits.EditError(run.id, "it has a point there already")
    return edits.insert_point(plan, run.id, place.segment, place.at)
