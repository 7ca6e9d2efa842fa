"""Made-up cases of the usual kinds: a plan, what each book says of it in numbers, and the section that says so."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

import pytest

from engine.plan.records import Plan
from tests.engine.asked.asked_plans import ask, numbers

Numbers = list[tuple[float | None, float | None]]
Said = dict[str, Numbers]
"""By rule, what it measures and against what for each finding; an empty list where it has to hold its peace."""


class Case(NamedTuple):
    """One case: its words, the source of its numbers, the plan, and what is to be found by each book.

    None in place of a book's answer: that book is not asked.
    """

    words: str
    source: str
    plan: Plan
    irc: Said | None
    upc: Said | None


def both(words: str, source: str, plan: Plan, said: Said) -> Case:
    """A case in which the books agree."""
    return Case(words, source, plan, said, said)


def asked_of(cases: Iterable[Case]) -> pytest.MarkDecorator:
    """Every case by every book that it is put to, for a test of `plan`, `book` and `said`."""
    rows = [
        pytest.param(case.plan, book, said, id=f"{case.words} ({case.source}) {book}")
        for case in cases
        for book, said in (("irc-2021", case.irc), ("upc-2021", case.upc))
        if said is not None
    ]
    return pytest.mark.parametrize(("plan", "book", "said"), rows)


def held(plan: Plan, book: str, said: Said) -> None:
    """Stops where a rule found more, less or other numbers than the case says."""
    answer = ask(plan, book)
    for rule, expected in said.items():
        assert rule in answer.looked_at, f"no rule is called {rule}"
        found = numbers(answer, rule)
        assert len(found) == len(expected), f"{rule}: {found}"
        for got, want in zip(found, expected, strict=True):
            assert got == pytest.approx(want, abs=0.006), rule
