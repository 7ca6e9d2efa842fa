"""Drains that turn once, or take one branch, drawn so that each cell of the fittings table can be met."""

from __future__ import annotations

import math
from typing import Any

from msgspec.structs import replace

from engine.joinery.records import Part
from engine.plan.records import Exit, Fixture, PinnedFitting, Plan, Riser
from tests.engine.checks.judged_plans import bare, drain, model_of


def corner(turn: float, size: str, pattern: str | None, fixtures: int = 1) -> Plan:
    """A level run that turns once, with one fixture at its upper end, or two, or none."""
    angle = math.radians(turn)
    foot = (200.0, 60.0)
    end = (200.0 + 60.0 * math.sin(angle), 60.0 - 60.0 * math.cos(angle)) if turn != 90.0 else (260.0, 60.0)
    things = [Fixture("f1", "lavatory", (200.0, 140.0)), Fixture("f2", "lavatory", (200.0, 140.0), turn=90.0)]
    return bare(
        fixtures=tuple(things[:fixtures]),
        drains=(drain((200.0, 140.0), foot, end, size=size),),
        exits=(Exit("x1", end, how="through-rim"),),
        fittings=(PinnedFitting("p1", foot, pattern),) if pattern else (),  # type: ignore[arg-type]
    )


def riser_foot(pattern: str | None, size: str = "1-1/2", fixtures: int = 1) -> Plan:
    """A riser that turns into a level drain."""
    foot = (200.0, 60.0)
    things = [Fixture("f1", "lavatory", foot, turn=90.0), Fixture("f2", "lavatory", foot, turn=270.0)]
    return bare(
        fixtures=tuple(things[:fixtures]),
        risers=(Riser("r1", foot, size=size),),  # type: ignore[arg-type]
        drains=(drain(foot, (260.0, 60.0), size=size),),
        exits=(Exit("x1", (260.0, 60.0), how="through-rim"),),
        fittings=(PinnedFitting("p1", foot, pattern),) if pattern else (),  # type: ignore[arg-type]
    )


def onto_main(pattern: str | None, size: str = "2", main: str = "3", turn: float = 90.0, **how: Any) -> Plan:
    """A branch with two fixtures' water that meets a 3 in main: square or slanting, flat, dropped or rolled."""
    angle = math.radians(turn)
    joint = (200.0, 100.0)
    start = (200.0 - 60.0 * math.cos(angle), 160.0) if turn == 90.0 else (200.0 - 60.0, 160.0)
    if turn == 0.0:
        start = (140.0, 100.0)
    return bare(
        drains=(
            drain((120.0, 100.0), joint, (300.0, 100.0), size=main),
            drain(start, joint, id="d2", size=size, **how),
        ),
        exits=(Exit("x1", (300.0, 100.0), how="through-rim"),),
        fittings=(PinnedFitting("p1", joint, pattern),) if pattern else (),  # type: ignore[arg-type]
    )


def in_wall(pattern: str | None, both: bool = False) -> Plan:
    """A lavatory's arm into a vented riser; a second one opposite where asked."""
    plan = riser_foot(None, fixtures=2 if both else 1)
    return replace(
        plan,
        fittings=(PinnedFitting("p1", (200.0, 60.0), pattern, level="wall"),) if pattern else (),  # type: ignore[arg-type]
    )


def turning(plan: Plan, kind: str) -> Part:
    """The one part of a kind, of several the chosen one."""
    found = [part for part in model_of(plan).joinery.parts if part.kind == kind]
    (part,) = found if len(found) == 1 else (part for part in found if part.pinned)
    return part
