"""The holes at a mark: through the subfloor, and through the plates of the wall that the pipe stands in."""

from __future__ import annotations

from collections.abc import Sequence

from engine.lengths import inches
from engine.takeoff.marks.records import Hole
from engine.trade.bits import bit_for
from engine.trade.facts import table
from engine.trade.openings import hole_of
from engine.trade.pipe import drain, label, tube


def pipe_holes(through: Sequence[tuple[str, float]]) -> tuple[Hole, ...]:
    """Holes for drain pipe: pairs of what is bored and the pipe's nominal size."""
    return tuple(_bored(what, drain(size).od, f"{label(size)} in pipe") for what, size in through)


def tube_holes(through: Sequence[str], size: float) -> tuple[Hole, ...]:
    """Holes for water tube; its insulation ends under the floor."""
    return tuple(_bored(what, tube(size).od, f"{label(size)} in tube") for what in through)


def closet_hole() -> Hole:
    """The hole through the subfloor that a closet's flange wants."""
    width = hole_of("water_closet")
    fact = table("openings").fact("water_closet", "hole")
    return Hole("subfloor", width, "sawn round", "the closet flange's outlet", fact.standing, fact.source)


def unknown_hole(what: str) -> Hole:
    """A hole whose size only the maker's sheet tells."""
    return Hole("subfloor", None, "cut out by the maker's sheet", what, "assumed", "no size is known here")


def _bored(what: str, od: float, passes: str) -> Hole:
    said = f"{passes}, {inches(od, 32)} in outside"
    bit = bit_for(od)
    if bit is None:
        return Hole(
            what, None, "no listed bit is wide enough: saw it round", said, "assumed", "no bit is listed for it"
        )
    return Hole(what, bit.diameter, f"{bit.label} bit or hole saw", said, bit.standing, bit.source)
