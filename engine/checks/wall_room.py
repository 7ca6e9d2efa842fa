"""What fits inside a wall: pipe against its studs' depth, holes against the faces of its plates, hubs against its board."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.wall_sites import (
    SUBJECT,
    face_names,
    pipes_in_walls,
    plate_hole,
    wall_words,
)
from engine.crossings.in_walls import Upright
from engine.crossings.limits import over, short
from engine.lengths import down, inches, up
from engine.trade.lumber import actual, listed
from engine.trade.openings import hub
from engine.trade.pipe import drain, label


def widest(one: Upright) -> float | None:
    """The widest nominal size from the sole plate's underside to the plates' top; None where none stands there."""
    return one.size_at(one.wood.sole[0], one.wood.plates[1])


def too_wide(one: Upright) -> bool:
    """Whether a hole for the pipe leaves a wall's plates no wood at all, wherever in the wall it stands."""
    size = widest(one)
    return size is not None and not short(plate_hole(drain(size).od)[0], one.wood.depth)


def out_of_wall(model: Model) -> Iterator[Outcome]:
    """Plumb pipe that does not fit between its wall's faces.

    To stop for: a hole as wide as the plates, or pipe that stands out of the studs. To look at: a hole that breaks out of
    the plates' face. Holds: 2 in pipe in the middle of a 2x4 wall, 3 in pipe in a 2x6 one. Broken: 3 in pipe in a 2x4 wall,
    which has nothing to spare and whose hubs are wider still. Common practice, no source; the sizes are those of pipe
    (schedule 40) and dressed lumber.
    """
    for one in pipes_in_walls(model).upright:
        size = widest(one)
        if size is None:
            yield DoesNotApply(one.elements[0])
            continue
        half, od = one.wood.depth / 2.0, drain(size).od
        out = abs(one.left) + od / 2.0 - half
        hole = plate_hole(od)[0]
        broken = abs(one.left) + hole / 2.0 - half
        if too_wide(one):
            yield _fills(one, size, hole)
        elif over(out, 0.0):
            yield _stands_out(one, size, out, "stop")
        elif over(broken, 0.0):
            yield _stands_out(one, size, broken, "look")
        else:
            yield Holds(one.elements[0])


def _fills(one: Upright, size: float, hole: float) -> Finding:
    wall, od = one.wood.wall, drain(size).od
    spare = one.wood.depth - od
    room = f"{inches(down(spare))} in to spare" if over(spare, 0.0) else "nothing to spare"
    deeper = next((name for name in listed() if actual(name).depth > hole and name.startswith("2x")), "")
    return Finding(
        "riser-out-of-wall",
        "stop",
        (*one.at, one.wood.sole[1]),
        (one.elements[0], wall.id),
        hole,
        one.wood.depth,
        "in",
        f"{one.elements[0]}'s {label(size)} in pipe is {inches(od)} in wide outside, with its hub {inches(hub(size))} in, and "
        f"{wall_words(wall)} is {inches(one.wood.depth)} in deep: it has {room}, and its {inches(hole)} in hole cuts the plates "
        "in two.",
        COMMON,
        f"Frame {wall_words(wall)} of {deeper}." if deeper else "Stand it in a chase of its own.",
    )


def _stands_out(one: Upright, size: float, by: float, weight: str) -> Finding:
    wall, stop = one.wood.wall, weight == "stop"
    face = face_names(one.wood)[0 if one.left > 0.0 else 1]
    what = f"{label(size)} in pipe stands" if stop else f"hole for {label(size)} in pipe breaks"
    return Finding(
        "riser-out-of-wall",
        "stop" if stop else "look",
        (*one.at, one.wood.sole[1]),
        (one.elements[0], wall.id),
        by,
        0.0,
        "in",
        f"{one.elements[0]}'s {what} {inches(up(by))} in out of the {face} face of {wall_words(wall)}'s "
        f"{'studs' if stop else 'plates'}.",
        COMMON,
        f"Move it {inches(up(by))} in toward the wall's middle.",
    )


def hub_proud(model: Model) -> Iterator[Outcome]:
    """A fitting's hub in the wall that stands out of the studs, where the board is to lie flat.

    Looked at where plumb pipe has a fitting between the plates. Its hub's wall is taken as thick as the pipe's, the least
    it can be, until it is measured. Holds: a 2 in tee in the middle of a 2x4 wall, a 3 in one in a 2x6. To look at: 1/16 in
    proud. Pipe that does not fit itself does not apply. Common practice, no source.
    """
    for one in pipes_in_walls(model).upright:
        size, half = one.at_studs, one.wood.depth / 2.0
        if size is None or not one.jointed or too_wide(one) or over(abs(one.left) + drain(size).od / 2.0, half):
            yield DoesNotApply(one.elements[0])
            continue
        proud = abs(one.left) + hub(size) / 2.0 - half
        if not over(proud, 0.0):
            yield Holds(one.elements[0])
            continue
        wall = one.wood.wall
        face = face_names(one.wood)[0 if one.left > 0.0 else 1]
        past = proud - wall.finish
        board = (
            f"{inches(up(past))} in past the board's own face"
            if over(past, 0.0)
            else f"into the {inches(wall.finish)} in board, which would bulge"
        )
        yield Finding(
            "hub-proud-of-wall",
            "look",
            (*one.at, (one.wood.sole[1] + one.wood.plates[0]) / 2.0),
            (one.elements[0], wall.id),
            proud,
            0.0,
            "in",
            f"The hub of {one.elements[0]}'s {label(size)} in fitting stands {inches(up(proud))} in out of the studs' {face} face in "
            f"{wall_words(wall)}: {board}. A hub is taken to be {inches(hub(size))} in wide until it is measured.",
            COMMON,
            f"Move it {inches(up(proud))} in toward the wall's middle, or cut the board's back out round it.",
        )


RULES = (
    Rule("riser-out-of-wall", "Pipe that its wall does not hold", SUBJECT, "stop", (), out_of_wall),
    Rule("hub-proud-of-wall", "A hub proud of its wall", SUBJECT, "look", (), hub_proud),
)
