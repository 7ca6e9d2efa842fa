"""Take-offs that nobody measured yet, stood in for by geometry until somebody does.

Every length here is marked ``assumed`` and carries a wide tolerance from the table of assumptions.
"""

from __future__ import annotations

from collections.abc import Callable
from math import radians, sqrt, tan

from engine.lengths import up
from engine.trade import pipe
from engine.trade.catalogue import Leg, Size, known, sizes, sold
from engine.trade.facts import table
from engine.trade.kinds import KINDS, LEGS, LegName

HALF = sqrt(0.5)
"""Cosine of 45 degrees, by which a wye's branch leans."""


def assumed(kind: str, size: Size, leg: LegName) -> Leg:
    """The length that stands in for a leg that the catalogue does not give; the source says so."""
    row = table("assumptions").fact(kind, "tolerance")
    shape = _street if KINDS[kind].street_of else _SHAPES[kind]
    length = shape(kind, size, leg)
    low, high = _bounds(kind, size, leg, length)
    tolerance = max(_given(kind, "tolerance"), length - low, high - length)
    source = row.source if sold(kind, size) else f"not in the catalogue: {row.source}"
    return Leg(length, tolerance, "assumed", source)


def best(kind: str, size: Size, leg: LegName) -> Leg:
    """The catalogue's take-off, else the assumed one."""
    return known(kind, size, leg) or assumed(kind, size, leg)


def _given(kind: str, fact: str) -> float:
    return table("assumptions").number(kind, fact)


def _outside(size: float) -> float:
    return pipe.drain(size).od


def _scaled(kind: str, size: Size, leg: LegName) -> float:
    """The leg of the nearest size that is known, the next larger first, by the pipes' outsides."""
    most = max(size)
    models = sorted(other for other in sizes(kind) if known(kind, other, leg) is not None)
    model = next((other for other in models if max(other) >= most), models[-1])
    return up(best(kind, model, leg).length * _outside(most) / _outside(max(model)))


def _street(kind: str, size: Size, leg: LegName) -> float:
    hub = best(KINDS[kind].street_of or kind, size, "run_in").length
    return hub if leg == "run_in" else hub + pipe.drain(size[1]).socket


def _bounds(kind: str, size: Size, leg: LegName, length: float) -> tuple[float, float]:
    """Between which lengths an interpolated leg must lie; the length itself where nothing is interpolated."""
    if kind == "vent_quarter_bend":
        return _outside(size[0]) / 2.0, best("quarter_bend", size, leg).length
    if kind == "sixth_bend":
        return best("eighth_bend", size, leg).length, best("quarter_bend", size, leg).length
    return length, length


def _vent_bend(kind: str, size: Size, leg: LegName) -> float:
    low, high = _bounds(kind, size, leg, 0.0)
    return up((low + high) / 2.0)


def _sixth(kind: str, size: Size, leg: LegName) -> float:
    eighth, quarter = _bounds(kind, size, leg, 0.0)
    low = tan(radians(KINDS["eighth_bend"].turn / 2.0))
    share = (tan(radians(KINDS[kind].turn / 2.0)) - low) / (1.0 - low)
    return up(eighth + share * (quarter - eighth))


def _sanitary_tee(kind: str, size: Size, leg: LegName) -> float:
    """The legs of the tee with this lower run, else of the branch's own, the branch reaching past the run."""
    run, branch = max(size[:2]), size[2]
    model = known("sanitary_tee", (run, run, branch), leg)
    if model is not None:
        return model.length
    if run == branch:
        return _scaled("sanitary_tee", (run, run, branch), leg)
    own = _sanitary_tee(kind, (branch, branch, branch), leg)
    return up(own + max(0.0, _outside(run) - _outside(branch)) / 2.0) if leg == "branch" else own


def _wye(kind: str, size: Size, leg: LegName) -> float:
    run, branch = _outside(max(size[:2])), _outside(size[2])
    if leg == "run_in":
        return up(run / 2.0 + HALF * branch)
    if leg == "run_out":
        return up(max(_given("wye", "least run out"), HALF * branch - run / 2.0))
    return up(HALF * run + branch / 2.0)


