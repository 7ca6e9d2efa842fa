"""Mends in walls: studs set aside or doubled, pipe brought into the wall's middle, over its plates, or a deeper wall."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import permutations

from engine.checks.bodies import bodies
from engine.checks.landing import least_move
from engine.checks.plate_cuts import plate_holes
from engine.checks.records import Finding
from engine.checks.stud_cuts import INTO, StudHole, stud_holes
from engine.checks.studs import BEARING, DOUBLED, stands_over
from engine.checks.wall_sites import (
    along_words,
    carries,
    pipes_in_walls,
    radius_in_wall,
    wall_words,
    water_rises,
)
from engine.crossings.in_walls import Lying, Upright
from engine.crossings.limits import over
from engine.framing.studs import Stud, WallWood
from engine.lengths import down, inches, up
from engine.mending import costs
from engine.mending.ideas import Idea, Maker, both
from engine.mending.moves import part_slid, thing_moved
from engine.mending.naming import way
from engine.mending.sliding import carried, straights
from engine.mending.tops import met, raised
from engine.plan import edits
from engine.plan.dressed import WALL_DEPTH
from engine.plan.outline import listed
from engine.plan.records import JoistShift, Passing, Plan, Vent, Wall
from engine.plan.sound import inside
from engine.study import Study
from engine.trade.pipe import tube

NEAR = 0.01
"""Places nearer than this are one, inches."""


def aside(study: Study, finding: Finding) -> Iterator[Idea]:
    """A stud in a pipe's way set aside, or the pipe moved along its wall."""
    for one in _uprights(study, finding):
        radius, _ = radius_in_wall(one)
        yield from _apart(study, one.elements[0], one.wood, one.along, radius)
    for rise in water_rises(study.model):
        if rise.element == finding.elements[0] and _near(rise.at, finding):
            yield from _studs_aside(study, rise.wood, rise.along, tube(rise.size).od / 2.0)
    for lying in _lying(study, finding):
        middle = (lying.low + lying.high) / 2.0
        yield from _apart(study, lying.pipe.element, lying.wood, middle, lying.half + (lying.high - lying.low) / 2.0)


def _clearances(wood: WallWood, along: float, radius: float) -> Iterator[tuple[Stud, float]]:
    """The studs that stand over a place of a wall, and how far each has to go along it, one way and the other."""
    for stud in wood.studs:
        if over(stands_over(stud, along, radius), 0.0):
            yield stud, up(along + radius - stud.low)
            yield stud, -up(stud.high - along + radius)


def _studs_aside(study: Study, wood: WallWood, along: float, radius: float) -> Iterator[Idea]:
    """The common studs that stand in the way at a place moved to either side of it."""
    for stud, by in _clearances(wood, along, radius):
        if stud.kind == "common":
            yield _stud_moved(study.plan, wood, stud, by)


def _apart(study: Study, name: str, wood: WallWood, along: float, radius: float) -> Iterator[Idea]:
    """Either the studs in the way moved, or the pipe moved as far the other way."""
    yield from _studs_aside(study, wood, along, radius)
    east, north = wood.along
    for _, by in _clearances(wood, along, radius):
        yield from thing_moved(study, name, -by * east, -by * north)
        yield from _slid(study, name, -by * east, -by * north)


def _stud_moved(plan: Plan, wood: WallWood, stud: Stud, by: float) -> Idea:
    wall = wood.wall
    now = {shift.number: shift.by for shift in wall.stud_shifts}
    now[stud.number] = now.get(stud.number, 0.0) + by
    shifts = tuple(JoistShift(number, far) for number, far in sorted(now.items()) if far)
    words = f"Move stud {stud.number} of {wall_words(wall)} {along_words(wood, by)}"
    make = partial(edits.set_field, plan, wall.id, "stud_shifts", shifts)
    return Idea(words, costs.STUD + 0.1 * abs(by), make)


def _slid(study: Study, name: str, dx: float, dy: float) -> Iterator[Idea]:
    """An overhead vent's straight parts slid by so much, square to themselves."""
    run = edits.find(study.plan, name)
    if isinstance(run, Vent):
        for part in straights(run):
            by = dx * part.left[0] + dy * part.left[1]
            if abs(by) > NEAR:
                yield from part_slid(study, name, part, by)


def bored(study: Study, finding: Finding) -> Iterator[Idea]:
    """A stud that takes no such hole: doubled, framed wider, or the vent taken over the plates."""
    holes = _holes(study, finding)
    if finding.rule == "stud-hole-too-wide":
        yield from _doubled(study, holes)
    for hole in holes[:1]:
        yield from framed(study, hole.lying.wood.wall)
        yield from _past_plates(study, hole.lying)


