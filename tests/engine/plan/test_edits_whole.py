"""The whole plan shifted, turned or mirrored is the same job."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from msgspec.structs import replace

from engine.framing.layout import lay_out
from engine.plan import edits
from engine.plan.edits import EditError
from engine.plan.fields import centres
from engine.plan.file import dumps, loads
from engine.plan.records import Cleanout, Drain, Fixture, FloorLayer, JoistShift, Plan, Point
from engine.plan.start import new_floor
from tests.engine.plan.drawn_plans import plans


@given(plans())
@settings(deadline=None)
def test_mirrored_twice_is_the_plan(plan: Plan) -> None:
    assert edits.mirrored(edits.mirrored(plan)) == plan
    assert edits.mirrored(edits.mirrored(plan, 60.25), 60.25) == plan


@given(plans())
@settings(deadline=None)
def test_four_quarter_turns_are_the_plan(plan: Plan) -> None:
    turned = plan
    for _ in range(4):
        turned = edits.quarter_turned(turned)
        assert loads(dumps(turned)) == turned
    assert turned == plan
    assert edits.quarter_turned(plan, 4) is plan
    assert edits.quarter_turned(edits.quarter_turned(plan, 3), 1) == plan


@given(plans())
@settings(deadline=None)
def test_shifted_and_back_is_the_plan(plan: Plan) -> None:
    assert edits.shift(edits.shift(plan, 31.4, -2.7), -31.4, 2.7) == plan


@given(plans())
@settings(deadline=None)
def test_a_mirror_and_a_turn_twice_are_the_plan(plan: Plan) -> None:
    once = edits.quarter_turned(edits.mirrored(plan))
    assert edits.quarter_turned(edits.mirrored(once)) == plan


def laid(plan: Plan, to: Callable[[Point], Point] = lambda point: point) -> list[tuple[str, list[float]]]:
    """The plan's wood by kind, box, length and what it rests on, each joist where `to` puts it."""
    found = []
    for joist in lay_out(plan).joists:
        (x0, y0), (x1, y1) = to(joist.start), to(joist.end)
        rests = sum(b - a for a, b in joist.supports)
        found.append((joist.kind, [min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1), joist.length, rests]))
    return found


def same(a: list[tuple[str, list[float]]], b: list[tuple[str, list[float]]]) -> bool:
    """Whether each joist of one has its like in the other."""
    return len(a) == len(b) and all(
        any(kind == other and numbers == pytest.approx(others, abs=1e-6) for other, others in b) for kind, numbers in a
    )


@given(plans())
@settings(deadline=None)
def test_the_wood_is_where_the_mirror_and_the_turn_put_it(plan: Plan) -> None:
    assert same(laid(edits.mirrored(plan)), laid(plan, lambda p: (-p[0], p[1])))
    assert same(laid(edits.quarter_turned(plan)), laid(plan, lambda p: (-p[1], p[0])))


@given(plans())
@settings(deadline=None)
def test_joists_are_counted_as_the_framing_lays_them(plan: Plan) -> None:
    for field in plan.fields:
        alone = replace(field, shifts=(), doubled=(), laps=(), to_outline=False)
        bare = replace(plan, fields=(alone,), floor_openings=(), beams=())
        axis = 0 if field.direction == "north-south" else 1
        laid = [joist.start[axis] - field.corner[axis] for joist in lay_out(bare).joists if joist.kind == "common"]
        assert centres(field) == pytest.approx(laid, abs=1e-9)


def test_headings_and_places_by_hand() -> None:
    plan = edits.add_new(new_floor(120, 240), Fixture, kind="lavatory", at=(30, 40), turn=200)
    mirror = edits.mirrored(plan, 60)
    assert (mirror.fixtures[0].at, mirror.fixtures[0].turn) == ((90, 40), 340)
    assert mirror.floor.outline == ((120, 0), (0, 0), (0, 240), (120, 240))
    quarter = edits.quarter_turned(plan)
    assert (quarter.fixtures[0].at, quarter.fixtures[0].turn) == ((-40, 30), 290)
    assert quarter.fields[0].direction == "east-west"


