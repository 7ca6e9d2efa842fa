"""Outside walls and the floor's edge: a wall laid along it, and the walls that follow when the outline is drawn anew.

An outside wall's outer stud face lies on the outside of the framing, as a new floor has it. Lengths in inches.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import NamedTuple

from msgspec.structs import replace

from engine.drafting.stubs import all_stubs, follow
from engine.plan import edits
from engine.plan.axis import distance
from engine.plan.dressed import WALL_DEPTH
from engine.plan.grid import spot
from engine.plan.records import Plan, Point, Wall
from engine.plan.walls import holds

NEAR = 1.0 / 16.0
"""A wall so near to its place along the edge stands there."""

STRAIGHT = 1e-6
"""Two sides whose headings differ by no more run one way, as the sine of the angle between them."""

LIKE = ("start", "end", "lumber", "finish", "exterior", "bearing", "height", "top_plate", "stud_spacing")
"""What a wall along a new side takes from those that stand along the others."""


class Side(NamedTuple):
    """One side of an outline, anticlockwise, so that the floor lies to its left; whether either corner turns inward."""

    start: Point
    end: Point
    inward_start: bool = False
    inward_end: bool = False

    @property
    def ahead(self) -> Point:
        """Its heading, one inch long."""
        run = distance(self.start, self.end)
        return (self.end[0] - self.start[0]) / run, (self.end[1] - self.start[1]) / run

    @property
    def goes_through(self) -> bool:
        """Whether its wall runs to the corners where both meet: the one nearer to east and west does."""
        return abs(self.ahead[0]) >= abs(self.ahead[1])

    def place(self, point: Point) -> tuple[float, float]:
        """A point's place along the side from its start, and how far inside the floor it lies."""
        (dx, dy), (px, py) = self.ahead, (point[0] - self.start[0], point[1] - self.start[1])
        return px * dx + py * dy, dx * py - dy * px

    def point(self, along: float, inside: float) -> Point:
        """The point at a place along the side and so far inside the floor, on the plan's grid."""
        dx, dy = self.ahead
        return spot(
            self.start[0] + along * dx - inside * dy,
            self.start[1] + along * dy + inside * dx,
        )


class Followed(NamedTuple):
    """A plan with another outline, and the ids of the walls that moved, came new, went, or stay off the edge."""

    plan: Plan
    moved: tuple[str, ...] = ()
    new: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    held: tuple[str, ...] = ()


def sides(outline: tuple[Point, ...]) -> tuple[Side, ...]:
    """The sides of an outline in order, anticlockwise."""
    corners = outline if _area(outline) >= 0.0 else outline[::-1]
    runs = [(a, b) for a, b in pairwise((*corners, corners[0])) if a != b]
    inward = [_turn(*runs[k - 1], runs[k][1]) < 0.0 for k in range(len(runs))]
    return tuple(Side(start, end, inward[k], inward[(k + 1) % len(runs)]) for k, (start, end) in enumerate(runs))


def laid_on_edge(plan: Plan, wall: Wall) -> Wall:
    """A new wall as it stands where it was drawn along the floor's edge: its outer face on it, and an outside wall.

    Its ends stop at the walls that stand there. Drawn anywhere else it stays as it is.
    """
    half = WALL_DEPTH[wall.lumber] / 2.0
    for side in sides(plan.floor.outline):
        (first, off), (last, off_too) = side.place(wall.start), side.place(wall.end)
        if not all(-NEAR <= away <= half + NEAR for away in (off, off_too)):
            continue
        run = distance(side.start, side.end)
        if min(first, last) < -half - NEAR or max(first, last) > run + half + NEAR:
            continue
        ends = (_to_corner(first, run, half), _to_corner(last, run, half))
        start, end = (side.point(along, half) for along in ends)
        return _between_walls(plan, replace(wall, start=start, end=end, exterior=True))
    return wall


