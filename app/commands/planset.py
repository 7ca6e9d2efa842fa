"""`joistway planset`: a plan's sheets and schedules, written to a folder."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.commands.reading import study_of, why
from app.commands.verb import Refusal, Verb

PAPERS = ("letter", "tabloid", "a4", "a3")


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument_group("takes").add_argument("plan", metavar="PLAN", type=Path, help="a plan file (.jway)")
    choices = parser.add_argument_group("choices")
    choices.add_argument(
        "--to", metavar="DIR", type=Path, required=True, help="the folder to write to, made if need be"
    )
    choices.add_argument(
        "--paper", type=str.lower, choices=PAPERS, default=PAPERS[0], help="the sheets' size (letter unless given)"
    )

    choices.add_argument("--beside", metavar="BOOK", help="add sheets that tell what changes under another rule book")


def _run(arguments: argparse.Namespace) -> int:
    study = study_of(arguments.plan)
    from engine.planset import write

    if arguments.beside is not None:
        from app.commands.beside import comparison_of

        comparison_of(arguments.plan, study.plan, arguments.beside)
    try:
        for path in write(study, arguments.to, arguments.paper, arguments.beside):
            print(path)
    except OSError as fault:
        raise Refusal(f"{fault.filename or arguments.to}: {why(fault)}") from fault
    return 0


VERB = Verb(
    name="planset",
    answers="write a plan's drawing sheets (PDF) and schedules (CSV)",
    example="joistway planset samples/one-bath-cottage.jway --to sheets --paper a4",
    arguments=_arguments,
    run=_run,
)
