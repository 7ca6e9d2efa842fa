"""Findings of two studies of one plan, paired: what only one book finds, what both find alike, what in another measure."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator

from engine.checks import ALL_RULES
from engine.checks.records import Finding
from engine.comparing.reasons import reasons
from engine.comparing.records import FindingBeside
from engine.comparing.sides import Sides, same

_NEAR = 1.0 / 64.0
"""Inches, degrees or units under which a measure is the same."""

_WEIGHTS = ("stop", "look", "note")

Pair = tuple[Finding | None, Finding | None]


def findings_beside(sides: Sides) -> tuple[tuple[FindingBeside, ...], int]:
    """The findings that differ, the gravest first, those of the plan's own book before the other's; how many are alike."""
    titles = {rule.id: rule.title for rule in ALL_RULES}
    found: list[FindingBeside] = []
    alike = 0
    for here, there in _pairs(sides.here.findings, sides.there.findings):
        if here is not None and there is not None and _alike(here, there):
            alike += 1
            continue
        rule = here.rule if here is not None else there.rule if there is not None else ""
        found.append(FindingBeside(rule, titles[rule], here, there, reasons(sides, here, there)))
    order = {"here": 0, "there": 1, "both": 2}
    found.sort(key=lambda one: (_WEIGHTS.index(one.weight), order[one.where]))
    return tuple(found), alike


def _pairs(here: tuple[Finding, ...], there: tuple[Finding, ...]) -> Iterator[Pair]:
    """Each finding with its other self: of the same rule on the same things, at the same place in plan where it can be."""
    waiting: dict[tuple[str, tuple[str, ...]], list[Finding]] = defaultdict(list)
    for one in there:
        waiting[one.rule, one.elements].append(one)
    late: list[Finding] = []
    for one in here:
        others = waiting[one.rule, one.elements]
        match = next((other for other in others if _same_place(one, other)), None)
        if match is None:
            late.append(one)
            continue
        others.remove(match)
        yield one, match
    for one in late:
        others = waiting[one.rule, one.elements]
        yield one, others.pop(0) if others else None
    left = {id(one) for others in waiting.values() for one in others}
    yield from ((None, one) for one in there if id(one) in left)


def _same_place(here: Finding, there: Finding) -> bool:
    return math.dist(here.at[:2], there.at[:2]) < _NEAR


def _alike(here: Finding, there: Finding) -> bool:
    return (
        here.weight == there.weight
        and same(here.measured, there.measured)
        and same(here.limit, there.limit)
        and here.unit == there.unit
    )
