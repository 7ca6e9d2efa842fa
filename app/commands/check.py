"""`joistway check`: what is wrong with a plan, as words for a reader or as JSON for a program."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from app.commands.reading import study_of
from app.commands.verb import Verb


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument_group("takes").add_argument("plan", metavar="PLAN", type=Path, help="a plan file (.jway)")
    parser.add_argument_group("choices").add_argument(
        "--json", action="store_true", help="print the answer as JSON, lengths in inches"
    )
    parser.add_argument(
        "--mends", action="store_true", help="try what would mend each finding, and tell what holds; takes a while"
    )


def _run(arguments: argparse.Namespace) -> int:
    study = study_of(arguments.plan)
    if arguments.json:
        from engine.mending.answers import WINDOW, told_mends
        from engine.takeoff.answers import check_answer

        answer = check_answer(study)
        for number, mends in told_mends(study, arguments.mends).items():
            told = answer["findings"][number]
            told["mends"] = list(mends)
            if mends and told["rule"] in WINDOW:
                told["mend"] = f"{mends[0]}."
        print(json.dumps(answer, indent=2, ensure_ascii=False, allow_nan=False))
    else:
        from app.commands.report import report

        print("\n".join(report(study, arguments.mends)))
    return 1 if any(finding.weight == "stop" for finding in study.findings) else 0


VERB = Verb(
    name="check",
    answers="judge a plan: what to stop for, what to look at, what could not be judged",
    example="joistway check samples/one-bath-cottage.jway",
    arguments=_arguments,
    run=_run,
)
