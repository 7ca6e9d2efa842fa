"""Every rule with what it reads in each rule book: the section, the number, how it is known, or that the code is silent."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from engine.checks import ALL_RULES
from engine.checks.records import Rule, Weight
from engine.plan.records import Record
from engine.rulebooks import RuleBook, means
from engine.rulebooks.book import PRACTICE, Standing
from engine.rulebooks.saying import plain, said


class ReadValue(Record, frozen=True, gc=False):
    """One value that a rule reads. `needed` tells that without its group of values there is nothing to judge by."""

    key: str
    means: str
    value: float | bool | str
    said: str
    unit: str
    section: str
    standing: Standing
    needed: bool
    amended: bool


class RuleInBook(Record, frozen=True, gc=False):
    """What a rule rests on in one book.

    `judges` is False where the book gives nothing to judge by: `silent` then says why the code has no such rule, or is
    empty where that is not known; `lacking` is what it would have to give.
    """

    book: str
    short: str
    judges: bool
    silent: str
    lacking: str
    sections: tuple[str, ...]
    values: tuple[ReadValue, ...]


class ListedRule(Record, frozen=True, gc=False):
    """A rule, what it asks, and what it rests on in each book."""

    id: str
    title: str
    subject: str
    weight: Weight
    asks: str
    books: tuple[RuleInBook, ...]


def listed(books: Iterable[RuleBook]) -> tuple[ListedRule, ...]:
    """Every rule by subject, with what it rests on in each of the books."""
    shelf = tuple(books)
    return tuple(
        ListedRule(
            rule.id, rule.title, rule.subject, rule.weight, asks(rule), tuple(in_book(rule, book) for book in shelf)
        )
        for rule in sorted(ALL_RULES, key=lambda rule: (rule.subject, rule.id))
    )


def asks(rule: Rule) -> str:
    """What a rule asks, in a sentence or two: the first paragraph of its function's own explanation."""
    return " ".join((rule.judge.__doc__ or "").strip().split("\n\n")[0].split())


def in_book(rule: Rule, book: RuleBook) -> RuleInBook:
    """What a rule reads in one book."""
    lacking = next((key for key in rule.reads if not book.speaks_of(key)), "")
    why = (book.silence(lacking) or "") if lacking else ""
    values = () if lacking else tuple(_values(rule, book))
    sections = tuple(dict.fromkeys(value.section for value in values)) or (() if lacking else (PRACTICE,))
    return RuleInBook(
        book.name, book.short, not lacking, plain(why), means(lacking) if lacking else "", sections, values
    )


def _values(rule: Rule, book: RuleBook) -> Iterator[ReadValue]:
    for stems, needed in ((rule.reads, True), (rule.may_read, False)):
        for stem in stems:
            for key in (stem,) if book.has(stem) else book.keys(stem):
                value = book.value(key)
                yield ReadValue(
                    key,
                    means(key),
                    value.value,
                    said(value),
                    value.unit,
                    book.cite(key),
                    value.standing,
                    needed,
                    value.amended_by is not None,
                )
