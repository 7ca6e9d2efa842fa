"""What holds an exit's height: junctions, wall hook-ups, floor outlets, drops and pipe under the joists (worked by hand).

On the hand floor water falls 1/4 in per foot: an inch of rise for 48 in of way. The branch from the lavatory's riser runs
27.25 in to a corner, 7 in diagonally (9.8995 in) to the main, and 42 in down the main to the exit. A 1-1/2 in pipe is
1.900 in wide outside and wants a 2-1/8 in bore, so in a 2x10 its axis lies between 2 + 1.0625 in from either edge:
-3.0625 and -6.1875.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.crossings.records import Bound, Window
from engine.plan.records import Drain, Plan
from engine.study import work_out

Floor = Callable[..., Plan]
DIAGONAL = 7.0 * math.sqrt(2.0)


def window_of(plan: Plan, reach: int = 0) -> Window:
    return work_out(plan).windows[reach]


def bound(window: Window, side: str, words: str) -> Bound:
    """The one limit of a side whose words hold these."""
    (found,) = (one for one in window.bounds if one.side == side and words in one.by)
    return found


@pytest.mark.parametrize(("joist", "past_corner"), [("f1.3", 5.0), ("f1.4", 21.0)])
def test_a_crossing_is_counted_through_the_junction_and_down_the_main(
    hand_floor: Floor, joist: str, past_corner: float
) -> None:
    window = window_of(hand_floor(pinned=None))
    rise = (42.0 + DIAGONAL + past_corner) / 48.0
    low, high = bound(window, "low", f"joist {joist}:"), bound(window, "high", f"joist {joist}:")
    assert low.z == pytest.approx(-6.1875 - rise)
    assert high.z == pytest.approx(-3.0625 - rise)


def test_a_wall_hook_up_holds_it_from_above(hand_floor: Floor) -> None:
    """Below the subfloor the riser's bend needs half its pipe; below the tee, 19 in up, it needs a tee's lower leg of
    1.75 in, two sockets of 0.6875 in and a long sweep's leg of 2.25 in (take-offs from memory)."""
    window = window_of(hand_floor(pinned=None))
    rise = (42.0 + DIAGONAL + 27.25) / 48.0
    assert bound(window, "high", "riser r1: its foot").z == pytest.approx(-0.95 - rise)
    tee = bound(window, "high", "riser r1: room")
    assert tee.z == pytest.approx(19.0 - 1.75 - 2.0 * 0.6875 - 2.25 - rise)


def test_a_floor_outlet_holds_it_from_both_sides(hand_floor: Floor) -> None:
    """A shower in the riser's place, its outlet 1.25 in over the joists: its weir, the arm's invert at the trap, is at most
    24 in below (IRC 2021 P3201.6), its 2 in pipe of 2.375 in stays below the subfloor."""
    plan = hand_floor(pinned=None)
    shower = replace(plan.fixtures[1], kind="shower", turn=270.0)
    bath = replace(plan, fixtures=(plan.fixtures[0], shower), risers=(), drains=(plan.drains[0], _sized(plan, "2")))
    model = work_out(bath)
    (window,) = model.windows
    rise = (42.0 + DIAGONAL + 27.25) / 48.0
    trap = next(trap for trap in model.network.traps if trap.fixture == "lav1")
    weir = bound(window, "low", "down to the trap's weir")
    assert weir.z == pytest.approx(1.25 - 24.0 + 2.049 / 2.0 + trap.weir / 48.0 - rise)
    assert bound(window, "high", "stays below the subfloor").z == pytest.approx(-2.375 / 2.0 - rise)


def test_how_deep_a_trap_may_hang_does_not_pull_the_exit_down(hand_floor: Floor) -> None:
    """A shower alone, its 2 in drain along a bay: between 22 in down and right under the subfloor it lies near the top.

    Its axis at the exit is 2.375 / 2 + 42 / 48 down at the highest, less 3/4 in of showing pipe, to a sixteenth: 2.8125.
    """
    plan = hand_floor(pinned=None)
    shower = replace(plan.fixtures[0], kind="shower", at=(36.0, 62.0))
    alone = replace(plan, fixtures=(shower,), risers=(), drains=(Drain("d1", ((36.0, 62.0), (36.0, 20.0)), size="2"),))
    window = window_of(alone)
    assert window.low is not None and window.low < -20.0
    assert window.high == pytest.approx(-2.375 / 2.0 - 42.0 / 48.0)
    assert window.chosen == math.floor((-2.0625 - 0.75) * 16.0) / 16.0 == -2.8125
    deep = window_of(replace(alone, exits=(replace(alone.exits[0], sewer_invert_z=-3.0),)))
    # the invert with half the bore, 2.067 / 2 or so, over it leaves no 3/4 in on either side: the middle then
    assert deep.low is not None and deep.high is not None and deep.high - deep.low < 1.5
    assert deep.chosen == pytest.approx((deep.low + deep.high) / 2.0)


