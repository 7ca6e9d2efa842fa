"""Metric lengths, by way of pint, which is loaded only when one is met."""

from functools import cache
from typing import Any


@cache
def _units() -> Any:
    import pint

    return pint.UnitRegistry(cache_folder=None)


def to_inches(value: float, unit: str) -> float:
    """`value` of a metric unit, by its symbol or name, in inches."""
    return float(_units().Quantity(value, unit.replace("metre", "meter")).m_as("inch"))


def from_inches(x: float, unit: str) -> float:
    """`x` inches in a metric unit."""
    return float(_units().Quantity(x, "inch").m_as(unit))
