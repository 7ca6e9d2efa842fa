"""Where a fixture's body lies about the point that its pipe starts from, so that it can be drawn true to size.

Widths, depths and the outlet's place in them come from the trade's data or the plan; this serves the drawing
and the placing, and no check reads it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from engine.plan.dressed import WALL_DEPTH
from engine.plan.records import Fixture, Wall
from engine.plan.walls import holds
from engine.trade.fixtures import FixtureSpec
from engine.trade.fixtures import fixture as spec_of

ASSUMED_WALL = Wall(id="assumed", start=(0.0, 0.0), end=(1.0, 0.0))
"""Stands in for the wall behind a fixture while none is drawn: 2x4 studs and 1/2 in board."""


class Body(NamedTuple):
    """A fixture's outline about its own point: inches behind it, before it, to the left and to the right.

    Before is the way the fixture faces; `back` is negative where the body begins in front of the point, as it
    does when the point lies in the wall.
    """

    back: float
    front: float
    left: float
    right: float

    @property
    def width(self) -> float:
        """Across, inches."""
        return self.left + self.right

    @property
    def depth(self) -> float:
        """From back to front, inches."""
        return self.back + self.front

    @property
    def centre(self) -> tuple[float, float]:
        """The middle of the body, as inches forward and to the left of the point."""
        return ((self.front - self.back) / 2.0, (self.left - self.right) / 2.0)


def body_of(fixture: Fixture, walls: Sequence[Wall] = ()) -> Body:
    """The outline of a fixture; its own width and depth where given, else the trade's."""
    spec = spec_of(fixture.kind)
    width = fixture.width if fixture.width is not None else spec.width
    depth = fixture.depth if fixture.depth is not None else spec.depth
    back = back_of(spec, depth, next((wall for wall in walls if holds(wall, fixture.at)), ASSUMED_WALL))
    near = width / 2.0 if spec.outlet_from_side is None else spec.outlet_from_side
    left, right = (near, width - near) if drains_left(fixture) else (width - near, near)
    return Body(back, depth - back, left, right)


def back_of(spec: FixtureSpec, depth: float, wall: Wall) -> float:
    """How far the body's back lies behind the fixture's point, inches; negative when in front of it.

    An outlet that lies in the middle of the usual body lies in the middle of any other.
    """
    if spec.outlet_from_back is None:
        return -face_of(wall)
    return depth / 2.0 if spec.outlet_from_back == spec.depth / 2.0 else spec.outlet_from_back


def face_of(wall: Wall) -> float:
    """From a wall's centre line to its finished face, inches."""
    return WALL_DEPTH[wall.lumber] / 2.0 + wall.finish


def drains_left(tub: Fixture) -> bool:
    """Whether a tub's outlet end is on the left of someone who stands with their back to the wall behind it.

    Its trap lies toward that end; while no trap is placed the left is taken.
    """
    if tub.trap_at is None:
        return True
    dx, dy = tub.trap_at[0] - tub.at[0], tub.trap_at[1] - tub.at[1]
    turn = math.radians(tub.turn)
    return -dx * math.sin(turn) + dy * math.cos(turn) >= 0.0