def redrawn(plan: Plan, corners: tuple[Point, ...]) -> Followed:
    """The plan with another outline, its outside walls standing along it.

    Walls that stood along the old outline are lengthened, cut or moved to the nearest side that looks the same way; a side that
    is new gets a wall like them, one that was open stays open; a wall that no side is left for goes. What a wall holds (a riser, a
    fixture, a window) never loses it: such a wall stays as it was. EditError as `edits.set_outline`.
    """
    made = edits.set_outline(plan, corners)
    old, new = sides(plan.floor.outline), sides(made.floor.outline)
    along = {wall.id: side for wall in plan.walls if wall.exterior and (side := _side_of(wall, old)) is not None}
    if not along:
        return Followed(made)
    stays = {side: before for side in new if (before := _same_line(side, old)) is not None}
    placed: dict[str, Wall | None] = {}
    taken: set[Side] = set()
    loose = []
    for wall in (wall for wall in plan.walls if wall.id in along):
        onto = [side for side, before in stays.items() if before == along[wall.id] and _reach(wall, side) > NEAR]
        if onto:
            longest = max(onto, key=lambda side: _reach(wall, side))
            placed[wall.id] = _kept(wall, along[wall.id], longest)
            taken.add(longest)
        else:
            loose.append(wall)
    for wall in loose:
        free = [side for side in new if side not in taken and side not in stays and _same_way(side, along[wall.id])]
        nearest = min(free, key=lambda side: abs(side.place(wall.start)[1]), default=None)
        placed[wall.id] = None if nearest is None else _whole(wall, nearest)
        if nearest is not None and not _loses(plan, wall, placed[wall.id]):
            taken.add(nearest)
    walled = [
        side
        for side in new
        if side not in taken
        and (side not in stays or any(_reach(wall, side) > NEAR for wall in _on(stays[side], plan, along)))
    ]
    like = next(wall for wall in plan.walls if wall.id in along)
    return _put(plan, made, placed, [_whole(like, side) for side in walled])


def _on(side: Side, plan: Plan, along: dict[str, Side]) -> list[Wall]:
    """The outside walls along a side of the old outline."""
    return [wall for wall in plan.walls if along.get(wall.id) == side]


def _put(plan: Plan, made: Plan, placed: dict[str, Wall | None], extra: Iterable[Wall]) -> Followed:
    """The plan with these walls in their places, those that would lose what they hold left where they were."""
    moved, gone, held = [], [], []
    for wall in plan.walls:
        there = placed.get(wall.id, wall)
        if there == wall:
            continue
        if _loses(plan, wall, there):
            held.append(wall.id)
        elif there is None:
            made = edits.delete(made, wall.id)
            gone.append(wall.id)
        else:
            made = edits.set_fields(made, wall.id, start=there.start, end=there.end)
            moved.append(wall.id)
    before = {wall.id for wall in made.walls}
    for wall in extra:
        made = edits.add_new(made, Wall, **{name: getattr(wall, name) for name in LIKE})
    new = tuple(wall.id for wall in made.walls if wall.id not in before)
    return Followed(follow(plan, made), tuple(moved), new, tuple(gone), tuple(held))


def _loses(plan: Plan, wall: Wall, there: Wall | None) -> bool:
    """Whether a wall that goes there, or goes altogether, leaves something that it holds."""
    return any(there is None or not holds(there, point) for point in _held(plan, wall))


def _held(plan: Plan, wall: Wall) -> Iterator[Point]:
    """The places of what stands in a wall."""
    for riser in plan.risers:
        if riser.wall == wall.id or holds(wall, riser.at):
            yield riser.at
    places = [fixture.at for fixture in plan.fixtures]
    places += [cleanout.at for cleanout in plan.cleanouts]
    places += [stub.at for stub in all_stubs(plan)]
    places += [end for opening in plan.air_openings for end in (opening.start, opening.end)]
    yield from (place for place in places if holds(wall, place))


def _side_of(wall: Wall, of: tuple[Side, ...]) -> Side | None:
    """The side along which a wall stands with its outer face on it."""
    half = WALL_DEPTH[wall.lumber] / 2.0
    for side in of:
        (first, off), (last, off_too) = side.place(wall.start), side.place(wall.end)
        beside = min(max(first, last), distance(side.start, side.end)) - max(min(first, last), 0.0)
        if abs(off - half) <= NEAR and abs(off_too - half) <= NEAR and beside > 0.0:
            return side
    return None


def _reach(wall: Wall, side: Side) -> float:
    """How much of a wall's length lies along a side of its own line."""
    first, last = sorted((side.place(wall.start)[0], side.place(wall.end)[0]))
    return min(last, distance(side.start, side.end)) - max(first, 0.0)


