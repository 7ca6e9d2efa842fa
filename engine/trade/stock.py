"""The lengths that pipe, tube and insulation are sold in."""

from __future__ import annotations

from functools import cache
from typing import Literal, cast

from engine.plan.records import Record
from engine.trade.facts import Standing, table

Form = Literal["stick", "coil"]


class StockLength(Record, frozen=True, gc=False):
    """One length that can be bought, inches."""

    form: Form
    length: float
    standing: Standing
    source: str


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
