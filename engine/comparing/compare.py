"""compare(plan, other): the same plan judged by two books, what differs, and by which value."""

from __future__ import annotations

from collections import Counter

from engine.checks import ALL_RULES
from engine.comparing.exits import exits_beside
from engine.comparing.findings import findings_beside
from engine.comparing.goods import parts_beside, sizes_beside
from engine.comparing.records import BookSide, Comparison, LeftOut, SilentRule, ValueBeside
from engine.comparing.sides import Sides
from engine.comparing.traps import traps_beside
from engine.plan.records import Plan
from engine.rulebooks import RuleBook, means
from engine.rulebooks.saying import found_in, plain, said
from engine.study import Study


def compare(plan: Plan, other: str) -> Comparison:
    """The plan under its own book, amended as it says, beside itself under the book called `other`, as printed.

    Local amendments belong to the book that they were made for: they name its sections and were written against its
    numbers, so the other book stands without them, and each is listed with what the other has in its place. Raises
    RuleBookError, AmendmentError, and SameBookError where both would be one book.
    """
    sides = Sides(plan, other)
    findings, alike = findings_beside(sides)
    traps = traps_beside(sides)
    said_why = {words for one in findings for words in one.why} | {words for trap in traps for words in trap.why}
    told = {key for key in sides.parted if sides.told(key) in said_why}
    return Comparison(
        plan=plan.name,
        here=_book(sides.mine, len(sides.mine.amended())),
        there=_book(sides.theirs, 0),
        counts=_counts(sides.here, sides.there),
        left_out=tuple(_left_out(sides)),
        findings=findings,
        alike=alike,
        silent=_silent(sides),
        traps=traps,
        exits=exits_beside(sides),
        sizes=sizes_beside(sides),
        parts=parts_beside(sides),
        values=_values(sides, told),
    )


def _book(book: RuleBook, amended: int) -> BookSide:
    return BookSide(book.name, book.short, book.title, book.notice, amended)


def _counts(here: Study, there: Study) -> tuple[tuple[str, int, int], ...]:
    mine, theirs = (Counter(found.weight for found in study.findings) for study in (here, there))
    return (
        ("to stop for", mine["stop"], theirs["stop"]),
        ("to look at", mine["look"], theirs["look"]),
        ("to know", mine["note"], theirs["note"]),
        ("not judged", len(here.not_judged), len(there.not_judged)),
    )


def _left_out(sides: Sides) -> list[LeftOut]:
    made = []
    for value in sides.mine.amended():
        entry = value.amended_by
        assert entry is not None
        made.append(
            LeftOut(
                value.key, means(value.key), said(value), entry.said_by, entry.on, found_in(sides.theirs, value.key)
            )
        )
    return made


def _silent(sides: Sides) -> tuple[SilentRule, ...]:
    """Rules that judged something under one book alone, because the other has nothing to judge by."""
    found = []
    for rule in ALL_RULES:
        for book, study in ((sides.mine, sides.there), (sides.theirs, sides.here)):
            lacking = next((key for key in rule.reads if not book.speaks_of(key)), None)
            counts = study.looked_at[rule.id]
            if lacking is not None and counts["holds"] + counts["broken"]:
                why = plain(book.silence(lacking) or f"it gives no {means(lacking)}")
                found.append(SilentRule(rule.id, rule.title, "here" if book is sides.mine else "there", why))
    return tuple(found)


def _values(sides: Sides, told: set[str]) -> tuple[ValueBeside, ...]:
    readers: dict[str, list[str]] = {}
    for rule in ALL_RULES:
        for key in sides.read_by(rule):
            readers.setdefault(key, []).append(rule.id)
    return tuple(
        ValueBeside(
            key,
            means(key),
            found_in(sides.mine, key),
            found_in(sides.theirs, key),
            tuple(readers.get(key, ())),
            key in told,
        )
        for key in sorted(sides.parted, key=sides.order.__getitem__)
    )
