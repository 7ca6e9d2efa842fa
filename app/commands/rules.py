"""`joistway rules`: every check with what it asks, and the values and sections that it rests on in each rule book."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from itertools import groupby
from typing import TYPE_CHECKING, Any

from app.commands.terminal import wrapped
from app.commands.verb import Refusal, Verb

if TYPE_CHECKING:
    from engine.checks.listing import ListedRule, ReadValue, RuleInBook
    from engine.rulebooks import RuleBook

KNOWN = {"memory": " (from memory)", "conflict": " (sources differ)", "derived": " (worked out)"}
"""How a value is known, for those that were not simply read in the book or a page on it."""


def _arguments(parser: argparse.ArgumentParser) -> None:
    choices = parser.add_argument_group("choices")
    choices.add_argument(
        "--book", metavar="NAME", default=None, help="print what one rule book says (all of them unless given)"
    )
    choices.add_argument("--json", action="store_true", help="print the list as JSON, lengths in inches")


def _run(arguments: argparse.Namespace) -> int:
    from engine.checks.listing import listed
    from engine.rulebooks import load, names

    if arguments.book is not None and arguments.book not in names():
        raise Refusal(f"there is no rule book {arguments.book!r}; the books are {', '.join(names())}")
    books = [load(name) for name in (names() if arguments.book is None else (arguments.book,))]
    rules = listed(books)
    print(_as_json(books, rules) if arguments.json else "\n".join(_lines(books, rules)))
    return 0


def _as_json(books: list[RuleBook], rules: tuple[ListedRule, ...]) -> str:
    import msgspec

    answer: dict[str, Any] = {
        "books": [
            {"name": book.name, "short": book.short, "title": book.title, "notice": book.notice} for book in books
        ],
        "rules": msgspec.to_builtins(rules),
    }
    return json.dumps(answer, indent=2, ensure_ascii=False, allow_nan=False)


def _lines(books: list[RuleBook], rules: tuple[ListedRule, ...]) -> Iterator[str]:
    yield from wrapped(f"{len(rules)} rules by {' and by '.join(book.title for book in books)}.")
    for notice in dict.fromkeys(book.notice for book in books):
        yield from wrapped(notice)
    for subject, under in groupby(rules, key=lambda rule: rule.subject):
        yield from ("", subject.upper())
        for rule in under:
            yield from ("", f"  {rule.id}  ({rule.weight})", *wrapped(f"{rule.title}. {rule.asks}", "    "))
            for inside in rule.books:
                yield from _in_book(inside)


def _in_book(inside: RuleInBook) -> Iterator[str]:
    if not inside.judges:
        why = f"this code has no such rule: {inside.silent}" if inside.silent else f"this book has no {inside.lacking}"
        yield from wrapped(f"{inside.short}: {why}", "    ", "      ")
        return
    if not inside.values:
        yield from wrapped(f"{inside.short}: {'; '.join(inside.sections)}", "    ", "      ")
        return
    yield f"    {inside.short}"
    for section, values in groupby(inside.values, key=lambda value: (value.section, value.standing)):
        words = "; ".join(_tables(tuple(values)))
        yield from wrapped(f"{section[0]}{KNOWN.get(section[1], '')}: {words}", "      ", "        ")


def _tables(values: tuple[ReadValue, ...]) -> Iterator[str]:
    """Values as words, the rows of one table together: what the table is, then each row with its value."""
    from engine.rulebooks.meaning import row_words, table_means, table_of

    for stem, under in groupby(values, key=lambda value: table_of(value.key)):
        rows = tuple(under)
        if rows[0].key == stem:
            yield f"{table_means(stem)}: {rows[0].said}"
        else:
            told = (f"{row_words(row.key.removeprefix(f'{stem}.'))} - {row.said}" for row in rows)
            yield f"{table_means(stem)} ({', '.join(told)})"


VERB = Verb(
    name="rules",
    answers="list every rule with its section and numbers in each rule book",
    example="joistway rules --json",
    arguments=_arguments,
    run=_run,
)
