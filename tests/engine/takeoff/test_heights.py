"""Heights along a run, and the numbers and names that tie the schedules to the drawings."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings

from engine.plan.records import Drain, Fixture, JoistField, Plan, Supply
from engine.study import work_out
from engine.takeoff.heights import height_table
from engine.takeoff.joist_cuts import cut_rows
from engine.takeoff.naming import edges_of, joist_words, numbered_cuts
from engine.takeoff.runs import runs
from tests.engine import coarse_plans

Floor = Callable[..., Plan]


def test_the_main_from_the_closet_to_the_exit(hand_floor: Floor) -> None:
    all_rows = [row for row in height_table(work_out(hand_floor())) if row.element == "d1"]
    rows = [row for row in all_rows if row.held != "block"]
    # axis -5.6875, 30 in on -6.3125, 72 in on -7.1875; underside half of 3.5 lower
    assert [(row.along, row.centre_down, row.bottom_down) for row in rows] == [
        (0.0, pytest.approx(5.6875), pytest.approx(7.4375)),
        (30.0, pytest.approx(6.3125), pytest.approx(8.0625)),
        (72.0, pytest.approx(7.1875), pytest.approx(8.9375)),
    ]
    assert [row.what for row in rows] == ["quarter bend 3", "wye 3x3x1-1/2", "quarter bend 3"]
    # 2x10s are 9.25 deep: at the exit the axis lies 2.0625 over their bottom edge, the underside 0.3125
    assert (rows[-1].centre_below, rows[-1].bottom_below) == (pytest.approx(-2.0625), pytest.approx(-0.3125))
    # the last block stands 1 3/4 clear of the exit's hub, 4 9/16 long: 65 11/16 along, 5/16 / 48 higher than at 66
    assert [(row.along, row.bottom_down) for row in all_rows if row.held == "block"] == [
        (36.0, pytest.approx(8.1875)),
        (65.6875, pytest.approx(8.8125 - 0.3125 / 48)),
    ]


def test_the_branch_with_its_joists_bend_and_coupling(hand_floor: Floor) -> None:
    rows = {row.what: row for row in height_table(work_out(hand_floor())) if row.element == "d2"}
    # joists x 64 and 48, coupling x 56, eighth bend x 43, counted from the riser at 70.25
    assert rows["joist 4"].along == pytest.approx(6.25)
    assert rows["joist 4"].centre_down == pytest.approx(5.6688, abs=5e-5)
    assert rows["joist 3"].centre_down == pytest.approx(6.0021, abs=5e-5)
    assert rows["coupling 1-1/2"].along == pytest.approx(14.25)
    assert rows["coupling 1-1/2"].centre_down == pytest.approx(5.8354, abs=5e-5)
    assert rows["eighth bend 1-1/2"].centre_down == pytest.approx(6.1063, abs=5e-5)
    assert [row.along for row in rows.values()] == sorted(row.along for row in rows.values())


def test_water_lies_where_it_was_put(hand_floor: Floor) -> None:
    tube = Supply(id="c1", water="cold", points=((8.0, 10.0), (40.0, 10.0)), down=3.0)
    rows = [
        row
        for row in height_table(work_out(msgspec.structs.replace(hand_floor(), supplies=(tube,))))
        if row.element == "c1"
    ]
    assert [(row.what, row.held) for row in rows] == [
        ("plug, crimp 1/2", ""),
        ("hook", "hook"),
        ("joist 1", "bored joist"),
        ("joist 2", "bored joist"),
        ("hook", "hook"),
        ("plug, crimp 1/2", ""),
    ]
    # a 1/2 in tube is 5/8 outside
    assert {(row.centre_down, row.bottom_down) for row in rows} == {(3.0, 3.3125)}


def test_a_run_that_reaches_no_exit_has_no_heights(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    lost = Drain(id="d9", points=((90.0, 60.0), (90.0, 20.0)), size="2")
    shower = Fixture(id="sh1", kind="shower", at=(90.0, 60.0))
    plan = msgspec.structs.replace(plan, drains=(*plan.drains, lost), fixtures=(*plan.fixtures, shower))
    rows = [row for row in height_table(work_out(plan)) if row.element == "d9"]
    assert rows
    assert {row.centre_down for row in rows} == {None}


def test_cuts_are_numbered_joist_by_joist(hand_floor: Floor) -> None:
    model = work_out(hand_floor())
    assert [(number, made.joist) for number, made in numbered_cuts(model)] == [(1, "f1.3"), (2, "f1.4")]
    first, second = cut_rows(model)
    # always from the south end first, though the north end of a joist 105 long is nearer: 105 - 67.5 = 37.5
    assert (first.joist, first.end, first.from_end) == ("joist 3", "south", 67.5)
    assert (first.other_end, first.from_other) == ("north", 37.5)
    # 2 in at either edge (IRC 2021 R502.8.1); a drain has no sleeve
    assert (first.least_wood, first.sleeve) == (2.0, 0.0)
    assert (first.kind, first.bit, first.verdict, first.faults) == ("bore", "2-1/8", "yes", "")
    assert second.pipe == "1-1/2 in, d2"


def test_what_is_wrong_with_a_cut_is_said_in_the_rules_words(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    east = msgspec.structs.replace(plan.drains[0], points=((36.0, 92.0), (100.0, 92.0)))
    exits = (msgspec.structs.replace(plan.exits[0], at=(100.0, 92.0)),)
    rows = cut_rows(work_out(msgspec.structs.replace(plan, drains=(east,), exits=exits)))
    # a 3 in pipe is 3.5 wide outside, a 2x10 may be bored 3.083 (IRC 2021 R502.8.1)
    assert rows
    assert {row.verdict for row in rows} == {"no"}
    assert all("too wide" in row.faults for row in rows)


def test_framing_members_by_name(hand_floor: Floor) -> None:
    model = work_out(hand_floor())
    names = {joist_words(model, joist) for joist in model.framing.joists}
    assert {"joist 1", "west end joist", "east end joist", "south rim", "north rim"} <= names
    assert edges_of(model) == ("west end joist", "south rim")


def test_turned_joists_turn_the_names(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    turned = msgspec.structs.replace(plan, fields=(msgspec.structs.replace(plan.fields[0], direction="east-west"),))
    assert edges_of(work_out(turned)) == ("west rim", "south end joist")


def test_a_run_under_the_joists_is_told_from_their_bottom_edge(hand_floor: Floor) -> None:
    """A trade textbook's sum: 1 in under the joists at the trap, 9-1/2 ft on at 1/4 in a foot, 3-3/8 in under them."""
    plan = hand_floor(lavatory=False, pinned=-(9.25 + 3.375), width=140.0)
    drain = Drain(id="d1", points=((8.0, 60.0), (122.0, 60.0)), size="3", passing="under")
    fixture = msgspec.structs.replace(plan.fixtures[0], at=(8.0, 60.0))
    exits = (msgspec.structs.replace(plan.exits[0], at=(122.0, 60.0)),)
    plan = msgspec.structs.replace(plan, drains=(drain,), fixtures=(fixture,), exits=exits)
    rows = [row for row in height_table(work_out(plan)) if row.element == "d1"]
    ends = [row for row in rows if row.what.startswith("quarter bend")]
    assert [row.along for row in ends] == [0.0, 114.0]
    assert [row.centre_below for row in ends] == [pytest.approx(1.0), pytest.approx(3.375)]
    assert [row.bottom_below for row in ends] == [pytest.approx(2.75), pytest.approx(5.125)]