def _doubled(study: Study, holes: list[StudHole]) -> Iterator[Idea]:
    book = study.model.book
    single, twice = book.number(BEARING), book.number(DOUBLED)
    weak = [
        hole
        for hole in holes
        if carries(hole.lying.wood.wall) and not hole.stud.doubled and over(hole.across, hole.lying.wood.depth * single)
    ]
    if not weak or any(over(hole.across, hole.lying.wood.depth * twice) for hole in weak):
        return
    wall = weak[0].lying.wood.wall
    numbers = tuple(sorted({*wall.doubled, *(hole.stud.number for hole in weak)}))
    new = sorted({hole.stud.number for hole in weak})
    words = f"Double {'stud' if len(new) == 1 else 'studs'} {listed(map(str, new))} of {wall_words(wall)}"
    make = partial(edits.set_field, study.plan, wall.id, "doubled", numbers)
    yield Idea(words, costs.STUD * len(new), make)


def edge_kept(study: Study, finding: Finding) -> Iterator[Idea]:
    """A run too near a stud's edge slid toward the wall's middle, or a deeper wall."""
    lacks = up((finding.limit or 0.0) - (finding.measured or 0.0))
    for hole in _holes(study, finding)[:1]:
        by = -lacks if hole.left > 0.0 else lacks
        east, north = hole.lying.wood.along
        dx, dy = -north * by, east * by
        name = hole.lying.pipe.element
        moved = _slid if isinstance(edits.find(study.plan, name), Vent) else thing_moved
        yield from moved(study, name, dx, dy)
        yield from _passing(study, name, INTO)
        yield from framed(study, hole.lying.wood.wall)
        yield from _past_plates(study, hole.lying)


def _passing(study: Study, name: str, into: Passing | None) -> Iterator[Idea]:
    """An overhead vent let into the studs' face, or bored through them."""
    vent = edits.find(study.plan, name)
    if isinstance(vent, Vent) and vent.above_floor is not None and vent.passing != into:
        words = f"Let {name} into the studs' face" if into else f"Bore the studs for {name}"
        yield Idea(words, costs.PASSING, partial(edits.set_field, study.plan, name, "passing", into))


def notched(study: Study, finding: Finding) -> Iterator[Idea]:
    """A notch too deep: the run slid toward the face, or bored; a deeper wall, or the run over the plates."""
    lacks = up((finding.measured or 0.0) - (finding.limit or 0.0))
    for lying in _lying(study, finding)[:1]:
        by = lacks if lying.left_at(lying.low) >= 0.0 else -lacks
        east, north = lying.wood.along
        yield from _slid(study, lying.pipe.element, -north * by, east * by)
        yield from _passing(study, lying.pipe.element, None)
        yield from framed(study, lying.wood.wall)
        yield from _past_plates(study, lying)


def off_the_notch(study: Study, finding: Finding) -> Iterator[Idea]:
    """One of two vents that take from one section of a stud set higher or lower, by as much as they share."""
    by = up(finding.measured or 0.0)
    for vent in study.plan.vents:
        if vent.id in finding.elements and vent.above_floor is not None:
            level = met(study.plan, vent)
            for to in (vent.above_floor + by, vent.above_floor - by):
                verb = "Raise" if to > vent.above_floor else "Lower"
                words = f"{verb} {listed(one.id for one in level)} to {inches(to)} in above the floor"
                yield Idea(words, costs.HEIGHT + 0.02 * by, partial(raised, study.plan, level, to))


def holes_apart(study: Study, finding: Finding) -> Iterator[Idea]:
    """Holes that leave too little wood between them in a plate: one of the two pipes moved along its wall."""
    names, wall = finding.elements[:2], finding.elements[-1]
    holes = [hole for hole in plate_holes(study.model) if hole.element in names and hole.wood.wall.id == wall]
    lacks = up((finding.limit or 0.0) - (finding.measured or 0.0))
    for one, other in permutations(holes, 2):
        if one.element != other.element and one.top == other.top:
            east, north = one.wood.along
            by = lacks if one.along >= other.along else -lacks
            yield from thing_moved(study, one.element, by * east, by * north)