def test_a_risers_cleanout_opens_where_the_mirror_and_the_turn_have_it() -> None:
    plan = edits.add_new(new_floor(120, 240), Cleanout, at=(30, 40), above_floor=14, turn=30)
    plan = edits.add_new(plan, Cleanout, at=(50, 60))
    mirror, quarter = edits.mirrored(plan, 60), edits.quarter_turned(plan)
    assert [(one.at, one.turn) for one in mirror.cleanouts] == [((90, 40), 150), ((70, 60), 0)]
    assert [(one.at, one.turn) for one in quarter.cleanouts] == [((-40, 30), 120), ((-60, 50), 0)]


def test_a_mirrored_field_counts_from_its_other_side() -> None:
    # worked by hand: width 120, joists at 16, 32 ... 112; the last stands 8 from the east face
    plan = new_floor(120, 240)
    plan = replace(plan, fields=(replace(plan.fields[0], shifts=(JoistShift(2, 1.5),), bearings=(100.0,)),))
    field = edits.mirrored(plan, 60).fields[0]
    assert field.first == 8.0
    assert field.shifts == (JoistShift(6, -1.5),)
    assert field.bearings == (100.0,)
    assert edits.quarter_turned(plan).fields[0].bearings == (140.0,)


def test_what_lies_past_a_fields_end_stays_as_it_is_written() -> None:
    plan = new_floor(120, 240)
    plan = replace(plan, fields=(replace(plan.fields[0], bearings=(100.0, 300.0), blocking=(250.0,)),))
    field = edits.quarter_turned(plan).fields[0]
    assert (field.bearings, field.blocking) == ((140.0, 300.0), (250.0,))


def test_a_field_that_can_not_be_counted_back_says_so() -> None:
    plan = edits.set_field(new_floor(120, 240), "j1", "first", 40.0)
    with pytest.raises(EditError, match="j1: the joists of j1 can't be laid out from the other side"):
        edits.mirrored(plan)
    assert edits.quarter_turned(plan).fields[0].first == 40.0


def test_lengths_stay() -> None:
    plan = edits.add_new(new_floor(120, 240), Drain, points=((1, 2), (30.5, 40.25), (7, 90)))
    for other in (edits.shift(plan, 3.3, 4.4), edits.quarter_turned(plan), edits.mirrored(plan)):
        (a, b, c), (p, q, r) = plan.drains[0].points, other.drains[0].points
        assert math.dist(a, b) == pytest.approx(math.dist(p, q), abs=1e-9)
        assert math.dist(b, c) == pytest.approx(math.dist(q, r), abs=1e-9)


class TestFloorLayers:
    plywood, backer = FloorLayer(0.71875, "plywood"), FloorLayer(0.25, "backer board")

    def test_layers_set_the_thickness_that_they_add_up_to(self) -> None:
        plan = edits.set_floor(new_floor(120.0, 120.0), subfloor_layers=(self.plywood, self.backer))
        assert plan.floor.subfloor == 0.96875
        assert plan.floor.finished_z == 0.96875 + 0.25

    def test_a_thickness_set_alone_forgets_the_layers(self) -> None:
        plan = edits.set_floor(new_floor(120.0, 120.0), finish_layers=(FloorLayer(0.375, "tile"),))
        assert edits.set_floor(plan, finish=0.5).floor.finish_layers == ()
        assert edits.set_floor(plan, snow=4.0).floor.finish_layers == plan.floor.finish_layers

    def test_layers_that_add_up_to_something_else_are_refused(self) -> None:
        with pytest.raises(edits.EditError, match="add up to"):
            edits.set_floor(new_floor(120.0, 120.0), subfloor=1.0, subfloor_layers=(self.plywood,))
