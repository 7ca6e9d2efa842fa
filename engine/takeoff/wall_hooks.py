"""Where a tape is hooked at a wall: the end that its distances run from, what stands there, and from where it is seen."""

from __future__ import annotations

from typing import NamedTuple

from engine.checks.model import Model
from engine.checks.wall_sites import end_names, face_names, wall_words, walls_by_place
from engine.framing.studs import WallWood
from engine.plan.axis import distance
from engine.plan.dressed import WALL_DEPTH
from engine.plan.records import Point, Wall
from engine.plan.sound import inside
from engine.plan.walls import holds
from engine.takeoff.naming import joist_words

_TOUCHES = 1.0 / 64.0
_STEP = 0.25
"""So far from its end a wall lies in another that it only would touch else, inches."""


class WallHook(NamedTuple):
    """The end of a wall that all distances of its drawing run from, at the left as it is seen.

    That is the one in the west or south; an outside wall is seen from within the floor, which may turn it round.
    `end` is what that end is called, `other` the far one; `stands` says what a tape finds there besides the plate's own end,
    empty where nothing else is. `near` is the face toward the one who looks, `far` the one behind. `forward` tells that the
    wall was drawn from this end; `length` is from end to end, `depth` from face to face, inches.
    """

    end: str
    other: str
    stands: str
    near: str
    far: str
    forward: bool
    length: float
    depth: float

    def along(self, from_start: float) -> float:
        """A way along the wall from its drawn start, as it is measured from the hooked end, inches."""
        return from_start if self.forward else self.length - from_start

    def across(self, left: float) -> float:
        """A place so far to the left of the wall's centre line, as it is measured from the near face, inches."""
        return self.depth / 2.0 + (left if self.forward else -left)


def wall_hook(model: Model, wood: WallWood) -> WallHook:
    """Where a wall's distances run from, and which face they are seen from."""
    (x0, y0), (x1, y1) = wood.wall.start, wood.wall.end
    forward = (x0, y0) <= (x1, y1)
    if wood.wall.exterior and _outward(model, wood, forward):
        forward = not forward
    start, end = end_names(wood)
    left, right = face_names(wood)
    at = wood.wall.start if forward else wood.wall.end
    return WallHook(
        end=start if forward else end,
        other=end if forward else start,
        stands=_stands(model, wood.wall, at),
        near=right if forward else left,
        far=left if forward else right,
        forward=forward,
        length=wood.length,
        depth=wood.depth,
    )


def _outward(model: Model, wood: WallWood, forward: bool) -> bool:
    """Whether who looks at a wall with this end at the left stands outside the floor, and from the other side would not."""
    reach, outline = wood.depth if forward else -wood.depth, model.plan.floor.outline
    middle = wood.length / 2.0
    return not inside(outline, wood.at(middle, -reach)) and inside(outline, wood.at(middle, reach))


def _stands(model: Model, wall: Wall, at: Point) -> str:
    """What a wall's end is flush with or stands against: the floor's outside, then another wall."""
    rim = _rim(model, at)
    crossed = [other for other in walls_by_place(model).near(at, max(WALL_DEPTH.values())) if other.id != wall.id]
    (x, y), (east, north) = at, _inward(wall, at)
    inside = (x + east * _STEP, y + north * _STEP)
    through = next((other for other in crossed if holds(other, inside)), None)
    if rim:
        over = f"flush with the outside of the {rim}"
        return f"{over}; the plate may stop short of it, at {wall_words(through)}" if through else over
    beside = next((other for other in crossed if _at_face(other, at)), None)
    return f"against {wall_words(beside)}" if beside is not None else ""


def _rim(model: Model, at: Point) -> str:
    """The framing member whose outside face a point lies over; empty where it lies over none."""
    for joist in model.framing.joists:
        if joist.kind not in ("rim", "end"):
            continue
        (x, y), half = joist.start, joist.thickness / 2.0
        along = (at[0] - x) * joist.along[0] + (at[1] - y) * joist.along[1]
        off = (at[0] - x) * joist.along[1] - (at[1] - y) * joist.along[0]
        if abs(abs(off) - half) <= _TOUCHES and -joist.thickness <= along <= joist.length + joist.thickness:
            return joist_words(model, joist)
    return ""


def _inward(wall: Wall, at: Point) -> Point:
    """The unit heading from one of a wall's ends to the other."""
    (x0, y0), (x1, y1) = (wall.start, wall.end) if at == wall.start else (wall.end, wall.start)
    run = distance(wall.start, wall.end) or 1.0
    return (x1 - x0) / run, (y1 - y0) / run


def _at_face(wall: Wall, at: Point) -> bool:
    (x0, y0), (x1, y1) = wall.start, wall.end
    run = distance(wall.start, wall.end) or 1.0
    share = ((at[0] - x0) * (x1 - x0) + (at[1] - y0) * (y1 - y0)) / run**2
    return 0.0 <= share <= 1.0 and abs(_off(wall, at) - WALL_DEPTH[wall.lumber] / 2.0) <= _TOUCHES


def _off(wall: Wall, at: Point) -> float:
    """How far a point lies from a wall's centre line, which may be taken on past its ends, inches."""
    (x0, y0), (x1, y1) = wall.start, wall.end
    run = distance(wall.start, wall.end) or 1.0
    return abs((at[0] - x0) * (y1 - y0) - (at[1] - y0) * (x1 - x0)) / run
