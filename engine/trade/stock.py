"""The lengths that pipe, tube, insulation and joists are sold in."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Literal, cast

from engine.plan.records import Record, StickForSale
from engine.trade.facts import Standing, table
from engine.trade.pipe import nominal

Form = Literal["stick", "coil"]


class StockLength(Record, frozen=True, gc=False):
    """One length that can be bought, inches."""

    form: Form
    length: float
    standing: Standing
    source: str


@cache
def longest_joists() -> tuple[float, float]:
    """The longest joist lumber that yards usually have, and the longest that some have, inches."""
    facts = table("stock")
    return facts.number("joist lumber", "longest usual"), facts.number("joist lumber", "longest anywhere")


@cache
def lengths(of: str, form: Form = "stick") -> tuple[StockLength, ...]:
    """The stock lengths of ``drain pipe``, ``tube`` or ``pipe insulation`` in one form, longest first."""
    found = []
    for fact in table("stock"):
        kind = cast(Form, fact.fact.split()[0])
        if fact.of == of and kind == form:
            length = table("stock").number(of, fact.fact)
            found.append(StockLength(kind, length, fact.standing, fact.source))
    return tuple(sorted(found, key=lambda stock: -stock.length))


def drain_sticks(for_sale: Sequence[StickForSale], size: float) -> tuple[tuple[float, float | None], ...]:
    """The sticks of drain pipe of one nominal size that can be bought: length in inches, and price where known.

    Those that the builder's store sells; the usual lengths, without prices, where nothing is said of the size.
    """
    own = tuple((stick.length, stick.price) for stick in for_sale if nominal(stick.size) == size)
    return own or tuple((entry.length, None) for entry in lengths("drain pipe"))


def longest_drain(for_sale: Sequence[StickForSale], size: float) -> float:
    """The longest piece that can be sawn from a stick of one nominal size, inches."""
    damaged = table("allowances").number("cutting", "damaged end")
    return max(length for length, _ in drain_sticks(for_sale, size)) - damaged
