"""The assembly order: against sums and sequences worked by hand, and every step against a builder's hands.

Take-offs as in the floor worked by hand: quarter bend 3 in 3.0625 and eighth bend 1-1/2 in 1.125 (from memory of
ASTM D3311), long sweep 1-1/2 in 2.25 (from memory), wye 3x3x1-1/2 assumed by geometry. Socket depths 11/16 in
(from memory) and 1-1/2 in (Modern Plumbing, DWV installation chapter).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace

from engine.plan.file import read
from engine.plan.records import Plan
from engine.study import work_out
from engine.takeoff.assembling.joints import Joints
from engine.takeoff.assembling.phases import waiting
from engine.takeoff.assembling.rows import Laid, Row, Wood, rows
from engine.takeoff.assembling.sliding import slides
from engine.takeoff.assembling.tree import order
from engine.takeoff.assembly import assembly
from tests.engine.takeoff.ordered_steps import SAMPLES, mark_of, moved_riser, order_of, part_of, step_of, two_lavatories
from tests.engine.takeoff.site_moves import build
from tests.engine.takeoff.small_baths import small_baths

HandFloor = Callable[..., Plan]


@pytest.mark.parametrize("path", SAMPLES, ids=[path.stem for path in SAMPLES])
def test_every_step_of_the_samples_can_be_done(path: Path) -> None:
    steps = order_of(read(path))
    assert [step.text for step in steps if step.kind == "stuck"] == []


def test_there_are_samples() -> None:
    assert len(SAMPLES) == 4


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
    # the centre at its upper end by hand, and how far short of that the pipe stops: a coupling's half, a quarter bend's
    # 3-1/16, an eighth bend's 1-1/8, a long sweep's 2-1/4
    for pipe, which, cut, centre, stop in (
        ("d1.1", 0, 38.6966, 6.3125, 0.25),
        ("d1.0", 0, 23.8190, 5.6875, 3.0625),
        ("d2.1", 0, 5.3391, 6.1063, 1.125),
        ("d2.0", 0, 11.9406, 5.5386, 2.25),
        ("d2.0", 1, 11.8153, 5.8341, 0.0625),
    ):
        mark = mark_of(plan, pipe, which)
        (check,) = step_of(steps, mark).checks
        assert check.piece == mark
        assert check.slope == pytest.approx(0.25)
        assert check.over == pytest.approx(cut, abs=5e-5)
        # along the slope a piece rises 1 in 48.0104 of its own length: sqrt(48 x 48 + 1)
        assert check.rise == pytest.approx(cut / math.hypot(48.0, 1.0), abs=1e-5)
        assert check.down == pytest.approx(centre + stop / math.hypot(48.0, 1.0), abs=5e-4)
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
