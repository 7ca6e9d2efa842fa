"""Why what was typed into a field can't stand, in the field's own way of writing."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from app.panels.fields import Field
from app.panels.writing import DOWN, LENGTH, LENGTHS, MEASURED, SHIFTS, say_length
from engine.framing.numbered import last_joist, last_stud
from engine.lengths import feet_inches
from engine.plan.fields import along
from engine.plan.records import Element, JoistField, Plan, Wall

_RANGE = re.compile(r"expected a number from (-?[\d.]+) to (-?[\d.]+), found (-?[\d.]+)$")
_PLACE = re.compile(r"^\w+(?:\[\d+\])*(?:\.\w+)*: ")

IN_LENGTHS = (LENGTH, LENGTHS, SHIFTS, MEASURED)
"""Ways of writing whose numbers are lengths."""


def in_words(field: Field, what: str) -> str:
    """An edit's refusal without the file's own names and signs: what is written as a depth is told as one."""
    what = _PLACE.sub("", what)
    told = _RANGE.search(what)
    if told is None:
        return what
    low, high, found = map(float, told.groups())
    if field.writing is DOWN:
        return f"expected {say_length(-high)} to {say_length(-low)} down, found {_signed(-found)}"
    if field.writing in IN_LENGTHS:
        return f"expected {_signed(low)} to {_signed(high)}, found {_signed(found)}"
    return what


def not_there(element: Element, field: str, plan: Plan) -> str:
    """What a field of an element says of joists, studs or places that it does not have; empty where all are there."""
    value: Any = getattr(element, field, ())
    if isinstance(element, JoistField):
        if field in ("shifts", "doubled", "measured"):
            return _past(element.id, "joists", (one.number for one in value), last_joist(element))
        if field in ("blocking", "bearings"):
            whole = along(element)
            past = [feet_inches(at) for at in value if at > whole]
            return f"{element.id} is {feet_inches(whole)} long: nothing of it lies at {', '.join(past)}" if past else ""
    if isinstance(element, Wall) and element.start != element.end and field in ("doubled", "stud_shifts"):
        numbers = (one if isinstance(one, int) else one.number for one in value)
        return _past(element.id, "studs", numbers, last_stud(element, plan.floor.subfloor))
    return ""


def _past(name: str, what: str, numbers: Iterable[int], last: int) -> str:
    past = [str(number) for number in numbers if number > last]
    return f"{name} has {what} 0 to {last}: no {', no '.join(past)}" if past else ""


def _signed(value: float) -> str:
    return f"minus {say_length(-value)}" if value < 0.0 else say_length(value)
