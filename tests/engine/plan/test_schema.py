"""The schema of the plan file: complete in words, and agreeing with what is read and written."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings

from engine.plan import records
from engine.plan.descriptions import ENVELOPE, FIELDS, RECORDS
from engine.plan.explain import faults
from engine.plan.file import dumps, loads, schema
from engine.plan.records import Plan, Record
from engine.plan.start import new_floor
from engine.plan.writing import PROGRAM
from tests.engine.plan.drawn_plans import plans

ROOT = Path(__file__).parents[3]
RECORD_TYPES = {
    name: kind
    for name, kind in vars(records).items()
    if isinstance(kind, type) and issubclass(kind, Record) and kind is not Record
}


def test_every_field_of_every_record_is_described() -> None:
    assert set(FIELDS) == set(RECORDS) == set(RECORD_TYPES)
    for name, kind in RECORD_TYPES.items():
        assert set(FIELDS[name]) == set(kind.__struct_fields__)
        assert all(words.endswith(".") and len(words) > 8 for words in (*FIELDS[name].values(), RECORDS[name]))


def test_the_words_stand_in_the_schema() -> None:
    told = schema()
    assert set(told["properties"]) == set(ENVELOPE)
    for name, definition in told["$defs"].items():
        assert definition["description"] == RECORDS[name]
        assert definition["additionalProperties"] is False
        for field, told_field in definition["properties"].items():
            assert told_field["description"] == FIELDS[name][field]


@pytest.mark.parametrize(
    "word", ["inches", "east", "north", "joists", "finished floor", "1/1024", "degrees", "default"]
)
def test_units_and_axes_are_told_at_the_top(word: str) -> None:
    assert word in schema()["description"]


def test_each_call_gives_a_schema_of_its_own() -> None:
    schema()["$defs"]["Plan"]["properties"].clear()
    assert schema()["$defs"]["Plan"]["properties"]


def test_it_is_json() -> None:
    assert json.loads(json.dumps(schema())) == schema()


def test_its_example_is_a_plan() -> None:
    (example,) = schema()["examples"]
    assert not list(faults(example, schema()))
    plan = loads(json.dumps(example).encode())
    assert plan.drains[0].points[0] == plan.fixtures[0].at


def written() -> list[Any]:
    samples = [*ROOT.glob("samples/*.jway"), *(Path(__file__).parent / "versions").glob("*.jway")]
    return [pytest.param(path, id=path.stem) for path in samples]


@pytest.mark.parametrize("path", written())
def test_every_sample_follows_it(path: Path) -> None:
    assert not list(faults(json.loads(path.read_text(encoding="utf-8")), schema()))


@given(plans())
@settings(deadline=None)
def test_whatever_is_written_follows_it(plan: Plan) -> None:
    assert not list(faults(json.loads(dumps(plan)), schema()))


@pytest.mark.parametrize(
    "spoilt",
    [
        {"version": 2},
        {"format": "plan"},
        {"written_by": 1},
        {"more": 1},
        {"plan": {}},
        {"plan": {"floor": {"outline": [[0, 0], [9, 0]]}}},
    ],
)
def test_what_is_no_plan_file_does_not_follow_it(spoilt: dict[str, Any]) -> None:
    whole = {**json.loads(dumps(new_floor(120, 240))), **spoilt}
    assert list(faults(whole, schema()))


def test_the_version_written_is_the_programs() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["version"] == PROGRAM
