"""Local amendments: values that the place where one builds has changed."""

from __future__ import annotations

import msgspec

from engine.lengths import LengthError, parse
from engine.plan.records import Amendment
from engine.rulebooks.book import RuleBook, Value
from engine.rulebooks.worth import worth


class AmendmentError(ValueError):
    """An amendment that cannot be applied: it names the value, and what would be right."""

    def __init__(self, amendment: Amendment, text: str) -> None:
        super().__init__(text)
        self.amendment = amendment


def amend(book: RuleBook, amendments: tuple[Amendment, ...]) -> RuleBook:
    """The book with the amendments applied, in order; the last word on a value holds. AmendmentError."""
    values = {value.key: value for value in book}
    for amendment in amendments:
        old = values.get(amendment.value)
        if old is None:
            raise AmendmentError(amendment, f"amendment of {amendment.value!r}: {book.short} has no value of that name")
        values[old.key] = _amended(book, old, amendment)
    return RuleBook(book.name, book.title, book.short, book.notice, values, book.unruled, book.stand_ins)


def _amended(book: RuleBook, old: Value, amendment: Amendment) -> Value:
    said = amendment.becomes
    try:
        if old.unit == "in" and isinstance(said, str):
            value, written = worth(parse(said), old.unit)[0], said.strip()
        else:
            value, written = worth(said, old.unit, old.choices)
    except (LengthError, ValueError) as fault:
        wants = {"yes/no": "true or false", "word": "a word", "in": "a length in inches"}.get(old.unit, "a number")
        raise AmendmentError(
            amendment, f"amendment of {old.key!r} ({book.short}): {fault}; it takes {wants}"
        ) from fault
    was = old.value if old.was is None else old.was
    return msgspec.structs.replace(old, value=value, written=written, amended_by=amendment, was=was)
