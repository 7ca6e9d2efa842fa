"""What the plan becomes while a selection is dragged: it is snapped once, as a whole."""

from __future__ import annotations

import math
from collections.abc import Collection

from app.tools.aim import Aim
from app.tools.tool import Pointer
from engine.drafting.stubs import follow
from engine.plan import edits
from engine.plan.points import points_of
from engine.plan.records import Fixture, Plan, Point


def moved(aim: Aim, before: Plan, ids: Collection[str], target: str, press: Pointer, pointer: Pointer) -> Plan:
    """The plan with a selection moved from the press to the pointer.

    A single fixture settles at walls, in corners and in bays as it does when it is placed, and turns to face the
    room. Otherwise the point of the `target` nearest to the press snaps, and everything follows it. Shift keeps to
    the longer of the two directions, Alt leaves every snap out.
    """
    dx, dy = pointer.at[0] - press.at[0], pointer.at[1] - press.at[1]
    if pointer.shift:
        dx, dy = (dx, 0.0) if abs(dx) >= abs(dy) else (0.0, dy)
    held = edits.find(before, target)
    if isinstance(held, Fixture) and len(ids) == 1 and not pointer.alt:
        settled = aim.settle(held.kind, (held.at[0] + dx, held.at[1] + dy), held.turn)
        plan = edits.move(before, ids, settled.at[0] - held.at[0], settled.at[1] - held.at[1])
        turned = plan if settled.turn == held.turn else edits.rotate_fixture(plan, held.id, settled.turn)
        return follow(before, turned)
    own = points_of(held)
    nearest = min(own, key=lambda point: math.dist(point, press.at)) if own else press.at
    wished: Point = (nearest[0] + dx, nearest[1] + dy)
    aimed = aim.at(pointer._replace(at=wished), leave=frozenset(ids))
    mx, my = aimed.point[0] - nearest[0], aimed.point[1] - nearest[1]
    if pointer.shift:
        mx, my = (mx, 0.0) if dy == 0.0 else (0.0, my)
    return follow(before, edits.move(before, ids, mx, my))
