"""How a pipe's body and a joist's wood lie over each other in plan: distances, overlaps and ways clear.

A body is everything within a radius of a straight line (a point, where something stands plumb). The joist is its
rectangle. All arithmetic is in the joist's own frame: `u` along it from its start, `v` square to it.
"""

from __future__ import annotations

import math

from engine.framing.records import Joist
from engine.plan.records import Point


def in_frame(joist: Joist, point: Point) -> Point:
    """A plan point in the joist's frame: (u, v)."""
    dx, dy = point[0] - joist.start[0], point[1] - joist.start[1]
    ux, uy = joist.along
    return dx * ux + dy * uy, dx * uy - dy * ux


def out_of_frame(joist: Joist, u: float, v: float) -> Point:
    """A displacement of the joist's frame as one in plan."""
    ux, uy = joist.along
    return u * ux + v * uy, u * uy - v * ux


def band(start: Point, end: Point, width: float) -> tuple[Point, Point, Point, Point]:
    """The corners of a stick of a width along a centre line."""
    run = math.dist(start, end) or 1.0
    nx, ny = -(end[1] - start[1]) / run * width / 2.0, (end[0] - start[0]) / run * width / 2.0
    return (
        (start[0] + nx, start[1] + ny),
        (end[0] + nx, end[1] + ny),
        (end[0] - nx, end[1] - ny),
        (start[0] - nx, start[1] - ny),
    )


def covers(joist: Joist, point: Point) -> bool:
    """Whether a point lies over a joist's wood, its faces and ends included."""
    u, v = in_frame(joist, point)
    return 0.0 <= u <= joist.length and abs(v) <= joist.thickness / 2.0


def gap(joist: Joist, start: Point, end: Point) -> float:
    """Distance from a line to the joist's wood in plan, 0 where it touches or crosses it."""
    a, b = in_frame(joist, start), in_frame(joist, end)
    half = joist.thickness / 2.0
    if a == b:
        return _to_box(a, joist.length, half)
    if _crosses(a, b, joist.length, half):
        return 0.0
    corners = ((0.0, -half), (0.0, half), (joist.length, -half), (joist.length, half))
    return min(
        _to_box(a, joist.length, half),
        _to_box(b, joist.length, half),
        *(_to_line(corner, a, b) for corner in corners),
    )


def ways_clear(joist: Joist, start: Point, end: Point, radius: float) -> list[Point]:
    """The four moves, square to the joist's faces and ends, that take a body just clear of its wood."""
    (u0, v0), (u1, v1) = in_frame(joist, start), in_frame(joist, end)
    half = joist.thickness / 2.0
    return [
        out_of_frame(joist, 0.0, half + radius - min(v0, v1)),
        out_of_frame(joist, 0.0, -half - radius - max(v0, v1)),
        out_of_frame(joist, joist.length + radius - min(u0, u1), 0.0),
        out_of_frame(joist, -radius - max(u0, u1), 0.0),
    ]


def overlap(joist: Joist, start: Point, end: Point, radius: float) -> float:
    """How far a body stands over the joist's wood: the least move that takes it off; 0 where it is clear."""
    if gap(joist, start, end) >= radius:
        return 0.0
    return min(math.hypot(*way) for way in ways_clear(joist, start, end, radius))


def side_in_wood(joist: Joist, start: Point, end: Point, radius: float) -> float:
    """How far the side of a pipe reaches into the joist's face or end; 0 where its axis is in the wood or it is clear.

    The pipe ends square at its two points: what stands beyond them is a fitting's.
    """
    a, b = in_frame(joist, start), in_frame(joist, end)
    half = joist.thickness / 2.0
    if _crosses(a, b, joist.length, half):
        return 0.0
    run = math.dist(a, b)
    nu, nv = -(b[1] - a[1]) / run * radius, (b[0] - a[0]) / run * radius
    corners = [(a[0] + nu, a[1] + nv), (b[0] + nu, b[1] + nv), (b[0] - nu, b[1] - nv), (a[0] - nu, a[1] - nv)]
    inside = clipped(clipped(corners, 0, 0.0, joist.length), 1, -half, half)
    if not inside:
        return 0.0
    us, vs = [u for u, _ in inside], [v for _, v in inside]
    return min(max(us) - min(us), max(vs) - min(vs))


def _to_box(point: Point, length: float, half: float) -> float:
    return math.hypot(max(0.0, -point[0], point[0] - length), max(0.0, abs(point[1]) - half))


def _to_line(point: Point, a: Point, b: Point) -> float:
    du, dv = b[0] - a[0], b[1] - a[1]
    share = ((point[0] - a[0]) * du + (point[1] - a[1]) * dv) / (du * du + dv * dv)
    share = max(0.0, min(1.0, share))
    return math.hypot(point[0] - a[0] - share * du, point[1] - a[1] - share * dv)


def share_in_box(a: Point, b: Point, low: Point, high: Point) -> tuple[float, float] | None:
    """From where to where a line a-b lies in a box, its edges included, as shares of it from a; None where nowhere.

    Where it only touches the box, both shares are the same.
    """
    first, last = 0.0, 1.0
    for axis in (0, 1):
        place, step = a[axis], b[axis] - a[axis]
        if step == 0.0:
            if not low[axis] <= place <= high[axis]:
                return None
            continue
        one, other = sorted(((low[axis] - place) / step, (high[axis] - place) / step))
        first, last = max(first, one), min(last, other)
    return (first, last) if first <= last else None


def _crosses(a: Point, b: Point, length: float, half: float) -> bool:
    """Whether a line touches a joist's wood, [0, length] x [-half, half] in its frame."""
    return share_in_box(a, b, (0.0, -half), (length, half)) is not None


def clipped(corners: list[Point], axis: int, low: float, high: float) -> list[Point]:
    """A convex outline cut down to low <= coordinate <= high on one axis."""
    for sign, limit in ((1.0, high), (-1.0, -low)):
        kept: list[Point] = []
        for place, here in enumerate(corners):
            before = corners[place - 1]
            in_here, in_before = sign * here[axis] <= limit, sign * before[axis] <= limit
            if in_here != in_before:
                share = (sign * limit - before[axis]) / (here[axis] - before[axis])
                kept.append((before[0] + share * (here[0] - before[0]), before[1] + share * (here[1] - before[1])))
            if in_here:
                kept.append(here)
        corners = kept
    return corners
