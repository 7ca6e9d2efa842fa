"""From which finished floor the heights of what stands there count, where rooms have floorings of their own.

A closet, shower, tub or floor drain goes by what lies at its outlet. All others are fed and drained from a wall, in which
no flooring lies, and go by what lies under the middle of their body. What stands in one riser counts from one floor: the
highest under the fixtures that empty there, so that outlets drawn at one height stay level. Overhead vents and
the roof, which belong to no room, count from the floor's own.
"""

from __future__ import annotations

from engine.drafting.bodies import body_of
from engine.drafting.room import corners_of
from engine.plan.flooring import finished_at, flooring_at
from engine.plan.grid import spot
from engine.plan.records import Fixture, Floor, FlooringArea, Plan, Point
from engine.plan.welds import FLOOR_OUTLETS, WALL_OUTLETS
from engine.trade.fixtures import outlet_of


def under_fixture(plan: Plan, fixture: Fixture) -> float:
    """Height above the joists' top of the finished floor that a fixture's rim and water count from, inches."""
    return finished_at(plan, _stands_at(fixture)) if plan.flooring_areas else plan.floor.finished_z


def flooring_under(plan: Plan, fixture: Fixture) -> Floor | FlooringArea:
    """What lies finished where a fixture stands."""
    return flooring_at(plan, _stands_at(fixture)) if plan.flooring_areas else plan.floor


def at_riser(plan: Plan, at: Point) -> float:
    """Height above the joists' top of the finished floor that all in a riser at a plan point counts from, inches.

    Where no fixture empties into it, that is what lies at the point itself.
    """
    if not plan.flooring_areas:
        return plan.floor.finished_z
    found = [under_fixture(plan, one) for one in plan.fixtures if one.at == at and _empties_into_wall(one)]
    return max(found) if found else finished_at(plan, at)


def at_outlet(plan: Plan, fixture: Fixture) -> float:
    """Height above the joists' top of the finished floor that a fixture's outlet counts from, inches."""
    return at_riser(plan, fixture.at) if _empties_into_wall(fixture) else under_fixture(plan, fixture)


def outlet_up(plan: Plan, fixture: Fixture) -> float | None:
    """How high a fixture's outlet lies over the floor that it stands on itself, inches; None where it is not known."""
    up = outlet_of(fixture)
    return None if up is None else up + at_outlet(plan, fixture) - under_fixture(plan, fixture)


def _empties_into_wall(fixture: Fixture) -> bool:
    return fixture.kind in WALL_OUTLETS and fixture.through is None


def _stands_at(fixture: Fixture) -> Point:
    if fixture.kind in FLOOR_OUTLETS:
        return fixture.at
    corners = corners_of(fixture, body_of(fixture))
    return spot(sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))
