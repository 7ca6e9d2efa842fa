"""Which field of the properties would let something be judged that was not, for want of what it says."""

from __future__ import annotations

from typing import NamedTuple

from app.panels.fields import FIELDS
from app.panels.verdict import Entry
from engine.plan.outline import called
from engine.plan.records import Element

ASKS: dict[tuple[str, str], str] = {
    ("JoistField", "the species of "): "species",
    ("JoistField", "the bearings of "): "bearings",
    ("JoistField", "a grade stamp on "): "graded",
}
"""By record and the beginning of what is said to be missing: the field that tells it."""


class Asked(NamedTuple):
    """A field that wants filling: whose, its name in the record, and what a button to it says."""

    element: str
    field: str
    words: str


def asked(entry: Entry, element: Element | None) -> Asked | None:
    """The field of an entry's own element that would let it be judged; None where no one field would."""
    if entry.weight != "not judged" or element is None:
        return None
    kind = type(element).__name__
    for (record, beginning), name in ASKS.items():
        if record == kind and entry.missing.startswith(beginning):
            words = next(field.words for field in FIELDS[kind] if field.name == name)
            return Asked(element.id, name, f"Go to {words} of {called(element)}")
    return None
