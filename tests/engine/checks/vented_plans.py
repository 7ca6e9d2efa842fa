"""Little plans with vents that several traps share, for the tests of each way of venting."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from engine.plan.records import Drain, Exit, Fixture, Plan, Riser
from tests.engine.checks.judged_plans import bare, drain

COLUMN = (240.0, 240.0)


def by(book: str, plan: Plan) -> Plan:
    return replace(plan, rulebook=book)


def column(*outlets: tuple[str, float], size: str | None = None, vent: str | None = None, slope: float = 0.25) -> Plan:
    """One riser through the roof with wall outlets (kind, height above the floor) on it, fed from west and east in turn.

    The first is the highest; the riser's foot drains west to an exit 40 in away.
    """
    fixtures = tuple(
        Fixture(f"f{number}", kind, COLUMN, turn=180.0 * (number % 2), outlet_above_floor=height, arm=8.0)  # type: ignore[arg-type]
        for number, (kind, height) in enumerate(outlets, 1)
    )
    return bare(
        slope=slope,
        fixtures=fixtures,
        risers=(Riser("r1", COLUMN, size=size, vent=vent),),  # type: ignore[arg-type]
        drains=(drain(COLUMN, (200.0, 240.0)),),
        exits=(Exit("x1", (200.0, 240.0)),),
    )


def level_branch(*kinds: str, vent_after: int = 1, size: str | None = "3", slope: float = 0.25, **given: Any) -> Plan:
    """A level branch going west on y = 100 with drains that join it at 45 degrees, 40 in apart, and one dry vent.

    The first fixture stands at the branch's upper end; the vent's riser stands on the branch 20 in below the
    `vent_after`-th drain's joint.
    """
    head, step = 460.0, 40.0
    points = [(head, 100.0)]
    fixtures = [_floor_outlet("f1", kinds[0], (head, 100.0))]
    branches: list[Drain] = []
    vent = (head - step * (vent_after - 1) - 20.0, 100.0)
    for number, kind in enumerate(kinds[1:], 2):
        joint = (head - step * (number - 1), 100.0)
        start = (joint[0] + 14.0, 114.0)
        fixtures.append(_floor_outlet(f"f{number}", kind, start))
        branches.append(drain(start, joint, id=f"b{number}", size="3" if kind == "water_closet" else "2"))
        points.append(joint)
    foot = (20.0, 100.0)
    points = sorted({*points, vent, foot}, reverse=True)
    return bare(
        slope=slope,
        fixtures=tuple(fixtures),
        drains=(drain(*points, id="m", size=size), *branches),
        risers=(Riser("r1", vent, **given),),
        exits=(Exit("x1", foot),),
    )


def _floor_outlet(name: str, kind: str, at: tuple[float, float]) -> Fixture:
    trap_at = at if kind == "bathtub" else None
    return Fixture(name, kind, at, trap_at=trap_at)  # type: ignore[arg-type]


def island_sink(
    kind: str = "kitchen_sink", size: str | None = "2", slope: float = 0.25, outlet: float = 16.0, **given: Any
) -> Plan:
    """A sink with no wall behind it: its drain drops through the floor and runs level into a main that is vented.

    The main carries a vented lavatory; the sink stands 60 in from it.
    """
    lavatory, sink = (240.0, 160.0), (180.0, 160.0)
    main = drain(lavatory, (240.0, 100.0), (240.0, 20.0), id="m", size="3", slope=0.25)
    branch = drain(sink, (180.0, 130.0), (210.0, 100.0), (240.0, 70.0), id="d2", size=size, slope=slope)
    main = drain(lavatory, (240.0, 100.0), (240.0, 70.0), (240.0, 20.0), id="m", size="3", slope=0.25)
    return bare(
        fixtures=(
            Fixture("lav", "lavatory", lavatory, turn=0.0),
            Fixture("sink", kind, sink, turn=0.0, outlet_above_floor=outlet, **given),  # type: ignore[arg-type]
        ),
        risers=(Riser("r1", lavatory),),
        drains=(main, branch),
        exits=(Exit("x1", (240.0, 20.0)),),
    )
