"""Runs parted at one of their points, so that each part may have a slope of its own, and made one again."""

from __future__ import annotations

import math

from engine.piping.records import Network
from engine.plan import edits
from engine.plan.edits.runs import End
from engine.plan.points import Run
from engine.plan.records import Plan, Point


def inner_point(run: Run, near: Point | None) -> int:
    """The number of a run's inner point nearest to a place, or of its middle one. EditError when it has none."""
    inner = range(1, len(run.points) - 1)
    if not inner:
        raise edits.EditError(
            run.id, "it has no point between its ends to be parted at: A puts one where the pointer is"
        )
    if near is None:
        return inner[len(inner) // 2]
    return min(inner, key=lambda number: math.dist(run.points[number], near))


def parted(plan: Plan, run: Run, near: Point | None, network: Network | None) -> Plan:
    """The plan with a run parted at its inner point nearest to a place; how it joins stays with its lower part."""
    return edits.split(plan, run.id, inner_point(run, near), _lower_end(run, network))


def _lower_end(run: Run, network: Network | None) -> End:
    """Which end of a run the water leaves by; its drawn end while that is not known."""
    for pipe in network.pipes if network is not None else ():
        if pipe.element == run.id and pipe.run and pipe.segment == 0:
            return "end" if (pipe.start.x, pipe.start.y) == run.points[0] else "start"
    return "end"
