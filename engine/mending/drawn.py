"""Mends of floors and walls that can't be built as drawn: fields filled in or cut back, joists set back, walls at the edge."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from msgspec.structs import replace

from engine.checks.drawn_floors import bare
from engine.checks.records import Finding
from engine.framing.studs import stand
from engine.lengths import feet_inches, up
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.mending.moves import thing_moved
from engine.plan import edits
from engine.plan.dressed import JOIST_THICKNESS as THICK
from engine.plan.edits import EditError
from engine.plan.fields import along, centres
from engine.plan.records import Beam, FloorOpening, JoistField, Plan, Point, Wall
from engine.study import Study
from engine.trade.lumber import actual


def joists_there(study: Study, finding: Finding) -> Iterator[Idea]:
    """A field like its neighbour on the bare part of the floor, running either way."""
    plan = study.plan
    part = next((one for one in bare(plan.fields, plan.floor.outline) if (one.x, one.y) == finding.at[:2]), None)
    if part is None:
        return
    (west, south), (east, north) = part.corner, part.opposite
    like = min(plan.fields, key=lambda field: (abs(field.corner[0] - west) + abs(field.corner[1] - south), field.id))
    made = replace(like, corner=part.corner, size=(east - west, north - south), to_outline=not part.square)
    bared = {"first": None, "bearings": (), "shifts": (), "doubled": (), "measured": (), "blocking": ()}
    ways = [like.direction, "east-west" if like.direction == "north-south" else "north-south"]
    for more, way in enumerate(ways):
        given = {name: getattr(made, name) for name in made.__struct_fields__ if name != "id"} | bared
        given |= {"direction": way, "overhangs": (0.0, 0.0)}
        words = f"Put {like.lumber} joists there that run {way}"
        yield Idea(words, costs.LUMBER + more, partial(edits.add_new, plan, JoistField, **given))


def cut_back(study: Study, finding: Finding) -> Iterator[Idea]:
    """Either of two fields made smaller, so that they touch."""
    one, other = (edits.find(study.plan, name) for name in finding.elements[:2])
    if not isinstance(one, JoistField) or not isinstance(other, JoistField):
        return
    for field, kept in ((other, one), (one, other)):
        for axis in (0, 1):
            low, high = field.corner[axis], field.corner[axis] + field.size[axis]
            least, most = kept.corner[axis], kept.corner[axis] + kept.size[axis]
            for start, end in ((most, high), (low, least)):
                if low <= start < end <= high:
                    corner, size = _with(field.corner, axis, start), _with(field.size, axis, end - start)
                    make = partial(edits.set_fields, study.plan, field.id, corner=corner, size=size)
                    words = f"Make {field.id} {feet_inches(end - start)} {'wide' if axis == 0 else 'long'}, beside {kept.id}"
                    yield Idea(words, costs.MOVE + costs.moved(high - low - (end - start)), make)


def _with(pair: Point, axis: int, value: float) -> Point:
    return (value, pair[1]) if axis == 0 else (pair[0], value)


def joists_back(study: Study, finding: Finding) -> Iterator[Idea]:
    """The joists of a field back at their spacing: those that were moved, or the first."""
    field = edits.find(study.plan, finding.elements[0])
    if not isinstance(field, JoistField):
        return
    for shift in field.shifts:
        left = tuple(one for one in field.shifts if one.number != shift.number)
        make = partial(edits.set_field, study.plan, field.id, "shifts", left)
        yield Idea(
            f"Move joist {field.id}.{shift.number} back to its place", costs.JOIST + costs.moved(abs(shift.by)), make
        )
    if field.first is not None:
        make = partial(edits.set_field, study.plan, field.id, "first", None)
        yield Idea(f"Put the first joist of {field.id} one spacing from the edge", costs.JOIST, make)
    if field.shifts:
        make = partial(edits.set_fields, study.plan, field.id, shifts=(), first=None)
        yield Idea(f"Move all joists of {field.id} back to their places", costs.LUMBER, make)


def unsaid(study: Study, finding: Finding) -> Iterator[Idea]:
    """What is said of joists, studs, rows and bearings that are not there taken away."""
    name = finding.elements[0]
    one = edits.find(study.plan, name)
    values: dict[str, object] = {}
    if isinstance(one, JoistField):
        last, whole = len(centres(one)) + 1, along(one)
        for key in ("shifts", "doubled", "measured"):
            values[key] = tuple(own for own in getattr(one, key) if own.number <= last)
        for key in ("blocking", "bearings"):
            values[key] = tuple(at for at in getattr(one, key) if at <= whole)
    elif isinstance(one, Wall):
        last = max(stud.number for stud in stand(one, study.plan.floor.subfloor).studs)
        values = {
            "doubled": tuple(number for number in one.doubled if number <= last),
            "stud_shifts": tuple(shift for shift in one.stud_shifts if shift.number <= last),
        }
    yield Idea(
        f"Take out what {name} says of what is not there",
        costs.SAY,
        partial(edits.set_fields, study.plan, name, **values),
    )


def to_the_edge(study: Study, finding: Finding) -> Iterator[Idea]:
    """A wall moved square to itself until its outer face is flush with a side of the floor, or cut off at the floor's edge."""
    wall = edits.find(study.plan, finding.elements[0])
    if not isinstance(wall, Wall):
        return
    axis = 1 if wall.start[1] == wall.end[1] else 0
    if wall.start[axis] != wall.end[axis]:
        return
    half, outline = actual(wall.lumber).depth / 2.0, study.plan.floor.outline
    sides = [pair for pair in pairwise((*outline, outline[0])) if pair[0][axis] == pair[1][axis]]
    ways = {side[0][axis] + half * sign - wall.start[axis] for side in sides for sign in (1.0, -1.0)}
    for way in sorted(ways, key=abs):
        if way and abs(way) <= costs.FARTHEST:
            dx, dy = (way, 0.0) if axis == 0 else (0.0, way)
            yield from thing_moved(study, wall.id, dx, dy)
    places = sorted({corner[1 - axis] for corner in outline})
    low, high = sorted((wall.start[1 - axis], wall.end[1 - axis]))
    for first, last in (
        (max(low, places[0]), min(high, places[-1])),
        *((low, at) for at in places),
        *((at, high) for at in places),
    ):
        if low <= first < last <= high and (first, last) != (low, high):
            ends = [_with(wall.start, 1 - axis, place) for place in (first, last)]
            make = partial(_cut_wall, study.plan, wall, (ends[0], ends[1]))
            words = f"Make {wall.id} {feet_inches(up(last - first))} long, as far as the floor reaches"
            yield Idea(words, costs.MOVE + costs.moved(min(costs.FARTHEST, high - low - (last - first))), make)


