"""Pipe in walls against nails and fire: steel over the faces of plates and studs, seals round holes in floor and plates."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.stud_cuts import stud_cuts
from engine.checks.wall_sites import (
    SUBJECT,
    face_names,
    pipes_in_walls,
    plate_hole,
    stud_words,
    wall_words,
    water_floor_rises,
    water_rises,
)
from engine.crossings.limits import short
from engine.framing.studs import WallWood
from engine.lengths import down, inches
from engine.piping.flow import is_under
from engine.plan.outline import listed
from engine.plan.records import Point
from engine.trade.pipe import drain, tube


class Guard(NamedTuple):
    """Steel over the faces of one piece of wood that pipe passes too near to: one shield for each of `faces`.

    `faces` are compass names, `clear` the way from the pipe to the nearest face; `low` and `high` the heights that it covers,
    inches above the joists' top; `along` the least length along the wood, inches.
    """

    element: str
    wood: WallWood
    part: str
    faces: tuple[str, ...]
    clear: float
    low: float
    high: float
    along: float
    at: Point


@once_a_model
def guards(model: Model) -> tuple[Guard, ...]:
    """Every shield that the pipes in walls want, riser by riser and then stud by stud."""
    return tuple(_guards(model))


def _guards(model: Model) -> Iterator[Guard]:
    least = model.book.number("shield.edge")
    book = model.book
    past_plate = book.number("shield.past_plate") if book.has("shield.past_plate") else 0.0
    past_pipe = book.number("shield.past_pipe") if book.has("shield.past_pipe") else 0.0
    plumb = [
        (one.elements[0], one.wood, one.left, one.at, _od(one.at_sole), _od(one.at_plates))
        for one in pipes_in_walls(model).upright
    ]
    plumb += [(r.element, r.wood, r.left, r.at, tube(r.size).od, None) for r in water_rises(model)]
    for element, wood, left, at, sole, plates in plumb:
        for part, od, (low, high), reaches in (
            ("sole plate", sole, wood.sole, (0.0, past_plate)),
            ("top plates", plates, wood.plates, (past_plate, 0.0)),
        ):
            if od is None:
                continue
            faces, clear = _near(wood, left, od, least)
            if faces:
                name = "top plate" if part == "top plates" and wood.wall.top_plate == "single" else part
                span = (low - reaches[0], high + reaches[1])
                yield Guard(element, wood, name, faces, clear, *span, od + 2.0 * past_pipe, at)
    for hole in stud_cuts(model):
        od = drain(hole.lying.pipe.size).od
        faces, clear = _near(hole.lying.wood, hole.left, od, least)
        if faces:
            reach = od / 2.0 + past_pipe
            middle = (hole.stud.low + hole.stud.high) / 2.0
            yield Guard(
                hole.lying.pipe.element,
                hole.lying.wood,
                stud_words(hole.lying.wood, hole.stud),
                faces,
                clear,
                hole.z - reach,
                hole.z + reach,
                hole.stud.high - hole.stud.low,
                hole.lying.wood.at(middle, hole.left),
            )


def _od(size: float | None) -> float | None:
    return None if size is None else drain(size).od


def _near(wood: WallWood, left: float, od: float, least: float) -> tuple[tuple[str, ...], float]:
    """The faces that pipe lies too near to, and how near it lies to the nearest."""
    clear = [wood.depth / 2.0 - side * left - od / 2.0 for side in (1.0, -1.0)]
    near = tuple(face for face, way in zip(face_names(wood), clear, strict=True) if short(way, least))
    return near, min(clear)


def nails_reach(model: Model) -> Iterator[Outcome]:
    """Pipe in a wall so near to a face, where it passes a plate or stud, that a nail reaches it: steel has to cover it.

    Noted, once for each pipe: the shields are on the shopping list. Holds: 1-1/2 in pipe in a 2x6 wall. Broken: the same in
    a 2x4, by the IRC's 1-1/4 in and by the UPC's 1 in. Reads ``shield.edge`` and ``shield.thickness``. Source: IRC
    P2603.2.1; UPC 312.9.
    """
    least, thickness = model.book.number("shield.edge"), model.book.number("shield.thickness")
    by_pipe: dict[str, list[Guard]] = {}
    for guard in guards(model):
        by_pipe.setdefault(guard.element, []).append(guard)
    there = [one.elements[0] for one in pipes_in_walls(model).upright]
    there += [rise.element for rise in water_rises(model)]
    there += [hole.lying.pipe.element for hole in stud_cuts(model)]
    if not there:
        yield DoesNotApply()
    for element in dict.fromkeys(there):
        found = by_pipe.get(element)
        if not found:
            yield Holds(element)
            continue
        nearest = min(found, key=lambda guard: guard.clear)
        count = sum(len(guard.faces) for guard in found)
        parts = listed(dict.fromkeys(f"the {one.part}".replace("the the", "the") for one in found))
        yield Finding(
            "nails-reach-pipe",
            "note",
            (*nearest.at, nearest.low),
            (element, nearest.wood.wall.id),
            nearest.clear,
            least,
            "in",
            f"{element} passes {parts} of {wall_words(nearest.wood.wall)} {inches(down(max(0.0, nearest.clear)))} in from a face; "
            f"nails reach as deep as {inches(least)} in.",
            model.book.cite("shield.edge"),
            f"Cover it there with steel {thickness:g} in thick: {count} {'shield' if count == 1 else 'shields'}, "
            f"{_reach_words(model, {one.part for one in found})}.",
        )


def _reach_words(model: Model, parts: set[str]) -> str:
    """How far the steel reaches past what is passed: the sole plate, the top plates, studs or several of them."""
    book = model.book
    if book.has("shield.past_plate"):
        past, top = inches(book.number("shield.past_plate")), parts & {"top plate", "top plates"}
        said = [f"to {past} in above the sole plate"] if "sole plate" in parts else []
        said += [f"from {past} in below the {one}" for one in sorted(top)]
        said += ["as long as the wood that is bored"] if parts - top - {"sole plate"} else []
        return listed(said)
    if book.has("shield.past_pipe"):
        return f"{inches(book.number('shield.past_pipe'))} in past the pipe each way along the wood"
    return "as long as the wood that is bored"


class Gap(NamedTuple):
    """A hole in a floor or plate to be sealed round its pipe: the pipe's outside and the hole's width, inches."""

    element: str
    part: str
    outside: float
    hole: float
    at: Point


@once_a_model
def gaps(model: Model) -> tuple[Gap, ...]:
    """Every hole that pipe makes through the floor, with a sole plate on it or without, and through top plates."""
    found: list[Gap] = []
    seen: set[Point] = set()
    for one in pipes_in_walls(model).upright:
        seen.add(one.at)
        for part, od in (("floor and sole plate", _od(one.at_sole)), ("top plates", _od(one.at_plates))):
            if od is not None:
                found.append(Gap(one.elements[0], part, od, plate_hole(od)[0], one.at))
    for pipe in model.network.pipes:
        at = (pipe.start.x, pipe.start.y)
        if pipe.run == 0.0 and is_under(pipe.start) != is_under(pipe.end) and at not in seen:
            seen.add(at)
            od = drain(pipe.size).od
            found.append(Gap(pipe.element, "floor", od, plate_hole(od)[0], at))
    for rise in water_rises(model):
        od = tube(rise.size).od
        found.append(Gap(rise.element, "floor and sole plate", od, plate_hole(od)[0], rise.at))
    for element, size, at in water_floor_rises(model):
        od = tube(size).od
        found.append(Gap(element, "floor", od, plate_hole(od)[0], at))
    return tuple(found)


def unsealed(model: Model) -> Iterator[Outcome]:
    """Holes round pipes at floors and plates are sealed, so that fire finds no way up the wall.

    Noted once for a plan, with their number. Reads ``fireblock.round_pipes``. Does not apply where the book asks for none,
    or no pipe passes floor or plate. Source: IRC R302.11, from memory.
    """
    found = gaps(model)
    count = len(found)
    if not model.book.flag("fireblock.round_pipes") or not found:
        yield DoesNotApply()
        return
    walls = sum(gap.part == "top plates" for gap in found)
    above = f", {walls} of them in top plates" if walls else ""
    yield Finding(
        "gaps-round-pipes",
        "note",
        (*found[0].at, 0.0),
        tuple(dict.fromkeys(gap.element for gap in found)),
        None,
        None,
        "",
        f"Pipes pass floor and plates in {count} {'hole' if count == 1 else 'holes'}{above}: the gap round each is sealed against fire.",
        model.book.cite("fireblock.round_pipes"),
        "Fill each gap with a fireblock sealant before the walls are closed; it is on the shopping list.",
    )


RULES = (
    Rule(
        "nails-reach-pipe",
        "Pipe in a wall that nails reach",
        SUBJECT,
        "note",
        ("shield.edge", "shield.thickness"),
        nails_reach,
        ("shield.past_plate", "shield.past_pipe"),
    ),
    Rule("gaps-round-pipes", "Gaps round pipes to seal", SUBJECT, "note", ("fireblock.round_pipes",), unsealed),
)
