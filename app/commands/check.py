"""`joistway check`: what is wrong with a plan, as words for a reader or as JSON for a program."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from app.commands.reading import study_of
from app.commands.verb import Verb

if TYPE_CHECKING:
    from engine.study import Study


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument_group("takes").add_argument("plan", metavar="PLAN", type=Path, help="a plan file (.jway)")
    choices = parser.add_argument_group("choices")
    choices.add_argument("--json", action="store_true", help="print the answer as JSON, lengths in inches")
    choices.add_argument(
        "--beside",
        metavar="BOOK",
        help="tell what changes under another rule book, and by which sections",
    )
    choices.add_argument(
        "--mends", action="store_true", help="try what would mend each finding, and tell what holds; takes a while"
    )


def _run(arguments: argparse.Namespace) -> int:
    study = study_of(arguments.plan)
    if arguments.beside is not None:
        _beside(arguments, study)
    elif arguments.json:
        _print(_answer(study, arguments.mends))
    else:
        from app.commands.report import report

        print("\n".join(report(study, arguments.mends)))
    return 1 if any(finding.weight == "stop" for finding in study.findings) else 0


def _answer(study: Study, with_mends: bool) -> dict[str, Any]:
    from engine.mending.answers import WINDOW, told_mends
    from engine.takeoff.answers import check_answer

    answer = check_answer(study)
    for number, mends in told_mends(study, with_mends).items():
        told = answer["findings"][number]
        told["mends"] = list(mends)
        if mends and told["rule"] in WINDOW:
            told["mend"] = f"{mends[0]}."
    return answer


def _beside(arguments: argparse.Namespace, study: Study) -> None:
    """What changes under another book; as JSON it is a part of the answer by the plan's own."""
    from app.commands.beside import beside_lines, comparison_of

    comparison = comparison_of(arguments.plan, study.plan, arguments.beside)
    if arguments.json:
        from engine.comparing.answers import beside_answer

        _print({**_answer(study, arguments.mends), "beside": beside_answer(comparison)})
    else:
        print("\n".join(beside_lines(comparison)))


def _print(answer: dict[str, Any]) -> None:
    print(json.dumps(answer, indent=2, ensure_ascii=False, allow_nan=False))


VERB = Verb(
    name="check",
    answers="judge a plan: what to stop for, what to look at, what could not be judged",
    example="joistway check samples/one-bath-cottage.jway",
    arguments=_arguments,
    run=_run,
)
