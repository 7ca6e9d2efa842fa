"""Beams as they stand under the floor, and where a joist rests on one."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from engine.framing.flush import is_flush
from engine.framing.records import Joist
from engine.plan.records import Beam, Point

SLACK = 1e-9
"""What sums of inches may be off by: a line on a beam's very end lies over it, from whichever side it is counted."""


def beam(one: Beam, joists: Sequence[Joist]) -> Joist:
    """A beam as a member; one without a height of its own lies against the underside of the deepest joist over it.

    One that cuts joists, or stands up above that underside, is flush. What carries a beam is not drawn, so it has no supports.
    """
    under = _underside(one, joists)
    start, end = sorted((one.start, one.end))
    length = math.dist(start, end)
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    return Joist(
        id=one.id,
        field=one.id,
        number=0,
        kind="beam",
        start=start,
        end=end,
        along=along,
        length=length,
        thickness=one.width,
        depth=one.depth,
        member="sawn" if one.material == "wood" else one.material,
        supports=(),
        top=under if one.top_z is None else one.top_z,
        flush=is_flush(one, -under) or any(one.id in joist.cut_at for joist in joists),
    )


def _underside(one: Beam, joists: Iterable[Joist]) -> float:
    """The underside of the deepest joist that a beam's outline passes, else of the deepest on the floor."""
    (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(one.start, one.end, strict=True))
    deepest, over = 0.0, 0.0
    for joist in joists:
        deepest = max(deepest, joist.depth)
        (a0, b0), (a1, b1) = joist.start, joist.end
        if max(a0, a1) >= x0 and min(a0, a1) <= x1 and max(b0, b1) >= y0 and min(b0, b1) <= y1:
            over = max(over, joist.depth)
    return -(over or deepest)


def over_beam(start: Point, end: Point, width: float, t: float) -> tuple[float, float] | None:
    """Between which places a line that runs along at `t` lies over a beam whose centre line has these ends.

    All in a field's frame, across and along. None where the line misses the beam or runs along it.
    """
    (t0, s0), (t1, s1) = start, end
    length = math.hypot(t1 - t0, s1 - s0)
    ut, us = (t1 - t0) / length, (s1 - s0) / length
    if abs(ut) < SLACK:
        return None
    if not min(t0, t1) - SLACK <= t <= max(t0, t1) + SLACK:
        return None
    middle, half = s0 + us * (t - t0) / ut, width / 2.0 / abs(ut)
    return middle - half, middle + half
