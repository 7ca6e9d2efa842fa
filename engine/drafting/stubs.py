"""Where each fixture's cold and hot water come up, so that supply runs end there and nowhere near its waste."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from engine.drafting.bodies import ASSUMED_WALL, Body, body_of, drains_left, face_of
from engine.drafting.cells import by_place
from engine.plan.axis import share
from engine.plan.grid import spot
from engine.plan.records import Fixture, Plan, Point, Supply, Wall, Water
from engine.plan.walls import holds
from engine.trade.fixtures import FixtureSpec
from engine.trade.fixtures import fixture as spec_of

FEW = 24
"""So many walls are looked through faster than they are put into cells."""

IN_WALL = ("back", "end")
"""Places of supply that lie in the wall beside a body."""


class Stub(NamedTuple):
    """The point where one water comes up for one fixture, by the fixture's id."""

    fixture: str
    water: Water
    at: Point


def stubs(fixture: Fixture, walls: Sequence[Wall] = ()) -> tuple[Stub, ...]:
    """A fixture's stubs, cold before hot, on the plan's grid.

    Sides are those of someone who faces the fixture, or a tub's valve. A stub behind a body stands on the centre
    line of the wall there, or where that of a 2x4 wall with board would be while none is drawn.
    """
    spec = spec_of(fixture.kind)
    body = body_of(fixture, walls)
    turn = math.radians(fixture.turn)
    c, s = math.cos(turn), math.sin(turn)
    found = []
    offsets: tuple[tuple[Water, float | None], ...] = (("cold", spec.cold_left), ("hot", spec.hot_left))
    for water, left in offsets:
        if left is None:
            continue
        forward, across = _aside(fixture, spec, body, left)
        at = (fixture.at[0] + forward * c - across * s, fixture.at[1] + forward * s + across * c)
        found.append(Stub(fixture.id, water, spot(*(_in_wall(at, walls) if spec.supply_place in IN_WALL else at))))
    return tuple(found)


def all_stubs(plan: Plan, fixtures: Iterable[Fixture] | None = None) -> tuple[Stub, ...]:
    """The stubs of every fixture of a plan, or of some of them, in their order; each looks only at the walls near it."""
    asked = plan.fixtures if fixtures is None else tuple(fixtures)
    if len(plan.walls) <= FEW:
        return tuple(stub for fixture in asked for stub in stubs(fixture, plan.walls))
    walls = by_place(plan.walls)
    return tuple(stub for fixture in asked for stub in stubs(fixture, walls.near(fixture.at, _reach(fixture))))


def follow(before: Plan, after: Plan) -> Plan:
    """The later plan with the supply points that stood on a fixture's stub carried to where the stub went.

    For an edit that moved or turned fixtures: drain ends go along by themselves, since they lie on the fixture's
    own point. A supply point that the edit itself moved stays where it was put.
    """
    if not after.supplies:
        return after
    old = {fixture.id: fixture for fixture in before.fixtures}
    moved = [f for f in after.fixtures if before.walls is not after.walls or old.get(f.id) is not f]
    there = {(stub.fixture, stub.water): stub.at for stub in all_stubs(after, moved)}
    went: dict[tuple[Water, Point], Point] = {}
    for stub in all_stubs(before, (old[fixture.id] for fixture in moved if fixture.id in old)):
        to = there.get((stub.fixture, stub.water))
        if to is not None and to != stub.at:
            went[stub.water, stub.at] = to
    if not went:
        return after
    earlier = {supply.id: supply for supply in before.supplies}
    supplies = tuple(_followed(supply, earlier.get(supply.id), went) for supply in after.supplies)
    return after if supplies == after.supplies else replace(after, supplies=supplies)


def _followed(supply: Supply, earlier: Supply | None, went: dict[tuple[Water, Point], Point]) -> Supply:
    if earlier is None or len(earlier.points) != len(supply.points):
        return supply
    points = tuple(
        went.get((supply.water, now), now) if now == then else now
        for then, now in zip(earlier.points, supply.points, strict=True)
    )
    return supply if points == supply.points else replace(supply, points=points)


def _reach(fixture: Fixture) -> float:
    """How far from a fixture's point the walls lie that its stubs may stand in, inches."""
    spec = spec_of(fixture.kind)
    body = math.hypot(fixture.width or spec.width, fixture.depth or spec.depth)
    return body + 2.0 * face_of(ASSUMED_WALL)


def _aside(fixture: Fixture, spec: FixtureSpec, body: Body, left: float) -> tuple[float, float]:
    """Where a stub so far to the left of one who faces the fixture lies: inches forward and to the fixture's left.

    Whoever faces a fixture has its right side at the left hand.
    """
    forward, across = body.centre
    behind = face_of(ASSUMED_WALL)
    match spec.supply_place:
        case "outlet":
            return 0.0, -left
        case "middle":
            return forward, across - left
        case "back":
            return -body.back - behind, across - left
        case "end" if drains_left(fixture):
            return forward - left, body.left + behind
        case "end":
            return forward + left, -body.right - behind


def _in_wall(point: Point, walls: Sequence[Wall]) -> Point:
    """The point on the centre line of the wall whose studs it lies between; the point itself where there is none."""
    wall = next((wall for wall in walls if holds(wall, point)), None)
    if wall is None:
        return point
    along = share(wall.start, wall.end, point)
    (x0, y0), (x1, y1) = wall.start, wall.end
    return (x0 + along * (x1 - x0), y0 + along * (y1 - y0))
