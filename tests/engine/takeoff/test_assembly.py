"""The assembly order: against sums and sequences worked by hand, and every step against a builder's hands.

Take-offs as in the floor worked by hand: quarter bend 3 in 3.0625 and eighth bend 1-1/2 in 1.125 (from memory of
ASTM D3311), long sweep 1-1/2 in 2.25 (from memory), wye 3x3x1-1/2 assumed by geometry. Socket depths 11/16 in
(from memory) and 1-1/2 in (Modern Plumbing, DWV installation chapter).
"""

from __future__ import annotations

import doctest
import math
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace

from engine.plan.file import read
from engine.plan.records import Drain, Exit, Fixture, Floor, JoistField, Plan, Riser, Supply, Vent, Wall
from engine.study import work_out
from engine.takeoff.assembling import turning
from engine.takeoff.assembling.joints import Joints
from engine.takeoff.assembling.phases import waiting
from engine.takeoff.assembling.rows import Laid, Row, Wood, rows
from engine.takeoff.assembling.sliding import slides
from engine.takeoff.assembling.tree import order
from engine.takeoff.assembly import Step, assembly
from tests.engine.takeoff.site_moves import build
from tests.engine.takeoff.small_baths import small_baths

HandFloor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).parents[3] / "samples").glob("*.jway"))


def order_of(plan: Plan) -> tuple[Step, ...]:
    """The steps of a plan, each of them done by hands that refuse what cannot be done."""
    model = work_out(plan)
    steps = assembly(model)
    build(model, steps)
    return steps


def step_of(steps: tuple[Step, ...], item: str) -> Step:
    """The step that puts a piece in place."""
    return next(step for step in steps if item in step.pieces)


def mark_of(plan: Plan, pipe: str, which: int = 0) -> str:
    """The mark of a piece of one pipe."""
    return [piece.mark for piece in work_out(plan).joinery.pieces if pipe in piece.pipes][which]


def part_of(plan: Plan, kind: str) -> str:
    """The id of the first part of a kind."""
    return next(part.id for part in work_out(plan).joinery.parts if part.kind == kind)


