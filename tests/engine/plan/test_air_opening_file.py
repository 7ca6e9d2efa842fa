"""Windows, doors and intakes in the plan file: kept to the letter, and refused with their place where they can't be."""

from __future__ import annotations

import json
from typing import Any

import pytest
from msgspec.structs import replace

from engine.plan import edits
from engine.plan.edits.whole import mirrored, quarter_turned, shift
from engine.plan.file import PlanFileError, dumps, loads
from engine.plan.outline import outline
from engine.plan.records import AirOpening, Floor, Plan

FLOOR = Floor(
    outline=((0.0, 0.0), (240.0, 0.0), (240.0, 120.0), (0.0, 120.0)), design_temp=-12.5, roof_deck=True, snow=18.0
)
PLAN = Plan(
    floor=FLOOR,
    air_openings=(
        AirOpening("a1", (20.0, 118.25), (50.0, 118.25), 84.0, "bath window"),
        AirOpening("a2", (1.75, 30.0), (1.75, 66.0)),
    ),
)


def written(**change: Any) -> bytes:
    """The file with a field of its first opening changed."""
    data = json.loads(dumps(PLAN))
    data["plan"]["air_openings"][0].update(change)
    return json.dumps(data).encode()


def test_it_is_kept_to_the_letter() -> None:
    assert loads(dumps(PLAN)) == PLAN
    assert dumps(loads(dumps(PLAN))) == dumps(PLAN)
    data = json.loads(dumps(PLAN))["plan"]
    assert data["air_openings"][1] == {"id": "a2", "start": [1.75, 30], "end": [1.75, 66]}
    assert data["floor"]["design_temp"] == -12.5
    assert data["floor"]["roof_deck"] is True


def test_a_plan_without_any_says_nothing_of_them() -> None:
    bare = Plan(floor=replace(FLOOR, design_temp=None, roof_deck=False))
    text = dumps(bare).decode()
    assert "air_openings" not in text and "design_temp" not in text and "roof_deck" not in text
    assert loads(dumps(bare)).floor.design_temp is None


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"end": [20, 118.25]}, "air_openings[0].end"),
        ({"id": "a2"}, "air_openings[1].id"),
        ({"top_above_floor": 601}, "air_openings[0].top_above_floor"),
        ({"top_above_floor": -1}, "air_openings[0].top_above_floor"),
        ({"start": [1, 2, 3]}, "air_openings[0].start"),
        ({"sill": 30}, "air_openings[0]"),
        ({"name": 7}, "air_openings[0].name"),
    ],
)
def test_what_it_can_not_be_is_refused_with_its_place(change: dict[str, Any], place: str) -> None:
    with pytest.raises(PlanFileError) as refused:
        loads(written(**change))
    assert place in str(refused.value)


@pytest.mark.parametrize("cold", [-81, 111, "cold"])
def test_a_winter_that_can_not_be_is_refused(cold: object) -> None:
    data = json.loads(dumps(PLAN))
    data["plan"]["floor"]["design_temp"] = cold
    with pytest.raises(PlanFileError, match="design_temp"):
        loads(json.dumps(data).encode())


def test_it_follows_the_whole_plan() -> None:
    first = PLAN.air_openings[0]
    assert shift(PLAN, 3.0, -2.0).air_openings[0].start == (23.0, 116.25)
    assert mirrored(PLAN, 120.0).air_openings[0].start == (220.0, 118.25)
    assert quarter_turned(PLAN).air_openings[0].end == (-118.25, 50.0)
    assert quarter_turned(PLAN, 4).air_openings[0] == first


def test_it_is_added_renamed_stretched_and_deleted() -> None:
    plan = edits.add_new(PLAN, AirOpening, start=(80.0, 118.25), end=(100.0, 118.25))
    assert plan.air_openings[-1].id == "a3"
    plan = edits.rename(plan, "a3", "north-vent")
    plan = edits.move_point(plan, "north-vent", 1, (110.0, 118.25))
    assert plan.air_openings[-1].end == (110.0, 118.25)
    assert edits.delete(plan, "north-vent", "a1").air_openings == (PLAN.air_openings[1],)
    with pytest.raises(edits.EditError):
        edits.move_point(plan, "a1", 2, (0.0, 0.0))


def test_the_outline_has_a_heading_for_them() -> None:
    (group,) = [group for group in outline(PLAN) if group.kind == "air_openings"]
    assert group.title == "Windows, doors and air intakes"
    assert [entry.element for entry in group.entries] == ["a1", "a2"]
