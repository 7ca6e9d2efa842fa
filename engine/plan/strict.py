"""JSON text read strictly: what JSON leaves open, or Python's reader lets pass, is refused with its place."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator
from typing import Any

from engine.plan.faults import PlanFileError, Step, place, shown

_MOST_DIGITS = 40
_HALF_LETTER = re.compile(r"\\u[dD][89a-fA-F]")
_SYNTAX = {
    "Expecting value": "expected a value",
    "Expecting ',' delimiter": "expected a comma, or the end of this list or object",
    "Expecting ':' delimiter": "expected a colon after the field's name",
    "Expecting property name enclosed in double quotes": "expected a field's name in double quotes",
    "Illegal trailing comma before end of object": "expected a field's name after the comma",
    "Illegal trailing comma before end of array": "expected a value after the comma",
    "Extra data": "expected nothing more after the plan's last brace",
    "Invalid control character at": "expected texts without raw line breaks or control characters",
    "Unterminated string starting at": "expected a closing quote for the text that begins here",
}


class _Unfit:
    """Stands in the data for a number that no plan can hold."""

    def __init__(self, text: str) -> None:
        self.text = text


class _Doubled(dict[str, Any]):
    """An object in which one field stands twice."""

    key = ""


def strict(text: str) -> Any:
    """The data that a JSON text writes.

    Raises :class:`PlanFileError` for broken JSON, doubled fields, numbers that are not finite, halves of letters
    and nesting past what can be read.
    """
    unfit: list[_Unfit] = []
    doubled: list[_Doubled] = []

    def number(digits: str) -> float | _Unfit:
        value = float(digits)
        if math.isfinite(value):
            return value
        return constant(digits)

    def whole(digits: str) -> float | int | _Unfit:
        return int(digits) if len(digits) <= _MOST_DIGITS else number(digits)

    def constant(name: str) -> _Unfit:
        unfit.append(_Unfit(name))
        return unfit[-1]

    def pairs(fields: list[tuple[str, Any]]) -> dict[str, Any]:
        made = dict(fields)
        if len(made) == len(fields):
            return made
        odd = _Doubled(made)
        seen: set[str] = set()
        odd.key = next(key for key, _ in fields if key in seen or seen.add(key))  # type: ignore[func-returns-value]
        doubled.append(odd)
        return odd

    try:
        data = json.loads(text, parse_float=number, parse_int=whole, parse_constant=constant, object_pairs_hook=pairs)
    except json.JSONDecodeError as fault:
        raise _syntax(text, fault) from None
    except RecursionError:
        raise PlanFileError("", "lists and objects are nested far deeper than in any plan") from None
    if unfit or doubled or _HALF_LETTER.search(text):
        _refuse_odd(data)
    return data


def _syntax(text: str, fault: json.JSONDecodeError) -> PlanFileError:
    if not text.strip():
        return PlanFileError("", "the file is empty: expected a plan")
    where = f"line {fault.lineno}, column {fault.colno}"
    if fault.pos >= len(text.rstrip()) or fault.msg.startswith("Unterminated"):
        return PlanFileError(where, "the text stops before the plan is complete: the file was cut short")
    return PlanFileError(where, _SYNTAX.get(fault.msg, "expected JSON text"))


def _refuse_odd(data: Any) -> None:
    for steps, value in _all(data):
        if isinstance(value, _Unfit):
            said = value.text if len(value.text) <= 20 else f"{value.text[:17]}..."
            raise PlanFileError(place(steps), f"expected a finite number, found {said}")
        if isinstance(value, _Doubled):
            raise PlanFileError(place(steps), f"expected each field once, found {shown(value.key)} twice")
        if isinstance(value, str) and not _whole_letters(value):
            raise PlanFileError(place(steps), "expected text, found half of a letter (a lone surrogate)")
        if isinstance(value, dict) and not all(map(_whole_letters, value)):
            raise PlanFileError(place(steps), "expected field names of whole letters, found a lone surrogate")


def _whole_letters(text: str) -> bool:
    return not any("\ud800" <= letter <= "\udfff" for letter in text)


def _all(data: Any) -> Iterator[tuple[tuple[Step, ...], Any]]:
    """Every value in the data with the steps to it, outer before inner, in the text's order."""
    waiting: list[tuple[tuple[Step, ...], Any]] = [((), data)]
    while waiting:
        steps, value = waiting.pop()
        yield steps, value
        if isinstance(value, dict):
            waiting.extend(((*steps, key), inner) for key, inner in reversed(value.items()))
        elif isinstance(value, list):
            waiting.extend(((*steps, index), value[index]) for index in reversed(range(len(value))))