def test_each_hanger_hangs_at_its_own_drop(hand_floor: Floor) -> None:
    """Ten feet of 3 in pipe at 1/4 in a foot, hung every 48 in: 5 ft along it lies 1-1/4 lower, 10 ft along 2-1/2."""
    plan = hand_floor(lavatory=False, pinned=-16.0, width=160.0)
    drain = Drain(id="d1", points=((3.0, 60.0), (63.0, 60.0), (123.0, 60.0)), size="3", passing="under")
    fixture = msgspec.structs.replace(plan.fixtures[0], at=(3.0, 60.0))
    exits = (msgspec.structs.replace(plan.exits[0], at=(123.0, 60.0)),)
    plan = msgspec.structs.replace(plan, drains=(drain,), fixtures=(fixture,), exits=exits)
    rows = [row for row in height_table(work_out(plan)) if row.element == "d1"]
    first = rows[0].centre_down
    assert first is not None
    for row in rows:
        assert row.centre_down == pytest.approx(first + row.along / 48.0)
        assert row.bottom_down == pytest.approx(first + row.along / 48.0 + 1.75)
    drops = {row.along: row.centre_down for row in rows}
    assert (drops[60.0], drops[120.0]) == (pytest.approx(first + 1.25), pytest.approx(first + 2.5))
    # joists at 13, 29, 45, ... along; straps hang from the furthest within 48 in,
    # and a block's half clear of the exit's hub, 6 5/16 in before it, since the joist there lies 11 in before it
    assert [row.along for row in rows if row.held == "strap"] == [45.0, 93.0, 113.6875]
    assert [row.along for row in rows if row.what.startswith("joist")] == [13.0 + 16.0 * n for n in range(7)]