def past_plates(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent that lies in a wall's plate raised over the plates, or lowered below them."""
    for lying in _lying(study, finding):
        yield from _past_plates(study, lying)


def _past_plates(study: Study, lying: Lying) -> Iterator[Idea]:
    plan, name = study.plan, lying.pipe.element
    vent = next((one for one in plan.vents if one.id == name and one.above_floor is not None), None)
    if vent is None or vent.above_floor is None:
        return
    floor, half, now = plan.floor.finished_z, lying.half, vent.above_floor
    over_them = up(lying.wood.plates[1] + half - floor)
    under_them = down(lying.wood.plates[0] - half - floor)
    over_sole = up(lying.wood.sole[1] + half - floor)
    for to in (over_them, *((under_them, over_sole) if lying.in_plates else ())):
        level = met(plan, vent)
        verb = "Raise" if to > now else "Lower"
        words = f"{verb} {listed(one.id for one in level)} to {inches(to)} in above the floor"
        yield Idea(words, costs.HEIGHT + 0.02 * abs(to - now), partial(raised, plan, level, to))


def held(study: Study, finding: Finding) -> Iterator[Idea]:
    """Pipe that its wall does not hold, or whose hub stands proud: into the wall's middle, or a deeper wall."""
    for one in _uprights(study, finding):
        east, north = one.wood.along
        for by in (up(finding.measured or 0.0), abs(one.left)):
            if 0.0 < by <= abs(one.left):
                left = -by if one.left > 0.0 else by
                yield from thing_moved(study, one.elements[0], -north * left, east * left)
        yield from framed(study, one.wood.wall)


def framed(study: Study, wall: Wall) -> Iterator[Idea]:
    """A wall framed of deeper studs; an outside one keeps its outside face."""
    for size, depth in WALL_DEPTH.items():
        if depth > WALL_DEPTH[wall.lumber]:
            yield Idea(f"Frame {wall_words(wall)} of {size}", costs.WALL, partial(_reframed, study.plan, wall, size))


def _reframed(plan: Plan, wall: Wall, size: str) -> Plan:
    if not wall.exterior:
        return edits.set_field(plan, wall.id, "lumber", size)
    dx, dy = _inward(plan, wall, (WALL_DEPTH[size] - WALL_DEPTH[wall.lumber]) / 2.0)
    start, end = ((x + dx, y + dy) for x, y in (wall.start, wall.end))
    return edits.set_fields(plan, wall.id, lumber=size, start=start, end=end)


def _inward(plan: Plan, wall: Wall, by: float) -> tuple[float, float]:
    """The way square to a wall toward the floor's inside."""
    (x0, y0), (x1, y1) = wall.start, wall.end
    run = max(NEAR, ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)
    left = (-(y1 - y0) / run, (x1 - x0) / run)
    reach = WALL_DEPTH[wall.lumber]
    middle = ((x0 + x1) / 2.0 + left[0] * reach, (y0 + y1) / 2.0 + left[1] * reach)
    side = by if inside(plan.floor.outline, middle) else -by
    return left[0] * side, left[1] * side


def off_the_rim(study: Study, finding: Finding) -> Iterator[Idea]:
    """Pipe of an outside wall that lands on the rim: the wall framed deeper, and the pipe moved in as far as it must."""
    here = finding.at[:2]
    for body in bodies(study.model):
        if body.start != here or body.elements[0] not in finding.elements:
            continue
        one = next((one for one in pipes_in_walls(study.model).upright if one.at == here), None)
        move = least_move(study.model, body)
        if one is None or move is None or not one.wood.wall.exterior:
            return
        name = body.elements[0]
        for idea in framed(study, one.wood.wall):
            words = f"Move {name} {way(*move)}"
            carry = partial(_carried, name=name, move=move)
            yield both(idea, carry, words, costs.moved(max(map(abs, move))))


def _carried(plan: Plan, name: str, move: tuple[float, float]) -> Plan:
    return carried(plan, name, *move)


def _uprights(study: Study, finding: Finding) -> list[Upright]:
    name, wall = finding.elements[0], finding.elements[-1]
    return [
        one
        for one in pipes_in_walls(study.model).upright
        if one.elements[0] == name and one.wood.wall.id == wall and _near(one.at, finding)
    ]


def _lying(study: Study, finding: Finding) -> list[Lying]:
    name, wall = finding.elements[0], finding.elements[-1]
    found = pipes_in_walls(study.model).lying
    return [one for one in found if one.pipe.element == name and one.wood.wall.id == wall]


def _holes(study: Study, finding: Finding) -> list[StudHole]:
    """The holes of a finding's pipe in its wall."""
    name, wall = finding.elements[0], finding.elements[-1]
    return [
        hole for hole in stud_holes(study.model) if hole.lying.pipe.element == name and hole.lying.wood.wall.id == wall
    ]


def _near(at: tuple[float, float], finding: Finding) -> bool:
    return abs(at[0] - finding.at[0]) < NEAR and abs(at[1] - finding.at[1]) < NEAR


MAKERS: dict[str, Maker] = {
    "doubled-studs-in-a-row": bored,
    "hub-proud-of-wall": held,
    "level-pipe-in-plate": past_plates,
    "plate-holes-close": holes_apart,
    "riser-out-of-wall": held,
    "stud-hole-near-edge": edge_kept,
    "stud-hole-too-wide": bored,
    "stud-in-the-way": aside,
    "stud-notch-at-hole": off_the_notch,
    "stud-notch-too-deep": notched,
}