def two_lavatories(vent_at: float = 44.0) -> Plan:
    """Lavatories at y 69 and y 40 on one partition, their vents tied by a level pipe 29 in long: a ring."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))),
        fields=(JoistField(id="f1", corner=(0.0, 0.0), size=(120.0, 108.0), lumber="2x10", first=16.0),),
        walls=(Wall(id="p1", start=(70.25, 0.0), end=(70.25, 108.0)),),
        fixtures=(
            Fixture(id="lav1", kind="lavatory", at=(70.25, 69.0), turn=180.0),
            Fixture(id="lav2", kind="lavatory", at=(70.25, 40.0), turn=180.0),
        ),
        drains=(
            Drain(id="d1", points=((36.0, 92.0), (36.0, 62.0), (36.0, 33.0), (36.0, 20.0)), size="3"),
            Drain(id="d2", points=((70.25, 69.0), (43.0, 69.0), (36.0, 62.0)), size="1-1/2"),
            Drain(id="d3", points=((70.25, 40.0), (43.0, 40.0), (36.0, 33.0)), size="1-1/2"),
        ),
        vents=(Vent(id="v1", points=((70.25, 40.0), (70.25, 69.0)), above_floor=vent_at),),
        risers=(Riser(id="r1", at=(70.25, 69.0)), Riser(id="r2", at=(70.25, 40.0), top="none")),
        exits=(Exit(id="x1", at=(36.0, 20.0), pinned_z=-7.1875),),
    )


def moved_riser(plan: Plan, x: float, top: str = "roof") -> Plan:
    """The lavatory of the floor worked by hand, with its riser and its wall further east or west."""
    return replace(
        plan,
        walls=(plan.walls[0], replace(plan.walls[1], start=(x, 0.0), end=(x, 108.0))),
        fixtures=(plan.fixtures[0], replace(plan.fixtures[1], at=(x, 69.0))),
        drains=(plan.drains[0], replace(plan.drains[1], points=((x, 69.0), (43.0, 69.0), (36.0, 62.0)))),
        risers=(replace(plan.risers[0], at=(x, 69.0), top=top),),
    )


@pytest.mark.parametrize("path", SAMPLES, ids=[path.stem for path in SAMPLES])
def test_every_step_of_the_samples_can_be_done(path: Path) -> None:
    steps = order_of(read(path))
    assert [step.text for step in steps if step.kind == "stuck"] == []


def test_there_are_three_samples() -> None:
    assert len(SAMPLES) == 3


@pytest.mark.parametrize("lavatory", [True, False])
@pytest.mark.parametrize("lumber", ["2x8", "2x10", "2x12"])
def test_every_step_of_the_floor_worked_by_hand_can_be_done(hand_floor: HandFloor, lumber: str, lavatory: bool) -> None:
    order_of(hand_floor(lumber, lavatory=lavatory))


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(small_baths())
def test_every_step_of_any_small_floor_can_be_done(plan: Plan) -> None:
    steps = order_of(plan)
    faults = [fault.rule for fault in work_out(plan).joinery.faults]
    stuck = [step.text for step in steps if step.kind == "stuck"]
    assert len(stuck) <= faults.count("no-room"), "only pieces without room cannot be put in"


def test_hands_refuse_steps_in_the_wrong_order(hand_floor: HandFloor) -> None:
    model = work_out(hand_floor())
    steps = list(assembly(model))
    for first in range(len(steps) - 1):
        if set(steps[first + 1].onto) & {*steps[first].parts, *steps[first].pieces}:
            swapped = steps.copy()
            swapped[first], swapped[first + 1] = steps[first + 1], steps[first]
            numbered = tuple(replace(step, number=n) for n, step in enumerate(swapped, 1))
            with pytest.raises(AssertionError):
                build(model, numbered)


def test_hands_refuse_a_piece_between_two_glued_hubs() -> None:
    model = work_out(two_lavatories())
    forced = tuple(replace(step, kind="set") if step.kind == "close" else step for step in assembly(model))
    with pytest.raises(AssertionError, match="captive"):
        build(model, forced)


def test_hands_refuse_to_thread_a_piece_after_its_hub_is_set(hand_floor: HandFloor) -> None:
    model = work_out(moved_riser(hand_floor(), 115.5))
    without = [step for step in assembly(model) if step.kind != "thread"]
    with pytest.raises(AssertionError, match="cannot be slid in"):
        build(model, tuple(replace(step, number=n) for n, step in enumerate(without, 1)))


def test_the_order_from_the_exit_upstream(hand_floor: HandFloor) -> None:
    # exit tail and bend, main to the wye, main to the closet; closet's bend tried under its stub; then the
    # lavatory's branch from the wye on, piece by piece; its riser; the vent last; then test, roof and fixtures
    plan = hand_floor()
    steps = order_of(plan)
    pipes = {piece.mark: piece.pipes[0] for piece in work_out(plan).joinery.pieces}
    said = [(step.kind, tuple(pipes[mark] for mark in step.pieces)) for step in steps]
    assert said == [
        ("start", ("x1.tail",)),
        ("set", ("d1.1",)),
        ("set", ("d1.0",)),
        ("dry fit", ()),
        ("set", ()),
        ("set", ("wc1.drop",)),
        ("set", ("d2.1",)),
        ("set", ("d2.0",)),
        ("set", ("d2.0",)),
        ("dry fit", ()),
        ("set", ()),
        ("set", ("r1.0",)),
        ("set", ("r1.1",)),
        ("test", ()),
        ("untest", ()),
        ("roof", ()),
        ("finish", ()),
        ("finish", ()),
    ]
    # 7 joints of 3 in and 10 of 1-1/2 in: wye 1, eighth 2, coupling 2, sweep 2, tee 3; wye 2, bends 4, flange 1
    sizes = [size for step in steps for size in step.sizes]
    assert (sizes.count(3.0), sizes.count(1.5)) == (7, 10)


def test_where_it_starts(hand_floor: HandFloor) -> None:
    first = order_of(hand_floor())[0]
    assert first.text.startswith("Start at the exit x1, its axis there 7 3/16 in below the joists' top. Take D1")


def test_the_wyes_branch_on_the_clock(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    (turn,) = step_of(order_of(plan), mark_of(plan, "d1.1")).rotations
    # main and branch both rise 1/48 away from the wye; 45 degrees off it, the main's own plane gives the branch
    # cos 45 of that: the rest takes a roll of sin r = (1 - cos 45) / (48 sin 45) = 0.008629, r = 0.494 degrees
    roll = math.degrees(math.asin((1 - math.cos(math.pi / 4)) / (48 * math.sin(math.pi / 4))))
    assert roll == pytest.approx(0.494, abs=5e-4)
    assert turn.degrees == pytest.approx(90.0 - roll, abs=1e-3)
    assert turn.roll == pytest.approx(-roll, abs=1e-3)
    assert (turn.words, turn.looking, turn.leg) == ("3 o'clock", "looking upstream", "branch")
    # round 3.5 in pipe: pi x 3.5 x 89.506 / 360 = 2.734
    assert turn.mark == pytest.approx(math.pi * 3.5 * (90.0 - roll) / 360.0, abs=1e-4)
    assert "its line 2 3/4 in clockwise from the pipe's top" in step_of(order_of(plan), mark_of(plan, "d1.1")).text


def test_a_square_branch_rolls_by_the_whole_grade() -> None:
    # the combination at (20, 24): sin r = 1/48, r = 1.194; the branch leaves eastward from a main that runs north
    kitchen = read(next(path for path in SAMPLES if path.stem == "cottage-with-kitchen"))
    (turn,) = step_of(order_of(kitchen), mark_of(kitchen, "d1.3")).rotations
    assert turn.degrees == pytest.approx(90.0 - math.degrees(math.asin(1 / 48)), abs=2e-3)


def test_plumb_joints_turn_by_the_compass(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    (turn,) = step_of(order_of(plan), mark_of(plan, "r1.0")).rotations
    assert (turn.words, turn.looking, turn.degrees) == ("to the west", "seen from above", 270.0)
    # a quarter turn back from north on 1.9 in pipe: pi x 1.9 / 4 = 1.492
    assert turn.mark == pytest.approx(-math.pi * 1.9 / 4, abs=1e-9)


def test_a_sweep_looks_up(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    sweep = part_of(plan, "long_sweep_quarter_bend")
    step = next(step for step in order_of(plan) if sweep in step.parts)
    assert step.clock == pytest.approx(0.0, abs=1e-9)
    assert "upper hub at 12 o'clock, looking upstream" in step.text


def test_check_points_with_the_level(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    steps = order_of(plan)
    for pipe, which, cut, down in (
        ("d1.1", 0, 38.6966, 6.3125),
        ("d1.0", 0, 23.8190, 5.6875),
        ("d2.1", 0, 5.3391, 6.1063),
        ("d2.0", 0, 11.9406, 5.5386),
        ("d2.0", 1, 11.8153, 5.8354),
    ):
        mark = mark_of(plan, pipe, which)
        (check,) = step_of(steps, mark).checks
        assert check.piece == mark
        assert check.slope == pytest.approx(0.25)
        assert check.over == pytest.approx(cut, abs=5e-5)
        # along the slope a piece rises 1 in 48.0104 of its own length: sqrt(48 x 48 + 1)
        assert check.rise == pytest.approx(cut / math.hypot(48.0, 1.0), abs=1e-5)
        assert check.down == pytest.approx(down, abs=5e-4)
    # 38.6966 / 48.0104 = 0.806, printed 13/16
    text = step_of(steps, mark_of(plan, "d1.1")).text
    assert "the level shows 1/4 in per ft, its upper end 13/16 in higher over its 38 11/16 in" in text


def test_which_bay_a_piece_is_slid_from(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    steps = order_of(plan)
    # the lower piece passes joist 3 (x 48) and lies first between joists 3 and 4; the upper passes joist 4 (x 64)
    for which, through, bay in ((1, "f1.3", ("f1.3", "f1.4")), (0, "f1.4", ("f1.4", "f1.5"))):
        (slide,) = step_of(steps, mark_of(plan, "d2.0", which)).slides
        assert (slide.through, slide.bay, slide.way, slide.past) == ((through,), bay, "west", 0.0)
    text = step_of(steps, mark_of(plan, "d2.0", 1)).text
    assert (
        "in the bay between joist 3 and joist 4, slide it west through joist 3, and glue it into the upper hub" in text
    )


def test_what_must_be_threaded_before_anything_is_glued(hand_floor: HandFloor) -> None:
    # riser at x 115.5: beyond joist 7 (face at 112.75) the bay ends at 118.5, 5.75 clear, and no piece is that
    # short. The last one is threaded from the bay below and pushed up to the end joist: its end lies 2.25 / 1.000217
    # short of the riser, so 118.5 - 113.2505 = 5.2495 past its place; the others follow it, 1/8 apart no more
    plan = moved_riser(hand_floor(), 115.5)
    steps = order_of(plan)
    threads = [step for step in steps if step.kind == "thread"]
    assert [step.number for step in threads] == [1, 2, 3, 4]
    assert [step.slides[0].through for step in threads] == [("f1.7",), ("f1.6",), ("f1.5",), ("f1.4",)]
    assert [step.slides[0].bay for step in threads] == [
        ("f1.6", "f1.7"),
        ("f1.5", "f1.6"),
        ("f1.4", "f1.5"),
        ("f1.3", "f1.4"),
    ]
    first = threads[0].slides[0]
    assert (first.way, first.past) == ("east", pytest.approx(5.2495, abs=2e-4))
    for before, after in pairwise(threads):
        assert after.slides[0].past == pytest.approx(before.slides[0].past + 0.125, abs=1e-3)
    assert "Pull" in step_of(steps, threads[0].dry[0]).text


def test_how_far_a_threaded_piece_must_be_pushed_past_its_place(hand_floor: HandFloor) -> None:
    # into the eighth bend's hub, whose fitting is pushed on along another line: one socket, 0.6875 (the branch turns
    # 45 degrees there, 0.707 of the move lies in line, so two are kept); into couplings, pushed on in line: two
    model = work_out(moved_riser(hand_floor(), 115.5))
    joints = Joints(model.joinery)
    placings = order(model, joints, waiting(joints)).placings
    (row,) = (row for row in rows(model, joints, placings) if len(row.laid) == 5)
    assert [laid.need for laid in row.laid] == [pytest.approx(2 * 0.6875)] * 5
    # the closet's main hangs square on nothing: the branch of a combination is pushed on across its own line
    kitchen = work_out(read(next(path for path in SAMPLES if path.stem == "cottage-with-kitchen")))
    joints = Joints(kitchen.joinery)
    placings = order(kitchen, joints, waiting(joints)).placings
    needs = [row.laid[0].need for row in rows(kitchen, joints, placings) if len(row.laid) == 7]
    assert needs == [pytest.approx(0.75)]


def a_row(room: float) -> Row:
    """A piece 14 in long through one joist; 14.5 clear on the side of its hub, `room` clear past its end."""
    (piece, *_) = work_out(two_lavatories()).joinery.pieces
    laid = Laid(piece, 10.0, 24.0, 0.6875, 1.375, False)
    wood = (
        Wood(-1.5, 0.0, "a", False, True),
        Wood(14.5, 16.0, "b", True, True),
        Wood(24.0 + room, 25.5 + room, "c", False, True),
    )
    return Row((1.0, 0.0), (laid,), wood)


def test_a_piece_with_too_little_room_past_its_place_is_stuck() -> None:
    # 24 + 1.375 - 16 = 9.375 clear beyond the bore: never 14; threaded early it needs 1.375 past its place
    found = slides([a_row(1.375)])
    assert next(iter(found.early.values())).past == pytest.approx(1.375)
    assert (found.stuck, found.later) == ({}, {})
    found = slides([a_row(1.3125)])
    assert (found.early, found.later) == ({}, {})
    (why,) = found.stuck.values()
    assert "pushed only 1 5/16 in past its place, where 1 3/8 in are needed to set the hub" in why


def test_a_piece_longer_than_every_bay_is_stuck() -> None:
    row = a_row(5.0)
    (laid,) = row.laid
    long = Laid(laid.piece, 8.0, 24.0, laid.hub, laid.need, False)
    (why,) = slides([Row(row.along, (long,), row.wood)]).stuck.values()
    # clear are 14.5 before the bore and 13 beyond it
    assert why == "it is 16 in long in plan, and the longest clear stretch on its line is 14 1/2 in"


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
    assert "to its final 3 1/8 in, so that it ends 1/4 in below the subfloor's top (a finish of 1/4 in" in last.text
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
