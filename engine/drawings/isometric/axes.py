"""The isometric axes: where a point in space lies on the sheet, from each of the four corners.

Plumb is drawn plumb, the two level directions at 30 degrees to the sheet's edge (common drafting practice; Piping
Isometrics lecture), all three at full length. Seen from corner 0, the south-west, x runs up to the right and y up
to the left; each quarter turn moves the looker on, counter-clockwise round the floor.
"""

from __future__ import annotations

import math

from engine.joinery.records import Space
from engine.plan.records import Point

ACROSS = math.cos(math.radians(30.0))
"""How far right one inch along a level axis lies."""

UPWARD = math.sin(math.radians(30.0))
"""How far up it lies."""

CORNERS = ("south-west", "south-east", "north-east", "north-west")
"""Where the looker stands, by quarter turns."""


def project(point: Space, turn: int = 0) -> Point:
    """A point's place on the sheet, in inches of the building.

    >>> [tuple(round(c, 3) for c in project(p)) for p in ((1, 0, 0), (0, 1, 0), (0, 0, 1))]
    [(0.866, 0.5), (-0.866, 0.5), (0.0, 1.0)]
    """
    x, y, z = turned(point, turn)
    return ((x - y) * ACROSS, z + (x + y) * UPWARD)


def away(point: Space, turn: int = 0) -> float:
    """How far from the looker a point is; of two that fall on one place of the sheet the nearer one hides the other."""
    x, y, z = turned(point, turn)
    return x + y - z


def turned(point: Space, turn: int) -> Space:
    """A point as it stands to the looker's own axes, after so many quarter turns."""
    x, y, z = point
    for _ in range(turn % len(CORNERS)):
        x, y = y, -x
    return (x, y, z)
