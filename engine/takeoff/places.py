"""Where along a run its supports go: near each end and corner, clear of hubs, and no further apart than allowed.

All distances run along the pipe from its upper end, inches. Knows no pipe and no wood.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from itertools import pairwise

Hub = tuple[float, float]
"""From where to where a fitting's body and hubs take up the run: no block or strap goes there."""

_SLACK = 1e-6


def places(
    held: Sequence[float],
    hooks: Sequence[float],
    corners: Sequence[float],
    limit: float,
    near: float,
    half: float = 0.0,
    hubs: Sequence[Hub] = (),
    both_sides: Callable[[float], bool] = lambda corner: False,
    wide: float = 0.0,
) -> list[float]:
    """The places to add to those that hold already, in order.

    `held` are the places where wood carries the pipe, `hooks` those where a joist is there to hang it from: one of
    them is taken where it does. `corners` are the run's ends and vertices in order. `half` is half of what a joist
    is thick: its face counts, not its middle; `wide` is half of what a block is, which stands clear of hubs with its
    whole width. At a corner for which `both_sides` says so each side has one near.
    """
    found = sorted(held)
    added: list[float] = []

    def put(place: float) -> None:
        found.insert(bisect_left(found, place), place)
        added.append(place)

    first, last = corners[0], corners[-1]
    for n, corner in enumerate(corners):
        twice = both_sides(corner)
        reach = near + half + _room(corner, hubs) + _SLACK
        ahead = any(-_SLACK < place - corner <= reach for place in found)
        behind = any(-_SLACK < corner - place <= reach for place in found)
        if corner != last and not ahead and (twice or corner == first or not behind):
            put(_beyond(corner, corners[n + 1], hooks, hubs, near, half, wide))
        if corner != first and not behind and (twice or corner == last):
            put(_beyond(corner, corners[n - 1], hooks, hubs, near, half, wide))
    for a, b in pairwise(list(found)):
        added += _between(a, b, hooks, limit, [(low - wide, high + wide) for low, high in hubs])
    return sorted(added)


def _room(corner: float, hubs: Sequence[Hub]) -> float:
    """How far the fitting at a corner reaches along the run: `near` counts from its hub's end."""
    return max((max(corner - low, high - corner) for low, high in hubs if low <= corner <= high), default=0.0)


def _beyond(
    corner: float, other: float, hooks: Sequence[float], hubs: Sequence[Hub], near: float, half: float, wide: float
) -> float:
    """The place near a corner on its side toward another: at a joist, else clear of the corner's own hub."""
    way = 1.0 if other > corner else -1.0
    short = abs(other - corner)
    own = next((hub for hub in hubs if hub[0] <= corner <= hub[1]), None)
    past = 0.0 if own is None else (own[1] - corner if way > 0.0 else corner - own[0])
    there = [
        hook for hook in hooks if past - _SLACK <= (hook - corner) * way <= min(past + near + half, short) + _SLACK
    ]
    if there:
        return min(there, key=lambda hook: abs(hook - corner))
    return corner + way * min(max(near, past + wide if past else past), short / 2.0)


def _between(a: float, b: float, hooks: Sequence[float], limit: float, hubs: Sequence[Hub]) -> list[float]:
    """Places that leave no gap over the limit between two: at the furthest joist in reach, else evenly spread."""
    added: list[float] = []
    while b - a > limit + _SLACK:
        low, high = bisect_right(hooks, a + _SLACK), bisect_left(hooks, b - _SLACK)
        reached = bisect_right(hooks, a + limit + _SLACK)
        if low < min(reached, high):
            a = hooks[min(reached, high) - 1]
        else:
            stop = hooks[low] if low < high else b
            more = math.ceil((stop - a) / limit - _SLACK)
            step = a + (stop - a) / more
            a = _clear(step, max(a + limit / 2.0**8, stop - (more - 1) * limit), a + limit, hubs)
        added.append(a)
    return added


def _clear(place: float, least: float, most: float, hubs: Sequence[Hub]) -> float:
    """A place moved out of a hub, if the spacing on both sides lets it."""
    for low, high in hubs:
        if low < place < high:
            ends = [end for end in (low, high) if least <= end <= most]
            return min(ends, key=lambda end: abs(end - place)) if ends else place
    return place
