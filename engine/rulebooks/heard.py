"""A rule book that notes what is asked of it, so that one can tell which values an answer rests on."""

from __future__ import annotations

from engine.rulebooks.book import RuleBook, Value


class HeardBook(RuleBook):
    """A copy of a book that keeps in `heard` every key whose value, or absence, was asked for.

    A prefix whose keys were listed is noted as it was asked: who then reads one of them asks for that one.
    """

    __slots__ = ("heard",)

    def __init__(self, book: RuleBook) -> None:
        values = {value.key: value for value in book}
        super().__init__(book.name, book.title, book.short, book.notice, values, book.unruled, book.stand_ins)
        self.heard: set[str] = set()

    def has(self, key: str) -> bool:
        """Whether the book gives a value for `key`; notes it."""
        self.heard.add(key)
        return super().has(key)

    def value(self, key: str) -> Value:
        """The value, noted."""
        self.heard.add(key)
        return super().value(key)

    def keys(self, prefix: str = "") -> tuple[str, ...]:
        """Keys under a prefix, which is noted."""
        if prefix:
            self.heard.add(prefix)
        return super().keys(prefix)

    def speaks_of(self, key: str) -> bool:
        """Whether the book gives a value for `key` or any under it; notes it."""
        self.heard.add(key)
        return super().speaks_of(key)

    def first_missing(self, keys: tuple[str, ...]) -> str | None:
        """The first of these of which the book says nothing; each that is asked for on the way is noted."""
        return next((key for key in keys if not self.speaks_of(key)), None)