def _same_line(side: Side, of: tuple[Side, ...]) -> Side | None:
    """The side of another outline that lies on the same line, looks the same way and has some length in common."""
    for other in of:
        (first, off), (last, off_too) = side.place(other.start), side.place(other.end)
        if max(abs(off), abs(off_too)) > NEAR or first >= last:
            continue
        if min(last, distance(side.start, side.end)) - max(first, 0.0) > NEAR:
            return other
    return None


def _same_way(one: Side, other: Side) -> bool:
    (ax, ay), (bx, by) = one.ahead, other.ahead
    return abs(ax * by - ay * bx) <= STRAIGHT and ax * bx + ay * by > 0.0


def _kept(wall: Wall, old: Side, new: Side) -> Wall:
    """A wall that keeps its line: an end that stood at the old side's corner goes to the new one's, and none stands past it."""
    depth, run, before = WALL_DEPTH[wall.lumber], distance(new.start, new.end), distance(old.start, old.end)
    low, high = _ends(new, depth)
    first = new.place(old.start)[0]
    last = first + before
    ends = []
    for point in (wall.start, wall.end):
        at = new.place(point)[0]
        if abs(first) > NEAR:
            at = low if abs(at - first) <= depth + NEAR else max(at, low)
        if abs(last - run) > NEAR:
            at = high if abs(at - last) <= depth + NEAR else min(at, high)
        ends.append(at)
    start, end = (new.point(at, depth / 2.0) for at in ends)
    return replace(wall, start=start, end=end)


def _whole(wall: Wall, side: Side) -> Wall:
    """A wall of its kind along a whole side, its heading kept."""
    depth = WALL_DEPTH[wall.lumber]
    start, end = (side.point(at, depth / 2.0) for at in _ends(side, depth))
    turned = side.place(wall.end)[0] < side.place(wall.start)[0]
    return replace(wall, start=end if turned else start, end=start if turned else end)


def _ends(side: Side, depth: float) -> tuple[float, float]:
    """Where a side's wall begins and ends along it, so that at each corner one of the two walls fills it."""

    def past(inward: bool) -> float:
        if side.goes_through:
            return depth if inward else 0.0
        return 0.0 if inward else -depth

    return -past(side.inward_start), distance(side.start, side.end) + past(side.inward_end)


def _to_corner(along: float, run: float, half: float) -> float:
    """A place along a side, at its corner where it lies within half a wall of one."""
    if abs(along) <= half + NEAR:
        return 0.0
    return run if abs(along - run) <= half + NEAR else along


def _between_walls(plan: Plan, wall: Wall) -> Wall:
    """The wall with each end that lies in another wall across it cut back to that one's face."""
    run = distance(wall.start, wall.end)
    dx, dy = (wall.end[0] - wall.start[0]) / run, (wall.end[1] - wall.start[1]) / run
    ends = []
    for point, back in ((wall.start, 1.0), (wall.end, -1.0)):
        for other in plan.walls:
            if not other.exterior or other.start == other.end or not _is_across(other, (dx, dy)):
                continue
            away = (other.start[0] - point[0]) * dx + (other.start[1] - point[1]) * dy
            depth = WALL_DEPTH[other.lumber]
            middle = (point[0] + away * dx, point[1] + away * dy)
            if abs(away) <= depth / 2.0 + NEAR and holds(other, middle):
                point = (middle[0] + back * depth / 2.0 * dx, middle[1] + back * depth / 2.0 * dy)
                break
        ends.append(spot(*point))
    return wall if ends[0] == ends[1] else replace(wall, start=ends[0], end=ends[1])


def _is_across(wall: Wall, ahead: Point) -> bool:
    run = distance(wall.start, wall.end)
    along = (wall.end[0] - wall.start[0]) * ahead[0] + (wall.end[1] - wall.start[1]) * ahead[1]
    return abs(along) <= STRAIGHT * run


def _area(corners: tuple[Point, ...]) -> float:
    """Twice the area, positive where the corners run anticlockwise."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*corners, corners[0])))


def _turn(a: Point, b: Point, c: Point) -> float:
    """Positive where the way from a over b to c turns left."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
