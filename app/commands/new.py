"""`joistway new`: a plan file with an empty floor, its joists laid out."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.commands.reading import why
from app.commands.verb import Refusal, Verb

LUMBER = ("2x4", "2x6", "2x8", "2x10", "2x12")
SPECIES = ("douglas fir-larch", "hem-fir", "spruce-pine-fir", "southern pine")
DIRECTIONS = ("north-south", "east-west")


def _arguments(parser: argparse.ArgumentParser) -> None:
    floor = parser.add_argument_group("takes (lengths as 10ft, 10' 6\", 120 or 3.05m)")
    floor.add_argument("--width", metavar="LENGTH", required=True, help="outside of the framing, west to east")
    floor.add_argument("--length", metavar="LENGTH", required=True, help="outside of the framing, south to north")
    floor.add_argument("out", metavar="OUT", type=Path, help="the plan file to write (.jway)")
    choices = parser.add_argument_group("choices")
    choices.add_argument("--joists", choices=LUMBER, default="2x10", help="the joists' lumber (2x10 unless given)")
    choices.add_argument("--species", choices=SPECIES, help="the lumber's species (not told unless given)")
    choices.add_argument("--spacing", metavar="LENGTH", default="16", help="joists on centre (16 unless given)")
    choices.add_argument("--direction", choices=DIRECTIONS, default=DIRECTIONS[0], help="which way the joists run")
    choices.add_argument(
        "--subfloor", metavar="LENGTH", default="3/4", help="sheathing on the joists (3/4 unless given)"
    )
    choices.add_argument("--finish", metavar="LENGTH", default="1/4", help="finished flooring (1/4 unless given)")
    choices.add_argument("--replace", action="store_true", help="write over OUT if it is there")


def _run(arguments: argparse.Namespace) -> int:
    from engine.plan.edits import EditError
    from engine.plan.file import save
    from engine.plan.start import new_floor

    if arguments.out.exists() and not arguments.replace:
        raise Refusal(f"{arguments.out}: is already there; --replace writes over it")
    try:
        plan = new_floor(
            _length("--width", arguments.width),
            _length("--length", arguments.length),
            lumber=arguments.joists,
            spacing=_length("--spacing", arguments.spacing),
            direction=arguments.direction,
            species=arguments.species,
            subfloor=_length("--subfloor", arguments.subfloor),
            finish=_length("--finish", arguments.finish),
        )
        save(plan, arguments.out)
    except EditError as fault:
        raise Refusal(f"this floor cannot be: {fault}") from fault
    except OSError as fault:
        raise Refusal(f"{arguments.out}: {why(fault)}") from fault
    print(arguments.out)
    return 0


def _length(choice: str, text: str) -> float:
    from engine.lengths import LengthError, parse

    try:
        return parse(text)
    except LengthError as fault:
        raise Refusal(f"{choice}: {fault}") from fault


VERB = Verb(
    name="new",
    answers="write a plan of an empty floor",
    example="joistway new --width 10ft --length 20ft --joists 2x10 --spacing 16 cabin.jway",
    arguments=_arguments,
    run=_run,
)
