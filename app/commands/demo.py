"""`joistway demo`: the fuller sample's sheets and answers in one folder, and the editor where there is a display."""

from __future__ import annotations

import argparse
import json
import shutil
from pathlib import Path

from app.commands.edit import open_editor
from app.commands.lists import as_csv
from app.commands.reading import study_of, why
from app.commands.verb import Refusal, Verb
from app.desktop import has_screen

SAMPLE = "cottage-with-kitchen.jway"


def _arguments(parser: argparse.ArgumentParser) -> None:
    choices = parser.add_argument_group("choices")
    choices.add_argument(
        "--to", metavar="DIR", type=Path, default=Path("joistway-demo"), help="the folder (joistway-demo unless given)"
    )
    choices.add_argument("--no-window", action="store_true", help="write the folder and do not open the editor")


def _run(arguments: argparse.Namespace) -> int:
    try:
        written = _write(arguments.to)
    except OSError as fault:
        raise Refusal(f"{fault.filename or arguments.to}: {why(fault)}") from fault
    print("\n".join(str(path) for path in written))
    if arguments.no_window:
        return 0
    if not has_screen():
        print("No display here, so the editor stays closed; the folder holds the plan set and the answers.")
        return 0
    return open_editor(written[0])


def _write(folder: Path) -> list[Path]:
    """Write the sample, its plan set and its answers; returns the paths, the sample's copy first."""
    from app.commands.report import report
    from engine.planset import write
    from engine.takeoff.answers import check_answer, parts_answer

    folder.mkdir(parents=True, exist_ok=True)
    plan = folder / SAMPLE
    _keep_what_was_drawn(plan)
    shutil.copyfile(samples() / SAMPLE, plan)
    study = study_of(plan)
    parts = parts_answer(study)
    answers = {
        "check.txt": "\n".join(report(study)) + "\n",
        "check.json": json.dumps(check_answer(study), indent=2, ensure_ascii=False, allow_nan=False) + "\n",
        "parts.json": json.dumps(parts, indent=2, ensure_ascii=False, allow_nan=False) + "\n",
        "parts.csv": as_csv(parts),
    }
    written = [plan, *write(study, folder, "letter")]
    for name, text in answers.items():
        (folder / name).write_text(text, encoding="utf-8", newline="")
        written.append(folder / name)
    return written


def _keep_what_was_drawn(plan: Path) -> None:
    """Set aside the copy of an earlier demo if somebody has drawn in it."""
    if plan.exists() and plan.read_bytes() != (samples() / plan.name).read_bytes():
        plan.replace(plan.with_stem(f"{plan.stem}-before"))


def samples() -> Path:
    """The folder of sample plans: beside the packages in a clone, inside this one when installed."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "samples"
    return inside if inside.is_dir() else package.parent / "samples"


VERB = Verb(
    name="demo",
    answers="write a sample's plan set and answers to ./joistway-demo, and open it in the editor",
    example="joistway demo",
    arguments=_arguments,
    run=_run,
)
