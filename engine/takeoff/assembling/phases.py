"""Parts that are not glued in with the rest: what the test needs, and what waits for the roof or the finish."""

from __future__ import annotations

from engine.takeoff.assembling.joints import Joints
from engine.trade.habits import CLOSET_EXTRAS

CAPS = frozenset({"test_cap", "test_plug"})
FLANGES = frozenset({"closet_flange_hub", "closet_flange_4x3"})
FLASHINGS = frozenset({"vent_flashing"})
VALVES = frozenset({"admittance_valve"})
VALVE_SEATS = frozenset({"aav_adapter"})
"""What a valve is screwed into after the test: glued in with the pipe, and open until then."""
SET_WITH_FIXTURE = frozenset(
    {
        "tubular_trap",
        "waste_and_overflow",
        "shower_drain",
        "slip_washer",
        "washer_box",
        "continuous_waste",
        "branch_tailpiece",
        "hose_clamp",
        "air_gap_fitting",
        "standpipe_tee",
    }
)
SET_WITH_CLOSET = frozenset(CLOSET_EXTRAS)

WAITING = CAPS | FLANGES | FLASHINGS | VALVES | SET_WITH_FIXTURE | SET_WITH_CLOSET
"""Kinds of parts that are put on after the pipes stand."""


def waiting(joints: Joints) -> frozenset[str]:
    """The parts of those kinds that nothing else hangs on, so that they can wait."""
    return frozenset(
        part.id for part in joints.parts.values() if part.kind in WAITING and len(joints.of.get(part.id, ())) <= 1
    )
