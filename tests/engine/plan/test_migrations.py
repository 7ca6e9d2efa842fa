"""Every file that this program ever saved opens in every later version."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import asdict

from engine.plan.faults import PlanFileError
from engine.plan.file import dumps, loads, read
from engine.plan.migrations import STEPS, VERSION, carried_forward

VERSIONS = Path(__file__).parent / "versions"


def everything(value: Any) -> Any:
    """A record with all its fields, defaults too, as plain data."""
    if hasattr(value, "__struct_fields__"):
        return {name: everything(inner) for name, inner in asdict(value).items()}
    return [everything(inner) for inner in value] if isinstance(value, tuple) else value


def test_there_is_a_step_from_every_older_version_and_a_sample_of_each() -> None:
    assert sorted(STEPS) == list(range(1, VERSION))
    assert sorted(path.name for path in VERSIONS.glob("*.jway")) == [f"v{n}.jway" for n in range(1, VERSION + 1)]


@pytest.mark.parametrize("version", range(1, VERSION + 1))
def test_each_versions_sample_still_means_the_same(version: int) -> None:
    plan = read(VERSIONS / f"v{version}.jway")
    meant = json.loads((VERSIONS / f"v{version}.values.json").read_text(encoding="utf-8"))
    assert everything(plan) == meant
    assert loads(dumps(plan)) == plan


def renamed(data: dict[str, Any]) -> dict[str, Any]:
    """A made-up step: what was once called `pipes` is called `drains`."""
    return {("drains" if name == "pipes" else name): value for name, value in data.items()}


def inched(data: dict[str, Any]) -> dict[str, Any]:
    """A made-up step: feet become inches."""
    return {**data, "drains": [{**drain, "length": drain["length"] * 12} for drain in data["drains"]]}


def test_steps_follow_each_other() -> None:
    old = {"pipes": [{"length": 3}], "name": "x"}
    steps = {1: renamed, 2: inched}
    assert carried_forward(old, 1, steps, to=3) == {"drains": [{"length": 36}], "name": "x"}
    assert carried_forward({"drains": [{"length": 3}]}, 2, steps, to=3) == {"drains": [{"length": 36}]}
    assert carried_forward(old, 3, steps, to=3) is old
    assert old == {"pipes": [{"length": 3}], "name": "x"}


@pytest.mark.parametrize(
    "wrong", [{}, {"drains": None}, {"drains": [1]}, {"drains": [{}]}, {"drains": [{"length": {}}]}]
)
def test_what_was_never_of_that_version_is_refused(wrong: dict[str, Any]) -> None:
    with pytest.raises(PlanFileError, match="expected a plan of version 2"):
        carried_forward(wrong, 2, {2: inched}, to=3)


def test_a_forgotten_step_is_the_programs_fault() -> None:
    with pytest.raises(LookupError, match="from version 2 to 3"):
        carried_forward({}, 1, {1: renamed}, to=3)
