"""How far tubes lie from each other where they cross a joist, and how far apart each has a hole of its own."""

from __future__ import annotations

import math
from itertools import pairwise

from engine.crossings.limits import over
from engine.crossings.records import SharedHole, Tube
from engine.trade.bits import Bit, bit_for


def own_holes(hole: SharedHole) -> bool:
    """Whether the joist would bear a bore for each tube by itself, as far as its width goes."""
    bits = [bit_for(tube.width) for tube in hole.tubes]
    return all(bit is not None and not over(bit.diameter, hole.crossing.bore_limit) for bit in bits)


def axes_apart(hole: SharedHole, least: float) -> tuple[float, float]:
    """How far apart neighbouring tubes want their axes to have `least` of wood between bores of their own, and how near the
    nearest are now; inches, square to the hole."""
    pairs = list(pairwise(hole.tubes))
    wanted = max(least + (bore_of(one) + bore_of(two)) / 2.0 for one, two in pairs)
    return wanted, min(between(one, two) for one, two in pairs)


def closest(hole: SharedHole) -> tuple[float, Bit] | None:
    """How near two tubes can lie, outside to outside, and the bit that then goes round both, where the joist takes it.

    None where they lie so already, where that does not help, and for more than two.
    """
    if len(hole.tubes) != 2:
        return None
    one, two = hole.tubes
    found = side_by_side(one.width, two.width, hole.crossing.bore_limit)
    return found if found is not None and over(between(one, two), found[0]) else None


def side_by_side(one: float, two: float, limit: float) -> tuple[float, Bit] | None:
    """How far apart the axes of two tubes so wide lie that touch, and the bit round both; None where it is over `limit`."""
    bit = bit_for(one + two)
    return None if bit is None or over(bit.diameter, limit) else ((one + two) / 2.0, bit)


def between(one: Tube, two: Tube) -> float:
    """From axis to axis of two tubes where they cross the joist's centre line, inches, square to them."""
    lean = (one.lean + two.lean) / 2.0
    return math.hypot((two.along - one.along) / math.hypot(1.0, lean), two.z - one.z)


def bore_of(tube: Tube) -> float:
    """The bore that a tube would have for itself, inches."""
    bit = bit_for(tube.width)
    return tube.width if bit is None else bit.diameter
