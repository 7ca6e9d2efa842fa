"""The assembly order from the dry fits on: stubs, the test, the roof, loops, and what cannot be done or judged."""

from __future__ import annotations

import doctest
from collections.abc import Callable

from msgspec.structs import replace

from engine.plan.file import read
from engine.plan.records import Fixture, Plan, Supply
from engine.study import work_out
from engine.takeoff.assembling import turning
from engine.takeoff.assembly import assembly
from tests.engine.checks.judged_plans import armed
from tests.engine.takeoff.ordered_steps import SAMPLES, mark_of, moved_riser, order_of, part_of, step_of, two_lavatories
from tests.engine.takeoff.site_moves import build

HandFloor = Callable[..., Plan]


def test_dry_fits_come_before_what_they_decide(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    steps = order_of(plan)
    tries = [step for step in steps if step.kind == "dry fit"]
    assert [step.dry for step in tries] == [
        (part_of(plan, "quarter_bend"), mark_of(plan, "wc1.drop")),
        (part_of(plan, "long_sweep_quarter_bend"), mark_of(plan, "r1.0")),
    ]
    for step in tries:
        glued = next(other for other in steps if step.dry[0] in other.parts)
        assert glued.number == step.number + 1
        assert step.bonds == ()


def test_a_street_bend_is_tried_in_its_hole(hand_floor: HandFloor) -> None:
    # flange stop +0.5, less 4.5625 to the street bend's tip and 1.5 of fall: the exit at -5.5625
    plan = hand_floor(lavatory=False, pinned=-5.5625)
    steps = order_of(plan)
    bend, flange = part_of(plan, "street_quarter_bend"), part_of(plan, "closet_flange_4x3")
    (tried,) = (step for step in steps if step.kind == "dry fit")
    assert tried.dry == (bend, flange)
    assert [step.kind for step in steps if flange in step.parts] == ["finish"]
    assert "the fitting below needs no cutting" in next(step for step in steps if flange in step.parts).text


def test_the_closets_stub_long_for_the_test_and_its_final_length(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    steps = order_of(plan)
    stub = mark_of(plan, "wc1.drop")
    # final 3.125; left 6 in long (common practice, no source)
    assert (
        "cut it 9 1/8 in now, 6 in more than its final 3 1/8 in, and cap it for the test" in step_of(steps, stub).text
    )
    (last,) = (step for step in steps if step.kind == "finish" and stub in step.onto)
    # the flange's stop lies 1/2 in under the finished floor, which lies 1/4 in over the subfloor: 1/4 in below it
    assert "to its final 3 1/8 in, so that it ends 1/4 in below the subfloor's top: a finish of 1/4 in" in last.text
    kinds = {part.kind for part in work_out(plan).joinery.parts if part.id in last.parts}
    assert kinds == {"closet_flange_4x3", "closet_bolts", "flange_screws", "closet_seal"}
    assert last.sizes == (3.0,)


def test_the_showers_stub_ends_in_the_pan() -> None:
    plan = read(next(path for path in SAMPLES if path.stem == "one-bath-cottage"))
    (last,) = (step for step in order_of(plan) if step.kind == "finish" and "sh1" in step.text)
    # pipe to z = 1.25, the subfloor's top at 0.75
    assert "so that it ends 1/2 in above the subfloor's top" in last.text


def test_the_vent_is_cut_once_the_roof_is_on(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    steps = order_of(plan)
    vent = mark_of(plan, "r1.1")
    assert "Leave it 6 in long (118 15/16 in): it is cut off once the roof is covered" in step_of(steps, vent).text
    (roof,) = (step for step in steps if step.kind == "roof")
    # top 133.0, covering 126 over the finished floor at 1.0: 133 - 127 = 6 (IRC 2021 P3103.1.1)
    assert f"cut {vent} off 6 in above the covering on its high side (IRC 2021 P3103.1.1)" in roof.text
    assert roof.parts == (part_of(plan, "vent_flashing"),)


def test_the_test_closes_what_the_list_has_caps_for(hand_floor: HandFloor) -> None:
    steps = order_of(hand_floor())
    (test,) = (step for step in steps if step.kind == "test")
    # IRC 2021 P2503.5.1: sources differ on the head
    for words in ("test cap 3 at the water closet", "test plug 1-1/2 at the lavatory", "test cap 3 at x1", "P2503.5.1"):
        assert words in test.text
    assert "No cap is on the list" not in test.text


def test_an_open_standpipe_is_told() -> None:
    plan = read(next(path for path in SAMPLES if path.stem == "cottage-with-kitchen"))
    (test,) = (step for step in order_of(plan) if step.kind == "test")
    assert f"No cap is on the list for the open end of {mark_of(plan, 'wm1.standpipe')}" in test.text


def test_what_shares_a_sinks_trap_is_fitted_once_with_the_sink() -> None:
    """Two bowls and a dishwasher: nothing of it is glued in before the finish, and nothing is fitted twice."""
    sink = armed("kitchen_sink", 12.0, bowls=2)
    washer = Fixture("f2", "dishwasher", (240.0, 270.0), through="f1")
    plan = replace(sink, rulebook="upc-2021", fixtures=(*sink.fixtures, washer))
    steps = order_of(plan)
    shared = {"continuous_waste", "branch_tailpiece", "hose_clamp", "air_gap_fitting"}
    parts = {part.id: part.kind for part in work_out(plan).joinery.parts if part.kind in shared}
    assert set(parts.values()) == shared
    fitted = [(part, step.kind) for step in steps for part in step.parts if part in parts]
    assert sorted(fitted) == sorted((part, "finish") for part in parts)
    (step,) = (step for step in steps if parts.keys() & set(step.parts))
    assert "(f1) stands: fit the tubular trap" in step.text


def test_the_valve_goes_on_after_the_test(hand_floor: HandFloor) -> None:
    plan = moved_riser(hand_floor(), 70.25, "valve")
    steps = order_of(plan)
    valve, adapter = part_of(plan, "admittance_valve"), part_of(plan, "aav_adapter")
    kinds = {item: step.kind for step in steps for item in step.parts}
    assert (kinds[adapter], kinds[valve]) == ("set", "untest")
    assert (
        "No cap is on the list for the air admittance valve adapter" in next(s for s in steps if s.kind == "test").text
    )


def test_a_vent_loop_is_closed_last() -> None:
    plan = two_lavatories()
    steps = order_of(plan)
    (last,) = (step for step in steps if step.kind == "close")
    assert last.pieces == (mark_of(plan, "v1.0"),)
    assert last.needs == (("repair_coupling", 1.5, 2),)
    # bend 1.375 and tee 1.75 off 29 x 1.000217 = 29.0063: 25.8813; make-up 2 x 0.6875 = 1.375; halves 12.2531
    assert "two halves of 12 1/4 in and a make-up length of 1 3/8 in" in last.text
    assert all(step.kind in ("test", "untest", "roof", "finish") for step in steps[last.number :])


def test_a_loop_with_no_room_for_couplings_says_so() -> None:
    # y 69 and y 64: 5.0011 - 1.375 - 1.75 = 1.8761 cut, 0.5011 showing, where 6 x 0.6875 = 4.125 is asked; every
    # other piece of the ring goes through the floor or is bored, or shows less
    plan = two_lavatories(vent_at=24.0)
    short = replace(
        plan,
        fixtures=(plan.fixtures[0], replace(plan.fixtures[1], at=(70.25, 64.0))),
        drains=(
            replace(plan.drains[0], points=((36.0, 92.0), (36.0, 62.0), (36.0, 57.0), (36.0, 20.0))),
            plan.drains[1],
            replace(plan.drains[2], points=((70.25, 64.0), (43.0, 64.0), (36.0, 57.0))),
        ),
        vents=(replace(plan.vents[0], points=((70.25, 64.0), (70.25, 69.0))),),
        risers=(plan.risers[0], replace(plan.risers[1], at=(70.25, 64.0))),
    )
    model = work_out(short)
    steps = assembly(model)
    ring = [step for step in steps if step.kind == "stuck" and "closes a ring" in step.text]
    assert len(ring) == 1
    assert "4 1/8 in that two repair couplings ask for" in ring[0].text


def test_a_piece_without_room_is_not_passed_over(hand_floor: HandFloor) -> None:
    # 6 in between the bend's and the wye's centres: 6.0013 - 3.0625 - 3.125 = -0.1862, under the 3 in of two sockets
    plan = hand_floor()
    near = replace(
        plan, drains=(replace(plan.drains[0], points=((36.0, 68.0), (36.0, 62.0), (36.0, 20.0))), plan.drains[1])
    )
    near = replace(near, fixtures=(replace(near.fixtures[0], at=(36.0, 68.0)), near.fixtures[1]))
    model = work_out(near)
    steps = assembly(model)
    build(model, steps)
    stuck = [step for step in steps if step.kind == "stuck"]
    assert [step.pieces for step in stuck] == [(mark_of(near, "d1.0"),)]
    assert "its two hubs reach 3 in over a pipe of -3/16 in" in stuck[0].text


def test_what_no_joint_ties_in_starts_apart() -> None:
    plan = read(next(path for path in SAMPLES if path.stem == "cottage-with-mistakes"))
    starts = [step.text for step in order_of(plan) if step.kind == "start"]
    assert sum(text.startswith("Start at the exit") for text in starts) == 2
    assert all(text.startswith(("Start at the exit", "Start apart: no joint")) for text in starts)


def test_studs_are_not_judged() -> None:
    plan = two_lavatories()
    (last,) = (step for step in order_of(plan) if step.kind == "close")
    assert "studs are not drawn" in last.text.lower()


def test_water_is_no_part_of_it(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    tube = Supply(id="c1", water="cold", points=((4.0, 10.0), (64.0, 10.0), (64.0, 64.0)), down=3.0)
    assert [step.kind for step in order_of(replace(plan, supplies=(tube,)))] == [step.kind for step in order_of(plan)]


def test_an_empty_floor_has_no_steps(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    assert order_of(replace(plan, fixtures=(), drains=(), risers=(), exits=())) == ()


def test_the_examples_of_the_dial() -> None:
    found = doctest.testmod(turning)
    assert found.attempted == 1
    assert found.failed == 0
