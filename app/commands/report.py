"""A study as words for somebody with a tape in hand: findings by weight, the exit's window, what was looked at."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from app.commands.quantity import against, place
from app.commands.schedules import cut_words, trap_words
from app.commands.terminal import table, wrapped
from app.commands.window_words import window_words
from engine.mending.answers import WINDOW, told_mends
from engine.takeoff.answers import check_answer
from engine.takeoff.local import amended_rows, local_words, ruling_rows

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


def report(study: Study, with_mends: bool = False) -> list[str]:
    """The whole answer for a terminal, line by line; what mends each finding is tried only where that is asked for."""
    plan = study.plan
    answer = check_answer(study)
    local = local_words(study.model)
    judged = f"judged by {study.model.book.short}{f' with {local}' if local else ''}"
    lines = wrapped(" - ".join(part for part in (plan.name, plan.place, judged) if part))
    lines += wrapped(WHERE)
    lines += _local(study)
    told = told_mends(study, with_mends)
    mends = {id(study.findings[number]): words for number, words in told.items()}
    for weight, title, none in WEIGHTS:
        found = [finding for finding in study.findings if finding.weight == weight]
        if found:
            lines += ["", f"{title} ({len(found)})", *_findings(found, mends)]
        elif none:
            lines += ["", *wrapped(none)]
    lines += ["", "HEIGHT OF THE EXIT", *window_words(study.model.windows, study.plan)]
    shut = [words for number, words in told.items() if study.findings[number].rule in WINDOW and words]
    for words in shut:
        lines += ["", "  What would open it:", *(line for one in words for line in wrapped(f"- {one}.", "  ", "    "))]
    if answer["traps"]:
        names = {fixture.id: fixture.name for fixture in plan.fixtures}
        lines += ["", "HOW EACH TRAP IS VENTED", *trap_words(answer["traps"], names)]
    if answer["joist_cuts"]:
        lines += ["", "WHERE JOISTS ARE CUT", "", *cut_words(answer["joist_cuts"])]
    if study.not_judged:
        lines += ["", f"NOT JUDGED ({len(study.not_judged)})", *_not_judged(study.not_judged)]
    lines += ["", "WHAT WAS LOOKED AT", "", *_looked_at(study.looked_at)]
    return [*lines, "", *wrapped(CAUTION)]


def _local(study: Study) -> list[str]:
    """What the place has changed, and what its official decided."""
    amended, ruled = amended_rows(study.model), ruling_rows(study.model)
    lines = ["", "LOCAL AMENDMENTS"] if amended else []
    for row in amended:
        words = f"{row.what}: {row.becomes} instead of {row.was}, {row.section} ({row.known}). Said by: {row.source}."
        lines += wrapped(words, "  ", "    ")
    lines += ["", "RULINGS"] if ruled else []
    for row in ruled:
        lines += wrapped(f"{row.what} ({row.key}): {row.becomes} ({row.source})", "  ", "    ")
    return lines


def _findings(findings: Sequence[Finding], tried: Mapping[int, Sequence[str]]) -> list[str]:
    """Findings under their rule's name; what all of a rule's findings share is said once."""
    lines: list[str] = []
    number = 0
    for rule in dict.fromkeys(finding.rule for finding in findings):
        alike = [finding for finding in findings if finding.rule == rule]
        cites, mends = {finding.cites for finding in alike}, {finding.mend for finding in alike}
        many = f" ({len(alike)})" if len(alike) > 1 else ""
        lines += ["", *wrapped(f"{rule}{many}" + (f" - {alike[0].cites}" if len(cites) == 1 else ""))]
        for finding in alike:
            number += 1
            lines += _one(number, finding, with_cites=len(cites) > 1, with_mend=len(mends) > 1)
            lines += _tried(tried.get(id(finding), ()))
        if len(mends) == 1 and alike[0].mend:
            lines += wrapped(f"Mend: {alike[0].mend}", "  ", "        ")
    return lines


def _one(number: int, finding: Finding, with_cites: bool, with_mend: bool) -> list[str]:
    head = " - ".join(
        part for part in (place(finding.at) if any(finding.at) else "", ", ".join(finding.elements)) if part
    )
    measure = against(finding.measured, finding.limit, finding.unit)
    last = " - ".join(part for part in (measure, finding.cites if with_cites else "") if part)
    hang = "     "
    lines = wrapped(f"{number}. {head}", "  ", hang) + wrapped(finding.text, hang) + wrapped(last, hang)
    if with_mend and finding.mend:
        lines += wrapped(f"Mend: {finding.mend}", hang, f"{hang}      ")
    return lines


def _tried(mends: Sequence[str]) -> list[str]:
    """The edits that were tried and found to mend a finding, a line each."""
    hang = "     "
    lines = [f"{hang}Tried and found to mend it:"] if mends else []
    for words in mends:
        lines += wrapped(f"- {words}.", hang, f"{hang}  ")
    return lines


def _not_judged(missing: Iterable[tuple[str, NotJudged]]) -> list[str]:
    lines = [""]
    for rule, case in missing:
        drawn = f" ({', '.join(case.elements)})" if case.elements else ""
        where = f", {place(case.at)}" if any(case.at) and all(map(math.isfinite, case.at[:2])) else ""
        lines += wrapped(f"{rule}{drawn}: {case.missing}{where}", "  ", "    ")
    return lines


def _looked_at(looked_at: dict[str, dict[str, int]]) -> list[str]:
    """A row for each rule that had something to look at; the rest are named, so that none goes missing."""
    busy = {rule: counts for rule, counts in looked_at.items() if any(counts.values())}
    idle = [rule for rule in looked_at if rule not in busy]
    rows = [[rule, *(str(counts.get(outcome, 0)) for outcome in OUTCOMES)] for rule, counts in busy.items()]
    head = ["rule", *(outcome.replace("_", " ") for outcome in OUTCOMES)]
    lines = table(head, rows, frozenset(range(1, 5))) if rows else []
    if idle:
        lines += ["", *wrapped(f"Nothing in this plan for: {', '.join(idle)}.")]
    return lines
