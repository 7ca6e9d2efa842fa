"""Where each fixture's cold and hot water come up, so that supply runs end there and nowhere near its waste."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from msgspec.structs import replace

from engine.drafting.bodies import ASSUMED_WALL, Body, body_of, drains_left, face_of
from engine.plan.axis import share
from engine.plan.grid import spot
from engine.plan.records import Fixture, Plan, Point, Supply, Wall, Water
from engine.plan.walls import holds
from engine.trade.fixtures import FixtureSpec
from engine.trade.fixtures import fixture as spec_of


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
    offsets: tuple[tuple[Water, float | None], ...] = (("cold", spec.cold_left), ("hot", spec.hot_left))
    return tuple(
        Stub(fixture.id, water, spot(*_at(fixture, spec, left, walls))) for water, left in offsets if left is not None
    )


def all_stubs(plan: Plan) -> tuple[Stub, ...]:
    """The stubs of every fixture of a plan, in its order."""
    return tuple(stub for fixture in plan.fixtures for stub in stubs(fixture, plan.walls))


def follow(before: Plan, after: Plan) -> Plan:
    """The later plan with the supply points that stood on a fixture's stub carried to where the stub went.

    For an edit that moved or turned fixtures: drain ends go along by themselves, since they lie on the fixture's
    own point. A supply point that the edit itself moved stays where it was put.
    """
    there = {(stub.fixture, stub.water): stub.at for stub in all_stubs(after)}
    went: dict[tuple[Water, Point], Point] = {}
    for stub in all_stubs(before):
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


def _at(fixture: Fixture, spec: FixtureSpec, left: float, walls: Sequence[Wall]) -> Point:
    forward, across = _aside(fixture, spec, body_of(fixture, walls), left)
    turn = math.radians(fixture.turn)
    c, s = math.cos(turn), math.sin(turn)
    point = (fixture.at[0] + forward * c - across * s, fixture.at[1] + forward * s + across * c)
    return _in_wall(point, walls) if spec.supply_place in ("back", "end") else point


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
