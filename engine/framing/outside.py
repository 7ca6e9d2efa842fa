"""Where a rim or end joist looks out past the floor's outline."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from engine.framing.records import Joist
from engine.framing.shadow import in_frame
from engine.plan.records import Point

_NEAR = 1.0 / 64.0


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
