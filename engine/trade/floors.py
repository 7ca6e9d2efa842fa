"""The shortest that a leg can be: below it a measured take-off is a slip of the tape."""

from __future__ import annotations

from functools import cache
from math import radians, tan

from engine.trade import pipe
from engine.trade.assumed import HALF
from engine.trade.catalogue import Size
from engine.trade.kinds import KINDS, LegName

_BENDS = frozenset(
    {
        "quarter_bend",
        "vent_quarter_bend",
        "long_sweep_quarter_bend",
        "eighth_bend",
        "sixteenth_bend",
        "sixth_bend",
        "closet_bend",
    }
)


def why_floor(kind: str) -> str:
    """What sets the least length of a kind's legs, as the end of a sentence: geometry of the pipes' own width."""
    plain = KINDS[kind].street_of or KINDS[kind].double_of or kind
    if plain in _BENDS:
        return "the corner of its own outside takes: half the outside by the tangent of half the turn"
    if plain == "wye":
        return "its two bores take to clear each other at 45 degrees"
    if plain in ("sanitary_tee", "combo_wye_eighth_bend", "test_tee"):
        return "half the bore beside it takes"
    return "its pipes' own width takes"


@cache
def floor_of(kind: str, size: Size, leg: LegName) -> float | None:
    """The least length that geometry allows a leg, inches; None where it sets no bound.

    A bend's legs reach at least to the corner of its own pipe; of a wye and a tee the bores must clear.
    """
    plain = KINDS[kind].street_of or KINDS[kind].double_of or kind
    if plain in _BENDS:
        corner = pipe.drain(max(size)).od / 2.0 * tan(radians(KINDS[kind].turn / 2.0))
        return corner + pipe.drain(size[1]).socket if KINDS[kind].end(leg) == "spigot" else corner
    if plain == "wye":
        return _wye(size, leg)
    if plain == "sanitary_tee":
        return pipe.drain(max(size[:2]) if leg == "branch" else size[2]).bore / 2.0
    if plain == "combo_wye_eighth_bend":
        return pipe.drain(max(size[:2])).bore / 2.0 if leg == "branch" else None
    if plain == "test_tee":
        return pipe.drain(size[0]).bore / 2.0
    if plain == "p_trap":
        return pipe.drain(size[1]).od if leg == "run_out" else None
    if KINDS[kind].end(leg) == "insert":
        return pipe.tube(max(size)).od / 2.0
    return 0.0


def _wye(size: Size, leg: LegName) -> float:
    run, branch = pipe.drain(max(size[:2])).bore, pipe.drain(size[2]).bore
    if leg == "run_in":
        return run / 2.0 + HALF * branch
    if leg == "run_out":
        return max(0.0, HALF * branch - run / 2.0)
    return HALF * run + branch / 2.0
