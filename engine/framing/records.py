"""The floor's wood as it stands: joists, rims and wall plates laid out from what was drawn. Knows no pipe."""

from __future__ import annotations

from typing import Literal

from engine.plan.records import Point, Record


class Joist(Record, frozen=True, gc=False):
    """One stick of floor framing.

    `start` and `end` are its centre line's ends in plan (south to north, or west to east). `along` is the unit
    heading start to end. `supports` are the intervals (from, to) measured from `start`, inches, over which it
    bears. `kind` is a common joist, an end joist (outermost, parallel to the commons) or a rim (across them).
    """

    id: str
    field: str
    number: int
    kind: Literal["common", "end", "rim"]
    start: Point
    end: Point
    along: tuple[float, float]
    length: float
    thickness: float
    depth: float
    member: Literal["sawn", "engineered"]
    supports: tuple[tuple[float, float], ...]


class Framing(Record, frozen=True, gc=False):
    """All the wood of one floor, common joists first."""

    joists: tuple[Joist, ...]
