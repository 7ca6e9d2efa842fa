"""A sink on an island with its own vent, for the tests of the rules on it."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from engine.plan.records import Cleanout, Drain, Exit, Fixture, Plan, Riser, Vent, Wall
from tests.engine.checks.judged_plans import bare, drain

SINK, RETURN, WALL, FOOT = (100.0, 60.0), (112.0, 60.0), (112.0, 160.0), (200.0, 60.0)
DRAIN = drain(SINK, RETURN, (150.0, 60.0), FOOT, size="2")


def island(
    book: str = "irc-2021",
    kind: str = "kitchen_sink",
    vent: str | None = "1-1/2",
    top: float | None = None,
    cleanout: bool = True,
    slope: float | None = None,
    **more: Any,
) -> Plan:
    """A sink whose riser turns over and comes down 12 in east; a foot vent goes 100 in north to a riser in a wall.

    The arm looks north, so that the trap stands at (100, 68), 90.25 in from the wall's near face.
    """
    plan = bare(
        rulebook=book,
        walls=(Wall("w1", (0.0, 160.0), (480.0, 160.0)),),
        fixtures=(Fixture("ks1", kind, SINK, turn=90.0, arm=8.0, name="the sink"),),  # type: ignore[arg-type]
        risers=(
            Riser("r1", SINK, size="2", vent=vent, top="loop", returns=RETURN, above_floor=top),  # type: ignore[arg-type]
            Riser("r2", WALL, wall="w1"),
        ),
        drains=(DRAIN,),
        vents=(Vent("v1", (RETURN, WALL), slope=slope),),
        exits=(Exit("x1", FOOT, how="through-rim"),),
        cleanouts=(Cleanout("c1", RETURN, above_floor=8.0, turn=90.0),) if cleanout else (),
    )
    return replace(plan, **more) if more else plan


def beside(plan: Plan, joint: tuple[float, float]) -> Plan:
    """A lavatory whose branch comes into the island's drain at a point, square from the south."""
    at = (joint[0], 20.0)
    branch = Drain("d2", (at, joint), size="2")
    (main,) = plan.drains
    points = tuple(dict.fromkeys(sorted((*main.points, joint))))
    return replace(
        plan,
        drains=(replace(main, points=points), branch),
        fixtures=(*plan.fixtures, Fixture("lav1", "lavatory", at, turn=270.0, name="the lavatory")),
        risers=(*plan.risers, Riser("r3", at)),
    )
