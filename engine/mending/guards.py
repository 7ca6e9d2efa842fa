"""What no mend may do, though no rule forbids it: take a riser out of its wall, or a fixture through one."""

from __future__ import annotations

from engine.plan.records import Fixture, Plan, Point
from engine.plan.sound import inside
from engine.plan.walls import wall_at


def keeps_its_place(before: Plan, after: Plan) -> bool:
    """Whether every riser still stands in a wall that stood in one, and no fixture went through a wall or off the floor."""
    risers = {riser.id: riser for riser in before.risers}
    for riser in after.risers:
        old = risers.get(riser.id)
        if old is None or old.at == riser.at:
            continue
        if wall_at(before, old.at, old.wall) is not None and wall_at(after, riser.at, riser.wall) is None:
            return False
    fixtures = {fixture.id: fixture for fixture in before.fixtures}
    return all(_stays_in_its_room(before, fixtures[one.id], one) for one in after.fixtures if one.id in fixtures)


def _stays_in_its_room(plan: Plan, old: Fixture, new: Fixture) -> bool:
    if old.at == new.at:
        return True
    own = wall_at(plan, old.at)
    if any(_cross(old.at, new.at, wall.start, wall.end) for wall in plan.walls if wall is not own):
        return False
    return inside(plan.floor.outline, new.at) or not inside(plan.floor.outline, old.at)


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the stretches a-b and c-d have a point in common."""
    boxes = all(
        min(a[axis], b[axis]) <= max(c[axis], d[axis]) and min(c[axis], d[axis]) <= max(a[axis], b[axis])
        for axis in (0, 1)
    )
    return boxes and _side(a, b, c) * _side(a, b, d) <= 0.0 and _side(c, d, a) * _side(c, d, b) <= 0.0 and a != b


def _side(a: Point, b: Point, p: Point) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
