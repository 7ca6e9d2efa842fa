"""`joistway parts`: what to buy and what to cut, as lists for a reader, a spreadsheet or a program."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from app.commands.lists import as_csv, as_lines
from app.commands.reading import study_of
from app.commands.verb import Verb


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument_group("takes").add_argument("plan", metavar="PLAN", type=Path, help="a plan file (.jway)")
    form = parser.add_argument_group("choices").add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print the lists as JSON, lengths in inches")
    form.add_argument("--csv", action="store_true", help="print the lists as one CSV table, lengths in inches")


def _run(arguments: argparse.Namespace) -> int:
    from engine.takeoff.answers import parts_answer

    answer = parts_answer(study_of(arguments.plan))
    if arguments.json:
        print(json.dumps(answer, indent=2, ensure_ascii=False, allow_nan=False))
    elif arguments.csv:
        print(as_csv(answer), end="")
    else:
        print("\n".join(as_lines(answer)))
    return 0


VERB = Verb(
    name="parts",
    answers="list a plan's fittings, cut pieces, sticks to buy and supports",
    example="joistway parts samples/one-bath-cottage.jway --csv > parts.csv",
    arguments=_arguments,
    run=_run,
)
