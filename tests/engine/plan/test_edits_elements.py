"""Adding, changing, renaming and deleting; what is written beside the drawing."""

from __future__ import annotations

from typing import Any

import pytest

from engine.plan import edits
from engine.plan.edits import EditError
from engine.plan.records import (
    KINDS,
    Amendment,
    Cleanout,
    Drain,
    Exit,
    Fixture,
    JoistField,
    MeasuredTakeOff,
    OnHand,
    PinnedFitting,
    Plan,
    Riser,
    Ruling,
    StickForSale,
    Vent,
    Wall,
)
from engine.plan.start import new_floor


@pytest.fixture
def plan() -> Plan:
    plan = new_floor(120, 240)
    return edits.add(
        plan,
        Fixture("f1", "water_closet", (36.0, 92.0)),
        Drain("d1", ((36.0, 92.0), (36.0, 20.0)), size="3"),
        Riser("r1", (60.0, 238.25), wall="w3"),
    )


def test_new_ids_go_past_the_highest(plan: Plan) -> None:
    assert edits.fresh_id(plan, "d") == "d2"
    assert edits.fresh_id(edits.rename(plan, "d1", "d41"), "d") == "d42"
    assert edits.fresh_id(edits.rename(plan, "d1", "drain-one"), "d") == "d1"


def test_every_kind_can_be_added_and_has_a_letter(plan: Plan) -> None:
    assert set(edits.LETTERS) == set(KINDS.values())
    assert len(set(edits.LETTERS.values())) == len(KINDS)
    more = edits.add_new(plan, Exit, at=(36, 20))
    assert more.exits == (Exit("x1", (36.0, 20.0)),)
    assert type(more.exits[0].at[0]) is float
    assert more.drains is plan.drains


def test_points_are_put_on_the_grid() -> None:
    plan = edits.add_new(new_floor(120, 240), Exit, at=(36.0001, 20.0004))
    assert plan.exits[0].at == (36.0, 20.0)


@pytest.mark.parametrize(
    ("element", "said"),
    [
        (Drain("d1", ((0.0, 0.0), (1.0, 0.0))), "expected a new id"),
        (Drain("w1", ((0.0, 0.0), (1.0, 0.0))), "expected a new id"),
        (Drain("d 2", ((0.0, 0.0), (1.0, 0.0))), "id: expected an id"),
        (Drain("d2", ((0.0, 0.0),)), "points: expected 2 to 400"),
        (Drain("d2", ((0.0, 0.0), (0.0, 0.0))), r"points\[1\]: expected another point"),
        (Drain("d2", ((0.0, 0.0), (0.0001, 0.0))), r"points\[1\]: expected another point"),
        (Drain("d2", ((0.0, 0.0), (float("nan"), 0.0))), r"points\[1\]: expected x to be a number"),
        (Drain("d2", ((0.0, 0.0), (1.0, 0.0)), size="5"), "size: expected one of"),  # type: ignore[arg-type]
        (Wall("w9", (1.0, 1.0), (1.0, 1.0)), "end: expected another point"),
        (Riser("r2", (1.0, 1.0), wall="d1"), "wall: expected the id of one of the plan's walls"),
        (Vent("v1", ((0.0, 0.0), (1.0, 0.0)), above_floor=-3.0), "above_floor: expected a number from 0"),
    ],
)
def test_what_can_not_be_is_refused_and_named(plan: Plan, element: Any, said: str) -> None:
    with pytest.raises(EditError, match=said) as caught:
        edits.add(plan, element)
    assert caught.value.element == element.id
    assert str(caught.value) == f"{element.id}: {caught.value.what}"


def test_a_field_is_set_and_everything_else_shared(plan: Plan) -> None:
    wide = edits.set_field(plan, "d1", "size", "4")
    assert wide.drains[0].size == "4"
    assert plan.drains[0].size == "3"
    assert wide.walls is plan.walls
    assert wide.fixtures is plan.fixtures
    assert edits.set_field(wide, "d1", "size", "4") is wide


