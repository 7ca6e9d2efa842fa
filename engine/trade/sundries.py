"""Names of what else a job needs: hangers, plates, bolts, seals, plugs and valves."""

from __future__ import annotations

from functools import cache

from engine.plan.records import Record
from engine.trade.facts import Standing, table

_TABLES = ("supports", "sundries")


class Sundry(Record, frozen=True, gc=False):
    """One thing to buy that has no take-off."""

    kind: str
    words: str
    standing: Standing
    source: str


@cache
def sundry(kind: str) -> Sundry:
    """What a kind of sundry is called on a list. KeyError when it is not known."""
    for name in _TABLES:
        facts = table(name)
        if facts.has(kind, "words"):
            fact = facts.fact(kind, "words")
            return Sundry(kind, facts.text(kind, "words"), fact.standing, fact.source)
    raise KeyError(f"no sundry is called {kind!r}; they are {', '.join(kinds())}")


def kinds() -> tuple[str, ...]:
    """Every kind of sundry."""
    return tuple(kind for name in _TABLES for kind in table(name).subjects())


def hanger_near_branch() -> float:
    """Within how many inches of a branch fitting a hanger is advised."""
    return table("supports").number("drain_strap", "near branch")


LONGEST_STICK = 240.0
"""The longest drain pipe that stores sell, inches: 20 ft (a maker's DWV dimension sheet)."""
