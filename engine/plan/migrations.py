"""Carrying a plan file of an older version forward, one small step a version.

A step is a pure function from the ``plan`` object of version n, as plain data, to that of version n + 1. It never
imports today's records, and stays as it is once released: every file this program ever saved opens in every later
version. Each step has a test, and one real sample of every version is kept beside the tests.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from engine.plan.faults import PlanFileError

Step = Callable[[dict[str, Any]], dict[str, Any]]

VERSION = 1
"""The version that this program writes."""

STEPS: Mapping[int, Step] = {}
"""The step from each older version to the next, by the version that it starts from."""


def carried_forward(
    data: dict[str, Any], version: int, steps: Mapping[int, Step] = STEPS, to: int = VERSION
) -> dict[str, Any]:
    """A plan's data of some version as data of version `to`.

    Raises :class:`PlanFileError` when a step meets data that was never of its version.
    """
    for number in range(version, to):
        if number not in steps:
            raise LookupError(f"no step carries a plan file from version {number} to {number + 1}")
        try:
            data = steps[number](data)
        except (LookupError, TypeError, ValueError, AttributeError) as fault:
            raise PlanFileError("plan", f"expected a plan of version {number}, and it can't be read as one") from fault
    return data