def test_unknown_things_and_fields_are_named(plan: Plan) -> None:
    for edit in (edits.find, edits.delete, edits.reverse):
        with pytest.raises(EditError, match="nothing of that id"):
            edit(plan, "d9")
    with pytest.raises(EditError, match="did you mean size"):
        edits.set_field(plan, "d1", "siz", "3")
    with pytest.raises(EditError, match="expected the same id"):
        edits.set_field(plan, "d1", "id", "d2")
    with pytest.raises(EditError, match="expected a Drain in its place"):
        edits.replace(plan, Vent("d1", ((0.0, 0.0), (1.0, 0.0))))


def test_renaming_takes_what_refers_to_it_along(plan: Plan) -> None:
    plan = edits.add_ruling(plan, Ruling("w3", "may stay"))
    renamed = edits.rename(plan, "w3", "north")
    assert renamed.risers[0].wall == "north"
    assert renamed.rulings[0].about == "north"
    assert [wall.id for wall in renamed.walls] == ["w1", "w2", "north", "w4"]
    with pytest.raises(EditError, match="expected a new id"):
        edits.rename(plan, "w3", "d1")


def test_deleting_a_wall_leaves_its_riser_standing_free(plan: Plan) -> None:
    bare = edits.delete(plan, "w3")
    assert bare.risers[0].wall is None
    assert edits.delete(plan, "w3", "r1").risers == ()


def test_a_pinned_fitting_goes_with_its_last_pipe(plan: Plan) -> None:
    plan = edits.add_new(plan, PinnedFitting, at=(36.0, 92.0), pattern="quarter_bend")
    assert edits.delete(plan, "d1").fittings == plan.fittings
    assert edits.delete(plan, "d1", "f1").fittings == ()


def test_a_cleanout_goes_with_its_drain_or_its_riser(plan: Plan) -> None:
    plan = edits.add_new(plan, Cleanout, at=(36.0, 92.0))
    plan = edits.add_new(plan, Cleanout, at=(60.0, 238.25), above_floor=14.0)
    assert [one.id for one in plan.cleanouts] == ["k1", "k2"]
    assert [one.id for one in edits.delete(plan, "d1").cleanouts] == ["k2"]
    assert [one.id for one in edits.delete(plan, "r1").cleanouts] == ["k1"]
    assert edits.delete(plan, "f1").cleanouts is plan.cleanouts
    assert edits.delete(plan, "k1", "k2").cleanouts == ()


def test_a_cleanout_at_a_runs_end_needs_no_heading(plan: Plan) -> None:
    plan = edits.add_new(plan, Cleanout, at=(60.0, 238.25), above_floor=14.0, turn=-90.0)
    assert plan.cleanouts[0].turn == 270.0
    lowered = edits.set_fields(plan, "k1", at=(36.0, 92.0), above_floor=None)
    assert lowered.cleanouts == (Cleanout("k1", (36.0, 92.0)),)


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"size": "5"}, "size: expected one of"),
        ({"above_floor": 97.0}, "above_floor: expected a number from 0 to 96"),
        ({"turn": 400.0}, "turn: expected a number from -360 to 360"),
        ({"height": 1.0}, "a Cleanout has no field"),
    ],
)
def test_a_cleanout_that_can_not_be_is_refused(plan: Plan, values: dict[str, Any], said: str) -> None:
    with pytest.raises(EditError, match=said):
        edits.add_new(plan, Cleanout, at=(36.0, 92.0), **values)


def test_the_plans_own_fields(plan: Plan) -> None:
    changed = edits.set_plan(plan, name="Cabin", slope=0.125, material="ABS", spares=0.0)
    assert (changed.name, changed.slope, changed.material, changed.spares) == ("Cabin", 0.125, "ABS", 0.0)
    for wrong, said in (
        ({"slope": 0.0}, "slope"),
        ({"spares": 2.5}, "spares"),
        ({"sticks": ()}, "edits of its own"),
        ({"walls": ()}, "edits of its own"),
        ({"colour": 1}, "no field"),
    ):
        with pytest.raises(EditError, match=said):
            edits.set_plan(plan, **wrong)


