"""What sets the height of a pipe, between which limits, and where a hand that moves it feels a stop."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings

from engine.plan.edits import EditError
from engine.plan.records import Plan, Supply, Vent
from engine.study import work_out
from engine.takeoff.levers import HANGS, Lever, let_go, lever, put, sticking
from engine.takeoff.long_section import long_section
from tests.engine import coarse_plans
from tests.engine.checks.island_plans import island

Floor = Callable[..., Plan]


def of(plan: Plan, element, number: int = -1) -> Lever:
    model = work_out(plan)
    section = long_section(model, element)
    assert section is not None
    found = lever(model, section, section.legs[number])
    assert isinstance(found, Lever), found
    return found


def dropping(plan: Plan, rise: float | None = None) -> Plan:
    drains = (plan.drains[0], msgspec.structs.replace(plan.drains[1], join="drop", rise=rise))
    return msgspec.structs.replace(plan, drains=drains)


def test_a_flat_line_hangs_on_its_exit(hand_floor: Floor) -> None:
    plan = hand_floor()
    for number in (0, 1, 2):
        held = of(plan, plan.drains[1], number)
        assert (held.field, held.elements, held.pinned, held.z) == ("pinned_z", ("x1",), True, -7.1875)
    # the window worked by hand: low -7.3729, high -7.0625
    assert (held.low, held.high) == (pytest.approx(-7.3729, abs=5e-5), pytest.approx(-7.0625))
    # a street bend suits at -5.5625 besides; the window's ends go inward to sixteenths, -7 5/16 and -7 1/16
    assert held.stops == (-7.3125, -7.0625)
    assert held.others == ((-5.5625, "a street bend in the flange of wc1"),)
    moved = put(plan, held, -7.25)
    assert moved.exits[0].pinned_z == -7.25
    assert let_go(moved, held).exits[0].pinned_z is None


def test_a_hand_feels_the_limits_and_else_the_tape(hand_floor: Floor) -> None:
    plan = hand_floor()
    held = of(plan, plan.drains[1])
    assert sticking(held, -7.2, 0.2) == -7.1875
    assert sticking(held, -7.07, 0.2) == -7.0625
    assert sticking(held, -6.9, 0.2) == -7.0625, "past a limit it holds there"
    assert sticking(held, -6.8, 0.2) == -6.8125, "pulled on, it lets go"
    assert sticking(held, -7.5, 0.2) == -7.3125
    assert sticking(held, -5.65, 0.2) == -5.5625, "a street bend's height"


def lever_between(low: float, high: float, **fields) -> Lever:
    known = {"pipes": (), "others": (), "z": -6.0, **fields}
    z, pipes, others = known["z"], known["pipes"], known["others"]
    return Lever("pinned_z", ("x1",), "exit x1", False, pipes, 0.0, z, 0.0, 1.0, low, high, "a", "b", others=others)


def test_a_single_height_between_two_marks_can_be_met() -> None:
    held = lever_between(-6.03, -6.01)
    assert held.stops == (-6.03, -6.01), "no sixteenth lies between them"
    assert sticking(held, -5.9, 0.2) == -6.01
    assert sticking(held, -6.1, 0.2) == -6.03
    one = lever_between(-7.6, -7.2, others=((-5.73, "a street bend"),), z=-5.0)
    assert sticking(one, -5.75, 0.2) == -5.73
    bent = msgspec.structs.replace(one, z=-5.73)
    assert (bent.past, bent.by_other, one.by_other) == (0.0, "a street bend", "")
    assert one.past == pytest.approx(2.2)
    assert msgspec.structs.replace(one, z=-8.0).past == pytest.approx(-0.4)


def test_limits_that_exclude_each_other_hold_nothing() -> None:
    held = lever_between(-5.0, -6.0)
    assert held.empty
    assert sticking(held, -5.95, 0.2) == -5.9375


def test_a_drop_has_a_height_of_its_own(hand_floor: Floor) -> None:
    """Left open it has a window: room for its fittings over the main below, the joists it crosses above."""
    plan = dropping(hand_floor())
    held = of(plan, plan.drains[1])
    assert (held.field, held.elements, held.pinned) == ("rise", ("d2",), False)
    assert held.zero == pytest.approx(-6.3125), "it counts from the main's axis"
    window = work_out(plan).windows[1]
    assert (held.low, held.high, held.z) == (window.low, window.high, window.chosen)
    assert of(plan, plan.drains[1], 0).field == "pinned_z", "the main still hangs on the exit"
    moved = put(plan, held, held.on_tape(held.z))
    assert moved.drains[1].rise == pytest.approx(round(moved.drains[1].rise * 16) / 16)


def test_a_pinned_drop_keeps_its_limits(hand_floor: Floor) -> None:
    """What bounds the climb does not change because somebody wrote it down."""
    loose = of(dropping(hand_floor()), dropping(hand_floor()).drains[1])
    plan = dropping(hand_floor(), rise=6.0)
    held = of(plan, plan.drains[1])
    assert held.pinned
    assert held.value(held.z) == pytest.approx(6.0)
    assert (held.low, held.high) == (pytest.approx(loose.low), pytest.approx(loose.high))
    assert let_go(plan, held).drains[1].rise is None


def test_runs_that_share_a_drop_move_together(hand_floor: Floor) -> None:
    plan = dropping(hand_floor(), rise=6.0)
    twin = msgspec.structs.replace(plan.drains[1], id="d3", points=((8.0, 62.0), (36.0, 62.0)))
    plan = msgspec.structs.replace(plan, drains=(*plan.drains, twin))
    held = of(plan, plan.drains[1])
    assert sorted(held.elements) == ["d2", "d3"]
    moved = put(plan, held, held.zero + 7.0)
    assert [run.rise for run in moved.drains] == [None, 7.0, 7.0]


def test_a_water_line_hangs_by_itself(hand_floor: Floor) -> None:
    tube = Supply(id="c1", water="cold", points=((50.0, 40.0), (76.0, 40.0)), insulation=0.0)
    plan = msgspec.structs.replace(hand_floor(), supplies=(tube,))
    held = of(plan, tube)
    # mid-joist; a 7/8 in bit for the 5/8 in tube, 2 in of wood each side: 2.4375 to 9.25 - 2.4375 down
    assert (held.field, held.z, held.pinned) == ("down", -4.625, False)
    assert (held.high, held.low) == (pytest.approx(-2.4375), pytest.approx(-6.8125))
    moved = put(plan, held, -5.0)
    assert moved.supplies[0].down == 5.0
    with pytest.raises(EditError):
        put(plan, held, 1.0)


def test_a_foot_vent_hangs_where_the_floor_lets_it() -> None:
    plan = island()
    model = work_out(plan)
    said = []
    for vent in plan.vents:
        section = long_section(model, vent) if isinstance(vent, Vent) and vent.above_floor is None else None
        if section is not None:
            foot = [leg for leg in section.legs if leg.shape == "plumb"]
            said += [lever(model, section, leg) for leg in (*foot, section.legs[-1])]
            below = lever(model, section, section.legs[0])
            assert isinstance(below, Lever)
            assert below.field == "pinned_z", "the drain under it hangs on the exit"
    assert said == [HANGS] * len(said)
    assert said


@given(coarse_plans.plans())
@settings(deadline=None, max_examples=50, suppress_health_check=[HealthCheck.too_slow])
def test_any_leg_of_any_plan_has_a_lever_or_a_reason(plan: Plan) -> None:
    model = work_out(plan)
    for one in (*plan.drains, *plan.exits, *plan.supplies, *plan.vents):
        section = long_section(model, one)
        for leg in section.legs if section is not None else ():
            held = lever(model, section, leg)
            if isinstance(held, str):
                assert held == HANGS
                continue
            assert held.z == pytest.approx(held.z_of(held.value(held.z)))
            if not held.empty:
                for stop in (*(z for z, _ in held.others), *(end for end in held.stops if end is not None)):
                    assert msgspec.structs.replace(held, z=stop).past == 0.0, "at a stop nothing is broken"
