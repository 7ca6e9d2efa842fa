"""Foam sleeves round water tube: how thick, how wide it makes the tube, how well it holds heat."""

from __future__ import annotations

from math import log

from engine.trade.facts import table


def walls() -> tuple[float, ...]:
    """The sleeve walls that are sold, thinnest first, inches."""
    facts = table("insulation")
    return tuple(sorted(facts.number("foam", name) for name in ("thin wall", "usual wall", "thick wall")))


def covered(od: float, wall: float) -> float:
    """The outside diameter of a tube of `od` in a sleeve of `wall`, inches: what a bore must pass."""
    return od + 2.0 * wall


def resistance(od: float, wall: float) -> float:
    """The R-value of a sleeve of `wall` on a tube of `od`, counted on its outer surface.

    ``R = r2 ln(r2 / r1) / k`` with radii in inches and the poorer of the conductivities that foam is sold in.

    >>> round(resistance(0.625, 0.5), 1), round(resistance(0.875, 0.75), 1)
    (2.9, 4.4)
    """
    inner, outer = od / 2.0, od / 2.0 + wall
    return outer * log(outer / inner) / table("insulation").number("foam", "conductivity")
