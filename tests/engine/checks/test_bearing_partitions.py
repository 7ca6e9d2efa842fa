"""A bearing wall across the joists stands within a joist's depth of a bearing: IRC 2021 R502.4, from memory."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from engine.checks.bearing_partitions import RULES
from engine.checks.floor_framing import RULES as FRAMING
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.plan.records import Amendment, Beam, Floor, JoistField, Plan, Wall
from engine.study import work_out

JUDGE = {rule.id: rule.judge for rule in RULES}["partition-off-its-bearing"]
ON_ONE = next(rule.judge for rule in FRAMING if rule.id == "partition-on-one-joist")


def plan(y: float, wall: dict[str, Any] | None = None, **field: Any) -> Plan:
    """2x10 joists 240 in long that run north, on plates and a beam under their middle; a bearing wall across at y."""
    joists = JoistField(**({"id": "j1", "corner": (0.0, 0.0), "size": (120.0, 240.0)} | field))
    across = Wall(**({"id": "w1", "start": (0.0, y), "end": (120.0, y), "bearing": True} | (wall or {})))
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 240.0), (0.0, 240.0))
    beam = Beam("b1", (0.0, 120.0), (120.0, 120.0), width=4.5)
    return Plan(floor=Floor(outline=outline), fields=(joists,), walls=(across,), beams=(beam,))


def said(made: Plan) -> Outcome:
    (found,) = JUDGE(work_out(made))
    return found


# the beam's edges lie at 117.75 and 122.25; a 2x10 is 9-1/4 in deep
@pytest.mark.parametrize(
    ("y", "expected"),
    [(120.0, Holds), (131.5, Holds), (131.5 + 1 / 16, Finding), (108.5 - 1 / 16, Finding), (10.0, Holds)],
)
def test_a_joists_depth_beside_a_bearing(y: float, expected: type[Outcome]) -> None:
    found = said(plan(y))
    assert type(found) is expected
    if isinstance(found, Finding):
        assert (found.measured, found.limit, found.cites) == (9.3125, 9.25, "IRC 2021 R502.4")


def test_the_official_may_say_otherwise() -> None:
    told = Amendment("joist.partition.off_bearing", becomes=2.0, said_by="building official", on="2026-11-25")
    assert type(said(replace(plan(140.0), amendments=(told,)))) is Holds


def test_what_it_does_not_speak_of() -> None:
    assert type(said(plan(60.0, {"bearing": False}))) is DoesNotApply
    assert type(said(plan(60.0, {"exterior": True}))) is DoesNotApply
    assert type(said(plan(60.0, {"start": (60.0, 20.0), "end": (60.0, 200.0)}))) is DoesNotApply


def test_without_bearings_it_can_not_be_judged() -> None:
    bare = replace(plan(60.0, end_bearing=0.0), beams=())
    found = said(bare)
    assert isinstance(found, NotJudged)
    assert "bearings of joist j1.1" in found.missing


def test_a_wall_across_one_field_is_not_one_along_the_next() -> None:
    """Joists of a field that begins 12 in past the wall run its way; it stands on none of them."""
    made = plan(108.0)
    beside = JoistField("j2", (0.0, 120.0), (120.0, 120.0), direction="east-west")
    fields = (replace(made.fields[0], size=(120.0, 120.0)), beside)
    found = list(ON_ONE(work_out(replace(made, fields=fields, beams=()))))
    assert [type(one) for one in found] == [DoesNotApply]
