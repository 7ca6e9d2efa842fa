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
def saws() -> tuple[Bit, ...]:
    """Hole saws for studs, in sizes between the bits; smallest first."""
    facts = table("bits")
    found = [facts.fact(name, "stud saw") for name in facts.subjects() if facts.has(name, "stud saw")]
    return tuple(
        sorted(
            (Bit(fact.of, facts.number(fact.of, "stud saw"), fact.standing, fact.source) for fact in found),
            key=lambda saw: saw.diameter,
        )
    )


@cache
def stud_bit(width: float) -> Bit | None:
    """The smallest bit or hole saw that leaves the least play round a pipe in a stud, if any does.

    A stud stands in the open and is one thickness through, so that a saw does there what a joist wants a bit for.
    """
    need = width + least_play() - _SLACK
    tools = sorted((*listed(), *saws()), key=lambda bit: bit.diameter)
    return next((bit for bit in tools if bit.diameter >= need), None)


@cache
def bit_for(width: float) -> Bit | None:
    """The smallest listed bit that leaves the least play round a pipe `width` in wide outside, if any does."""
    need = width + least_play() - _SLACK
    return next((bit for bit in listed() if bit.diameter >= need), None)
