"""The bits that can be bought, and the one to take for a pipe."""

from __future__ import annotations

from functools import cache

from engine.plan.records import Record
from engine.trade.facts import Standing, table

_SLACK = 1e-9


class Bit(Record, frozen=True, gc=False):
    """A self-feed bit or hole saw: what it is called and the hole it leaves, inches."""

    label: str
    diameter: float
    standing: Standing
    source: str


@cache
def listed() -> tuple[Bit, ...]:
    """Every listed bit, smallest first."""
    facts = table("bits")
    found = [facts.fact(name, "diameter") for name in facts.subjects() if facts.has(name, "diameter")]
    bits = (Bit(fact.of, facts.number(fact.of, "diameter"), fact.standing, fact.source) for fact in found)
    return tuple(sorted(bits, key=lambda bit: bit.diameter))


@cache
def least_play() -> float:
    """How much wider than the pipe a hole must be, inches."""
    return table("bits").number("any", "least play")


@cache
def bit_for(width: float) -> Bit | None:
    """The smallest listed bit that leaves the least play round a pipe `width` in wide outside, if any does."""
    need = width + least_play() - _SLACK
    return next((bit for bit in listed() if bit.diameter >= need), None)
