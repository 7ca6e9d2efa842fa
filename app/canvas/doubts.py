"""Where something could not be judged: one quiet mark a place, with the data that are missing."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from engine.checks.records import NotJudged
from engine.plan.records import Point

TOGETHER = 0.5
"""What lies nearer to each other than this shares one mark, inches."""


class Doubt(NamedTuple):
    """What could not be judged at one place: its elements, and why in words, a line each."""

    at: Point
    elements: frozenset[str]
    words: str


def doubts(not_judged: Iterable[tuple[str, NotJudged]]) -> tuple[Doubt, ...]:
    """What could not be judged, gathered by place; data that several rules miss are told once."""
    places: list[tuple[Point, dict[str, list[str]], set[str]]] = []
    for rule, case in not_judged:
        at = (case.at[0], case.at[1])
        found = next((one for one in places if math.dist(one[0], at) < TOGETHER), None)
        if found is None:
            found = (at, {}, set())
            places.append(found)
        found[1].setdefault(case.missing, []).append(rule)
        found[2].update(case.elements)
    return tuple(Doubt(at, frozenset(elements), _words(missing)) for at, missing, elements in places)


def _words(missing: dict[str, list[str]]) -> str:
    return "\n".join(f"not judged: {what} ({_rules(rules)})" for what, rules in missing.items())


def _rules(names: list[str]) -> str:
    return ", ".join(dict.fromkeys(name.replace("-", " ") for name in names))
