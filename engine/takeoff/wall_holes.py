"""The schedule of holes in walls: every plate and stud that pipe passes, set out from ends and faces that a tape hooks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from engine.checks.model import Model
from engine.checks.plates import Guard, guards, tie_wanted
from engine.checks.wall_sites import (
    end_names,
    face_names,
    pipes_in_walls,
    plate_hole,
    stud_holes,
    wall_words,
    water_rises,
)
from engine.crossings.limits import short
from engine.framing.studs import WallWood
from engine.lengths import nearest
from engine.plan.outline import listed
from engine.plan.records import Record
from engine.trade.pipe import drain, label, tube

Part = Literal["sole plate", "top plates", "stud"]

_PLATES = ("sole plate", "top plates", "top plate")
"""What shields call the plates; any other wood of theirs is a stud."""


class WallHole(Record, frozen=True, gc=False):
    """One hole through a wall's plate or stud, lengths in inches.

    `from_end` runs along the wall from the outside of its end stud at `end`, the nearer one, to the hole's middle; `from_face`
    from the studs' `face`, the nearer one. `above_subfloor` is a stud's hole's middle over the subfloor. `tie` tells that the
    top plate is tied over it, `shields` how many steel plates guard it, over the studs' `shield_faces`; `breaks_out` that the
    hole reaches out of the face that it is nearest to.
    """

    wall: str
    part: Part
    stud: int | None
    element: str
    system: str
    size: str
    end: str
    from_end: float
    face: str
    from_face: float
    above_subfloor: float | None
    hole: float
    bit: str
    tie: bool
    shields: int
    shield_faces: str
    breaks_out: bool


def wall_holes(model: Model) -> tuple[WallHole, ...]:
    """Every hole, wall by wall in the plan's order: the sole plate's along it, then the studs', then the top plates'."""
    order = {wall.id: number for number, wall in enumerate(model.plan.walls)}
    parts: dict[str, int] = {"sole plate": 0, "stud": 1, "top plates": 2}
    found = [*_in_plates(model), *_in_studs(model)]
    found.sort(key=lambda pair: (order[pair[0].wall.id], parts[pair[1].part], pair[2], pair[1].element))
    return tuple(row for _, row, _ in found)


def shield_count(model: Model) -> int:
    """How many steel plates the pipes in walls want."""
    return sum(len(guard.faces) for guard in guards(model))


def _in_plates(model: Model) -> Iterator[tuple[WallWood, WallHole, float]]:
    for one in pipes_in_walls(model).upright:
        tied = model.book.has("plate.cut_most") and tie_wanted(model, one) is not None
        system = "waste" if one.waste else "vent"
        if one.at_sole is not None:
            size, od = label(one.at_sole), drain(one.at_sole).od
            yield _row(model, one.wood, "sole plate", None, (one.elements[0], system, size, od), (one.along, one.left))
        if one.at_plates is not None:
            size, od = label(one.at_plates), drain(one.at_plates).od
            drawn = (one.elements[0], "vent", size, od)
            yield _row(model, one.wood, "top plates", None, drawn, (one.along, one.left), tie=tied)
    for rise in water_rises(model):
        drawn = (rise.element, rise.water, label(rise.size), tube(rise.size).od)
        yield _row(model, rise.wood, "sole plate", None, drawn, (rise.along, rise.left))


def _in_studs(model: Model) -> Iterator[tuple[WallWood, WallHole, float]]:
    for hole in stud_holes(model):
        pipe = hole.lying.pipe
        drawn = (pipe.element, pipe.system, label(pipe.size), drain(pipe.size).od)
        middle = (hole.stud.low + hole.stud.high) / 2.0
        above = hole.lying.z - model.plan.floor.subfloor
        place = (middle, hole.left)
        yield _row(model, hole.lying.wood, "stud", hole.stud.number, drawn, place, above, (hole.hole, hole.bit))


def _row(
    model: Model,
    wood: WallWood,
    part: Part,
    stud: int | None,
    drawn: tuple[str, str, str, float],
    place: tuple[float, float],
    above: float | None = None,
    bored: tuple[float, str | None] | None = None,
    tie: bool = False,
) -> tuple[WallWood, WallHole, float]:
    element, system, size, od = drawn
    along, left = place
    hole, bit = plate_hole(od) if bored is None else bored
    start, end = end_names(wood)
    first = along <= wood.length - along
    z = None if above is None else above + model.plan.floor.subfloor
    shields = [face for guard in guards(model) if _guards(guard, wood, part, element, along, z) for face in guard.faces]
    row = WallHole(
        wall=wall_words(wood.wall),
        part=part,
        stud=stud,
        element=element,
        system=system,
        size=size,
        end=start if first else end,
        from_end=along if first else wood.length - along,
        face=face_names(wood)[0 if left >= 0.0 else 1],
        from_face=wood.depth / 2.0 - abs(left),
        above_subfloor=above,
        hole=hole,
        bit=bit or "",
        tie=tie,
        shields=len(shields),
        shield_faces=listed(shields),
        breaks_out=short(wood.depth / 2.0 - abs(left), hole / 2.0),
    )
    return wood, row, along


def _guards(guard: Guard, wood: WallWood, part: Part, element: str, along: float, z: float | None) -> bool:
    """Whether a shield is this hole's: the same pipe's, in the same wood, at the same place; `z` is a stud's hole's height."""
    if guard.element != element or guard.wood.wall.id != wood.wall.id:
        return False
    if nearest(wood.where(guard.at)[0]) != nearest(along):
        return False
    if z is not None:
        return guard.part not in _PLATES and guard.low <= z <= guard.high
    return guard.part in _PLATES and (guard.part == "sole plate") == (part == "sole plate")
