"""The mends of a finding: its rule's ideas in order of least change, tried until enough hold."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial

from engine.checks.records import Finding
from engine.mending.ideas import Idea, both
from engine.mending.makers import MAKERS
from engine.mending.trying import Aftermath, Mend, after_it, faults_brought, held, takes_away, tried
from engine.plan.records import Plan
from engine.study import Study
from engine.study import study as study_plan

MOST = 3
"""So many mends of one finding are offered at most."""

TRIALS = 24
"""So many ideas are tried for one finding at most: each is a study of the whole plan."""


FOLLOWED = frozenset(
    {
        "arm-wider-than-trap",
        "bore-near-edge",
        "cleanout-concealed",
        "cleanout-too-small",
        "closet-vent-too-small",
        "common-vent-too-small",
        "drain-gets-smaller",
        "drain-too-small",
        "drain-too-small-past-arm",
        "no-cleanout-at-sewer",
        "no-height-fits",
        "stack-vent-narrower",
        "trap-larger-than-drain",
        "vent-too-small-for-drain",
        "vent-too-small-for-load",
        "vents-too-small-together",
        "wet-vent-too-small",
    }
)
"""Rules whose stops a mend may bring when a second edit takes them away again: both are then offered as one."""

FIGURES = re.compile(r"(?<![\w#])\d[\d/ .'\"-]*")
"""A length, size or slope in an idea's words; the figures of a name such as d2 are none."""

HEAVY = 6000
"""Pipes times trials past which fewer ideas are tried: a large plan takes its time for each."""


def mends_for(study: Study, finding: Finding, most: int = MOST) -> tuple[Mend, ...]:
    """What mends a finding, the smallest change first; every one was tried on the plan and holds its promise.

    Worked out when it is read: it takes a study of the plan for each idea. Empty where the rule has no definite mend
    (:data:`engine.mending.unmended.WITHOUT` says why), and where none was found to work.
    """
    maker = MAKERS.get(finding.rule)
    if maker is None:
        return ()
    trials = min(TRIALS, max(MOST, HEAVY // (len(study.model.network.pipes) + 1)))
    found: list[Mend] = []
    kinds: set[str] = set()
    for idea in sorted(maker(study, finding), key=lambda idea: idea.cost)[:trials]:
        if _kind(idea) in kinds:
            continue
        after = after_it(study, idea)
        if after is None:
            continue
        mend = held(study, finding, idea, after) or _followed(study, finding, idea, after)
        if mend is not None and all(mend.plan != other.plan for other in found):
            found.append(mend)
            kinds.add(_kind(idea))
            if len(found) == most:
                break
    return tuple(sorted(found, key=lambda mend: mend.cost))


def _kind(idea: Idea) -> str:
    """An idea's family, else its words without figures: of several alike only the first that holds is offered."""
    return idea.family or FIGURES.sub("#", idea.words)


def _followed(study: Study, finding: Finding, idea: Idea, after: Aftermath) -> Mend | None:
    """An idea that mends its finding and brings one stop that another edit takes away: both as one mend."""
    if not takes_away(study, finding, after):
        return None
    brought = faults_brought(after)
    if len(brought) != 1 or brought[0].rule not in FOLLOWED:
        return None
    half = study_plan(after.plan)
    for then in sorted(MAKERS[brought[0].rule](half, brought[0]), key=lambda one: one.cost)[:MOST]:
        mend = tried(study, finding, both(idea, partial(_instead, then.make), then.words, then.cost))
        if mend is not None:
            return mend
    return None


def _instead(make: Callable[[], Plan], _: Plan) -> Plan:
    return make()
