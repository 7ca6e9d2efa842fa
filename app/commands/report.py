"""A study as words for somebody with a tape in hand: findings by weight, the exit's window, what was looked at."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING

from app.commands.quantity import against, place
from app.commands.terminal import table, wrapped
from app.commands.window_words import window_words

if TYPE_CHECKING:
    from engine.checks.records import Finding, NotJudged
    from engine.study import Study

WEIGHTS = (
    ("stop", "STOP FOR THESE", "Nothing to stop for among what was judged."),
    ("look", "LOOK AT THESE", ""),
    ("note", "GOOD TO KNOW", ""),
)
OUTCOMES = ("holds", "broken", "not_judged", "does_not_apply")
WHERE = (
    "Places are east and north of the outside corner of the framing in the south-west, and down from the top of "
    "the joists (up from it where it says so)."
)
CAUTION = (
    "Nothing here is legal advice or an approval. The local code, its official and licensed people have the last "
    "word; values marked as from memory were not read in the book."
)


def report(study: Study) -> list[str]:
    """The whole answer for a terminal, line by line."""
    plan = study.plan
    lines = wrapped(" - ".join(part for part in (plan.name, plan.place, f"judged by {plan.rulebook}") if part))
    lines += wrapped(WHERE)
    for weight, title, none in WEIGHTS:
        found = [finding for finding in study.findings if finding.weight == weight]
        if found:
            lines += ["", f"{title} ({len(found)})", *_findings(found)]
        elif none:
            lines += ["", *wrapped(none)]
    lines += ["", "HEIGHT OF THE EXIT", *window_words(study.model.windows)]
    if study.not_judged:
        lines += ["", f"NOT JUDGED ({len(study.not_judged)})", *_not_judged(study.not_judged)]
    lines += ["", "WHAT WAS LOOKED AT", "", *_looked_at(study.looked_at)]
    return [*lines, "", *wrapped(CAUTION)]


def _findings(findings: Iterable[Finding]) -> list[str]:
    lines: list[str] = []
    for number, finding in enumerate(findings, 1):
        drawn = f" - {', '.join(finding.elements)}" if finding.elements else ""
        lines += ["", *wrapped(f"{number}. {finding.rule}{drawn}", "", "   ")]
        lines += wrapped(place(finding.at), "   ")
        lines += wrapped(finding.text, "   ")
        measure = against(finding.measured, finding.limit, finding.unit)
        lines += wrapped(" - ".join(part for part in (measure, finding.cites) if part), "   ")
        if finding.mend:
            lines += wrapped(f"Mend: {finding.mend}", "   ", "         ")
    return lines


def _not_judged(missing: Iterable[tuple[str, NotJudged]]) -> list[str]:
    lines = [""]
    for rule, case in missing:
        drawn = f" ({', '.join(case.elements)})" if case.elements else ""
        where = f", {place(case.at)}" if all(map(math.isfinite, case.at[:2])) and case.elements else ""
        lines += wrapped(f"{rule}{drawn}: {case.missing}{where}", "  ", "    ")
    return lines


def _looked_at(looked_at: dict[str, dict[str, int]]) -> list[str]:
    rows = [[rule, *(str(counts.get(outcome, 0)) for outcome in OUTCOMES)] for rule, counts in looked_at.items()]
    head = ["rule", *(outcome.replace("_", " ") for outcome in OUTCOMES)]
    return table(head, rows, frozenset(range(1, 5))) if rows else ["nothing: the plan is empty"]
