"""Stretches of pipe inside wood, seen from above: pure geometry, all pipes against all joists at once.

Envelopes are compared all at once; the rest is arithmetic in each joist's own frame, where `u`
runs along the joist from its start and `v` square to it from its centre line.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal, NamedTuple

from engine.crossings.envelopes import touching
from engine.framing.records import Joist
from engine.piping.records import Node

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]

EXACT = 1e-6
"""Lengths that differ by less are equal, inches: far under what a tape shows, far over what floats lose."""

DIGITS = 9
"""Decimals of an inch that places are rounded to, so that a joist's centre at 64 is not told as 63.99999999999999."""


class Line(NamedTuple):
    """One straight stretch of pipe under the floor: its axis in plan, its width with insulation, inches."""

    id: str
    element: str
    system: Literal["waste", "vent", "cold", "hot"]
    start: Node
    end: Node
    width: float
    passing: Literal["through", "notched", "under"]


class Stretch(NamedTuple):
    """One connected stretch of a pipe's axis in one joist's wood.

    `line` and `joist` are places in the two lists asked about. `enters`, `leaves` and `position` are distances
    from the line's start; `position` is where the axis crosses the joist's centre line, or the stretch's middle
    where it does not, `along` and `x`, `y` that place. `u` and `v` bound the stretch in the joist's frame,
    `lean` and `square` are the shares of the axis's direction along the joist and across it. `from_start` and
    `to_end` tell that the pipe itself begins or ends in the wood, `bent` that the stretch turns there.
    """

    line: int
    joist: int
    enters: float
    leaves: float
    position: float
    along: float
    x: float
    y: float
    low_u: float
    high_u: float
    low_v: float
    high_v: float
    lean: float
    square: float
    from_start: bool
    to_end: bool
    bent: bool = False


def stretches(lines: Sequence[Line], joists: Sequence[Joist]) -> list[Stretch]:
    """Every stretch of a line inside a joist's wood, its faces included, line by line and along each."""
    import numpy as np

    if not lines or not joists:
        return []
    pipes = np.array([(*line.start[:2], *line.end[:2]) for line in lines])
    wood = np.array([(*j.start, *j.along, j.length, j.thickness / 2.0) for j in joists])
    starts, stops = pipes[:, :2], pipes[:, 2:]
    (west, south), (east, north) = np.minimum(starts, stops).T, np.maximum(starts, stops).T
    line_of, joist_of = touching((west, south, east, north), _envelope(wood))

    ax, ay, bx, by = pipes[line_of].T
    sx, sy, ux, uy, length, half = wood[joist_of].T
    run = np.hypot(bx - ax, by - ay)
    du, dv = ((bx - ax) * ux + (by - ay) * uy) / run, ((bx - ax) * uy - (by - ay) * ux) / run
    u, v = (ax - sx) * ux + (ay - sy) * uy, (ax - sx) * uy - (ay - sy) * ux
    first_u, last_u = _within(u, du, np.zeros_like(length), length)
    first_v, last_v = _within(v, dv, -half, half)
    enters = np.maximum(np.maximum(first_u, first_v), 0.0)
    leaves = np.minimum(np.minimum(last_u, last_v), run)
    order = np.lexsort((joist_of, enters, line_of))
    kept = order[(leaves - enters > EXACT)[order]]
    line_of, joist_of, enters, leaves = line_of[kept], joist_of[kept], enters[kept], leaves[kept]
    ax, ay, bx, by, run, u, v, du, dv = (column[kept] for column in (ax, ay, bx, by, run, u, v, du, dv))

    with np.errstate(divide="ignore", invalid="ignore"):
        middle = -v / dv
    crosses = (dv != 0.0) & (middle >= enters - EXACT) & (middle <= leaves + EXACT)
    position = np.where(crosses, middle, (enters + leaves) / 2.0)
    share = position / run
    ends_u, ends_v = (u + du * enters, u + du * leaves), (v + dv * enters, v + dv * leaves)
    columns = (
        *(line_of, joist_of, enters, leaves, position),
        *(u + du * position, np.round(ax + (bx - ax) * share, DIGITS), np.round(ay + (by - ay) * share, DIGITS)),
        *(np.minimum(*ends_u), np.maximum(*ends_u), np.minimum(*ends_v), np.maximum(*ends_v)),
        *(np.abs(du), np.abs(dv), enters <= EXACT, leaves >= run - EXACT),
        np.zeros_like(run, dtype=np.bool_),
    )
    return list(map(Stretch._make, zip(*(column.tolist() for column in columns), strict=True)))


def _envelope(wood: Numbers) -> tuple[Numbers, Numbers, Numbers, Numbers]:
    """The joists' outlines as least and greatest x and y, a hair wider than they are."""
    import numpy as np

    sx, sy, ux, uy, length, half = wood.T
    ex, ey = sx + ux * length, sy + uy * length
    wide, high = np.abs(uy) * half + EXACT, np.abs(ux) * half + EXACT
    return np.minimum(sx, ex) - wide, np.minimum(sy, ey) - high, np.maximum(sx, ex) + wide, np.maximum(sy, ey) + high


def _within(place: Numbers, step: Numbers, low: Numbers, high: Numbers) -> tuple[Numbers, Numbers]:
    """How far along, in inches, something that starts at `place` and moves by `step` an inch lies in [low, high]."""
    import numpy as np

    still = step == 0.0
    inside = (place >= low - EXACT) & (place <= high + EXACT)
    with np.errstate(divide="ignore", invalid="ignore"):
        one, other = (low - place) / step, (high - place) / step
    first = np.where(still, np.where(inside, -np.inf, np.inf), np.minimum(one, other))
    last = np.where(still, np.where(inside, np.inf, -np.inf), np.maximum(one, other))
    return first, last
