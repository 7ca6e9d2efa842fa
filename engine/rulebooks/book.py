"""A rule book in memory: values by name, each with the section that it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from engine.plan.records import Amendment, Record

Standing = Literal["read", "memory", "derived", "conflict", "practice"]
"""How a value is known; `conflict`: sources differ, and the note says how."""

PRACTICE = "common practice"
"""The section of a value that no code gives."""


def stems(key: str) -> Iterator[str]:
    """A dotted key and each group that it belongs to, from the narrowest to the widest."""
    yield key
    while "." in key:
        key = key.rsplit(".", 1)[0]
        yield key


class NoSuchValueError(KeyError):
    """A value that the book does not have was asked for: a fault of the program, or a book that lacks it."""

    def __init__(self, book: str, key: str) -> None:
        super().__init__(f"{book} has no value called {key!r}")
        self.key = key

    def __str__(self) -> str:
        return str(self.args[0])


class Value(Record, frozen=True, gc=False):
    """One value of a rule book.

    `written` is how the book writes it ("1/3"), `choices` what a word may be. `code` is the short name of the
    code that a borrowed value stands in, empty for the book's own. An amended value keeps the standing of the
    book's own, which is then `was`.
    """

    key: str
    value: float | bool | str
    written: str
    unit: str
    section: str
    standing: Standing
    source: str
    note: str = ""
    choices: tuple[str, ...] = ()
    code: str = ""
    amended_by: Amendment | None = None
    was: float | bool | str | None = None


class RuleBook:
    """A code's values, looked up by dotted keys. Read-only.

    `unruled` tells why the code has no rule under a key or a prefix of keys: its silence is then an answer, where
    any other missing key is a gap in what is known of it. `stand_ins` answer a direct question for a value that the book
    lacks, so that pipe can be drawn and cut; the book itself is still without it, in every other way of asking.
    """

    __slots__ = ("_missing", "_stems", "_under", "_values", "name", "notice", "short", "stand_ins", "title", "unruled")

    def __init__(
        self,
        name: str,
        title: str,
        short: str,
        notice: str,
        values: Mapping[str, Value],
        unruled: Mapping[str, str] | None = None,
        stand_ins: Mapping[str, Value] | None = None,
    ) -> None:
        self.name = name
        self.title = title
        self.short = short
        self.notice = notice
        self._values = dict(values)
        self._under: dict[str, tuple[str, ...]] = {}
        self._missing: dict[tuple[str, ...], str | None] = {}
        self._stems = {stem for key in values for stem in stems(key)}
        self.unruled = dict(unruled or {})
        self.stand_ins = dict(stand_ins or {})

    def __iter__(self) -> Iterator[Value]:
        return iter(self._values.values())

    def __len__(self) -> int:
        return len(self._values)

    def has(self, key: str) -> bool:
        """Whether the book gives a value for `key`."""
        return key in self._values

    def keys(self, prefix: str = "") -> tuple[str, ...]:
        """Keys under a dotted prefix, in the book's order; all of them without one."""
        if not prefix:
            return tuple(self._values)
        found = self._under.get(prefix)
        if found is None:
            stem = prefix if prefix.endswith(".") else prefix + "."
            found = self._under[prefix] = tuple(key for key in self._values if key.startswith(stem))
        return found

    def value(self, key: str) -> Value:
        """The value with its section, standing and source, or what stands in for it. NoSuchValueError names a key lacked."""
        found = self._values.get(key) or self.stand_ins.get(key)
        if found is None:
            raise NoSuchValueError(self.short, key)
        return found

    def number(self, key: str) -> float:
        """The value as a number in its unit. TypeError when it is none."""
        found = self.value(key).value
        if isinstance(found, bool) or not isinstance(found, float):
            raise TypeError(f"{self.short}: {key!r} is {found!r}, not a number")
        return found

    def flag(self, key: str) -> bool:
        """The value as yes or no. TypeError when it is neither."""
        found = self.value(key).value
        if not isinstance(found, bool):
            raise TypeError(f"{self.short}: {key!r} is {found!r}, not yes or no")
        return found

    def says(self, key: str) -> bool:
        """Whether the book has the value and it is yes. TypeError when it is neither yes nor no."""
        return self.has(key) and self.flag(key)

    def first_missing(self, keys: tuple[str, ...]) -> str | None:
        """The first of these keys and stems of which the book says nothing; None where it speaks of all."""
        if keys not in self._missing:
            self._missing[keys] = next((key for key in keys if not self.speaks_of(key)), None)
        return self._missing[keys]

    def speaks_of(self, key: str) -> bool:
        """Whether the book gives a value for `key`, or any under it."""
        return key in self._stems

    def silence(self, key: str) -> str | None:
        """Why the code has no rule under `key`, a value's or a group's; None when it has one, or may have."""
        if self.speaks_of(key):
            return None
        return next((self.unruled[stem] for stem in stems(key) if stem in self.unruled), None)

    def text(self, key: str) -> str:
        """The value as words: a word as it is, a number as the book writes it, yes or no."""
        found = self.value(key)
        return found.value if isinstance(found.value, str) else found.written

    def cite(self, key: str) -> str:
        """Where the value stands: ``IRC 2021 R502.8.1``, with a word on it when it was amended."""
        found = self.value(key)
        where = PRACTICE if found.section == PRACTICE else f"{found.code or self.short} {found.section}"
        return f"{where}, amended" if found.amended_by is not None else where

    def amended(self) -> tuple[Value, ...]:
        """The values that a local amendment changed."""
        return tuple(value for value in self._values.values() if value.amended_by is not None)
