"""What holds a pipe where other things stand in its bay, worked by hand. Blocks are 2x4s laid flat: 1 1/2 by 3 1/2 in.

The main goes south in the bay from x 32.75 to 47.25, its axis at x 36, 3 1/4 from the first joist's face. At the exit's bend,
whose hub reaches back 4 9/16 in, a block's middle stands 1 3/4 farther: 72 - 6 5/16 = 65 11/16 from the closet, whose own bend
is carried. Half of that, 32 27/32, is where the support stands that is looked at here. Water tube of 1/2 in is 5/8 outside, with
its sleeve of 1/2 in 1 5/8: 13/16 to each side.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.plan.records import Beam, Plan, Supply
from engine.study import work_out
from engine.takeoff.records import Support
from engine.takeoff.supports import supports

Floor = Callable[..., Plan]
SLEEVE = 13 / 16
SIXTEENTH = 1 / 16
LOOP = math.pi * 1.75 + 4.0
"""Half round 3 in pipe, 3 1/2 outside, and two laps of 2 in."""


def tube(x: float, down: float, name: str = "c1", south: float = 50.0, north: float = 68.0) -> Supply:
    """Cold tube along the bay, past the place at y 59."""
    return Supply(name, "cold", ((x, south), (x, north)), down=down)


def beside(hand_floor: Floor, *lines: Supply, beams: tuple[Beam, ...] = ()) -> Support:
    """The support of the main at y 59.15625, where its axis is laid 6.375 down: its underside 8.125, its top 4.625.

    The exit lies 72 - 32.84375 = 39.15625 in farther, at 1/4 in a foot 0.81575 lower.
    """
    plan = replace(hand_floor(lavatory=False, pinned=-(6.375 + 39.15625 / 48.0)), supplies=lines, beams=beams)
    (found,) = (one for one in supports(work_out(plan)) if one.element == "d1" and one.along < 60.0)
    assert (found.along, found.at) == (32.84375, (36.0, 59.15625))
    return found


def test_a_block_lies_across_the_whole_bay_where_it_meets_nothing(hand_floor: Floor) -> None:
    found = beside(hand_floor)
    assert (found.kind, found.block, found.block_top, found.block_from) == ("block", 14.5, pytest.approx(8.125), "")


def test_a_tube_under_the_block_just_touches_it(hand_floor: Floor) -> None:
    # the block's underside lies 9 5/8 down: the sleeve's top there too, then a sixteenth higher
    touching = 9.625 + SLEEVE
    assert beside(hand_floor, tube(45.0, touching)).block == 14.5
    assert beside(hand_floor, tube(45.0, touching - SIXTEENTH)).block != 14.5


def test_a_short_block_stops_before_the_other_pipe(hand_floor: Floor) -> None:
    # from the first joist's face to the main's far side: 3 1/4 + 1 3/4
    found = beside(hand_floor, tube(45.0, 9.0))
    assert (found.kind, found.block, found.block_from, found.block_top) == ("block", 5.0, "f1.2", pytest.approx(8.125))
    assert found.remark.startswith("short block from joist 2, screwed through it")


def test_of_two_joists_the_nearer_holds_the_short_block(hand_floor: Floor) -> None:
    # off the second joist the way is 47.25 - 34.25 = 13 in: too long for a block held at one end
    found = beside(hand_floor, tube(33.75, 9.5), tube(45.0, 9.5, "c2"))
    assert (found.kind, found.block_from) == ("strap", "")


def test_between_two_tubes_the_pipe_hangs_from_a_block_over_it(hand_floor: Floor) -> None:
    found = beside(hand_floor, tube(33.75, 9.5), tube(45.0, 9.5, "c2"))
    # the block lies on the main's top, 4 5/8 down; its legs reach down to the axis, 1 3/4
    assert (found.block, found.block_top) == (14.5, pytest.approx(4.625 - 1.5))
    assert found.strap == pytest.approx(2 * 1.75 + LOOP)
    assert found.remark == "the block's underside 4 5/8 in over the joists' bottom edge"


def test_the_block_over_the_pipe_rises_over_what_lies_there(hand_floor: Floor) -> None:
    # a third tube 4 down: its sleeve's top is 3 3/16 down, and so is the block's underside then
    found = beside(hand_floor, tube(33.75, 9.5), tube(45.0, 9.5, "c2"), tube(45.0, 4.0, "c3"))
    assert found.block_top == pytest.approx(3.1875 - 1.5)
    assert found.strap == pytest.approx(2 * (6.375 - 3.1875) + LOOP)


def test_where_nothing_has_room_it_is_said_how_far_the_pipe_is_unheld(hand_floor: Floor) -> None:
    # on both sides of the main: between the sleeves at 3 and at 1 down are 3/8 in, over the upper one 3/16
    low, high = (tube(33.75, 9.5), tube(45.0, 9.5, "c2")), (tube(45.0, 3.0, "c3"), tube(45.0, 1.0, "c4"))
    found = beside(hand_floor, *low, *high, tube(33.75, 3.0, "c5"), tube(33.75, 1.0, "c6"))
    assert (found.kind, found.block, found.strap, found.mark) == ("nothing", None, None, "")
    # from the closet's bend to the block before the exit
    assert "held by nothing for 65 11/16 in" in found.remark


def girder(top: float | None = None) -> Beam:
    return Beam("b1", (0.0, 59.15625), (120.0, 59.15625), top_z=top)


@pytest.mark.parametrize(("top", "height"), [(None, 1.125), (-9.25 - SIXTEENTH, 1.125 + SIXTEENTH), (-14.125, 6.0)])
def test_over_a_dropped_girder_the_pipe_rests_on_a_packer(hand_floor: Floor, top: float | None, height: float) -> None:
    # under 2x10s the girder's top lies 9 1/4 down, the main's underside 8 1/8
    found = beside(hand_floor, beams=(girder(top),))
    if height == 6.0:
        # the block's underside, 9 5/8 down, clears a girder that deep
        assert (found.block, found.packer) == (14.5, None)
        return
    assert (found.kind, found.block, found.packer) == ("block", None, pytest.approx(height))
    assert found.remark.startswith("on the girder, on a packer")


def test_under_a_plumb_pipe_that_ends_low_the_strap_hangs_from_a_block_beside_it(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False, pinned=-14.0)
    plan = replace(plan, drains=(replace(plan.drains[0], passing="under"),))
    (found,) = (one for one in supports(work_out(plan)) if one.element == "wc1")
    # the bend's axis is 14 - 72/48 = 12.5 down, its hub 1.75 + 0.216 = 1.966 round it; the block lies flush with the joists'
    # bottom, its edge against the hub's side, so its middle 1.966 + 1.75 = 3.716 from the pipe
    assert (found.kind, found.block) == ("base", 14.5)
    assert found.block_aside == pytest.approx(3.716)
    assert found.strap == pytest.approx(2 * math.hypot(12.5 - 9.25, 3.716) + math.pi * 1.966 + 4.0)
    assert "3 11/16 in north of the pipe's" in found.remark


def hooks(hand_floor: Floor, *lines: Supply, element: str = "c1") -> Support:
    """The first hook of a tube."""
    plan = replace(hand_floor(lavatory=False), supplies=lines)
    return next(one for one in supports(work_out(plan)) if one.element == element and one.kind == "hook")


def test_a_strip_lies_under_the_tube(hand_floor: Floor) -> None:
    # in the bay from x 48.75 to 63.25: 7 1/4 from either joist; sleeved 13/16 round an axis 5 down
    found = hooks(hand_floor, tube(56.0, 5.0))
    assert (found.block, found.block_top, found.down) == (14.5, 5.0 + SLEEVE, 5.0)
    assert found.below == 5.0 - 9.25
    assert found.remark == "strip across the bay, flat under the tube, its top 5 13/16 in down"


def test_where_a_pipe_lies_under_it_the_strip_lies_over_the_tube(hand_floor: Floor) -> None:
    found = hooks(hand_floor, tube(56.0, 5.0), tube(52.0, 7.0, "c2"))
    assert (found.block, found.block_top) == (14.5, pytest.approx(5.0 - SLEEVE - 1.5))
    assert found.remark == "strip across the bay, flat over the tube, its underside 4 3/16 in down"


def test_between_pipes_a_short_strip_reaches_the_tube_from_one_joist(hand_floor: Floor) -> None:
    # tubes at x 52, one low and one high, keep the strip from the first joist; from the second it is 7 1/4 + 13/16 long
    found = hooks(hand_floor, tube(56.0, 5.0), tube(52.0, 7.0, "c2"), tube(52.0, 3.5, "c3"))
    assert (found.block, found.block_from, found.block_top) == (7.25 + SLEEVE, "f1.4", 5.0 + SLEEVE)
    assert found.remark == "short strip from joist 4, screwed through it, flat under the tube, its top 5 13/16 in down"


def test_two_strips_do_not_lie_in_one_place(hand_floor: Floor) -> None:
    # both tubes at one height and in one bay, so both first strips would lie at the same place along the joists
    plan = replace(hand_floor(lavatory=False), supplies=(tube(54.0, 5.0), tube(58.0, 5.0, "c2")))
    found = [one for one in supports(work_out(plan)) if one.kind == "hook" and one.along == pytest.approx(6.0)]
    assert [one.remark.split(", ")[1] for one in found] == ["flat under the tube", "flat over the tube"]


def test_every_thing_to_be_made_has_a_mark_of_its_own(hand_floor: Floor) -> None:
    found = supports(work_out(hand_floor()))
    marks = [one.mark for one in found if one.mark]
    assert marks == [f"S{n}" for n in range(1, len(marks) + 1)]
    assert {one.kind for one in found if not one.mark} == {"bored joist"}
