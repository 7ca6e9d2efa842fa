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
    lines = [f"{len(ALL_RULES)} rules, with the sections of {arguments.book}. Nothing here is legal advice."]
    by_subject = sorted(ALL_RULES, key=lambda rule: (rule.subject, rule.id))
    for subject, rules in groupby(by_subject, key=lambda rule: rule.subject):
        lines += ["", subject.upper()]
        for rule in rules:
            lines += ["", f"  {rule.id}  ({rule.weight})"]
            lines += wrapped(rule.title, "    ")
            lines += wrapped("; ".join(sections(rule, book)), "    ")
    print("\n".join(lines))
    return 0


def sections(rule: Rule, book: RuleBook) -> list[str]:
    """The sections that a rule rests on in a book, each once, in the order in which the rule reads them."""
    cites = [book.cite(key) for key in rule.reads if book.has(key)]
    lacking = [key for key in rule.reads if not book.has(key)]
    if lacking:
        cites.append(f"not in this book: {', '.join(lacking)}")
    return list(dict.fromkeys(cites)) or ["common practice"]


VERB = Verb(
    name="rules",
    answers="list every rule with its section",
    example="joistway rules --book irc-2021",
    arguments=_arguments,
    run=_run,
)
