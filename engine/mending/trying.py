"""Trying a mend: the plan is edited, studied again, and the two studies' findings are held beside each other.

A finding is the same as another where rule and elements are the same, both or neither are to stop for, and the places
are near; of several that are alike the nearest are paired. A mend holds its promise when the finding has no partner any more, nothing else of its
rule came up in its place, its rule can still be judged there, and no `stop` is new.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.checks.records import Finding, NotJudged
from engine.crossings.records import Window
from engine.mending.guards import keeps_its_place
from engine.mending.ideas import Idea
from engine.plan.edits import EditError
from engine.plan.records import Plan
from engine.study import Study
from engine.study import study as study_plan

SUNK = "pipe-below-joists"
"""The rule that tells of pipe below joists which it is to pass through: the program sinks no pipe unasked."""

OF_GROUPS = frozenset({"drain-reaches-no-exit", "vent-reaches-no-air"})
"""Rules that tell of all pipes at once that hang together: where an edit joins two such groups, both findings become one."""

OF_ALL_VENTS = "vents-too-small-together"
"""The rule on all vents of an exit at once, which names each: with another vent more it is no new fault, if they are wider."""

LOOK = 0.5
"""What a mend costs for each thing more that it gives to look at."""

NEAR = 60.0
"""Inches between two findings of one rule on the same things past which they are two."""


class Mend(NamedTuple):
    """An edit that was tried and found to mend a finding: its words, the step's name, what is said after it, the plan."""

    words: str
    label: str
    done: str
    plan: Plan
    cost: float


class Aftermath(NamedTuple):
    """What is kept of the study of a plan that an idea made: among the rest the findings that are gone, and the new ones."""

    plan: Plan
    gone: tuple[Finding, ...]
    new: tuple[Finding, ...]
    not_judged: tuple[tuple[str, NotJudged], ...]
    windows: tuple[Window, ...]


def tried(study: Study, finding: Finding, idea: Idea) -> Mend | None:
    """The idea as a mend, where it takes the finding away and brings no new stop; None where it does not."""
    after = after_it(study, idea)
    return None if after is None else held(study, finding, idea, after)


def held(study: Study, finding: Finding, idea: Idea, after: Aftermath) -> Mend | None:
    """The idea as a mend, by what comes of it; None where it leaves the finding or brings a new stop."""
    if not takes_away(study, finding, after) or faults_brought(after):
        return None
    won = idea.gains(after.windows) if idea.gains is not None else ""
    words = f"{idea.words}: {won}" if won else idea.words
    return Mend(
        words, idea.label, idea.done, after.plan, idea.cost + LOOK * sum(one.weight == "look" for one in after.new)
    )


@once_a_model
def _tried(model: Model) -> dict[Plan, Aftermath]:
    """What came of the plans that were tried in the place of a model's."""
    return {}


def after_it(study: Study, idea: Idea) -> Aftermath | None:
    """What comes of the plan that an idea makes; None where the edit can't be made, changes nothing or may not be."""
    try:
        plan = idea.make()
    except EditError:
        return None
    if plan == study.plan or not keeps_its_place(study.plan, plan):
        return None
    known = _tried(study.model)
    found = known.get(plan)
    if found is None:
        after = study_plan(plan)
        gone, new = beside(study.findings, after.findings)
        found = known[plan] = Aftermath(plan, gone, new, after.not_judged, after.model.windows)
    return found


def takes_away(before: Study, finding: Finding, after: Aftermath) -> bool:
    """Whether a finding is gone, with nothing of its rule in its place and its rule still judged there."""
    if not any(one is finding or one == finding for one in after.gone):
        return False
    return not any(_in_its_place(finding, one) for one in after.new) and not _unjudged(before, finding, after)


def faults_brought(after: Aftermath) -> tuple[Finding, ...]:
    """What a mend may not bring: new stops, and pipe that sinks below joists which it passed through."""
    heavy = (one for one in after.new if one.weight == "stop" or one.rule == SUNK)
    return tuple(one for one in heavy if not _once_more(one, after.gone, after.new))


def _once_more(finding: Finding, gone: tuple[Finding, ...], new: tuple[Finding, ...]) -> bool:
    """Whether a finding on pipes that hang together is told anew because an edit joined two of their groups."""
    had = [one for one in gone if one.rule == finding.rule]
    if finding.rule == OF_ALL_VENTS:
        same = (one for one in had if one.elements[0] == finding.elements[0])
        return any((one.measured or 0.0) <= (finding.measured or 0.0) for one in same)
    if finding.rule not in OF_GROUPS:
        return False
    fewer = len(had) >= sum(one.rule == finding.rule for one in new)
    return fewer and set(finding.elements) <= {name for one in had for name in one.elements}


def beside(before: Iterable[Finding], after: Iterable[Finding]) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """The findings that are gone and those that are new, after the alike were paired, the nearest first."""
    old, new = _by_kind(before), _by_kind(after)
    gone: list[Finding] = []
    came: list[Finding] = []
    for kind in dict.fromkeys((*old, *new)):
        mine, theirs = old.get(kind, []), new.get(kind, [])
        pairs = sorted(
            ((math.dist(a.at[:2], b.at[:2]), i, j) for i, a in enumerate(mine) for j, b in enumerate(theirs)),
        )
        had: set[int] = set()
        got: set[int] = set()
        for far, i, j in pairs:
            if far <= NEAR and i not in had and j not in got:
                had.add(i)
                got.add(j)
        gone += (one for i, one in enumerate(mine) if i not in had)
        came += (one for j, one in enumerate(theirs) if j not in got)
    return tuple(gone), tuple(came)


Kind = tuple[str, frozenset[str], bool]
"""What makes findings alike: rule, elements, and whether they are to stop for."""


def _by_kind(found: Iterable[Finding]) -> dict[Kind, list[Finding]]:
    kinds: dict[Kind, list[Finding]] = {}
    for one in found:
        kinds.setdefault((one.rule, frozenset(one.elements), one.weight == "stop"), []).append(one)
    return kinds


def _in_its_place(finding: Finding, other: Finding) -> bool:
    """Whether another finding is the same fault once more, told of other elements."""
    return other.rule == finding.rule and bool(set(other.elements) & set(finding.elements))


def _unjudged(before: Study, finding: Finding, after: Aftermath) -> bool:
    """Whether the finding is gone only because its rule can no longer be judged there."""
    about = set(finding.elements)
    return len(list(_lacking(after.not_judged, finding.rule, about))) > len(
        list(_lacking(before.not_judged, finding.rule, about))
    )


def _lacking(cases: Iterable[tuple[str, NotJudged]], rule: str, about: set[str]) -> Iterator[NotJudged]:
    return (case for name, case in cases if name == rule and about & set(case.elements))
