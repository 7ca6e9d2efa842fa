"""A field of joists cut off by the floor's outline: where its rims and side joists lie, and how far a joist reaches."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import reduce
from itertools import pairwise
from typing import TYPE_CHECKING

from engine.plan.records import Point

if TYPE_CHECKING:
    from shapely.geometry import Polygon
    from shapely.geometry.base import BaseGeometry

EXACT = 1e-6
Reach = tuple[float, float]


class Clipped:
    """What the outline leaves of a field, in the field's frame (across, along).

    `rims` are the centre lines of rims along every side that the joists end at, `sides` the centres of the joists that
    stand along sides that run their way.
    """

    def __init__(self, shape: BaseGeometry, thickness: float) -> None:
        self.rims: list[tuple[Point, Point]] = []
        self.sides: list[float] = []
        self._shape = shape
        self._thickness = thickness
        bands = []
        for polygon in _polygons(shape):
            corners = [(x, y) for x, y in polygon.exterior.coords]
            for start, end in pairwise(corners):
                if abs(start[0] - end[0]) <= EXACT:
                    side = start[0] + (-thickness if start[1] > end[1] else thickness) / 2.0
                    if all(abs(side - other) > EXACT for other in self.sides):
                        self.sides.append(side)
                    continue
                inner, band = _inside(start, end, thickness)
                self.rims.append(inner)
                bands.append(band)
        self.sides.sort()
        self._inner = reduce(lambda shape, band: shape.difference(band), bands, shape)

    def along(self, t: float, half: float) -> list[tuple[Reach, Reach]]:
        """Each piece of a joist of this half thickness at `t`: rim to rim, square cut, and the floor's own reach there."""
        faces = [_crossed(self._inner, t + side * (half - EXACT)) for side in (-1.0, 1.0)]
        outer = _crossed(self._shape, t)
        found = []
        for a0, a1 in faces[0]:
            for b0, b1 in faces[1]:
                first, last = max(a0, b0), min(a1, b1)
                if last - first > self._thickness:
                    middle = (first + last) / 2.0
                    floor = next(((c, d) for c, d in outer if c <= middle <= d), (first, last))
                    found.append(((first, last), floor))
        return found


def clipped(outline: Sequence[Point], across: float, along: float, thickness: float) -> Clipped | None:
    """The field [0, across] x [0, along] cut off by an outline; None where it lies wholly within, or wholly outside."""
    if _is_box(outline, across, along):
        return None
    from shapely.geometry import Polygon, box
    from shapely.geometry.polygon import orient

    field, floor = box(0.0, 0.0, across, along), Polygon(outline)
    if floor.buffer(EXACT).covers(field):
        return None
    shape = floor.intersection(field)
    whole = [orient(polygon, -1.0) for polygon in _polygons(shape) if polygon.area > thickness * thickness]
    if not whole:
        return None
    from shapely.geometry import MultiPolygon

    return Clipped(MultiPolygon(whole), thickness)


def _is_box(outline: Sequence[Point], across: float, along: float) -> bool:
    """Whether an outline is the field's own rectangle, which most are."""
    corners = {(0.0, 0.0), (across, 0.0), (across, along), (0.0, along)}
    return len(outline) == len(corners) and set(outline) == corners


def _polygons(shape: BaseGeometry) -> Iterator[Polygon]:
    from shapely.geometry import Polygon

    parts: Iterable[BaseGeometry] = getattr(shape, "geoms", (shape,))
    return (part for part in parts if isinstance(part, Polygon))


def _inside(start: Point, end: Point, thickness: float) -> tuple[tuple[Point, Point], Polygon]:
    """The centre line of a rim along a side whose floor lies to its right, and the rim's own wood."""
    from shapely.geometry import Polygon

    run = math.dist(start, end)
    nt, ns = (end[1] - start[1]) / run * thickness, -(end[0] - start[0]) / run * thickness
    inner = [(x + nt / 2.0, y + ns / 2.0) for x, y in (start, end)]
    return (inner[0], inner[1]), Polygon([start, end, (end[0] + nt, end[1] + ns), (start[0] + nt, start[1] + ns)])


def _crossed(shape: BaseGeometry, t: float) -> list[Reach]:
    """Where a line that runs along at `t` lies in a shape; nowhere where rims have left nothing of it."""
    if shape.is_empty:
        return []
    from shapely.geometry import LineString

    low, high = shape.bounds[1] - 1.0, shape.bounds[3] + 1.0
    cut = shape.intersection(LineString([(t, low), (t, high)]))
    parts = getattr(cut, "geoms", (cut,))
    lines = [part for part in parts if part.geom_type == "LineString" and part.length > EXACT]
    return sorted((min(y for _, y in line.coords), max(y for _, y in line.coords)) for line in lines)
