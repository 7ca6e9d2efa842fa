"""From which corner to look: the one from which the fewest pipes hide each other."""

from __future__ import annotations

import math

from engine.drawings.isometric.axes import CORNERS, project
from engine.drawings.isometric.levels import Places
from engine.drawings.isometric.skeleton import Skeleton
from engine.plan.records import Point

NEAR = 4.0
"""Joints that fall nearer together than this on the sheet crowd each other, inches of the building."""

CLOSE = 3.0
"""Pipes that run side by side nearer than this read as one, inches of the building."""

_CROSSING = 1.0
_MERGED = 2.5
_CROWDED = 0.7
_EXIT_HIGH = 0.4


def best_turn(bones: Skeleton, places: Places) -> int:
    """The quarter turn with the clearest view; of equals the one whose lowest pipe lies lowest, as it is read."""
    return min(range(len(CORNERS)), key=lambda turn: (round(muddle(bones, places, turn), 3), turn))


def muddle(bones: Skeleton, places: Places, turn: int) -> float:
    """How badly a view hides things: pipes that cross, joints that fall on each other, an exit high on the sheet."""
    points = {key: project(at, turn) for key, at in places.at.items()}
    lines = [(points[length.start], points[length.end], {length.start, length.end}) for length in bones.lengths]
    total = 0.0
    for n, (a, b, ends) in enumerate(lines):
        for c, d, others in lines[n + 1 :]:
            if ends & others:
                continue
            if _crosses(a, b, c, d):
                total += _CROSSING
            elif _merged(a, b, c, d):
                total += _MERGED
    joined = [{length.start, length.end} for length in bones.lengths]
    keys = list(points)
    for n, key in enumerate(keys):
        for other in keys[n + 1 :]:
            if math.dist(points[key], points[other]) < NEAR and {key, other} not in joined:
                total += _CROWDED
    if points:
        heights = [v for _, v in points.values()]
        low, high = min(heights), max(heights)
        deepest = min(places.at, key=lambda key: places.at[key][2])
        total += _EXIT_HIGH * (points[deepest][1] - low) / ((high - low) or 1.0)
    return total


def _merged(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two lines run side by side, close to each other, for more than a moment."""
    long = math.dist(a, b)
    if long < CLOSE or math.dist(c, d) < CLOSE:
        return False
    wx, wy = (b[0] - a[0]) / long, (b[1] - a[1]) / long
    offs = [abs((p[1] - a[1]) * wx - (p[0] - a[0]) * wy) for p in (c, d)]
    first, last = sorted((p[0] - a[0]) * wx + (p[1] - a[1]) * wy for p in (c, d))
    return max(offs) < CLOSE and min(last, long) - max(first, 0.0) > CLOSE


def _crosses(a: Point, b: Point, c: Point, d: Point) -> bool:
    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0.0 and side(c, d, a) * side(c, d, b) < 0.0
