"""Rounding to the marks of a tape: to the nearest, or to the safe side."""

import math

SLACK = 1e-9
"""Inches by which a computed length may miss a mark and still count as lying on it."""


def nearest(x: float, denominator: int = 16) -> float:
    """The nearest mark, in inches; halfway goes away from zero, as a carpenter would carry it."""
    return math.copysign(math.floor(abs(x) * denominator + 0.5 + SLACK) / denominator, x) + 0.0


def down(x: float, denominator: int = 16) -> float:
    """The last mark not over `x`, in inches: for printing the most that a cut may take."""
    return math.floor((x + SLACK) * denominator) / denominator + 0.0


def up(x: float, denominator: int = 16) -> float:
    """The first mark not under `x`, in inches: for printing the least that must be left."""
    return math.ceil((x - SLACK) * denominator) / denominator + 0.0