def _combination(kind: str, size: Size, leg: LegName) -> float:
    """A wye and a street eighth bend: the wye sits downstream of where the branch's axis crosses the run's."""
    bend = (size[2], size[2])
    slant = best("wye", size, "branch").length + best("street_eighth_bend", bend, "run_out").length
    if leg == "run_in":
        return best("wye", size, "run_in").length - HALF * slant
    if leg == "run_out":
        return best("wye", size, "run_out").length + HALF * slant
    return HALF * slant + best("street_eighth_bend", bend, "run_in").length


def _closet_bend(kind: str, size: Size, leg: LegName) -> float:
    return best("quarter_bend", (size[0], size[0]), leg).length


def _flange(kind: str, size: Size, leg: LegName) -> float:
    return 0.0 if leg == "run_in" else _given(kind, "stop")


def _trap(kind: str, size: Size, leg: LegName) -> float:
    """A return bend and a quarter bend of one radius; the inlet's stop lies under the arm's axis, so it is negative."""
    radius = best("quarter_bend", (max(size), max(size)), "run_in").length
    return -radius if leg == "run_in" else 3.0 * radius


def _past_hub(kind: str, size: Size, leg: LegName) -> float:
    return 0.0 if leg == "run_in" else pipe.drain(size[0]).socket + _given(kind, "projection")


def _past_stop(kind: str, size: Size, leg: LegName) -> float:
    return 0.0 if leg == "run_in" else _given(kind, "projection")


def _bushing(kind: str, size: Size, leg: LegName) -> float:
    small, large = pipe.drain(min(size)).socket, pipe.drain(max(size)).socket
    return 0.0 if leg == "run_out" else max(0.0, large - small)


def _nothing(kind: str, size: Size, leg: LegName) -> float:
    """What closes a pipe or slides over it takes nothing off."""
    return 0.0


def _reducer(kind: str, size: Size, leg: LegName) -> float:
    cone = (_outside(max(size)) - _outside(min(size))) / 2.0
    return up((cone + _given(kind, "stop")) / 2.0)


def _test_tee(kind: str, size: Size, leg: LegName) -> float:
    half = up(_outside(size[0]) / 2.0)
    return half + pipe.drain(size[0]).socket if leg == "branch" else half


def _tube_elbow(kind: str, size: Size, leg: LegName) -> float:
    return up(pipe.tube(size[LEGS.index(leg)]).od / 2.0 + _given(kind, "shoulder"))


_SHAPES: dict[str, Callable[[str, Size, LegName], float]] = {
    "quarter_bend": _scaled,
    "long_sweep_quarter_bend": _scaled,
    "eighth_bend": _scaled,
    "sixteenth_bend": _scaled,
    "coupling": _scaled,
    "repair_coupling": _nothing,
    "flush_bushing_addon": _bushing,
    "test_cap": _nothing,
    "vent_flashing": _nothing,
    "vent_quarter_bend": _vent_bend,
    "sixth_bend": _sixth,
    "sanitary_tee": _sanitary_tee,
    "double_sanitary_tee": _sanitary_tee,
    "double_fixture_fitting": _sanitary_tee,
    "wye": _wye,
    "double_wye": _wye,
    "combo_wye_eighth_bend": _combination,
    "double_combo_wye_eighth_bend": _combination,
    "closet_bend": _closet_bend,
    "closet_flange_hub": _flange,
    "closet_flange_4x3": _flange,
    "p_trap": _trap,
    "trap_adapter_spigot": _past_hub,
    "cleanout_adapter_spigot_fpt": _past_hub,
    "trap_adapter_hub": _past_stop,
    "cleanout_adapter_hub_fpt": _past_stop,
    "aav_adapter": _past_stop,
    "reducer_coupling": _reducer,
    "test_tee": _test_tee,
    "pex_f1960_elbow": _tube_elbow,
    "pex_f1807_elbow": _tube_elbow,
}
