"""Reading a rule book's text: everything is checked, and a fault names its place."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator
from typing import Any, get_args

import msgspec

from engine.rulebooks.book import RuleBook, Standing, Value
from engine.rulebooks.stand_ins import stand_ins
from engine.rulebooks.worth import worth

NUMBER_UNITS = frozenset(
    {
        "in",
        "in/ft",
        "sq in",
        "deg",
        "deg F",
        "diameters",
        "share",
        "count",
        "sizes",
        "dfu",
        "dfu/gpm",
        "gpm",
        "gal",
        "minutes",
    }
)
UNITS = NUMBER_UNITS | {"yes/no", "word"}
_STANDINGS = get_args(Standing)
_KEY = re.compile(r"^[A-Za-z0-9_]+(?:[./-][A-Za-z0-9_]+)*$")
_TABLE_FIELDS = {"key", "unit", "section", "standing", "source", "rows"}
_ROW_FIELDS = {"is", "section", "standing", "source", "note"}


class RuleBookError(ValueError):
    """A fault in a rule book's file: it names the book, the table and the row."""


def read(name: str, text: str, lend: Callable[[str], RuleBook] | None = None) -> RuleBook:
    """The rule book that `text` holds. RuleBookError names the first thing wrong in it.

    `lend` gives another book by its name, for what this one borrows from it.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise RuleBookError(f"{name}: not readable as TOML: {fault}") from fault
    for field in ("title", "short", "notice"):
        _words(data.get(field), f"{name}: {field}")
    extra = set(data) - {"title", "short", "notice", "table", "borrowed", "unruled"}
    if extra:
        raise RuleBookError(f"{name}: unknown field {min(extra)!r}")
    tables = data.get("table")
    if not isinstance(tables, list) or not tables:
        raise RuleBookError(f"{name}: a rule book needs at least one [[table]]")
    values: dict[str, Value] = {}
    for number, table in enumerate(tables, 1):
        for value in _values(f"{name}: table {number}", table):
            if value.key in values:
                raise RuleBookError(f"{name}: table {number}: {value.key!r} stands twice")
            values[value.key] = value
    for value in _borrowed(name, data.get("borrowed", []), lend):
        if value.key in values:
            raise RuleBookError(f"{name}: {value.key!r} is borrowed, and is the book's own as well")
        values[value.key] = value
    unruled = data.get("unruled", {})
    if not isinstance(unruled, dict):
        raise RuleBookError(f"{name}: unruled must be keys with a reason each")
    for key, why in unruled.items():
        _words(why, f"{name}: unruled {key!r}")
        if key in values or any(other.startswith(f"{key}.") for other in values):
            raise RuleBookError(f"{name}: {key!r} is said to be unruled, and the book has it")
    return RuleBook(name, data["title"], data["short"], data["notice"], values, unruled, stand_ins())


def _borrowed(name: str, loans: object, lend: Callable[[str], RuleBook] | None) -> Iterator[Value]:
    """Values of another book that hold here too, each with the code that it stands in."""
    if not isinstance(loans, list):
        raise RuleBookError(f"{name}: borrowed must be a list of tables")
    for number, loan in enumerate(loans, 1):
        where = f"{name}: borrowed {number}"
        if not isinstance(loan, dict) or set(loan) != {"book", "keys", "why"}:
            raise RuleBookError(f"{where}: it takes book, keys and why")
        other, keys = _words(loan["book"], f"{where}: book"), loan["keys"]
        _words(loan["why"], f"{where}: why")
        if lend is None or other == name:
            raise RuleBookError(f"{where}: {other!r} cannot be borrowed from")
        if not isinstance(keys, list) or not keys:
            raise RuleBookError(f"{where}: keys must be a list of keys")
        lender = lend(other)
        for stem in keys:
            found = lender.keys(_words(stem, f"{where}: keys"))
            if not found:
                raise RuleBookError(f"{where}: {other} has nothing under {stem!r}")
            for key in found:
                value = lender.value(key)
                yield msgspec.structs.replace(value, code=value.code or lender.short, note=value.note or loan["why"])


def _values(where: str, table: dict[str, Any]) -> Iterator[Value]:
    if "key" in table:
        where = f"{where} ({table['key']})"
    missing = _TABLE_FIELDS - set(table)
    if missing:
        raise RuleBookError(f"{where}: {min(missing)!r} is missing")
    extra = set(table) - _TABLE_FIELDS - {"note", "choices"}
    if extra:
        raise RuleBookError(f"{where}: unknown field {min(extra)!r}")
    unit = table["unit"]
    if unit not in UNITS:
        raise RuleBookError(f"{where}: {unit!r} is no unit; units are {', '.join(sorted(UNITS))}")
    choices = table.get("choices", [])
    if not isinstance(choices, list) or not all(isinstance(choice, str) for choice in choices):
        raise RuleBookError(f"{where}: choices must be a list of words")
    rows = table["rows"]
    if not isinstance(rows, dict) or not rows:
        raise RuleBookError(f"{where}: rows must hold at least one row")
    for name, row in _flat(where, rows):
        yield _value(f"{where}, row {name!r}", table, name, row, unit, tuple(choices))


def _flat(where: str, rows: dict[str, Any], stem: str = "") -> Iterator[tuple[str, object]]:
    for name, row in rows.items():
        if not isinstance(row, dict) or "is" in row:
            yield stem + name, row
        elif not row or _ROW_FIELDS & set(row):
            raise RuleBookError(f"{where}, row {stem + name!r}: 'is' is missing")
        else:
            yield from _flat(where, row, f"{stem}{name}.")


def _value(where: str, table: dict[str, Any], name: str, row: object, unit: str, choices: tuple[str, ...]) -> Value:
    said: dict[str, Any] = row if isinstance(row, dict) else {"is": row}
    if not set(said) <= _ROW_FIELDS:
        raise RuleBookError(f"{where}: unknown field {min(set(said) - _ROW_FIELDS)!r}")
    key = f"{_words(table['key'], where)}.{name}"
    if not _KEY.match(key):
        raise RuleBookError(f"{where}: {key!r} is no key")
    standing = said.get("standing", table["standing"])
    if standing not in _STANDINGS:
        raise RuleBookError(f"{where}: {standing!r} is no standing; they are {', '.join(_STANDINGS)}")
    try:
        value, written = worth(said["is"], unit, choices)
    except ValueError as fault:
        raise RuleBookError(f"{where}: {fault}") from fault
    return Value(
        key=key,
        value=value,
        written=written,
        unit=unit,
        section=_words(said.get("section", table["section"]), f"{where}: section"),
        standing=standing,
        source=_words(said.get("source", table["source"]), f"{where}: source"),
        note=str(said.get("note", table.get("note", ""))),
        choices=choices,
    )


def _words(said: object, where: str) -> str:
    if not isinstance(said, str) or not said.strip():
        raise RuleBookError(f"{where} must be words")
    return said
