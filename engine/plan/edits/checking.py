"""Every new element passes here: in its one way of being written, of the right types, sound in itself."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import TypeVar

import msgspec
from msgspec.structs import replace

from engine.plan.canonical import canonical
from engine.plan.edits.errors import EditError
from engine.plan.explain import refusal
from engine.plan.faults import shown
from engine.plan.limits import MOST_ELEMENTS
from engine.plan.points import PATHS
from engine.plan.records import KINDS, Element, Plan
from engine.plan.schema import record_schema
from engine.plan.sound import faults_of

T = TypeVar("T", bound=msgspec.Struct)

FIELD_OF: dict[type, str] = {record: kind for kind, record in KINDS.items()}
"""The plan's field that holds elements of a type."""


def checked(thing: T) -> T:
    """An element or other record as the plan may hold it. EditError says what is wrong with it."""
    name = str(getattr(thing, "id", "") or "")
    data = msgspec.to_builtins(thing)
    try:
        made = canonical(msgspec.convert(data, type(thing)))
    except msgspec.ValidationError as fault:
        raise EditError(name, str(refusal(data, record_schema(type(thing).__name__), str(fault)))) from None
    for where, what in faults_of(made):
        raise EditError(name, f"{where}: {what}")
    return made


def rebuilt(plan: Plan, changed: Mapping[str, Element], dropped: Collection[str] = ()) -> Plan:
    """The plan with some of its elements put in place of those of the same ids, and some left out.

    The changed ones are checked. Collections in which nothing changed stay the very same tuples.
    """
    put = {name: checked(element) for name, element in changed.items()}
    changes: dict[str, object] = {}
    for kind in KINDS:
        old: tuple[Element, ...] = getattr(plan, kind)
        new = tuple(_newer(element, put.get(element.id)) for element in old if element.id not in dropped)
        if len(new) != len(old) or any(a is not b for a, b in zip(new, old, strict=True)):
            changes[kind] = new
    return replace(plan, **changes) if changes else plan


def _newer(old: Element, new: Element | None) -> Element:
    return old if new is None or new == old else new


def roomy(plan: Plan) -> Plan:
    """The plan, unless it holds more things than a file may: then EditError."""
    if sum(len(getattr(plan, kind)) for kind in KINDS) > MOST_ELEMENTS:
        raise EditError("", f"expected at most {MOST_ELEMENTS} drawn things in one plan")
    return plan


def index_in(element: Element, index: int) -> int:
    """A point's index in a run counted from the front. EditError when the run has no such point."""
    count = len(getattr(element, PATHS[type(element)]))
    if not -count <= index < count:
        raise EditError(element.id, f"expected one of its points 0 to {count - 1}, found {shown(index)}")
    return index % count
