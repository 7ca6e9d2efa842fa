"""Where a pointer means to be: the place near it that a pipe, a wall or a joist bay gives a reason for."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from itertools import combinations
from typing import NamedTuple

from engine.drafting.guides import LAYERS, Candidates, Guide, Layer, Rank
from engine.framing.records import Framing
from engine.plan.axis import distance, foot
from engine.plan.grid import spot
from engine.plan.outline import compass
from engine.plan.records import Plan, Point

INCH = 1.0
"""Spacing of the grid that a pointer falls back on, inches."""

FAR = 24_000.0
"""Length of a heading drawn as a stretch: across any plan, inches."""

CLOSE = 0.5
"""The share of the tolerance from which a line beside a run draws: a place two or three inches off can still be meant."""

MOST_GUIDES = 12
"""Guides near a pointer whose meetings are tried: the nearest ones."""


class Snap(NamedTuple):
    """Where the pointer is taken to be, why in words (empty: nothing drew it), and the element that drew it."""

    point: Point
    reason: str
    element: str | None


class _Find(NamedTuple):
    """A possible snap; they sort by rank, then by distance."""

    rank: Rank
    away: float
    number: int
    snap: Snap


def candidates(plan: Plan, framing: Framing, leave_out: Collection[str] = ()) -> Candidates:
    """What a pointer may snap to in this plan, without the elements left out (those under the pointer's own drag)."""
    return Candidates(plan, framing, leave_out)


def snap(
    point: Point,
    candidates: Candidates,
    tolerance: float,
    last: Point | None = None,
    layer: Layer | None = None,
) -> Snap:
    """The best place within `tolerance` inches of a pointer.

    In this order: outlets (with risers, exits, inlets), ends of runs, other points of runs, meetings of two lines,
    along a run, beside a run of the other water, the middle of a wall, the middle of a joist bay, one of the eight headings from `last`, whole
    inches. `layer` leaves out what a run of that kind can't join. With nothing near, the pointer's own place on
    the plan's grid.
    """
    near = min(_finds(point, candidates, tolerance, last, layer), default=None)
    return near.snap if near is not None else Snap(spot(*point), "", None)


def numeric(last: Point, toward: Point, length: float) -> Point:
    """The point a typed length away from `last`, on the heading to another point. ValueError without a heading."""
    away = distance(last, toward)
    if away == 0.0:
        raise ValueError("expected a heading: the pointer is on the last point")
    if not math.isfinite(length):
        raise ValueError(f"expected a finite length, found {length}")
    dx, dy = (toward[0] - last[0]) / away, (toward[1] - last[1]) / away
    return spot(last[0] + dx * length, last[1] + dy * length)


def _finds(
    point: Point, candidates: Candidates, tolerance: float, last: Point | None, layer: Layer | None
) -> Iterator[_Find]:
    number = 0
    for mark in candidates.marks.near(point, tolerance):
        away = distance(mark.at, point)
        if away <= tolerance and (layer is None or layer in mark.layers):
            number += 1
            yield _Find(mark.rank, away, number, Snap(mark.at, mark.reason, mark.element))
    guides = _guides(point, candidates, tolerance, last, layer)
    for guide in guides:
        number += 1
        there = _along(guide, point, tolerance)
        yield _Find(
            guide.rank,
            distance(foot(guide.start, guide.end, point), point),
            number,
            Snap(there, guide.reason, guide.element),
        )
    for a, b in combinations(guides, 2):
        meeting = _meeting(a, b)
        if meeting is not None and distance(meeting, point) <= tolerance:
            number += 1
            reason = f"{a.name} meets {b.name}" if a.name != b.name else f"{a.reason}, where it turns"
            element = a.element if a.element is not None else b.element
            yield _Find(Rank.MEETING, distance(meeting, point), number, Snap(meeting, reason, element))
    whole = spot(round(point[0] / INCH) * INCH, round(point[1] / INCH) * INCH)
    if distance(whole, point) <= tolerance:
        yield _Find(Rank.GRID, distance(whole, point), number + 1, Snap(whole, "whole inches", None))


def _guides(
    point: Point, candidates: Candidates, tolerance: float, last: Point | None, layer: Layer | None
) -> list[Guide]:
    """The guides within reach, runs before walls before bays before headings, nearer ones first."""
    found = [guide for guide in candidates.guides.near(point, tolerance) if _is_for(guide, layer)]
    if last is not None and distance(last, point) > tolerance:
        found.append(_heading(last, point))
    near = [(distance(foot(guide.start, guide.end, point), point), guide) for guide in found]
    within = sorted(
        ((away, guide) for away, guide in near if away <= tolerance * (CLOSE if guide.rank is Rank.BESIDE else 1.0)),
        key=lambda one: (one[1].rank, one[0]),
    )
    headed = [guide for _, guide in within if guide.rank is Rank.HEADING]
    return [guide for _, guide in within if guide.rank is not Rank.HEADING][: MOST_GUIDES - 1] + headed


def _is_for(guide: Guide, layer: Layer | None) -> bool:
    """Whether a guide draws what is aimed in this layer; only a tube is laid beside another."""
    return guide.rank is not Rank.BESIDE if layer is None else layer in guide.layers


def _heading(last: Point, point: Point) -> Guide:
    """The nearest of the eight headings from the last point, as a stretch across the plan."""
    eighth = round(math.atan2(point[1] - last[1], point[0] - last[0]) / (math.pi / 4.0)) % 8
    dx, dy = ((1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1))[eighth]
    words = f"straight {compass(eighth * 45.0)}"
    return Guide(Rank.HEADING, last, (last[0] + FAR * dx, last[1] + FAR * dy), words, words, None, LAYERS)


def _along(guide: Guide, point: Point, tolerance: float) -> Point:
    """The point of a guide nearest to the pointer, on whole inches along it where those are within reach.

    Along a heading inches count from its beginning, along anything else from the plan's origin; on a diagonal they
    count east.
    """
    there = foot(guide.start, guide.end, point)
    (x0, y0), (x1, y1) = guide.start, guide.end
    dx, dy = x1 - x0, y1 - y0
    from_x, from_y = guide.start if guide.rank is Rank.HEADING else (0.0, 0.0)
    if dx == 0.0:
        whole = (x0, from_y + round((there[1] - from_y) / INCH) * INCH)
    elif dy == 0.0 or abs(dx) == abs(dy):
        x = from_x + round((there[0] - from_x) / INCH) * INCH
        whole = (x, y0 if dy == 0.0 else y0 + math.copysign(1.0, dx * dy) * (x - x0))
    else:
        return there
    inside = min(x0, x1) <= whole[0] <= max(x0, x1) and min(y0, y1) <= whole[1] <= max(y0, y1)
    return spot(*whole) if inside and distance(whole, point) <= tolerance else there


def _meeting(a: Guide, b: Guide) -> Point | None:
    """Where two guides meet, ends included, on the plan's grid; None when they are parallel or apart."""
    ax, ay = a.end[0] - a.start[0], a.end[1] - a.start[1]
    bx, by = b.end[0] - b.start[0], b.end[1] - b.start[1]
    cross = ax * by - ay * bx
    if cross == 0.0:
        return None
    ox, oy = b.start[0] - a.start[0], b.start[1] - a.start[1]
    s, t = (ox * by - oy * bx) / cross, (ox * ay - oy * ax) / cross
    if not (0.0 <= s <= 1.0 and 0.0 <= t <= 1.0):
        return None
    return spot(a.start[0] + s * ax, a.start[1] + s * ay)
