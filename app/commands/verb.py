"""What a verb of the command line is, and how one says that its input cannot be used."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from typing import NamedTuple


class Verb(NamedTuple):
    """One verb: its name, what it answers, an example, the words it takes and the function that does it.

    `run` gives the exit code: 0 done and nothing to stop for, 1 the plan holds something to stop for.
    """

    name: str
    answers: str
    example: str
    arguments: Callable[[argparse.ArgumentParser], None]
    run: Callable[[argparse.Namespace], int]


class Refusal(Exception):
    """The input cannot be used: one clear sentence that names the place. The program ends with exit code 2."""
