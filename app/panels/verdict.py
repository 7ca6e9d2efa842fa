"""A study's answer as the findings pane lists it: entries by weight, and the count of what was looked at."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from app.commands.quantity import against, place

if TYPE_CHECKING:
    from engine.checks.records import Finding
    from engine.study import Study

WEIGHTS = {
    "stop": "Stop for these",
    "look": "Look at these",
    "note": "Good to know",
    "not judged": "Not judged",
}
"""The weights in order, with their headings."""


MISSING = "Not told: "
"""Begins what is said of something that was not judged."""


class Entry(NamedTuple):
    """One line of the list: a finding, or something that could not be judged for want of a datum."""

    weight: str
    rule: str
    elements: tuple[str, ...]
    at: tuple[float, float, float]
    text: str
    measured: float | None
    limit: float | None
    unit: str
    cites: str
    mend: str

    @property
    def title(self) -> str:
        """The rule in words: ``bore-too-wide`` reads "Bore too wide"; what was not judged says so first."""
        words = self.rule.replace("-", " ")
        return f"Not judged: {words}" if self.weight == "not judged" else words[:1].upper() + words[1:]

    @property
    def line(self) -> str:
        """The entry in one line; of what was not judged, under a heading that says so, what is missing comes first."""
        if self.weight == "not judged":
            return f"{self.text.removesuffix('.')} ({self.rule.replace('-', ' ')})"
        return f"{self.title}: {self.text}"

    @property
    def missing(self) -> str:
        """The datum for want of which it was not judged; empty for a finding."""
        return self.text.removeprefix(MISSING).removesuffix(".") if self.weight == "not judged" else ""


class Bundle(NamedTuple):
    """Several entries of one rule and weight about one run: they share a row that opens."""

    weight: str
    rule: str
    run: str


class Count(NamedTuple):
    """How often rules were asked, and with what outcome."""

    holds: int
    broken: int
    not_judged: int
    does_not_apply: int

    @property
    def looked_at(self) -> int:
        """Everything that a rule had something to say about."""
        return self.holds + self.broken + self.not_judged


def _entry(f: Finding) -> Entry:
    return Entry(f.weight, f.rule, f.elements, f.at, f.text, f.measured, f.limit, f.unit, f.cites, f.mend)


def entries(study: Study) -> tuple[Entry, ...]:
    """Every finding and everything not judged, heaviest first, else in the study's own order."""
    found = [_entry(finding) for finding in study.findings]
    found += [
        Entry("not judged", rule, case.elements, case.at, f"{MISSING}{case.missing}.", None, None, "", "", "")
        for rule, case in study.not_judged
    ]
    order = list(WEIGHTS)
    return tuple(sorted(found, key=lambda entry: order.index(entry.weight)))


def finding_of(study: Study, entry: Entry) -> Finding | None:
    """The finding that an entry lists; None for what was not judged."""
    return next((one for one in study.findings if _entry(one) == entry), None)


def bundled(found: Iterable[Entry], is_run: Callable[[str], bool]) -> dict[Bundle | Entry, tuple[Entry, ...]]:
    """The entries in their order, those of one rule about one run under one bundle where there are several."""
    members: dict[Bundle | Entry, list[Entry]] = {}
    for entry in found:
        run = next((name for name in entry.elements if is_run(name)), None)
        key: Bundle | Entry = entry if run is None else Bundle(entry.weight, entry.rule, run)
        members.setdefault(key, []).append(entry)
    return {(key if len(one) > 1 else one[0]): tuple(one) for key, one in members.items()}


def bundle_words(bundle: Bundle, members: Sequence[Entry], joists: Collection[str]) -> str:
    """A bundle in a few words: ``Bore too large: d7 through 6 joists``."""
    through = {name for entry in members for name in entry.elements if name in joists}
    where = f"through {len(through)} joists" if len(through) == len(members) else f"at {len(members)} places"
    return f"{members[0].title}: {bundle.run} {where}"


def member_words(bundle: Bundle, entry: Entry) -> str:
    """One entry inside a bundle, in what tells it from the others: what else it is about, where, and how much."""
    others = ", ".join(name for name in entry.elements if name != bundle.run)
    measure = against(entry.measured, entry.limit, entry.unit)
    return " · ".join(part for part in (others, place(entry.at), measure) if part)


def count(study: Study) -> Count:
    """All rules' outcomes added up."""
    rules = study.looked_at.values()
    return Count(*(sum(rule.get(outcome, 0) for rule in rules) for outcome in Count._fields))


def in_words(study: Study) -> str:
    """One sentence that says what a list without stops rests on."""
    told = count(study)
    if told.looked_at == 0:
        return "Nothing is drawn yet that a rule could judge."
    parts = [f"{_things(told.looked_at)} looked at under {_rules(study)}", f"{told.holds} in order"]
    if told.not_judged:
        parts.append(f"{told.not_judged} not judged")
    return ", ".join(parts) + "."


def _things(number: int) -> str:
    return "1 thing" if number == 1 else f"{number} things"


def _rules(study: Study) -> str:
    asked = sum(1 for rule in study.looked_at.values() if sum(rule.get(name, 0) for name in Count._fields[:3]))
    return "1 rule" if asked == 1 else f"{asked} rules"
