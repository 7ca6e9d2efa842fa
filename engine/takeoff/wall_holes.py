"""The schedule of holes in walls: every plate and stud that pipe passes, set out from ends and faces that a tape hooks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

from engine.checks import ALL_RULES
from engine.checks.model import Model, once_a_model
from engine.checks.plate_cuts import tied
from engine.checks.plates import Guard, guards
from engine.checks.stud_cuts import StudNotch, stud_cuts
from engine.checks.wall_sites import end_names, face_names, pipes_in_walls, plate_hole, wall_words, water_rises
from engine.checks.wall_verdicts import Faults, plate_faults, stud_faults
from engine.crossings.limits import short
from engine.framing.studs import WallWood
from engine.lengths import nearest
from engine.plan.outline import listed
from engine.plan.records import Record
from engine.takeoff.wall_hooks import wall_hook
from engine.trade.pipe import drain, label, tube

Part = Literal["sole plate", "top plates", "stud"]

_PLATES = ("sole plate", "top plates", "top plate")
"""What shields call the plates; any other wood of theirs is a stud."""


class WallHole(Record, frozen=True, gc=False):
    """One hole through a wall's plate or stud, or one notch in a stud, lengths in inches.

    `number` is that of its place on the drawings: a pipe's holes in sole plate and top plates share it. `from_end` runs along
    the wall from the outside of its end stud at `end`, where its drawing is hooked too, to the hole's middle, `from_other` from
    `other_end`; `from_face` from the studs' `face` that one looks at, for a notch the one it is cut from, `from_other_face` from `other_face`. `above_subfloor` is a stud's hole's
    middle over the subfloor. `deep` is how deep a notch runs from `face`. `tie` tells that the top plate is tied over it,
    `shields` how many steel plates guard it, over the studs' `shield_faces`; `breaks_out` that the hole reaches out of the
    face that it is nearest to. `verdict` is ``yes``, ``no`` or ``not judged``, `faults` say what it breaks.
    """

    number: int
    wall: str
    part: Part
    stud: int | None
    kind: Literal["bore", "notch"]
    element: str
    system: str
    size: str
    end: str
    from_end: float
    other_end: str
    from_other: float
    face: str
    from_face: float
    other_face: str
    from_other_face: float
    above_subfloor: float | None
    hole: float
    deep: float | None
    bit: str
    tie: bool
    shields: int
    shield_faces: str
    breaks_out: bool
    verdict: str
    faults: str


class Bored(NamedTuple):
    """A hole in a wall's wood with its place: `along` from the wall's start, `left` of its centre line, inches."""

    wood: WallWood
    along: float
    left: float
    row: WallHole


class _Pipe(NamedTuple):
    """What passes: its element, system and size in words, and its outside, inches."""

    element: str
    system: str
    size: str
    outside: float


class _Asked(NamedTuple):
    """One hole before it has its number."""

    wood: WallWood
    part: Part
    along: float
    left: float
    pipe: _Pipe
    faults: Faults
    stud: int | None = None
    z: float | None = None
    hole: float | None = None
    bit: str | None = None
    deep: float | None = None
    tie: bool = False


@once_a_model
def bored_walls(model: Model) -> tuple[Bored, ...]:
    """Every hole with its place, wall by wall in the plan's order, each wall's numbers rising from the end that is hooked."""
    order = {wall.id: number for number, wall in enumerate(model.plan.walls)}
    parts: dict[str, int] = {"sole plate": 0, "stud": 1, "top plates": 2}
    asked = [*_in_plates(model), *_in_studs(model)]
    hooks = {one.wood.wall.id: wall_hook(model, one.wood) for one in asked}

    def place(one: _Asked) -> tuple[object, ...]:
        return (
            order[one.wood.wall.id],
            hooks[one.wood.wall.id].along(one.along),
            one.z or 0.0,
            one.left,
            one.pipe.element,
        )

    numbers: dict[tuple[object, ...], int] = {}
    for one in sorted(asked, key=place):
        numbers.setdefault(place(one), len(numbers) + 1)
    asked.sort(key=lambda one: (order[one.wood.wall.id], parts[one.part], numbers[place(one)]))
    return tuple(Bored(one.wood, one.along, one.left, _row(model, one, numbers[place(one)])) for one in asked)


def wall_holes(model: Model) -> tuple[WallHole, ...]:
    """Every hole, wall by wall in the plan's order: the sole plate's along it, then the studs', then the top plates'."""
    return tuple(bored.row for bored in bored_walls(model))


def shield_count(model: Model) -> int:
    """How many steel plates the pipes in walls want."""
    return sum(len(guard.faces) for guard in guards(model))


def _in_plates(model: Model) -> Iterator[_Asked]:
    ties = {(cut.wood.wall.id, hole.at) for cut in tied(model) for hole in cut.holes}
    for one in pipes_in_walls(model).upright:
        faults = plate_faults(model, one)
        if one.at_sole is not None:
            system = "waste" if one.waste else "vent"
            pipe = _Pipe(one.elements[0], system, label(one.at_sole), drain(one.at_sole).od)
            yield _Asked(one.wood, "sole plate", one.along, one.left, pipe, faults)
        if one.at_plates is not None:
            pipe = _Pipe(one.elements[0], "vent", label(one.at_plates), drain(one.at_plates).od)
            tie = (one.wood.wall.id, one.at) in ties
            yield _Asked(one.wood, "top plates", one.along, one.left, pipe, faults, tie=tie)
    for rise in water_rises(model):
        pipe = _Pipe(rise.element, rise.water, label(rise.size), tube(rise.size).od)
        yield _Asked(rise.wood, "sole plate", rise.along, rise.left, pipe, ())


def _in_studs(model: Model) -> Iterator[_Asked]:
    for cut in stud_cuts(model):
        lying = cut.lying
        pipe = _Pipe(lying.pipe.element, lying.pipe.system, label(lying.pipe.size), drain(lying.pipe.size).od)
        yield _Asked(
            lying.wood,
            "stud",
            (cut.stud.low + cut.stud.high) / 2.0,
            cut.left,
            pipe,
            stud_faults(model, cut),
            stud=cut.stud.number,
            z=cut.z,
            hole=cut.tall,
            bit=None if isinstance(cut, StudNotch) else cut.bit,
            deep=cut.deep if isinstance(cut, StudNotch) else None,
        )


def _row(model: Model, one: _Asked, number: int) -> WallHole:
    wood, along, left = one.wood, one.along, one.left
    hole, bit = plate_hole(one.pipe.outside) if one.hole is None else (one.hole, one.bit)
    names, ways = end_names(wood), (along, wood.length - along)
    hook = wall_hook(model, wood)
    near = 0 if hook.forward else 1
    faces, depths = face_names(wood), (wood.depth / 2.0 - left, wood.depth / 2.0 + left)
    side = faces.index(hook.near) if one.deep is None else 0 if left >= 0.0 else 1
    shields = [face for guard in guards(model) if _guards(guard, one) for face in guard.faces]
    titles = {rule.id: rule.title for rule in ALL_RULES}
    return WallHole(
        number=number,
        wall=wall_words(wood.wall),
        part=one.part,
        stud=one.stud,
        kind="bore" if one.deep is None else "notch",
        element=one.pipe.element,
        system=one.pipe.system,
        size=one.pipe.size,
        end=names[near],
        from_end=ways[near],
        other_end=names[1 - near],
        from_other=ways[1 - near],
        face=faces[side],
        from_face=depths[side],
        other_face=faces[1 - side],
        from_other_face=depths[1 - side],
        above_subfloor=None if one.z is None else one.z - model.plan.floor.subfloor,
        hole=hole,
        deep=one.deep,
        bit=bit or "",
        tie=one.tie,
        shields=len(shields),
        shield_faces=listed(shields),
        breaks_out=one.deep is None and short(wood.depth / 2.0 - abs(left), hole / 2.0),
        verdict="not judged" if one.faults is None else "no" if one.faults else "yes",
        faults="; ".join(titles.get(rule, rule) for rule in one.faults or ()),
    )


def _guards(guard: Guard, one: _Asked) -> bool:
    """Whether a shield is this hole's: the same pipe's, in the same wood, at the same place and height."""
    if guard.element != one.pipe.element or guard.wood.wall.id != one.wood.wall.id:
        return False
    if nearest(one.wood.where(guard.at)[0]) != nearest(one.along):
        return False
    if one.z is not None:
        return guard.part not in _PLATES and guard.low <= one.z <= guard.high
    return guard.part in _PLATES and (guard.part == "sole plate") == (one.part == "sole plate")
