"""The last sheet: how often each rule was held against something on the plan, so that silence means something."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.checks import ALL_RULES
from engine.planset.book import Book, Page
from engine.planset.flow import GUTTER, Column, flowed, note, table
from engine.study import Study

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Rules looked at"

_JUDGED = ("holds", "broken", "not_judged")


def rules_looked_at(book: Book, study: Study) -> list[Page]:
    """Every rule that judged something with its counts, in two columns; then those with nothing to judge, by name."""
    half = (book.area().width - GUTTER) / 2.0
    return flowed(book, TITLE, _story(study, half, book.paper.type_size), columns=2)


def _story(study: Study, width: float, size: float) -> list[Flowable]:
    """The rules that judged something, with their counts; the rest by name, since nothing here is for them to judge."""
    titles = {rule.id: rule.title for rule in ALL_RULES}
    judged = {rule: counts for rule, counts in study.looked_at.items() if any(counts[key] for key in _JUDGED)}
    rows = [
        [titles.get(rule, rule), *(str(counts[key]) for key in (*_JUDGED, "does_not_apply"))]
        for rule, counts in judged.items()
    ]
    idle = [titles.get(rule, rule) for rule in study.looked_at if rule not in judged]
    columns = (
        Column("Rule", 44),
        Column("Holds", 9, "RIGHT"),
        Column("Broken", 10, "RIGHT"),
        Column("Not judged", 11, "RIGHT"),
        Column("Does not apply", 11, "RIGHT"),
    )
    story: list[Flowable] = [
        note("How often each rule was held against something on this plan. Nothing else was judged.", size),
        table(columns, rows, width, size * 0.94),
    ]
    if idle:
        story.append(note(f"{'; '.join(idle)}.", size * 0.94, lead="Nothing on this plan for:"))
    return story
