"""Habits of the site that the assembly order counts with."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from engine.trade.facts import Table, read


@cache
def habits() -> Table:
    """The facts of this folder's table, read once: each with its standing and source."""
    return read(Path(__file__).with_name("site.csv"))


def left_long(of: str) -> float:
    """How much longer than its final length a `stub` or `vent` is left until it can be trimmed, inches."""
    return habits().number(of, "left long")