def _cut_wall(plan: Plan, wall: Wall, ends: tuple[Point, Point]) -> Plan:
    start, end = ends if wall.start <= wall.end else ends[::-1]
    made = edits.set_fields(plan, wall.id, start=start, end=end)
    if any(riser.wall == wall.id and not min(ends) <= riser.at <= max(ends) for riser in plan.risers):
        raise EditError(wall.id, "a riser stands in the part of the wall that would be cut off")
    return made


def onto_the_floor(study: Study, finding: Finding) -> Iterator[Idea]:
    """An opening cut back to the rims, or taken away."""
    opening = edits.find(study.plan, finding.elements[0])
    if not isinstance(opening, FloorOpening):
        return
    ends = []
    for axis in (0, 1):
        floor = [corner[axis] for corner in study.plan.floor.outline]
        low, high = sorted((opening.start[axis], opening.end[axis]))
        ends.append((max(low, min(floor) + THICK), min(high, max(floor) - THICK)))
    (x0, x1), (y0, y1) = ends
    if x0 < x1 and y0 < y1:
        make = partial(edits.set_fields, study.plan, opening.id, start=(x0, y0), end=(x1, y1))
        yield Idea(f"Make {opening.id} end at the rims", costs.MOVE, make)
    yield Idea(f"Delete {opening.id}", costs.DELETE, partial(edits.delete, study.plan, opening.id))


def beam_under(study: Study, finding: Finding) -> Iterator[Idea]:
    """A beam under a bearing wall that stands across the joists."""
    wall = edits.find(study.plan, finding.elements[0])
    if isinstance(wall, Wall):
        make = partial(edits.add_new, study.plan, Beam, start=wall.start, end=wall.end)
        yield Idea(f"Put a beam under {wall.id}", costs.LUMBER, make)


MAKERS: dict[str, Maker] = {
    "bay-too-wide": joists_back,
    "fields-overlap": cut_back,
    "floor-without-joists": joists_there,
    "opening-past-the-floor": onto_the_floor,
    "partition-off-its-bearing": beam_under,
    "says-of-what-is-not-there": unsaid,
    "wall-off-the-floor": to_the_edge,
}
"""Who thinks up the mends of which rule."""
