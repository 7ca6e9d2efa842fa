"""The room that a fixture wants about it, and what stands in it: one set of shapes for rule, window and sheet.

Everything is worked in the fixture's own frame: `forward` the way that it faces, `left` to its left, both from its point.
What is not drawn (doors, curbs, cabinets) can't be seen.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Literal, NamedTuple

from engine.drafting.bodies import Body, face_of
from engine.framing.shadow import clipped
from engine.plan.records import Fixture, Plan, Point, Wall
from engine.rulebooks import RuleBook

TOUCH = 1e-6
"""Outlines that only touch, by this much, don't stand in each other, inches."""
GRAIN = 2.0**-16
"""Room is counted in whole grains, inches, so that of two things that end it alike one is named wherever the plan lies."""
FLAT = {"floor_drain", "hose_bibb"}
"""Fixtures with no body that could be in anybody's way."""

Corners = tuple[Point, ...]


class Obstacle(NamedTuple):
    """Something that takes room: a wall with its boards, or a fixture's body, by its corners in plan."""

    element: str
    what: Literal["wall", "fixture"]
    corners: Corners


class Space(NamedTuple):
    """Room that a fixture wants on one side of it: `reach` inches, as the book's `key` has it, by its corners in plan."""

    fixture: str
    side: Literal["left", "right", "front"]
    key: str
    reach: float
    corners: Corners


def obstacles(plan: Plan, bodies: Mapping[str, Body]) -> tuple[Obstacle, ...]:
    """Every wall and every fixture's body, which `bodies` gives by the fixtures' ids.

    A tub whose trap is not set, or right under its outlet, lies to either side of its outlet for all one knows, and is left out.
    """
    found = [Obstacle(wall.id, "wall", wall_corners(wall)) for wall in plan.walls if wall.start != wall.end]
    found += [
        Obstacle(fixture.id, "fixture", corners_of(fixture, bodies[fixture.id]))
        for fixture in plan.fixtures
        if fixture.kind not in FLAT and (fixture.kind != "bathtub" or fixture.trap_at not in (None, fixture.at))
    ]
    return tuple(found)


def wall_corners(wall: Wall) -> Corners:
    """A wall's outline by its finished faces."""
    (x0, y0), (x1, y1) = wall.start, wall.end
    run = math.dist(wall.start, wall.end)
    nx, ny = -(y1 - y0) / run * face_of(wall), (x1 - x0) / run * face_of(wall)
    return ((x0 + nx, y0 + ny), (x1 + nx, y1 + ny), (x1 - nx, y1 - ny), (x0 - nx, y0 - ny))


def corners_of(fixture: Fixture, body: Body) -> Corners:
    """A body's corners in plan."""
    return _placed(
        fixture,
        ((-body.back, -body.right), (body.front, -body.right), (body.front, body.left), (-body.back, body.left)),
    )


def spaces(book: RuleBook, fixture: Fixture, body: Body) -> tuple[Space, ...]:
    """The room that the book wants about a fixture; none where it wants none about its kind."""
    _, centre = body.centre
    back, front = -body.back, body.front
    found: list[Space] = []
    if book.says(f"clearance.about.{fixture.kind}"):
        for side, key in (("left", "clearance.side"), ("right", "clearance.side"), ("front", "clearance.front")):
            if not book.has(key):
                continue
            reach = book.number(key)
            if side == "front":
                outline = (
                    (front, -body.right),
                    (front + reach, -body.right),
                    (front + reach, body.left),
                    (front, body.left),
                )
            else:
                edge = centre + reach if side == "left" else centre - reach
                outline = ((back, centre), (front, centre), (front, edge), (back, edge))
            found.append(Space(fixture.id, side, key, reach, _placed(fixture, outline)))  # type: ignore[arg-type]
    if fixture.kind == "shower" and book.has("clearance.shower.front"):
        reach = book.number("clearance.shower.front")
        outline = ((front, -body.right), (front + reach, -body.right), (front + reach, body.left), (front, body.left))
        found.append(Space(fixture.id, "front", "clearance.shower.front", reach, _placed(fixture, outline)))
    return tuple(found)


def room_left(fixture: Fixture, body: Body, space: Space, about: Sequence[Obstacle]) -> tuple[float, str] | None:
    """How much room there is on a space's side, inches, and the id of what ends it; None where nothing comes in.

    Beside it is counted from the fixture's middle, before it from its front edge. A body that lies over the fixture's own
    leaves none; a wall that reaches into its back from behind is not beside it.
    """
    middle, centre = body.centre
    nearest: tuple[float, str] | None = None
    for one in about:
        if one.element == fixture.id:
            continue
        inside = _within(_framed(fixture, one.corners), _limits(body, centre, space))
        if not inside:
            continue
        if space.side != "front" and one.what == "wall" and _stands_behind(inside, centre, middle):
            continue
        if space.side == "front":
            room = min(forward for forward, _ in inside) - body.front
        else:
            room = min(abs(left - centre) for _, left in inside)
        found = (_grained(room), one.element)
        if nearest is None or found < nearest:
            nearest = found
    return nearest


