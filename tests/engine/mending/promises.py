"""What a mend promises, told once for every test: the finding is gone, no new stop, the plan it was made of is as it was."""

from __future__ import annotations

from collections import Counter

from engine.checks.records import Finding
from engine.mending import Mend, mends_for
from engine.plan.edits import require_sound
from engine.plan.file import dumps, loads
from engine.plan.records import Plan
from engine.study import Study, study


def alike(found: Study, finding: Finding) -> int:
    """How many findings of a study are of one rule on the same things."""
    return sum(one.rule == finding.rule and set(one.elements) == set(finding.elements) for one in found.findings)


def stops(found: Study) -> Counter[tuple[str, frozenset[str]]]:
    """The stops by rule and things. Where pipes hang together counts as one thing, whatever hangs on it; so do the vents
    of an exit, which a further vent can but make wider."""
    groups = ("drain-reaches-no-exit", "vent-reaches-no-air", "vents-too-small-together")
    return Counter(
        (one.rule, frozenset() if one.rule in groups else frozenset(one.elements))
        for one in found.findings
        if one.weight == "stop"
    )


def held(before: Study, finding: Finding, mend: Mend) -> Study:
    """Check a mend's promise by a study of its own, and give that study back."""
    was = dumps(before.plan)
    require_sound(mend.plan)
    assert loads(dumps(mend.plan)) == mend.plan, "what a mend makes is a plan that a file may hold"
    after = study(mend.plan)
    where = f"{finding.rule} {finding.elements}: {mend.words}"
    assert alike(after, finding) < alike(before, finding), f"{where}: the finding is still there"
    new = stops(after) - stops(before)
    assert not new, f"{where}: brings {sorted(name for name, _ in new)}"
    assert dumps(before.plan) == was != dumps(mend.plan)
    assert mend.words[:1].isupper() and mend.done.endswith(".") and mend.label[:1].islower()
    return after


def offered(plan: Plan) -> dict[tuple[str, tuple[str, ...]], tuple[Mend, ...]]:
    """Every mend of every finding of a plan, each of which was held to its promise."""
    before = study(plan)
    found: dict[tuple[str, tuple[str, ...]], tuple[Mend, ...]] = {}
    for finding in before.findings:
        mends = mends_for(before, finding)
        for mend in mends:
            held(before, finding, mend)
        found.setdefault((finding.rule, finding.elements), mends)
    return found
