"""What the place has changed in the rule book, and what its official decided: as rows, and in few words for every sheet."""

from __future__ import annotations

from engine.checks import ALL_RULES
from engine.checks.model import Model
from engine.checks.outcomes import name
from engine.plan.records import Record
from engine.rulebooks import means
from engine.rulebooks.saying import KNOWN, said, said_was


class LocalRow(Record, frozen=True, gc=False):
    """One line of what the plan was judged by: the book itself, an amendment of it, or a ruling.

    `what` names it in words and `key` as the plan file does. `becomes` is the amended value or the ruling's text, `was`
    what the book has, `section` and `known` where that stands and how it is known.
    """

    kind: str
    what: str
    key: str
    becomes: str
    was: str
    section: str
    known: str
    said_by: str
    on: str

    @property
    def source(self) -> str:
        """Who said so and when: ``the county, 2026-03-01``."""
        return source_of(self.said_by, self.on)


def source_of(said_by: str, on: str) -> str:
    """Who said something and when, as a print tells it: ``the county, 2026-03-01``."""
    return ", ".join(filter(None, (said_by, on))) or "no one is named"


def local_rows(model: Model) -> tuple[LocalRow, ...]:
    """The book, then its amendments, then the rulings, each in the plan's order."""
    book = model.book
    return (
        LocalRow("rule book", book.title, book.name, "", "", book.short, "", "", ""),
        *amended_rows(model),
        *ruling_rows(model),
    )


def amended_rows(model: Model) -> tuple[LocalRow, ...]:
    """Each value that the plan amends, in the plan's order; the last word on a value holds."""
    rows = []
    for key in dict.fromkeys(entry.value for entry in model.plan.amendments):
        value = model.book.value(key)
        entry = value.amended_by
        if entry is not None:
            section = model.book.cite(key).removesuffix(", amended")
            rows.append(
                LocalRow(
                    "amendment",
                    means(key),
                    key,
                    said(value),
                    said_was(value),
                    section,
                    KNOWN[value.standing],
                    entry.said_by,
                    entry.on,
                )
            )
    return tuple(rows)


def ruling_rows(model: Model) -> tuple[LocalRow, ...]:
    """Each ruling, with what it is about by its name."""
    titles = {rule.id: rule.title for rule in ALL_RULES}
    return tuple(
        LocalRow(
            "ruling",
            titles.get(entry.about) or name(model, entry.about),
            entry.about,
            entry.text,
            "",
            "",
            "",
            entry.said_by,
            entry.on,
        )
        for entry in model.plan.rulings
    )


def local_words(model: Model) -> str:
    """How many local words the plan was judged with: ``2 local amendments and 1 ruling``; empty where there is none."""
    amended, ruled = len(amended_rows(model)), len(model.plan.rulings)
    told = []
    if amended:
        told.append(f"{amended} local amendment{'s' if amended > 1 else ''}")
    if ruled:
        told.append(f"{ruled} ruling{'s' if ruled > 1 else ''}")
    return " and ".join(told)
