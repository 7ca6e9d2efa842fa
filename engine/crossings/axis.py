"""How high the axis of a drain lies anywhere along it, between the nodes whose heights are known."""

from __future__ import annotations

from collections.abc import Mapping

from engine.piping.flow import is_under
from engine.piping.records import Network, Node
from engine.plan.axis import distance, foot
from engine.plan.grid import STEP
from engine.plan.records import Point


def drain_axis_at(network: Network, heights: Mapping[Node, float], point: Point) -> float | None:
    """Height over the joists' top, inches, of the drain's axis at a plan point on a level drain under the floor.

    Where several drains pass the point it is the lowest; None where none does, or where its height is not known.
    """
    lowest: float | None = None
    for pipe in network.pipes:
        if pipe.system != "waste" or pipe.shape != "level" or not is_under(pipe.start):
            continue
        a, b = (pipe.start.x, pipe.start.y), (pipe.end.x, pipe.end.y)
        top = heights.get(pipe.start)
        if top is None or distance(point, foot(a, b, point)) > STEP:
            continue
        z = top - pipe.slope * distance(a, point) / 12.0
        lowest = z if lowest is None else min(lowest, z)
    return lowest
