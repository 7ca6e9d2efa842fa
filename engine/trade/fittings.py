"""Take-offs of fittings: what was measured, else the catalogue's, else what geometry assumes."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache

from engine.plan.records import MeasuredTakeOff, Record
from engine.trade import assumed as stand_ins
from engine.trade import pipe
from engine.trade.catalogue import Leg, Size, sizes, sold
from engine.trade.facts import table
from engine.trade.floors import floor_of, why_floor
from engine.trade.kinds import KINDS, FittingKind, LegName

__all__ = [
    "KINDS",
    "Doubt",
    "FittingError",
    "FittingKind",
    "Leg",
    "LegName",
    "Size",
    "bushings",
    "doubts",
    "floor_of",
    "measured_leg",
    "read_size",
    "size_label",
    "sizes",
    "sold",
    "takeoff",
    "why_floor",
]


class FittingError(ValueError):
    """A fitting that is not sold, or a leg that it does not have: it names what is."""


class Doubt(Record, frozen=True, gc=False):
    """A measured take-off that can't be right or can't be used, and why."""

    measured: MeasuredTakeOff
    why: str


def takeoff(kind: str, size: Size, leg: LegName, measured: Sequence[MeasuredTakeOff] = ()) -> Leg:
    """The take-off of one leg of a fitting, with how it is known.

    `size` holds nominal sizes: run_in, run_out and branch, as far as the kind has those legs. A row of
    `measured` wins over the catalogue, the catalogue over geometry; :func:`sold` tells whether the catalogue
    has the fitting at all. FittingError for an unknown kind or leg, or for sizes that no pipe has.
    """
    if measured:
        own = _by_leg(tuple(measured)).get((kind, size, leg))
        if own is not None:
            return own
    return _unmeasured(kind, size, leg)


@cache
def _unmeasured(kind: str, size: Size, leg: LegName) -> Leg:
    if kind not in KINDS:
        raise FittingError(f"there is no fitting called {kind!r}")
    words = KINDS[kind].words
    if leg not in KINDS[kind].legs:
        raise FittingError(f"a {words} has no {leg!r}; it has {', '.join(KINDS[kind].legs)}")
    _check(kind, size)
    return stand_ins.best(kind, size, leg)


def _check(kind: str, size: Size) -> None:
    """FittingError unless a fitting could have this size: as many numbers as legs, each a size of pipe."""
    words, ends = KINDS[kind].words, KINDS[kind].ends
    if len(size) != len(ends):
        raise FittingError(f"a {words} has {len(ends)} sizes, not {len(size)}")
    stock = pipe.SUPPLY_SIZES if "insert" in ends else pipe.DRAIN_SIZES
    odd = [each for each in size if each not in stock]
    if odd:
        raise FittingError(f"no {words} has a leg of {odd[0]:g} in; pipe comes in {', '.join(map(pipe.label, stock))}")


@lru_cache(maxsize=64)
def _by_leg(measured: tuple[MeasuredTakeOff, ...]) -> dict[tuple[str, Size, str], Leg]:
    tolerance = table("assumptions").number("measured", "tolerance")
    found: dict[tuple[str, Size, str], Leg] = {}
    for row in measured:
        leg = measured_leg(row)
        if leg is not None:
            found[leg] = Leg(row.length, tolerance, "measured", "measured on the fitting in hand")
    return found


def doubts(measured: Sequence[MeasuredTakeOff]) -> tuple[Doubt, ...]:
    """The measured take-offs that name no fitting, or are shorter than the fitting's pipes allow."""
    found = []
    for row in measured:
        why = _unusable(row) or _implausible(row)
        if why is not None:
            found.append(Doubt(row, why))
    return tuple(found)


def measured_leg(row: MeasuredTakeOff) -> tuple[str, Size, LegName] | None:
    """The fitting and leg that a measured row is used for; None where no fitting has them."""
    return None if _unusable(row) is not None else (row.kind, read_size(row.kind, row.size), row.leg)


def _unusable(row: MeasuredTakeOff) -> str | None:
    try:
        read_size(row.kind, row.size)
    except (FittingError, pipe.PipeSizeError) as fault:
        return str(fault)
    if row.leg not in KINDS[row.kind].legs:
        return f"a {KINDS[row.kind].words} has no {row.leg}"
    return None


def _implausible(row: MeasuredTakeOff) -> str | None:
    floor = floor_of(row.kind, read_size(row.kind, row.size), row.leg)
    if floor is None or row.length >= floor:
        return None
    return f"{row.length:g} in is less than the {floor:.2f} in that {why_floor(row.kind)}"


def size_label(size: Size) -> str:
    """A fitting's size as it is written: run, run, branch; ``3x3x1-1/2``."""
    return "x".join(map(pipe.label, size))


def read_size(kind: str, text: str) -> Size:
    """The size that `text` writes for a kind of fitting.

    One number stands for all legs, and of a fitting with a branch two stand for run and branch. FittingError
    or PipeSizeError says what is wrong.
    """
    if kind not in KINDS:
        raise FittingError(f"there is no fitting called {kind!r}")
    parts = tuple(pipe.nominal(part) for part in text.lower().replace("×", "x").split("x"))
    legs = len(KINDS[kind].legs)
    if len(parts) == 1:
        parts = parts * legs
    elif legs == 3 and len(parts) == 2:
        parts = (parts[0], parts[0], parts[1])
    _check(kind, parts)
    return parts


@cache
def bushings(small: float, large: float) -> tuple[Size, ...]:
    """The fewest flush bushings, smallest first, that bring a hub of `large` down to `small`.

    FittingError when no chain of bushings that are sold does.
    """
    chains: list[tuple[Size, ...]] = [((small, size[1]),) for size in sizes("flush_bushing_addon") if size[0] == small]
    while chains:
        for chain in chains:
            if chain[-1][1] == large:
                return chain
        chains = [
            (*chain, size) for chain in chains for size in sizes("flush_bushing_addon") if size[0] == chain[-1][1]
        ]
    raise FittingError(f"no flush bushings bring {pipe.label(large)} down to {pipe.label(small)}")
