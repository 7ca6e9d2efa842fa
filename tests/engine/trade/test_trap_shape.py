"""The shape of a cemented P-trap."""

import pytest

from engine.plan.records import MeasuredTakeOff
from engine.trade import pipe, traps


def test_a_two_inch_trap() -> None:
    """Worked by hand: R = 2.3125; 3R = 6.9375; 2R + 2.375/2 = 5.8125; seal 2R - 2.049 = 2.576."""
    shape = traps.trap(2.0)
    assert (shape.inlet_below_arm, shape.inlet_to_outlet, shape.lowest_below_arm) == (2.3125, 6.9375, 5.8125)
    assert shape.seal == pytest.approx(2.576)
    assert shape.standing == "assumed"
    assert shape.tolerance > 0


def test_a_trap_too_shallow_for_its_seal_hangs_lower() -> None:
    """Worked by hand, 1-1/2: 2 x 1.75 + 0.95 = 4.45 < 1.5 x 1.592 + 2 + 0.145 = 4.533, the least belly for a 2 in seal."""
    shape = traps.trap(1.5)
    assert shape.lowest_below_arm == pytest.approx(4.533)
    assert shape.seal == 2.0


@pytest.mark.parametrize(("size", "floor"), [(1.5, 4.53), (2.0, 5.23), (3.0, 6.78)])
def test_no_belly_is_higher_than_a_two_inch_seal_allows(size: float, floor: float) -> None:
    """IRC P3201.2: seal 2 to 4. Worked by hand: 1.5 bores + 2 + wall under the arm's axis."""
    shape = traps.trap(size)
    assert shape.lowest_below_arm >= floor
    assert 2.0 <= shape.seal <= 4.0


@pytest.mark.parametrize("size", pipe.DRAIN_SIZES)
def test_shapes_hang_together(size: float) -> None:
    shape = traps.trap(size)
    assert shape.inlet_to_outlet == pytest.approx(3 * shape.inlet_below_arm)
    assert shape.lowest_below_arm >= shape.inlet_below_arm + pipe.drain(size).od / 2


def test_a_measured_trap() -> None:
    """The inlet's stop is measured from the arm's axis up, so under it the take-off is negative."""
    own = (MeasuredTakeOff("p_trap", "2", "run_in", -1.5), MeasuredTakeOff("p_trap", "2", "run_out", 7.5))
    shape = traps.trap(2.0, own)
    assert (shape.inlet_below_arm, shape.inlet_to_outlet, shape.standing) == (1.5, 7.5, "measured")
    half = traps.trap(2.0, own[:1])
    assert half.standing == "assumed"
    assert half.inlet_below_arm == 1.5


def test_the_lowest_point_is_printed_away_from_the_joist() -> None:
    assert traps.lowest_printed(traps.trap(1.5)) == 4.5625
