"""Sliding a turn a little along its own line, so that the last stretch to a fixed place comes out straight.

A turn is set on whole inches, an outlet or stub stands where its wall puts it: without this the stretch between
them would be askew by a hair.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from engine.plan.grid import spot
from engine.plan.records import Point

MOST = 1.5
"""A turn is never slid farther than this, inches."""

PARALLEL = 1e-6


class Slide(NamedTuple):
    """The line along which a turn may slide: where it begins, and where it ends if it does."""

    start: Point
    limit: Point | None = None


def slid(slide: Slide, turn: Point, end: Point) -> Point:
    """The turn moved along its line so that it lies on an eighth heading from `end`.

    The turn itself where the stretch is straight already, or where it would have to go too far or off the line.
    """
    start, limit = slide
    along = (turn[0] - start[0], turn[1] - start[1])
    run = math.hypot(*along)
    eighth = round(math.atan2(turn[1] - end[1], turn[0] - end[0]) / (math.pi / 4.0)) * (math.pi / 4.0)
    c, s = math.cos(eighth), math.sin(eighth)
    off = (turn[0] - end[0]) * s - (turn[1] - end[1]) * c
    if run == 0.0 or abs(off) < PARALLEL:
        return turn
    ux, uy = along[0] / run, along[1] / run
    rate = ux * s - uy * c
    if abs(rate) < PARALLEL:
        return turn
    by = -off / rate
    if abs(by) > MOST or run + by <= 0.0 or (limit is not None and run + by > math.dist(start, limit)):
        return turn
    return spot(turn[0] + ux * by, turn[1] + uy * by)
