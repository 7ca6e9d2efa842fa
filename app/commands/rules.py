"""`joistway rules`: every check with what it asks and the section that it rests on."""

from __future__ import annotations

import argparse
from itertools import groupby
from typing import TYPE_CHECKING

from app.commands.terminal import wrapped
from app.commands.verb import Refusal, Verb

if TYPE_CHECKING:
    from engine.checks.records import Rule
    from engine.rulebooks import RuleBook

KNOWN = {"memory": " (from memory)", "conflict": " (sources differ)", "derived": " (worked out)"}
"""How a value is known, for those that were not simply read in the book or a page on it."""


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument_group("choices").add_argument(
        "--book",
        metavar="NAME",
        default="irc-2021",
        help="the rule book whose sections to print (irc-2021 unless given)",
    )


def _run(arguments: argparse.Namespace) -> int:
    from engine.checks import ALL_RULES
    from engine.rulebooks import load, names

    if arguments.book not in names():
        raise Refusal(f"there is no rule book {arguments.book!r}; the books are {', '.join(names())}")
    book = load(arguments.book)
    lines = [*wrapped(f"{len(ALL_RULES)} rules by {book.title}."), *wrapped(book.notice)]
    by_subject = sorted(ALL_RULES, key=lambda rule: (rule.subject, rule.id))
    for subject, rules in groupby(by_subject, key=lambda rule: rule.subject):
        lines += ["", subject.upper()]
        for rule in rules:
            lines += ["", f"  {rule.id}  ({rule.weight})", *wrapped(f"{rule.title}. {asks(rule)}", "    ")]
            lines += wrapped("; ".join(sections(rule, book)), "    ")
    print("\n".join(lines))
    return 0


def asks(rule: Rule) -> str:
    """What a rule asks, in one sentence: the first paragraph of its function's own explanation."""
    return " ".join((rule.judge.__doc__ or "").strip().split("\n\n")[0].split())


def sections(rule: Rule, book: RuleBook) -> list[str]:
    """The sections that a rule rests on in a book, each once, with how they are known unless they were read there."""
    known: dict[str, str] = {}
    for name in rule.reads:
        keys = (name,) if book.has(name) else book.keys(name)
        for key in keys:
            mark = KNOWN.get(book.value(key).standing, "")
            known[book.cite(key)] = known.get(book.cite(key)) or mark
        if not keys:
            why = book.silence(name)
            known[f"this code has no such rule: {why}" if why else f"this book has no {name}"] = ""
    return [f"{cite}{mark}" for cite, mark in known.items()] or ["common practice"]


VERB = Verb(
    name="rules",
    answers="list every rule with its section",
    example="joistway rules --book irc-2021",
    arguments=_arguments,
    run=_run,
)
