"""The real size of framing lumber."""

from __future__ import annotations

from functools import cache

from engine.plan.records import Record
from engine.trade.facts import Standing, table


class Lumber(Record, frozen=True, gc=False):
    """A stick's real section, dry and surfaced four sides, and the depth that it is named for; inches."""

    name: str
    thickness: float
    depth: float
    nominal_depth: float
    standing: Standing


@cache
def actual(name: str) -> Lumber:
    """The real size of lumber called, say, ``2x10``. KeyError when it is not listed."""
    facts = table("lumber")
    return Lumber(
        name,
        facts.number(name, "thickness"),
        facts.number(name, "depth"),
        facts.number(name, "nominal depth"),
        facts.fact(name, "depth").standing,
    )


def listed() -> tuple[str, ...]:
    """Names of the lumber that is known, shallowest first."""
    return table("lumber").subjects()
