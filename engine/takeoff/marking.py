"""Layout marks for stringing lines: every centre on the floor by two distances from the framing, and a diagonal."""

from __future__ import annotations

import math

from engine.checks.model import Model
from engine.lengths import nearest
from engine.plan.records import Point
from engine.takeoff.marks.centres import Centre, centres
from engine.takeoff.marks.edges import baseline, edges, running_past
from engine.takeoff.marks.records import Edge, Hole, Layout, Mark, NotMarked

__all__ = ["Edge", "Hole", "Layout", "Mark", "NotMarked", "layout"]

_ASLANT = 0.25
"""Least share of a diagonal that must run in each direction, so that a slip in either shows in its length."""


def layout(model: Model) -> Layout:
    """Every closet, floor outlet, riser, exit and water stub-up by two baselines and a check diagonal.

    Distances are from outside faces of rims and end joists, which stand before any wall does. What lies off the
    framing, or where no such face can be hooked, is not marked, and why is said.
    """
    faces = edges(model)
    found = list(centres(model))
    points = [centre.at for centre in found]
    chosen = [baseline([running_past(model, faces, point, axis) for point in points], points, axis) for axis in (0, 1)]
    placed: list[tuple[Centre, Edge, Edge]] = []
    missing: list[NotMarked] = []
    for centre, east, north in zip(found, *chosen, strict=True):
        if east is not None and north is not None:
            placed.append((centre, east, north))
        else:
            missing.append(NotMarked(centre.element, centre.words, _why(faces, east, north)))
    return Layout(tuple(_mark(one, placed) for one in placed), tuple(missing))


def _why(faces: tuple[Edge, ...], east: Edge | None, north: Edge | None) -> str:
    if not faces:
        return "no joists are drawn, so there is no edge to measure from"
    ways = [way for way, edge in (("east-west", east), ("north-south", north)) if edge is None]
    return f"no outside face of rim or end joist can be hooked on its {' or '.join(ways)} line"


def _mark(one: tuple[Centre, Edge, Edge], placed: list[tuple[Centre, Edge, Edge]]) -> Mark:
    centre, east, north = one
    to, point = _across(centre, east, north, [other for other, _, _ in placed])
    return Mark(
        element=centre.element,
        kind=centre.kind,
        words=centre.words,
        at=centre.at,
        east_from=nearest(abs(centre.at[0] - east.at)),
        east_edge=east.words,
        north_from=nearest(abs(centre.at[1] - north.at)),
        north_edge=north.words,
        holes=centre.holes,
        walls=centre.walls,
        diagonal_to=to,
        diagonal=nearest(math.dist(centre.at, point)),
    )


def _across(centre: Centre, east: Edge, north: Edge, others: list[Centre]) -> tuple[str, Point]:
    """What a mark's diagonal runs to: the nearest mark of a drain that lies aslant of it, else its edges' corner."""
    fit = [other for other in others if other.kind != "water" and _aslant(centre.at, other.at) >= _ASLANT]
    if not fit:
        return f"the corner of the {east.words} and the {north.words}", (east.at, north.at)
    best = min(fit, key=lambda other: math.dist(centre.at, other.at))
    return f"{best.element} ({best.words})", best.at


def _aslant(a: Point, b: Point) -> float:
    """The smaller share of a diagonal's run, east-west or north-south; 0 for one that runs square."""
    length = math.dist(a, b)
    return min(abs(a[0] - b[0]), abs(a[1] - b[1])) / length if length else 0.0
