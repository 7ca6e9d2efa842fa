"""What level pipe along a wall asks of its studs: holes through their middle, or notches into a face."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal, NamedTuple

from engine.checks.model import Model, once_a_model
from engine.checks.wall_sites import carries, pipes_in_walls
from engine.crossings.in_walls import Lying
from engine.framing.studs import Stud
from engine.piping.records import Pipe
from engine.trade.bits import stud_bit
from engine.trade.pipe import drain

INTO: Literal["notched"] = "notched"
"""The way past wood of a run that is let into the studs' face instead of being bored through them."""


class StudHole(NamedTuple):
    """A level pipe through a stud: the tool and the hole's width, across the stud's depth, and the wood at its nearer edge.

    `bit` is None where nothing is listed wide enough: the hole is then the pipe's own outside. `z` is the hole's middle
    over the joists' top, by the pipe's fall. Lengths in inches.
    """

    lying: Lying
    stud: Stud
    bit: str | None
    hole: float
    across: float
    left: float
    wood: float
    z: float

    @property
    def tall(self) -> float:
        """How much of the stud's height it takes, inches."""
        return self.hole


class StudNotch(NamedTuple):
    """A level pipe let into a stud's face, the one that it lies nearer to; `deep` runs to the pipe's far side, inches.

    `left` is the pipe's axis to the left of the wall's centre line, `z` its height over the joists' top, `tall` what the
    notch takes of the stud's height.
    """

    lying: Lying
    stud: Stud
    deep: float
    left: float
    tall: float
    z: float


@once_a_model
def stud_holes(model: Model) -> tuple[StudHole, ...]:
    """Every hole that level pipe along a wall asks of its studs."""
    return tuple(_hole(model, lying, stud) for lying, stud in _met(model) if lying.pipe.passing != INTO)


@once_a_model
def stud_notches(model: Model) -> tuple[StudNotch, ...]:
    """Every notch that runs which are said to be notched ask of their wall's studs."""
    return tuple(_notch(model, lying, stud) for lying, stud in _met(model) if lying.pipe.passing == INTO)


StudCut = StudHole | StudNotch
"""Either kind of cut in a stud."""


@once_a_model
def stud_cuts(model: Model) -> tuple[StudCut, ...]:
    """Every hole and every notch that level pipe asks of its wall's studs."""
    return (*stud_holes(model), *stud_notches(model))


def key_of_notch(lying: Lying) -> str:
    """The book's key for the deepest notch in a stud: by what the wall carries."""
    return "stud.bearing.notch" if carries(lying.wood.wall) else "stud.nonbearing.notch"


def notch_deep(lying: Lying, left: float, thick: float) -> float:
    """How deep a notch in the nearer face runs, to the far side of a pipe whose axis lies so far off the middle, inches."""
    od = drain(lying.pipe.size).od
    return lying.wood.depth / 2.0 - abs(left) + (od / lying.slant + _drift(lying, thick)) / 2.0


def _met(model: Model) -> Iterator[tuple[Lying, Stud]]:
    for lying in pipes_in_walls(model).lying:
        if lying.along_it and not lying.over_all and not lying.in_plates:
            for stud in lying.studs():
                yield lying, stud


def _hole(model: Model, lying: Lying, stud: Stud) -> StudHole:
    od = drain(lying.pipe.size).od
    tool = stud_bit(od)
    hole = od if tool is None else tool.diameter
    across = hole / lying.slant + _drift(lying, stud.high - stud.low)
    middle = (stud.low + stud.high) / 2.0
    left = lying.left_at(middle)
    wood = lying.wood.depth / 2.0 - abs(left) - across / 2.0
    bit = None if tool is None else tool.label
    return StudHole(lying, stud, bit, hole, across, left, wood, _height(model, lying, middle))


def _notch(model: Model, lying: Lying, stud: Stud) -> StudNotch:
    middle = (stud.low + stud.high) / 2.0
    left = lying.left_at(middle)
    deep = notch_deep(lying, left, stud.high - stud.low)
    return StudNotch(lying, stud, deep, left, 2.0 * lying.half, _height(model, lying, middle))


def _drift(lying: Lying, thick: float) -> float:
    """How far a pipe at an angle to its wall goes across it in a stud's thickness, inches."""
    return thick * math.sqrt(max(0.0, 1.0 - lying.slant**2)) / lying.slant


def _height(model: Model, lying: Lying, along: float) -> float:
    """A level pipe's axis over the joists' top at a place of its wall, with its fall, inches."""
    pipe, wood = lying.pipe, lying.wood
    start = wood.where((pipe.start.x, pipe.start.y))[0]
    end = wood.where((pipe.end.x, pipe.end.y))[0]
    return axis_at(model, pipe, (along - start) / (end - start))


def axis_at(model: Model, pipe: Pipe, share: float) -> float:
    """A level pipe's axis over the joists' top at a share of its way from start to end, with its fall from its lower end, inches.

    A dry run is as high as it was drawn at its drain's end, a waste one where it joins.
    """
    gone = share * pipe.run if pipe.system == "vent" else (1.0 - share) * pipe.run
    level = pipe.start.level + share * (pipe.end.level - pipe.start.level)
    return level + (gone * pipe.slope + _before(model, pipe)) / 12.0


def _before(model: Model, pipe: Pipe) -> float:
    """What a level pipe's run has risen from its lower end to this stretch's, inches times twelve."""
    dry, risen, seen = pipe.system == "vent", 0.0, {pipe.id}
    at = pipe.start if dry else pipe.end
    while True:
        before = (
            one
            for one in _level(model).get(pipe.element, ())
            if one.id not in seen and (one.end if dry else one.start) == at
        )
        found = next(before, None)
        if found is None:
            return risen
        seen.add(found.id)
        risen += found.slope * found.run
        at = found.start if dry else found.end


@once_a_model
def _level(model: Model) -> dict[str, list[Pipe]]:
    """The level pipes of each element."""
    found: dict[str, list[Pipe]] = {}
    for pipe in model.network.pipes:
        if pipe.run:
            found.setdefault(pipe.element, []).append(pipe)
    return found
