"""Drain pipe and water tube by nominal size: outsides, walls, bores, sockets and weights."""

from __future__ import annotations

from functools import cache

from engine.lengths import fraction, mixed
from engine.plan.records import Record
from engine.trade.facts import Standing, table

_LARGEST = 12.0


class PipeSizeError(ValueError):
    """A text or number that names no size of pipe that is sold here."""


class DrainPipe(Record, frozen=True, gc=False):
    """Schedule 40 drain pipe, ABS or PVC alike: inches, and pounds a foot for each material.

    `bore` is the average inside diameter, `socket` the depth of a fitting's hub to its stop.
    """

    size: float
    od: float
    wall: float
    bore: float
    socket: float
    weight_pvc: float
    weight_abs: float
    standing: Standing
    socket_standing: Standing

    def weight(self, material: str) -> float:
        """Pounds a foot of solid pipe in ``PVC`` or ``ABS``."""
        if material not in ("PVC", "ABS"):
            raise PipeSizeError(f"no weight is known for pipe of {material!r}; PVC and ABS are")
        return self.weight_pvc if material == "PVC" else self.weight_abs


class Tube(Record, frozen=True, gc=False):
    """PEX tube of copper-tube outside diameter: inches. `bore` is the average, `bend` the least bend radius.

    `fitting` is what half a fitting takes of a tube's line: from its centre to where the tube is free to bend.
    """

    size: float
    od: float
    wall: float
    bore: float
    bend: float
    fitting: float
    standing: Standing


@cache
def nominal(text: str) -> float:
    """A size label as a number: ``"1-1/2"`` is 1.5. PipeSizeError when it is no size."""
    try:
        size = fraction(text)
    except ValueError as fault:
        raise PipeSizeError(f"{text!r} is no pipe size; sizes are written 1-1/2, 2, 3/4") from fault
    if not 0.0 < size <= _LARGEST:
        raise PipeSizeError(f"{text!r} is no pipe size between 0 and 12 in")
    return size


@cache
def label(size: float) -> str:
    """A size as it is written on pipe and in the plan file: 1.5 is ``"1-1/2"``."""
    return mixed(size, 16, "-")


DRAIN_SIZES: tuple[float, ...] = tuple(nominal(size) for size in table("drain_pipe").subjects())
"""Nominal sizes of drain and vent pipe, smallest first."""

SUPPLY_SIZES: tuple[float, ...] = tuple(nominal(size) for size in table("tube").subjects())
"""Nominal sizes of water tube, smallest first."""


@cache
def drain(size: float) -> DrainPipe:
    """The drain pipe of a nominal size. PipeSizeError when none is sold."""
    facts, name = table("drain_pipe"), label(size)
    if size not in DRAIN_SIZES:
        raise PipeSizeError(f"no drain pipe of {name} in; sizes are {', '.join(map(label, DRAIN_SIZES))}")
    return DrainPipe(
        size=size,
        od=facts.number(name, "outside"),
        wall=facts.number(name, "wall"),
        bore=facts.number(name, "bore"),
        socket=facts.number(name, "socket"),
        weight_pvc=facts.number(name, "weight PVC"),
        weight_abs=facts.number(name, "weight ABS"),
        standing=facts.fact(name, "outside").standing,
        socket_standing=facts.fact(name, "socket").standing,
    )


@cache
def tube(size: float) -> Tube:
    """The water tube of a nominal size. PipeSizeError when none is sold."""
    facts, name = table("tube"), label(size)
    if size not in SUPPLY_SIZES:
        raise PipeSizeError(f"no water tube of {name} in; sizes are {', '.join(map(label, SUPPLY_SIZES))}")
    return Tube(
        size=size,
        od=facts.number(name, "outside"),
        wall=facts.number(name, "wall"),
        bore=facts.number(name, "bore"),
        bend=facts.number(name, "bend radius"),
        fitting=facts.number(name, "fitting reach"),
        standing=facts.fact(name, "outside").standing,
    )
