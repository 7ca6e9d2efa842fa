"""Little plans with dry vents on their way from the drain to the open air."""

from __future__ import annotations

import math

from msgspec.structs import replace

from engine.plan.records import Drain, Exit, Fixture, Plan, Point, Riser, Vent
from tests.engine.checks.judged_plans import bare, drain

SIXTEENTH = 1.0 / 16.0
FOOT: Point = (60.0, 100.0)
UPC = "upc-2021"


def bay(aside: float, slope: float | None = None, z: float = -4.0, **given: object) -> Plan:
    """A closet on a level 3 in drain whose axis lies at `z`; a vent leaves it at FOOT and goes so far aside to a riser."""
    far = (FOOT[0], FOOT[1] + aside)
    plan = bare(
        fixtures=(Fixture("wc1", "water_closet", (100.0, 100.0), name="the closet", rim_above_floor=16.0),),
        drains=(drain((100.0, 100.0), FOOT, (20.0, 100.0), size="3", slope=0.0),),
        vents=(Vent("v1", (FOOT, far), size="2", slope=slope),) if aside else (),
        risers=(Riser("r1", far),),
        exits=(Exit("x1", (20.0, 100.0), pinned_z=z),),
    )
    return replace(plan, **given)


def leaning(degrees_off_plumb: float) -> float:
    """The slope, inches per foot, of a pipe that leans so far off plumb."""
    return 12.0 * math.tan(math.radians(90.0 - degrees_off_plumb))


def branch(roll: float, rise: float | None = None, aside: float = 12.0) -> Plan:
    """The same vent drawn as a drain that carries nothing: a branch rolled up by `roll`, square to the main."""
    plan = bay(0.0)
    far = (FOOT[0], FOOT[1] + aside)
    run = Drain("d2", (far, FOOT), size="2", slope=0.0, join="rolled", roll=roll, rise=rise)
    return replace(plan, drains=(*plan.drains, run), risers=(Riser("r1", far),))


def sinks(height: float, rim: float | None = 36.0, slope: float | None = 0.25, kind: str = "kitchen_sink") -> Plan:
    """A sink whose vent crosses at a height above the floor to a lavatory's riser, which goes through the roof."""
    a, b = (100.0, 100.0), (160.0, 100.0)
    return bare(
        fixtures=(
            Fixture("ks1", kind, a, turn=270.0, name="the sink", rim_above_floor=rim),  # type: ignore[arg-type]
            Fixture("lav1", "lavatory", b, turn=270.0, rim_above_floor=31.0),
        ),
        drains=(
            drain(a, (100.0, 60.0), (20.0, 60.0), size="2"),
            drain(b, (160.0, 60.0), (100.0, 60.0), id="d2", size="2"),
        ),
        vents=(Vent("v1", (a, b), above_floor=height, slope=slope),),
        risers=(Riser("r1", a, top="none"), Riser("r2", b)),
        exits=(Exit("x1", (20.0, 60.0), pinned_z=-9.0),),
    )
