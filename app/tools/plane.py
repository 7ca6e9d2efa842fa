"""Plain geometry in plan inches: headings are degrees counter-clockwise from east."""

from __future__ import annotations

import math

from engine.plan.records import Point


def ahead(point: Point, heading: float, forward: float, left: float = 0.0) -> Point:
    """The plan point so far forward and to the left of another, for a heading in degrees from east."""
    along, across = math.cos(math.radians(heading)), math.sin(math.radians(heading))
    return (point[0] + forward * along - left * across, point[1] + forward * across + left * along)


def heading_of(start: Point, end: Point) -> float:
    """The heading from one plan point to another, degrees counter-clockwise from east."""
    return math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))


def middle(start: Point, end: Point) -> Point:
    """The plan point half-way between two."""
    return ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)


def beside(point: Point, start: Point, end: Point) -> tuple[float, float]:
    """A point's place along a line from its start, and its distance to the left of it, inches."""
    length = math.dist(start, end)
    if length == 0.0:
        return 0.0, math.dist(point, start)
    dx, dy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    px, py = point[0] - start[0], point[1] - start[1]
    return px * dx + py * dy, dx * py - dy * px