def _stands_behind(inside: Sequence[Point], centre: float, middle: float) -> bool:
    """Whether what comes into a side's room does so from behind: over the fixture's middle line, and in its back half only."""
    over_middle = min(abs(left - centre) for _, left in inside) <= 2.0 * TOUCH
    return over_middle and max(forward for forward, _ in inside) < middle


def best_opening(
    fixture: Fixture, body: Body, space: Space, wide: float, about: Sequence[Obstacle]
) -> tuple[float, str]:
    """The most clear room before any stretch of a fixture's front that is so wide, inches, and what ends it.

    The space's whole reach, and nothing that ends it, where a stretch is wholly clear.
    """
    _, centre = body.centre
    stands: list[tuple[float, float, float, str]] = []
    for one in about:
        if one.element == fixture.id:
            continue
        inside = _within(_framed(fixture, one.corners), _limits(body, centre, space))
        if inside:
            lefts = [left for _, left in inside]
            room = _grained(min(forward for forward, _ in inside) - body.front)
            stands.append((min(lefts), max(lefts), room, one.element))
    wide = min(wide, body.width)
    starts = [
        -body.right,
        body.left - wide,
        *(high for _, high, _, _ in stands),
        *(low - wide for low, _, _, _ in stands),
    ]
    best: tuple[float, str] = (-1.0, "")
    for start in starts:
        if start < -body.right - 2.0 * TOUCH or start + wide > body.left + 2.0 * TOUCH:
            continue
        met = [
            (room, who)
            for low, high, room, who in stands
            if high > start + 2.0 * TOUCH and low < start + wide - 2.0 * TOUCH
        ]
        here = min(met, default=(space.reach, ""))
        if here[0] > best[0] or (here[0] == best[0] and here[1] < best[1]):
            best = here
    return best


def stands_in(fixture: Fixture, body: Body, corners: Corners) -> float:
    """How far a body stands in a convex outline: the least way, forward or aside, that takes it out; 0 where it is clear."""
    limits = (-body.back + TOUCH, body.front - TOUCH, -body.right + TOUCH, body.left - TOUCH)
    inside = _within(_framed(fixture, corners), limits)
    if not inside:
        return 0.0
    return _grained(min(max(one[axis] for one in inside) - min(one[axis] for one in inside) for axis in (0, 1)))


def behind(fixture: Fixture, body: Body, walls: Iterable[Wall]) -> tuple[float, float] | None:
    """From a fixture's point back to the finished face of the wall behind it, and that wall's board, inches.

    None where no wall stands behind it within twice its depth.
    """
    best: tuple[float, float] | None = None
    for wall in walls:
        if wall.start == wall.end:
            continue
        inside = _within(_framed(fixture, wall_corners(wall)), (-2.0 * body.depth, -TOUCH, -1.0, 1.0))
        if inside:
            away = -max(forward for forward, _ in inside)
            if best is None or away < best[0]:
                best = (away, wall.finish)
    return best


def _grained(room: float) -> float:
    return round(room / GRAIN) * GRAIN


def _limits(body: Body, centre: float, space: Space) -> tuple[float, float, float, float]:
    """The space as least and most forward and left, drawn in by a hair so that what touches does not stand in it."""
    if space.side == "front":
        return body.front + TOUCH, body.front + space.reach - TOUCH, -body.right + TOUCH, body.left - TOUCH
    low, high = (centre, centre + space.reach) if space.side == "left" else (centre - space.reach, centre)
    return -body.back + TOUCH, body.front - TOUCH, low + TOUCH, high - TOUCH


def _placed(fixture: Fixture, outline: Sequence[Point]) -> Corners:
    turn = math.radians(fixture.turn)
    c, s = math.cos(turn), math.sin(turn)
    x, y = fixture.at
    return tuple((x + forward * c - left * s, y + forward * s + left * c) for forward, left in outline)


def _framed(fixture: Fixture, corners: Corners) -> list[Point]:
    turn = math.radians(fixture.turn)
    c, s = math.cos(turn), math.sin(turn)
    moved = ((x - fixture.at[0], y - fixture.at[1]) for x, y in corners)
    return [(dx * c + dy * s, dy * c - dx * s) for dx, dy in moved]


def _within(corners: list[Point], limits: tuple[float, float, float, float]) -> list[Point]:
    """A convex outline cut down to a rectangle; empty where it lies beside it."""
    for axis in (0, 1):
        low, high = limits[2 * axis], limits[2 * axis + 1]
        if all(corner[axis] < low for corner in corners) or all(corner[axis] > high for corner in corners):
            return []
    return clipped(clipped(corners, 0, limits[0], limits[1]), 1, limits[2], limits[3])