def _sized(plan: Plan, size: str) -> Drain:
    return replace(plan.drains[1], size=size)


def square(plan: Plan, **how: object) -> Plan:
    """The lavatory's branch square to the main, 34.25 in long, joined by a drop."""
    branch = Drain("d2", ((70.25, 62.0), (36.0, 62.0)), size="1-1/2", join="drop", **how)  # type: ignore[arg-type]
    return replace(
        plan,
        drains=(plan.drains[0], branch),
        fixtures=(plan.fixtures[0], replace(plan.fixtures[1], at=(70.25, 62.0))),
        risers=(replace(plan.risers[0], at=(70.25, 62.0)),),
    )


def test_a_pinned_drop_lifts_what_is_upstream_of_it(hand_floor: Floor) -> None:
    """42 in of main, 4 in of drop, 12 in of branch to joist f1.3: it holds the exit 5.125 in below its own height."""
    window = window_of(square(hand_floor(pinned=None), rise=4.0))
    assert bound(window, "low", "joist f1.3:").z == pytest.approx(-6.1875 - 42.0 / 48.0 - 4.0 - 12.0 / 48.0)


def test_an_open_drop_needs_room_over_the_main(hand_floor: Floor) -> None:
    """Combination 3x3x1-1/2's branch 4.8373 in (assumed), two sockets of 0.6875 in, a long sweep's leg of 2.25 in: 8.4623 in.

    The branch's bore in joist f1.4, 28 in along, lies at -3.0625 at the highest; so the exit lies that much lower.
    """
    plan = square(hand_floor(pinned=None))
    exit_, branch = work_out(plan).windows
    room = 4.837310601229374 + 2.0 * 0.6875 + 2.25
    assert bound(branch, "low", "room for the fittings of its drop").z == pytest.approx(
        exit_.chosen + 42.0 / 48.0 + room
    )
    assert bound(branch, "high", "joist f1.4:").z == pytest.approx(-3.0625 - 28.0 / 48.0)
    assert bound(exit_, "high", "joist f1.4:").z == pytest.approx(-3.0625 - 28.0 / 48.0 - room - 42.0 / 48.0)
    assert not any(one.side == "low" and "joist" in one.by for one in exit_.bounds)


@pytest.mark.parametrize(("joist", "past_corner"), [("f1.3", 5.0), ("f1.4", 21.0)])
def test_pipe_under_the_joists_is_held_clear_of_them(hand_floor: Floor, joist: str, past_corner: float) -> None:
    """Its top, half of 1.900 in over its axis, is at a 2x10's bottom or lower: -9.25 - 0.95."""
    plan = hand_floor(pinned=None)
    window = window_of(replace(plan, drains=(plan.drains[0], replace(plan.drains[1], passing="under"))))
    rise = (42.0 + DIAGONAL + past_corner) / 48.0
    assert bound(window, "high", f"joist {joist}: pipe clear below it").z == pytest.approx(-10.2 - rise)
    assert not any(one.side == "low" and "joist" in one.by for one in window.bounds)


def test_an_exit_left_open_lies_low_enough_for_pipe_under_the_joists(hand_floor: Floor) -> None:
    """With nothing from below, the upper end less 3/4 in of showing pipe, down to a sixteenth: under the deeper of both."""
    plan = hand_floor(pinned=None)
    window = window_of(replace(plan, drains=(plan.drains[0], replace(plan.drains[1], passing="under"))))
    high = -10.2 - (42.0 + DIAGONAL + 21.0) / 48.0
    assert window.high == pytest.approx(high)
    assert window.chosen == math.floor((high - 0.75) * 16.0) / 16.0
