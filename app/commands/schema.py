"""`joistway schema`: the shape of a plan file, for programs that write or read one."""

from __future__ import annotations

import argparse
import json

from app.commands.verb import Verb


def _arguments(parser: argparse.ArgumentParser) -> None:
    del parser


def _run(arguments: argparse.Namespace) -> int:
    from engine.plan.file import schema

    del arguments
    print(json.dumps(schema(), indent=2, ensure_ascii=False))
    return 0


VERB = Verb(
    name="schema",
    answers="print the JSON Schema of the plan file",
    example="joistway schema > plan.schema.json",
    arguments=_arguments,
    run=_run,
)
