"""Little plans, one rule at a time: what a rule says of a plan, of the same plan amended, and with a value missing."""

from __future__ import annotations

from collections import Counter
from typing import Any

from msgspec.structs import replace

from engine.checks import ALL_RULES
from engine.checks.model import Model
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.plan.records import Amendment, Drain, Exit, Fixture, Floor, Plan, Point, Riser
from engine.rulebooks import RuleBook
from engine.study import work_out

JUDGES = {rule.id: rule.judge for rule in ALL_RULES}
SMALL = ((0.0, 0.0), (480.0, 0.0), (480.0, 480.0), (0.0, 480.0))


def bare(**collections: Any) -> Plan:
    """A floor with nothing on it but what is given."""
    return Plan(floor=Floor(outline=SMALL), **collections)


def amended(plan: Plan, value: str, becomes: float | bool | str) -> Plan:
    return replace(
        plan, amendments=(*plan.amendments, Amendment(value, becomes, said_by="the county", on="2026-01-05"))
    )


def model_of(plan: Plan, lacking: str = "") -> Model:
    """The plan worked out; `lacking` leaves a value out of the rule book that its rules read."""
    model = work_out(plan)
    if lacking:
        book = model.book
        assert book.has(lacking)
        kept = {value.key: value for value in book if value.key != lacking}
        model.book = RuleBook(book.name, book.title, book.short, book.notice, kept)
    return model


def outcomes(rule: str, plan: Plan, lacking: str = "") -> list[Outcome]:
    return list(JUDGES[rule](model_of(plan, lacking)))


def counts(rule: str, plan: Plan, lacking: str = "") -> tuple[int, int, int, int]:
    """How often the rule holds, is broken, is not judged and does not apply."""
    found = Counter(type(outcome) for outcome in outcomes(rule, plan, lacking))
    return (found[Holds], found[Finding], found[NotJudged], found[DoesNotApply])


def findings(rule: str, plan: Plan) -> list[Finding]:
    found = [outcome for outcome in outcomes(rule, plan) if isinstance(outcome, Finding)]
    assert all(one.rule == rule for one in found)
    return found


def broken(rule: str, plan: Plan) -> Finding:
    """The one finding of a rule."""
    (found,) = findings(rule, plan)
    assert found.text.strip() and found.cites.strip() and found.mend.strip()
    return found


def not_judged(rule: str, plan: Plan, lacking: str = "") -> list[NotJudged]:
    return [outcome for outcome in outcomes(rule, plan, lacking) if isinstance(outcome, NotJudged)]


def holds_for(rule: str, plan: Plan, element: str) -> bool:
    """Whether a rule holds for an element and is broken for nothing."""
    found = outcomes(rule, plan)
    return not any(isinstance(one, Finding) for one in found) and Holds(element) in found


def drain(*points: Point, id: str = "d1", **given: Any) -> Drain:
    return Drain(id=id, points=points, **given)


def armed(kind: str, length: float, trap: str | None = None, slope: float = 0.25, **given: Any) -> Plan:
    """A sink on a riser that is vented above it, its trap's weir so far from the riser, with a drain to an exit."""
    at = (240.0, 240.0)
    return bare(
        slope=slope,
        fixtures=(Fixture("f1", kind, at, turn=0.0, trap=trap, arm=length, name="the sink", **given),),  # type: ignore[arg-type]
        risers=(Riser("r1", at),),
        drains=(drain(at, (200.0, 240.0), slope=0.25),),
        exits=(Exit("x1", (200.0, 240.0)),),
    )


def common_vent(plan: Plan) -> Plan:
    """A second lavatory back to back with the first: a common vent, which is not judged yet."""
    return replace(plan, fixtures=(*plan.fixtures, Fixture("lav2", "lavatory", (70.25, 69.0), turn=0.0)))
