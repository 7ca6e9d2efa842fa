"""Small plans with one wall north-south at x 102 from y 60, a lavatory's riser in it, and perhaps a vent along it."""

from __future__ import annotations

from typing import Any

from engine.plan.records import Drain, Exit, Fixture, Floor, Plan, Riser, Vent, Wall

SMALL = ((0.0, 0.0), (480.0, 0.0), (480.0, 480.0), (0.0, 480.0))
X = 102.0
"""The riser's place, and the wall's centre line unless a test sets it off."""


def wall(off: float = 0.0, **given: Any) -> Wall:
    """The wall, its centre line so far east of the riser."""
    return Wall("w", (X + off, 60.0), (X + off, 180.0), name="partition", **given)


def riser_in(one: Wall, size: Any = "1-1/2", y: float = 112.0, **given: Any) -> Plan:
    """A lavatory on a riser through the roof; between the studs that stand at y 108 and 124."""
    return Plan(
        floor=Floor(outline=SMALL, **given),
        walls=(one,),
        fixtures=(Fixture("l", "lavatory", (X, y), turn=180.0),),
        drains=(Drain("d", ((X, y), (20.0, y)), size=size),),
        risers=(Riser("r", (X, y), wall="w", size=size, vent=size),),
        exits=(Exit("x", (20.0, y)),),
    )


def vent_along(one: Wall, size: Any = "1-1/2", above: float = 42.0, to: float = 132.0) -> Plan:
    """A lavatory's vent that runs north in the wall, from y 116, to a second riser through the roof."""
    a, b = (X, 116.0), (X, to)
    return Plan(
        floor=Floor(outline=SMALL),
        walls=(one,),
        fixtures=(Fixture("l", "lavatory", a, turn=180.0),),
        drains=(Drain("d", (a, (20.0, 116.0)), size="1-1/2"),),
        vents=(Vent("v", (a, b), above_floor=above, size=size),),
        risers=(
            Riser("r", a, wall="w", size="1-1/2", vent=size, top="none"),
            Riser("s", b, wall="w", vent=size),
        ),
        exits=(Exit("x", (20.0, 116.0)),),
    )
