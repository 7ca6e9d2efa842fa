"""Where a fixture settles when it is brought near a wall, a corner or the middle of a bay.

A closet keeps its rough-in off the finished wall behind it, a pan or tub puts its back against the wall, and what
empties into a wall comes to stand on the wall's centre line and faces the room. Along the wall, bodies meet the
next wall, outlets in the floor seek the middle of a bay, the rest whole inches. Pure: no window is touched.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from app.tools.plane import ahead, beside
from engine.drafting.bodies import Body, back_of, body_of, face_of
from engine.framing.wood import Wood
from engine.plan.grid import spot
from engine.plan.records import Fixture, FixtureKind, Plan, Point, Wall
from engine.trade.fixtures import fixture as spec_of

WHOLE = 1.0
"""Where nothing else holds it, a fixture stands on whole inches."""

SQUARE = 1.0
"""A fixture fits a wall when it faces away from it to so many degrees."""

IN_WALL = 1.0
"""Nearer to a wall's centre line than this the pointer is on neither side, inches."""


class Settled(NamedTuple):
    """A fixture's point and heading, and why it is there; the reason is empty where nothing holds it."""

    at: Point
    turn: float
    reason: str


def settle(kind: FixtureKind, at: Point, turn: float, plan: Plan, wood: Wood, reach: float, own_turn: bool) -> Settled:
    """Where a fixture comes to stand when it is held at `at`, near walls within `reach` inches.

    `own_turn` keeps the heading that the person gave it: then only walls behind that heading count.
    """
    near = sorted(_walls(kind, at, turn, plan, reach, own_turn), key=lambda found: found[0])
    if near:
        _, wall, heading, stand = near[0]
        found = _by_wall(kind, at, heading, wall, stand, plan, wood, reach)
    else:
        found = _in_the_open(kind, at, turn, wood, reach)
    return found._replace(at=spot(*found.at))


def _walls(
    kind: FixtureKind, at: Point, turn: float, plan: Plan, reach: float, own_turn: bool
) -> Iterator[tuple[float, Wall, float, float]]:
    """Walls that a fixture may stand at: how far off it is, the wall, the heading away from it, the stand-off."""
    spec = spec_of(kind)
    for wall in plan.walls:
        length = math.dist(wall.start, wall.end)
        if length == 0.0:
            continue
        along, off = beside(at, wall.start, wall.end)
        if not -reach <= along <= length + reach:
            continue
        stand = 0.0 if spec.outlet_from_back is None else face_of(wall) + back_of(spec, spec.depth, wall)
        side = _side(wall, off, turn, plan, own_turn)
        heading = _heading(wall, side)
        if own_turn and abs((heading - turn + 180.0) % 360.0 - 180.0) > SQUARE:
            continue
        miss = abs(off * side - stand)
        if miss <= reach:
            yield miss, wall, heading, stand


def _side(wall: Wall, off: float, turn: float, plan: Plan, own_turn: bool) -> float:
    """Which side of a wall a fixture stands on: 1 left of its drawing direction, -1 right."""
    if own_turn:
        return 1.0 if math.cos(math.radians(turn - _heading(wall, 1.0))) > 0.0 else -1.0
    if abs(off) > IN_WALL:
        return math.copysign(1.0, off)
    corners = plan.floor.outline
    middle = (sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))
    return math.copysign(1.0, beside(middle, wall.start, wall.end)[1])


