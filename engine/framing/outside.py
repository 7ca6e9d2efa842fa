"""Where a rim or end joist looks out past the floor's outline, and how a wall stands to it."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from engine.framing.records import Joist
from engine.framing.shadow import band, in_frame
from engine.plan.records import Point, Wall
from engine.trade.lumber import actual

_NEAR = 1.0 / 64.0
WALLS_KEPT = 1024
"""Walls whose place to the outline is remembered: while pipe is drawn, the same walls are asked for again and again."""


class Outside(NamedTuple):
    """The outside face of a stick: to its `side` (1 the right of its heading, -1 the left), between two places along it."""

    side: float
    first: float
    last: float


def outside_of(joist: Joist, outline: tuple[Point, ...]) -> Outside | None:
    """The longest side of the floor's outline that one of a stick's faces lies on; None where neither does."""
    half = joist.thickness / 2.0
    found = []
    for a, b in pairwise((*outline, outline[0])):
        (u0, v0), (u1, v1) = in_frame(joist, a), in_frame(joist, b)
        if abs(v0 - v1) > _NEAR or abs(abs(v0) - half) > _NEAR:
            continue
        first, last = max(min(u0, u1), -joist.thickness), min(max(u0, u1), joist.length + joist.thickness)
        if last - first > joist.thickness:
            found.append((last - first, Outside(1.0 if v0 > 0.0 else -1.0, first, last)))
    return max(found)[1] if found else None


@lru_cache(maxsize=WALLS_KEPT)
def past_the_outline(corners: tuple[Point, ...], outline: tuple[Point, ...]) -> float:
    """How far a polygon reaches past a floor's outline, inches."""
    from shapely.geometry import Point as Spot
    from shapely.geometry import Polygon

    floor = Polygon(outline)
    beyond = Polygon(corners).difference(floor)
    parts = (part for part in getattr(beyond, "geoms", (beyond,)) if isinstance(part, Polygon) and not part.is_empty)
    return max((floor.distance(Spot(place)) for part in parts for place in part.exterior.coords), default=0.0)


@lru_cache(maxsize=WALLS_KEPT)
def off_the_outline(wall: Wall, outline: tuple[Point, ...]) -> tuple[float, float]:
    """How far a wall's studs reach past a floor's outline, and how far its nearer face is from the outline, inches."""
    from shapely.geometry import LineString, Polygon

    corners = band(wall.start, wall.end, actual(wall.lumber).depth)
    faces = (LineString((corners[0], corners[1])), LineString((corners[3], corners[2])))
    edge = Polygon(outline).exterior
    inward = min(edge.distance(face.interpolate(0.5, normalized=True)) for face in faces)
    return past_the_outline(corners, outline), inward
