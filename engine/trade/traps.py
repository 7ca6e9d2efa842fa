"""The shape of a cemented P-trap, which nobody prints and everything under a shower hangs on."""

from __future__ import annotations

from collections.abc import Sequence

from engine.lengths import up
from engine.plan.records import MeasuredTakeOff, Record
from engine.trade import pipe
from engine.trade.catalogue import Standing
from engine.trade.facts import table
from engine.trade.fittings import takeoff


class TrapShape(Record, frozen=True, gc=False):
    """A trap seen from the side, inches from the axis of its arm.

    `inlet_below_arm` is how far the inlet's pipe stop lies under the arm's axis, `inlet_to_outlet` runs from
    the inlet's axis to the outlet's pipe stop, where the weir is taken to lie. `lowest_below_arm` is the lowest
    outside point of the belly. `seal` is the water's depth between weir and dip.
    """

    size: float
    inlet_below_arm: float
    inlet_to_outlet: float
    lowest_below_arm: float
    seal: float
    tolerance: float
    standing: Standing
    source: str


def trap(size: float, measured: Sequence[MeasuredTakeOff] = ()) -> TrapShape:
    """The shape of a P-trap of one size; measured legs of ``p_trap`` replace what is assumed.

    The belly is never taken higher than one that holds the least seal: 1.5 bores and the seal and a wall under
    the arm's axis (worked from the weir at the arm's invert). PipeSizeError when no such pipe is sold.
    """
    stock = pipe.drain(size)
    inlet = takeoff("p_trap", (size, size), "run_in", measured)
    outlet = takeoff("p_trap", (size, size), "run_out", measured)
    radius = outlet.length / 3.0
    least_seal = table("assumptions").number("p_trap", "least seal")
    belly_floor = 1.5 * stock.bore + least_seal + stock.wall
    lowest = max(2.0 * radius + stock.od / 2.0, belly_floor)
    weakest = max((inlet, outlet), key=lambda leg: (leg.standing != "measured", leg.tolerance))
    return TrapShape(
        size=size,
        inlet_below_arm=-inlet.length,
        inlet_to_outlet=outlet.length,
        lowest_below_arm=lowest,
        seal=max(2.0 * radius - stock.bore, least_seal),
        tolerance=weakest.tolerance,
        standing=weakest.standing,
        source=weakest.source,
    )


def lowest_printed(shape: TrapShape, denominator: int = 16) -> float:
    """The lowest point below the arm, rounded away from the joist's bottom, as it may be printed."""
    return up(shape.lowest_below_arm, denominator)