def _by_wall(
    kind: FixtureKind, at: Point, heading: float, wall: Wall, stand: float, plan: Plan, wood: Wood, reach: float
) -> Settled:
    length = math.dist(wall.start, wall.end)
    along = min(max(beside(at, wall.start, wall.end)[0], 0.0), length)
    held = _held(wall, along, heading, stand)
    spec = spec_of(kind)
    if spec.outlet_from_back is None:
        whole = min(max(round(along / WHOLE) * WHOLE, 0.0), length)
        return Settled(_held(wall, whole, heading, stand), heading, f"in wall {wall.name or wall.id}")
    body = body_of(Fixture(id="new", kind=kind, at=held, turn=heading))
    why = (
        f"{back_of(spec, spec.depth, wall):g} in off the finished wall"
        if spec.outlet == "closet"
        else "against the wall"
    )
    if spec.outlet != "closet":
        moved = _to_side_wall(held, heading, body, plan.walls, reach)
        if moved is not None:
            return Settled(ahead(held, heading, 0.0, moved), heading, "in the corner")
    shift = _to_bay(held, heading, wood, reach)
    if shift is not None:
        return Settled(ahead(held, heading, 0.0, shift), heading, f"{why}, middle of the bay")
    whole = round(along / WHOLE) * WHOLE
    return Settled(_held(wall, whole, heading, stand), heading, why)


def _in_the_open(kind: FixtureKind, at: Point, turn: float, wood: Wood, reach: float) -> Settled:
    whole = (round(at[0] / WHOLE) * WHOLE, round(at[1] / WHOLE) * WHOLE)
    bay = wood.bay_at(at) if spec_of(kind).outlet_from_back is not None else None
    if bay is None:
        return Settled(whole, turn, "")
    (x, y), _ = bay.middle
    held = (x, whole[1]) if bay.along[1] else (whole[0], y)
    return Settled(held, turn, "middle of the bay") if math.dist(held, at) <= reach else Settled(whole, turn, "")


def _to_side_wall(held: Point, heading: float, body: Body, walls: Sequence[Wall], reach: float) -> float | None:
    """How far to the left a body must shift so that its side meets the finished face of a wall square to its back."""
    best: float | None = None
    for wall in walls:
        across = abs(math.sin(math.radians(_heading(wall, 1.0) - heading)))
        along, off = beside(held, wall.start, wall.end)
        if across < 1.0 - 1e-6 or not -reach <= along <= math.dist(wall.start, wall.end) + reach:
            continue
        toward_left = _is_left(held, heading, wall, off)
        gap = abs(off) - face_of(wall) - (body.left if toward_left else body.right)
        shift = gap if toward_left else -gap
        if abs(gap) <= reach and (best is None or abs(shift) < abs(best)):
            best = shift
    return best


def _to_bay(held: Point, heading: float, wood: Wood, reach: float) -> float | None:
    """How far to the left a point must shift to stand in the middle of its bay; None where bays run along the wall."""
    for step in (0.0, 2.0, -2.0):
        bay = wood.bay_at(ahead(held, heading, 0.0, step))
        if bay is None:
            continue
        left = (-math.sin(math.radians(heading)), math.cos(math.radians(heading)))
        if abs(left[0] * bay.along[0] + left[1] * bay.along[1]) > 1e-6:
            return None
        (x, y), _ = bay.middle
        shift = (x - held[0]) * left[0] + (y - held[1]) * left[1]
        return shift if abs(shift) <= reach else None
    return None


def _is_left(held: Point, heading: float, wall: Wall, off: float) -> bool:
    """Whether a wall lies to the left of someone at `held` who looks along `heading`."""
    toward = _heading(wall, -math.copysign(1.0, off))
    return math.sin(math.radians(toward - heading)) > 0.0


def _held(wall: Wall, along: float, heading: float, stand: float) -> Point:
    """The point so far along a wall and so far off its centre line, the way of the heading."""
    length = math.dist(wall.start, wall.end)
    share = along / length
    (x0, y0), (x1, y1) = wall.start, wall.end
    return ahead((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share), heading, stand)


def _heading(wall: Wall, side: float) -> float:
    """The heading square to a wall, to the left (1) or right (-1) of its drawing direction: 0 to 360 degrees."""
    run = math.degrees(math.atan2(wall.end[1] - wall.start[1], wall.end[0] - wall.start[0]))
    return round((run + 90.0 * side) % 360.0, 9) % 360.0
