"""`joistway [PLAN]`: opens the editor. The one verb that needs Qt, and only once it is sure to have a display."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.commands.reading import plan_at
from app.commands.verb import Refusal, Verb
from app.desktop import why_no_window


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument_group("takes").add_argument(
        "plan",
        metavar="PLAN",
        type=Path,
        nargs="?",
        help="a plan file (.jway) to open; none starts with an empty floor",
    )


def _run(arguments: argparse.Namespace) -> int:
    if arguments.plan is not None:
        plan_at(arguments.plan)
    return open_editor(arguments.plan)


def open_editor(path: Path | None) -> int:
    """Open the editor, on the plan file if one is given, and wait until it is closed. Raises `Refusal`."""
    hindrance = why_no_window()
    if hindrance is not None:
        raise Refusal(hindrance)
    from app.window import run

    return run(path)


VERB = Verb(
    name="",
    answers="Plan every pipe under a small floor before the sheathing closes it.",
    example="joistway samples/one-bath-cottage.jway",
    arguments=_arguments,
    run=_run,
)
