"""A plan as text: stable order, one thing a line, plain decimals; the same plan gives the same bytes."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from functools import cache
from typing import Any

from msgspec.structs import fields

from engine.plan.canonical import DECIMALS
from engine.plan.migrations import VERSION
from engine.plan.records import Plan, Record
from engine.plan.schema import FORMAT

PROGRAM = "0.1.0"
"""This program's version, as files and lists name it."""


def written(plan: Plan) -> str:
    """The text of a plan file, in the records' own order, without what is a default."""
    lines = ",\n".join(f"  {_text(name)}: {_collection(value)}" for name, value in _said(plan))
    head = f'"format": {_text(FORMAT)},\n"version": {VERSION},\n"written_by": {_text(PROGRAM)},\n'
    return f'{{\n{head}"plan": {{\n{lines}\n}}\n}}\n'


def _collection(value: Any) -> str:
    if isinstance(value, tuple) and value:
        return "[\n" + ",\n".join(f"    {_inline(one)}" for one in value) + "\n  ]"
    return _inline(value)


def _inline(value: Any) -> str:
    if isinstance(value, str):
        return _text(value)
    if value is None or isinstance(value, bool):
        return json.dumps(value)
    if isinstance(value, (int, float)):
        return number(value)
    if isinstance(value, tuple):
        return "[" + ", ".join(map(_inline, value)) + "]"
    return "{" + ", ".join(f"{_text(name)}: {_inline(inner)}" for name, inner in _said(value)) + "}"


def _said(record: Record) -> Iterator[tuple[str, Any]]:
    """A record's fields that must be written: what is equal to its default is not."""
    for name, default in _fields(type(record)):
        value = getattr(record, name)
        if value != default:
            yield name, value


@cache
def _fields(kind: type) -> tuple[tuple[str, Any], ...]:
    return tuple((field.name, field.default) for field in fields(kind))


def _text(value: str) -> str:
    return json.dumps(value, ensure_ascii=False)


def number(value: float) -> str:
    """A number in plain decimals, trimmed; with all its digits where ten decimals would change it.

    ValueError for what is no finite number.
    """
    if not math.isfinite(value):
        raise ValueError(f"{value} can't be written into a plan: expected a finite number")
    plain = f"{value + 0.0:.{DECIMALS}f}".rstrip("0").rstrip(".")
    return plain if float(plain) == value else repr(value)
