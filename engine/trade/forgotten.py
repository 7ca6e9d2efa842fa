"""What people forget on the way to the store, each with the jobs that it concerns."""

from __future__ import annotations

from collections.abc import Collection
from functools import cache

from engine.plan.records import Record
from engine.trade.facts import Standing, table


class Forgotten(Record, frozen=True, gc=False):
    """One line of the check list; `when` names the kind of job that needs it."""

    name: str
    words: str
    when: str
    standing: Standing
    source: str


@cache
def listed() -> tuple[Forgotten, ...]:
    """Every line, in the table's order."""
    facts = table("forgotten")
    found = ((name, facts.fact(name, "words")) for name in facts.subjects())
    return tuple(
        Forgotten(name, facts.text(name, "words"), facts.text(name, "when"), fact.standing, fact.source)
        for name, fact in found
    )


def check_list(job: Collection[str]) -> tuple[Forgotten, ...]:
    """The lines that concern a job that has these things: drains, roof, closet, shower, water, PVC and so on."""
    return tuple(line for line in listed() if line.when in job)
