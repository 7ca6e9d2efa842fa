"""A value of a rule book as a reader is told it: with its unit, where it stands, and how it is known."""

from __future__ import annotations

import re

from engine.rulebooks.book import PRACTICE, RuleBook, Standing, Value
from engine.rulebooks.meaning import means, row_words

KNOWN: dict[Standing, str] = {
    "read": "read",
    "memory": "from memory",
    "derived": "worked out",
    "conflict": "sources differ",
    "practice": PRACTICE,
}
"""How a value is known, in words."""

_A_KEY = re.compile(r"\b[a-z_]+(?:\.[a-z_]+)+(?:\.\d+(?:[-/]\d+)*)?(?![\w.])")
"""A value's name within a sentence; a section's number begins otherwise."""

_NUMBER = re.compile(r"[\d ./-]+")
"""A length as the books write it; an amendment may say it in feet."""

_UNITS = {
    "in": "in",
    "in/ft": "in per ft",
    "sq in": "sq in",
    "deg": "degrees",
    "deg F": "°F",
    "gpm": "gal a minute",
    "gal": "gal",
    "minutes": "minutes",
    "dfu/gpm": "units for each gal a minute",
}
_COUNTED = {
    "dfu": ("fixture unit", "fixture units"),
    "sizes": ("size", "sizes"),
    "diameters": ("diameter", "diameters"),
}
_WORDS = {
    "a": "for a small fixture drain alone",
    "ab": "for a small fixture drain, or from the size of note b on",
    "c": "yes, a double one within limits",
}


def said(value: Value) -> str:
    """The value with its unit: ``60 in``, ``1/4 in per ft``, ``3 fixture units``, ``yes``."""
    return _said(value.written, value.unit, value.value)


def said_was(value: Value) -> str:
    """What the book itself says where an amendment has changed it, with its unit; empty where none has."""
    if value.was is None:
        return ""
    written = ("yes" if value.was else "no") if isinstance(value.was, bool) else value.was
    return _said(written if isinstance(written, str) else f"{written:g}", value.unit, value.was)


def _said(written: str, unit: str, value: float | bool | str) -> str:
    if unit == "word":
        return _WORDS.get(written, written)
    if unit in _COUNTED:
        return f"{written} {_COUNTED[unit][0 if value == 1.0 else 1]}"
    if unit == "in" and isinstance(value, float) and not _NUMBER.fullmatch(written):
        written = f"{value:g}"
    return f"{written} {_UNITS[unit]}" if unit in _UNITS else written


def found_in(book: RuleBook, key: str) -> str:
    """A value and where it stands, or why the book has none: ``60 in by UPC 2021 Table 1002.2``."""
    if book.has(key):
        value = book.value(key)
        known = "" if value.standing in ("read", "practice") else f" ({KNOWN[value.standing]})"
        return f"{said(value)} by {book.cite(key)}{known}"
    why = book.silence(key)
    if why is not None:
        return f"no rule in {book.short} ({plain(why)})"
    stem, _, row = key.rpartition(".")
    if stem and book.speaks_of(stem):
        return f"no row for {row_words(row)} in {book.short}"
    return f"not looked up in {book.short}"


def plain(text: str) -> str:
    """A note or reason with the keys that it refers to put into words."""
    return _A_KEY.sub(lambda found: f"“{means(found.group())}”", text)


def heading(key: str) -> str:
    """What a value is, as a sentence begins: ``Farthest from a trap's weir to its vent (2 in)``."""
    words = means(key)
    return words[:1].upper() + words[1:]
