"""Reading a plan for a verb: every way in which a file can be unusable becomes one sentence."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from app.commands.verb import Refusal

if TYPE_CHECKING:
    from engine.plan.records import Plan
    from engine.study import Study


def plan_at(path: Path) -> Plan:
    """The plan in a file. Raises `Refusal` with the file, the place in it and what would be right."""
    from engine.plan.file import PlanFileError, read

    try:
        return read(path)
    except PlanFileError as fault:
        raise Refusal(f"{path}: {fault}") from fault
    except OSError as fault:
        raise Refusal(f"{path}: {why(fault)}") from fault


def study_of(path: Path) -> Study:
    """The whole answer for the plan in a file. Raises `Refusal` where the file or its rule book cannot be used."""
    from engine.rulebooks import AmendmentError, RuleBookError
    from engine.study import study

    plan = plan_at(path)
    try:
        return study(plan)
    except (AmendmentError, RuleBookError) as fault:
        raise Refusal(f"{path}: {fault}") from fault


def why(fault: OSError) -> str:
    """What the system says against a file, without its number: 'no such file or directory'."""
    said = fault.strerror or str(fault)
    return said[:1].lower() + said[1:]
