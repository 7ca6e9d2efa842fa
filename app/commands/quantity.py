"""Places and measures of findings in the words of a tape: feet, inches and sixteenths."""

from __future__ import annotations

import math
from collections.abc import Callable

from engine.lengths import down, feet_inches, inches, nearest, up

UNITS = {"in/ft": "in per ft", "deg": "degrees"}
"""Units that read better in full; the rest are printed as the finding names them."""


def place(at: tuple[float, float, float]) -> str:
    """Where a finding lies: east and north of the south-west corner, and its height where it has one."""
    x, y, z = at
    words = [_side(x, "east", "west"), _side(y, "north", "south")]
    if math.isfinite(z) and nearest(z) != 0.0:
        words.append(f"{tape(abs(z))} {'down' if z < 0 else 'up'}")
    return ", ".join(words)


def tape(length: float) -> str:
    """A length as read off a tape, to the nearest sixteenth: '3 1/2 in'."""
    return f"{inches(length)} in"


def against(measured: float | None, limit: float | None, unit: str) -> str:
    """A measure beside its limit, which is rounded to the safe side: down when it is a most, up when a least."""
    found = "" if measured is None else f"measured {_amount(measured, nearest, unit)}"
    if limit is None:
        return found
    toward = nearest if measured is None else (down if measured > limit else up)
    allowed = f"limit {_amount(limit, toward, unit)}"
    return f"{found}, {allowed}" if found else allowed


def _amount(value: float, to_mark: Callable[[float], float], unit: str) -> str:
    """In inches by the tape, with decimals beside it where the value lies between two marks."""
    if unit != "in":
        return f"{round(value, 4):g} {UNITS.get(unit, unit)}".rstrip()
    mark = to_mark(value)
    return tape(mark) if math.isclose(mark, value, abs_tol=5e-4) else f"{tape(mark)} ({value:.3f})"


def _side(value: float, positive: str, negative: str) -> str:
    return f"{feet_inches(abs(value))} {positive if value >= 0 else negative}"
