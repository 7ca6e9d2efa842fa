"""Sleeves round a drain that passes concrete, and the box against frost: the ladder of pipe sizes, and what is sold."""

from __future__ import annotations

from functools import cache

from engine.trade.facts import table
from engine.trade.pipe import nominal


@cache
def _ladder() -> tuple[tuple[float, bool], ...]:
    facts = table("sleeves")
    return tuple((nominal(of), facts.flag(of, "sold")) for of in facts.subjects() if facts.has(of, "sold"))


def up(size: float, steps: int) -> float:
    """The nominal size so many steps up the codes' ladder of pipe sizes; the largest where it ends.

    >>> up(3.0, 2), up(1.5, 2), up(8.0, 2)
    (5.0, 2.5, 8.0)
    """
    sizes = [one for one, _ in _ladder() if one >= size]
    return sizes[min(steps, len(sizes) - 1)] if sizes else _ladder()[-1][0]


def sold(size: float) -> float:
    """The smallest size that is sold and no smaller; the largest where none is.

    >>> sold(5.0), sold(2.5)
    (6.0, 3.0)
    """
    return next((one for one, is_sold in _ladder() if is_sold and one >= size), _ladder()[-1][0])


def box_clear() -> float:
    """How far a box's foam stands from the pipe, inches."""
    return table("sleeves").number("box", "clear")
