"""Ends that look joined and are not: an end on or close to a pipe without being one of its points."""

from __future__ import annotations

import math

from engine.piping.records import Fault, Network
from engine.piping.sticks import drain_start
from engine.plan.records import Drain, Plan, Point, Vent

REACH = 0.5
"""How near an end must come to a pipe to be taken for one that was meant to join it, inches."""
CELL = 24.0
"""Edge of the search grid's cells, inches: about a joist bay and a half."""

Stretch = tuple[str, Point, Point]


def near_misses(plan: Plan, network: Network) -> tuple[Fault, ...]:
    """Run ends, risers, exits and outlets within half an inch of a waste run that they are not welded to."""
    runs: list[Drain | Vent] = [*plan.drains, *(v for v in plan.vents if v.above_floor is None)]
    stretches: list[Stretch] = [(r.id, a, b) for r in runs for a, b in zip(r.points, r.points[1:], strict=False)]
    vertices: dict[Point, int] = {}
    for run in runs:
        for point in run.points:
            vertices[point] = vertices.get(point, 0) + 1
    stands = {riser.at for riser in plan.risers} | {exit_.at for exit_ in plan.exits}
    outlets = {f.id: drain_start(f) for f in plan.fixtures if f.id in network.outlets}
    joined = stands | set(outlets.values())
    loose: list[tuple[str, Point]] = []
    for run in runs:
        loose += [(run.id, p) for p in (run.points[0], run.points[-1]) if vertices[p] == 1 and p not in joined]
    loose += [(riser.id, riser.at) for riser in plan.risers if riser.at not in vertices]
    loose += [(exit_.id, exit_.at) for exit_ in plan.exits if exit_.at not in vertices]
    loose += [(f, at) for f, at in outlets.items() if at not in vertices and at not in stands]
    if not loose:
        return ()
    cells = _cells(stretches)
    faults: list[Fault] = []
    for element, point in loose:
        best = _nearest(cells, element, point)
        if best is None:
            continue
        gap, other = best
        faults.append(
            Fault(
                "end-not-joined",
                (element, other),
                point,
                f"{element} ends {gap:.3f} in from {other}'s axis but is not joined to it."
                if gap
                else f"{element} ends on {other} where {other} has no point: they are not joined.",
                measured=gap,
                limit=0.0,
                mend=f"Join {element} to {other}.",
            )
        )
    return tuple(faults)


def _cells(stretches: list[Stretch]) -> dict[tuple[int, int], list[Stretch]]:
    cells: dict[tuple[int, int], list[Stretch]] = {}
    for stretch in stretches:
        _, a, b = stretch
        steps = max(1, math.ceil(math.dist(a, b) / CELL))
        touched: set[tuple[int, int]] = set()
        for step in range(steps + 1):
            x = a[0] + (b[0] - a[0]) * step / steps
            y = a[1] + (b[1] - a[1]) * step / steps
            i, j = math.floor(x / CELL), math.floor(y / CELL)
            touched.update((i + di, j + dj) for di in (-1, 0, 1) for dj in (-1, 0, 1))
        for cell in touched:
            cells.setdefault(cell, []).append(stretch)
    return cells


def _nearest(cells: dict[tuple[int, int], list[Stretch]], element: str, point: Point) -> tuple[float, str] | None:
    best: tuple[float, str] | None = None
    for other, a, b in cells.get((math.floor(point[0] / CELL), math.floor(point[1] / CELL)), ()):
        if other == element:
            continue
        gap = distance(point, a, b)
        if gap <= REACH and (best is None or gap < best[0]):
            best = (gap, other)
    return best


def distance(point: Point, a: Point, b: Point) -> float:
    """Distance from a point to a stretch, inches."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy
    if square == 0.0:
        return math.dist(point, a)
    t = max(0.0, min(1.0, ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / square))
    return math.hypot(point[0] - a[0] - t * dx, point[1] - a[1] - t * dy)
