"""Where each joint is drawn: the grade left out, short lengths drawn out, long risers broken.

Small slopes vanish at the scale of a sheet, so whatever runs level is drawn on its axis and the slope written
beside it (a choice of this program). Lengths keep their proportion otherwise, except where two fittings would lie
on each other, and where a riser stands long with nothing on it.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Callable
from itertools import pairwise
from typing import NamedTuple

from engine.drawings.isometric.skeleton import Length, Skeleton
from engine.joinery.records import Space

Least = Callable[[Length], float]
"""The least at which a length is drawn, inches of the building."""

AMISS = 0.6
"""A ring of pipes that closes with a larger gap is drawn without drawing anything out, inches."""


class Break(NamedTuple):
    """A stretch of height on which nothing stands: as built from `low` to `high`, drawn from `low` to `drawn_high`."""

    drawn_low: float
    drawn_high: float
    left_out: float


class Places(NamedTuple):
    """Where every joint is drawn, and the heights at which risers are broken."""

    at: dict[str, Space]
    breaks: tuple[Break, ...]


def settle(bones: Skeleton, least: Least, longest: float) -> Places:
    """Places on their axes; no length shorter than `least` says, no bare height above `longest`."""
    drawn = _spread(bones, least)
    if not _closes(bones, drawn, least):
        drawn = _spread(bones, lambda _: 0.0)
    return _broken(drawn, longest)


def _spread(bones: Skeleton, least: Least) -> dict[str, Space]:
    """Joint after joint along the pipes, each as far from the last as it is built, or as the least asks."""
    classes = _level_classes(bones)
    meeting = bones.at_joint()
    heights = _heights(bones, classes, least)
    drawn: dict[str, Space] = {}
    for root in sorted(bones.joints, key=lambda key: (bones.joints[key].at[2], bones.joints[key].at[:2])):
        if root in drawn:
            continue
        x, y, _ = bones.joints[root].at
        drawn[root] = (x, y, heights[classes[root]])
        queue = deque([root])
        while queue:
            key = queue.popleft()
            for length in meeting[key]:
                other = length.end if length.start == key else length.start
                if other in drawn:
                    continue
                dx, dy, _ = _vector(bones, length, least)
                way = 1.0 if other == length.end else -1.0
                drawn[other] = (drawn[key][0] + way * dx, drawn[key][1] + way * dy, heights[classes[other]])
                queue.append(other)
    return drawn


def _vector(bones: Skeleton, length: Length, least: Least) -> Space:
    """From a length's start to its end as it is drawn."""
    a, b = bones.joints[length.start].at, bones.joints[length.end].at
    whole = (b[0] - a[0], b[1] - a[1], 0.0 if length.shape == "level" else b[2] - a[2])
    if length.shape == "plumb":
        whole = (0.0, 0.0, whole[2])
    run = math.hypot(*whole)
    if run < 1e-6:
        return whole
    drawn_out = max(1.0, least(length) / run)
    return (whole[0] * drawn_out, whole[1] * drawn_out, whole[2] * drawn_out)


def _level_classes(bones: Skeleton) -> dict[str, str]:
    """For each joint the name of the level that it lies on: all that level pipes hang together."""
    head: dict[str, str] = {key: key for key in bones.joints}

    def find(key: str) -> str:
        while head[key] != key:
            head[key] = head[head[key]]
            key = head[key]
        return key

    for length in bones.lengths:
        if length.shape == "level":
            head[find(length.start)] = find(length.end)
    return {key: find(key) for key in bones.joints}


def _heights(bones: Skeleton, classes: dict[str, str], least: Least) -> dict[str, float]:
    """The height of each level: that of its lowest joint where nothing below leads up to it."""
    lowest: dict[str, float] = {}
    for key, name in classes.items():
        z = bones.joints[key].at[2]
        lowest[name] = min(lowest.get(name, math.inf), z)
    rising: dict[str, list[tuple[str, float]]] = {name: [] for name in lowest}
    for length in bones.lengths:
        if length.shape != "level":
            rise = _vector(bones, length, least)[2]
            a, b = classes[length.start], classes[length.end]
            rising[a].append((b, rise))
            rising[b].append((a, -rise))
    heights: dict[str, float] = {}
    for root in sorted(lowest, key=lambda name: lowest[name]):
        if root in heights:
            continue
        heights[root] = lowest[root]
        queue = deque([root])
        while queue:
            name = queue.popleft()
            for other, rise in rising[name]:
                if other not in heights:
                    heights[other] = heights[name] + rise
                    queue.append(other)
    return heights


def _closes(bones: Skeleton, drawn: dict[str, Space], least: Least) -> bool:
    """Whether every length is drawn on its own axis."""
    for length in bones.lengths:
        wanted = _vector(bones, length, least)
        a, b = drawn[length.start], drawn[length.end]
        if math.dist(wanted[:2], (b[0] - a[0], b[1] - a[1])) > AMISS:
            return False
    return True


def _broken(drawn: dict[str, Space], longest: float) -> Places:
    """The same places with every bare height cut down to the longest."""
    levels = sorted({round(z, 3) for _, _, z in drawn.values()})
    down_by: dict[float, float] = {}
    breaks: list[Break] = []
    taken = 0.0
    for low, high in pairwise(levels):
        down_by[low] = taken
        over = high - low - longest
        if over > 0.0:
            breaks.append(Break(low - taken, high - taken - over, over))
            taken += over
    if levels:
        down_by[levels[-1]] = taken
    placed = {key: (x, y, z - down_by[round(z, 3)]) for key, (x, y, z) in drawn.items()}
    return Places(placed, tuple(breaks))