def test_the_floors_fields(plan: Plan) -> None:
    assert edits.set_floor(plan, finish=0.5).floor.finish == 0.5
    with pytest.raises(EditError, match="finish"):
        edits.set_floor(plan, finish=-1.0)
    with pytest.raises(EditError, match="sides that don't meet"):
        edits.set_floor(plan, outline=((0, 0), (90, 90), (90, 0), (0, 60)))


def test_headings_are_brought_to_one_turn(plan: Plan) -> None:
    assert edits.set_field(plan, "f1", "turn", -90.0).fixtures[0].turn == 270.0


def test_a_first_joist_where_it_would_stand_anyway_is_left_out() -> None:
    plan = edits.add_new(new_floor(120, 240), JoistField, corner=(0, 0), size=(100, 100), first=16.0)
    assert plan.fields[1].first is None


def test_amendments_and_measures_give_way_to_newer_ones(plan: Plan) -> None:
    plan = edits.amend(edits.amend(plan, Amendment("a", 5.0)), Amendment("b", True))
    plan = edits.amend(plan, Amendment("a", 6.0, said_by="county office"))
    assert [(one.value, one.becomes) for one in plan.amendments] == [("a", 6.0), ("b", True)]
    assert [one.value for one in edits.drop_amendment(plan, "a").amendments] == ["b"]
    with pytest.raises(EditError, match='no amendment of "c"'):
        edits.drop_amendment(plan, "c")
    leg = MeasuredTakeOff("wye", "3x3x2", "branch", 3.5)
    plan = edits.measure(edits.measure(plan, leg), MeasuredTakeOff("wye", "3x3x2", "branch", 3.6875))
    assert [one.length for one in plan.takeoffs] == [3.6875]
    assert edits.drop_measure(plan, leg).takeoffs == ()
    with pytest.raises(EditError, match="length"):
        edits.measure(plan, MeasuredTakeOff("wye", "3", "branch", 99.0))


def test_sticks_for_sale_give_way_to_newer_words_on_them(plan: Plan) -> None:
    long, short = StickForSale("3", 120.0, 24.0), StickForSale("3", 60.0)
    plan = edits.sell(edits.sell(plan, long), short)
    plan = edits.sell(plan, StickForSale("3", 120.0, 25.5))
    assert [(one.length, one.price) for one in plan.sticks] == [(120.0, 25.5), (60.0, None)]
    assert edits.drop_stick(plan, long).sticks == (short,)
    with pytest.raises(EditError, match="no 2 in stick of 120 in"):
        edits.drop_stick(plan, StickForSale("2", 120.0))
    with pytest.raises(EditError, match="length: expected a number from 6 to 480"):
        edits.sell(plan, StickForSale("3", 5.0))
    assert edits.require_sound(plan) is plan


def test_what_is_on_hand_is_counted_once(plan: Plan) -> None:
    plan = edits.put_on_hand(edits.put_on_hand(plan, OnHand("wye", "2")), OnHand("cement"))
    plan = edits.put_on_hand(plan, OnHand("wye", "2", 3))
    assert plan.on_hand == (OnHand("wye", "2", 3), OnHand("cement"))
    assert edits.take_off_hand(plan, OnHand("cement")).on_hand == (OnHand("wye", "2", 3),)
    with pytest.raises(EditError, match="no wye 3 is on hand"):
        edits.take_off_hand(plan, OnHand("wye", "3"))
    with pytest.raises(EditError, match="part: expected a text that isn't empty"):
        edits.put_on_hand(plan, OnHand(""))
    assert edits.require_sound(plan) is plan


def test_rulings_come_and_go(plan: Plan) -> None:
    first, second = Ruling("d1", "may stay"), Ruling("d1", "may stay", said_by="county office")
    plan = edits.add_ruling(edits.add_ruling(plan, first), second)
    assert edits.drop_ruling(plan, first).rulings == (second,)
    with pytest.raises(EditError, match="no such ruling"):
        edits.drop_ruling(plan, Ruling("d2", ""))


def test_a_whole_plan_can_be_asked_to_be_sound(plan: Plan) -> None:
    assert edits.require_sound(plan) is plan
