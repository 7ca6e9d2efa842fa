"""Little drains with cleanouts, for the rules on them."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from engine import checks
from engine.plan.records import Cleanout, Exit, Plan, Point
from tests.engine.checks.judged_plans import bare, drain, model_of

SIXTEENTH = 1.0 / 16.0
UPC = "upc-2021"


def straight(length: float, *cleanouts: Cleanout, size: str = "3", how: str = "through-rim", **given: Any) -> Plan:
    """One run from so far east of an exit at (0, 100), which goes out level."""
    return path((length, 100.0), (0.0, 100.0), cleanouts=cleanouts, size=size, how=how, **given)


def path(
    *points: Point, cleanouts: tuple[Cleanout, ...] = (), size: str = "3", how: str = "through-rim", **given: Any
) -> Plan:
    """One run through these points, from its upper end to an exit."""
    exit_ = Exit("x1", points[-1], how=how)  # type: ignore[arg-type]
    return bare(drains=(drain(*points, size=size),), exits=(exit_,), cleanouts=cleanouts, **given)


def outside(plan: Plan) -> Plan:
    """The same plan, with a cleanout outside where the sewer begins."""
    return replace(plan, exits=tuple(replace(one, cleanout_outside=True) for one in plan.exits))


def looked_at(rule: str, plan: Plan, lacking: str = "") -> dict[str, int]:
    """How often a rule comes out each way, also where the book lacks a value without which it can't judge."""
    return checks.judge(model_of(plan, lacking))[2][rule]
