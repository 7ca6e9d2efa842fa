"""Little plans with a drain of a given load and place, for the tests of sizes: units are set by amendment."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from engine.plan.records import Drain, Exit, Fixture, Plan, Riser
from tests.engine.checks.judged_plans import amended, bare, drain

JOINT = (200.0, 100.0)
MAIN_X = 100.0


def two(kind: str = "floor_drain", **given: Any) -> tuple[tuple[Fixture, ...], Drain]:
    """Two fixtures, one straight above the joint and one that comes in there at 45 degrees, with the latter's drain."""
    first, second = (240.0, 100.0), (214.0, 114.0)
    fixtures = tuple(
        Fixture(name, kind, at, trap_at=at if kind == "bathtub" else None, **given)  # type: ignore[arg-type]
        for name, at in (("f1", first), ("f2", second))
    )
    return fixtures, drain(second, JOINT, id="b2", size=given.get("trap"))


def building_drain(units: float, size: str | None = "3", slope: float = 0.25, kind: str = "floor_drain") -> Plan:
    """A building drain `m` that carries so many units, half of them from each of two fixtures."""
    fixtures, second = two(kind)
    main = drain((240.0, 100.0), JOINT, id="u", size=size, slope=slope)
    on = drain(JOINT, (20.0, 100.0), id="m", size=size, slope=slope)
    plan = bare(slope=slope, fixtures=fixtures, drains=(main, on, second), exits=(Exit("x1", (20.0, 100.0)),))
    return amended(plan, f"dfu.{kind}", units / 2.0)


def branch(
    units: float,
    size: str | None = "2",
    slope: float = 0.25,
    join: str = "flat",
    kind: str = "floor_drain",
    **given: Any,
) -> Plan:
    """A branch `m` with so many units that comes into a 4 in building drain: level, or with a drop where `join` says so."""
    fixtures, second = two(kind, **given)
    foot = (MAIN_X, 100.0)
    closets = (Fixture("wc1", "water_closet", (MAIN_X, 240.0)), Fixture("wc2", "water_closet", (114.0, 214.0)))
    plan = bare(
        slope=slope,
        fixtures=(*fixtures, *closets),
        drains=(
            drain((240.0, 100.0), JOINT, id="u"),
            second,
            drain(JOINT, foot, id="m", size=size, join=join),
            drain((MAIN_X, 240.0), (MAIN_X, 200.0), foot, (MAIN_X, 20.0), id="main", size="4"),
            drain((114.0, 214.0), (MAIN_X, 200.0), id="b3", size="4"),
        ),
        exits=(Exit("x1", (MAIN_X, 20.0)),),
    )
    # what stands on the main outweighs the branch, so that it is the building drain
    return amended(amended(plan, "dfu.water_closet", 60.0), f"dfu.{kind}", units / 2.0)


def single(kind: str, size: str | None = None, trap: str | None = None, **given: Any) -> Plan:
    """One fixture in the floor with its own vent 30 in off, and 100 in more of its drain `d` to the exit."""
    start, vent, foot = (240.0, 100.0), (210.0, 100.0), (110.0, 100.0)
    fixture = Fixture("f1", kind, start, trap=trap, trap_at=start if kind == "bathtub" else None, **given)  # type: ignore[arg-type]
    return bare(
        fixtures=(fixture,),
        drains=(drain(start, vent, id="a"), drain(vent, foot, id="d", size=size)),
        risers=(Riser("r1", vent),),
        exits=(Exit("x1", foot),),
    )


def in_wall(
    *kinds: str, size: str | None = None, vent: str | None = None, drain_size: str | None = None, **given: Any
) -> Plan:
    """A riser `r1` with wall outlets on it from west and east in turn, drained by `d` 40 in to the exit."""
    at = (240.0, 240.0)
    fixtures = tuple(
        Fixture(f"f{number}", kind, at, turn=180.0 * (number % 2), **given)  # type: ignore[arg-type]
        for number, kind in enumerate(kinds, 1)
    )
    return bare(
        fixtures=fixtures,
        risers=(Riser("r1", at, size=size, vent=vent),),  # type: ignore[arg-type]
        drains=(drain(at, (200.0, 240.0), id="d", size=drain_size),),
        exits=(Exit("x1", (200.0, 240.0)),),
    )


def by(book: str, plan: Plan) -> Plan:
    return replace(plan, rulebook=book)