def test_water_over_two_depths_lies_at_the_middle_of_the_shallower(hand_floor: Floor) -> None:
    """2x8s are 7-1/4 deep: an axis left open lies 3-5/8 down in them and in the 2x10s beside them, as it is bored."""
    fields = (
        JoistField(id="f1", corner=(0.0, 0.0), size=(56.0, 108.0), lumber="2x10", first=16.0),
        JoistField(id="f2", corner=(56.0, 0.0), size=(64.0, 108.0), lumber="2x8", first=8.0),
    )
    tube = Supply(id="c1", water="cold", points=((40.0, 40.0), (76.0, 40.0)))
    model = work_out(msgspec.structs.replace(hand_floor(lavatory=False), fields=fields, supplies=(tube,)))
    assert {row.centre_down for row in height_table(model) if row.element == "c1"} == {3.625}
    assert {made.down_from_top for made in model.cuts if made.element == "c1"} == {3.625}


def test_a_rolled_run_keeps_its_slope_down_to_the_roll(hand_floor: Floor) -> None:
    """Rolled 45 degrees and 4 in up, the roll takes 4 in of the run: over the 30-1/4 in before it falls 1/4 in a foot."""
    plan = hand_floor()
    main = msgspec.structs.replace(plan.drains[0], points=((36.0, 92.0), (36.0, 69.0), (36.0, 20.0)))
    rolled = msgspec.structs.replace(plan.drains[1], points=((70.25, 69.0), (36.0, 69.0)), join="rolled", rise=4.0)
    model = work_out(msgspec.structs.replace(plan, drains=(main, rolled)))
    (run,) = [run for run in runs(model) if run.element == "d2"]
    (stretch,) = run.stretches
    upper = stretch.z(0.0)
    assert upper is not None
    assert stretch.z(30.25) == pytest.approx(upper - 30.25 / 48.0)
    # 2 in on, in the middle of the roll, half of the 4 in is gone; at its end it has come down onto the main
    assert stretch.z(32.25) == pytest.approx(upper - 30.25 / 48.0 - 2.0)
    assert stretch.z(34.25) == pytest.approx(
        model.heights[model.network.waste_from(model.network.by_id[stretch.pipe].end).end]
    )


@given(coarse_plans.bathrooms())
@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.too_slow])
def test_a_joist_is_bored_where_the_table_has_the_pipe(plan: Plan) -> None:
    model = work_out(plan)
    made = {cut.crossing: cut for cut in model.cuts}
    for run in runs(model):
        for along, crossing in run.crossings:
            stretch = run.stretch(along)
            if crossing.id in made and along <= stretch.begins + stretch.length - stretch.rolled:
                assert stretch.z(along) == pytest.approx(-made[crossing.id].down_from_top, abs=1e-6)


def test_a_traps_height_is_that_of_its_outlet(hand_floor: Floor) -> None:
    """A shower's drain falls 1/4 in per foot from where its trap ends, not from over its inlet: a take-off of 6-15/16."""
    plan = hand_floor()
    shower = Fixture(id="sh1", kind="shower", at=(60.0, 40.0))
    arm = Drain(id="d9", points=((60.0, 40.0), (36.0, 40.0)), size="2")
    first, *rest = plan.drains
    main = msgspec.structs.replace(first, points=(*first.points[:-1], (36.0, 40.0), first.points[-1]))
    model = work_out(msgspec.structs.replace(plan, drains=(main, *rest, arm), fixtures=(*plan.fixtures, shower)))
    first, *_ = (row for row in height_table(model) if row.element == "d9")
    trap = next(part for part in model.joinery.parts if part.kind == "p_trap" and "sh1" in part.elements)
    start = next(pipe.start for pipe in model.network.pipes if pipe.element == "d9")
    assert (first.what, first.along) == ("P-trap 2, outlet", pytest.approx(6.9375))
    assert first.centre_down == -trap.centre[2]
    assert first.centre_down == pytest.approx(-model.heights[start] + 6.9375 / 48.0, abs=1e-3)
