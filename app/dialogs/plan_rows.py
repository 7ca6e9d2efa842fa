"""Amendments, rulings and measured take-offs of a plan as rows of text, and back."""

from __future__ import annotations

from typing import Any, cast

from app.dialogs.rows import Cells, Column
from app.panels.writing import say_length
from engine.lengths import fraction, parse
from engine.plan.records import Amendment, MeasuredTakeOff, Plan, Ruling
from engine.rulebooks import RuleBook
from engine.trade.fittings import KINDS

LEGS = ("run_in", "run_out", "branch")
_YES, _NO = ("yes", "true"), ("no", "false")


class RowError(ValueError):
    """A row that says nothing a plan can hold: its number and what would be right."""

    def __init__(self, row: int, what: str) -> None:
        super().__init__(what)
        self.row = row


def amendment_columns(book: RuleBook) -> tuple[Column, ...]:
    """Value, what the book says, what it becomes, who said so, when."""

    def in_the_book(cells: Cells) -> str:
        if not book.has(cells[0]):
            return f"no value of {book.short} has this name" if cells[0] else ""
        value = book.value(cells[0])
        return f"{value.written} {value.unit}".strip() + f" · {book.cite(cells[0])} · {value.standing}"

    return (
        Column("Value", book.keys(), wide=True),
        Column("Becomes"),
        Column("Said by"),
        Column("When"),
        Column("In the book", told=in_the_book, wide=True),
    )


def amendment_rows(plan: Plan) -> list[Cells]:
    """The plan's amendments as rows."""
    return [(one.value, _said(one.becomes), one.said_by, one.on) for one in plan.amendments]


def amendments_of(rows: list[Cells], book: RuleBook) -> tuple[Amendment, ...]:
    """The amendments that rows make; empty rows are left out. RowError."""
    made = []
    for number, (value, becomes, said_by, on) in enumerate(rows):
        if not (value or becomes):
            continue
        if not book.has(value):
            raise RowError(number, f"{book.short} has no value called {value!r}: choose one from the list")
        made.append(Amendment(value, _worth(number, becomes, book.value(value).unit), said_by, on))
    return tuple(made)


def _said(becomes: float | bool | str) -> str:
    if isinstance(becomes, bool):
        return "yes" if becomes else "no"
    return becomes if isinstance(becomes, str) else f"{becomes:.10g}"


def _worth(row: int, text: str, unit: str) -> float | bool | str:
    """What a text is worth in a value's unit."""
    if unit == "yes/no":
        if text.lower() in (*_YES, *_NO):
            return text.lower() in _YES
        raise RowError(row, f"{text!r}: this value takes yes or no")
    if unit == "word":
        return text
    try:
        return parse(text) if unit == "in" else fraction(text)
    except ValueError as fault:
        raise RowError(row, str(fault)) from None


def ruling_columns(plan: Plan, rules: tuple[str, ...]) -> tuple[Column, ...]:
    """What it is about, what was ruled, by whom, when."""
    from engine.plan.records import KINDS as ELEMENTS

    ids = tuple(element.id for kind in ELEMENTS for element in getattr(plan, kind))
    return (
        Column("About", (*ids, *rules), wide=True),
        Column("Ruling", wide=True),
        Column("Said by"),
        Column("When"),
    )


def ruling_rows(plan: Plan) -> list[Cells]:
    """The plan's rulings as rows."""
    return [(one.about, one.text, one.said_by, one.on) for one in plan.rulings]


def rulings_of(rows: list[Cells]) -> tuple[Ruling, ...]:
    """The rulings that rows make; empty rows are left out. RowError."""
    made = []
    for number, (about, text, said_by, on) in enumerate(rows):
        if not (about or text):
            continue
        if not about:
            raise RowError(number, "a ruling is about a thing of the plan or a rule: choose which")
        made.append(Ruling(about, text, said_by, on))
    return tuple(made)


TAKEOFF_COLUMNS = (
    Column("Fitting", tuple(KINDS), wide=True),
    Column("Size"),
    Column("Leg", LEGS),
    Column("Centre to stop"),
)


def takeoff_rows(plan: Plan) -> list[Cells]:
    """The plan's measured take-offs as rows."""
    return [(one.kind, one.size, one.leg, say_length(one.length)) for one in plan.takeoffs]


def takeoffs_of(rows: list[Cells]) -> tuple[MeasuredTakeOff, ...]:
    """The take-offs that rows make; empty rows are left out. RowError."""
    made = []
    for number, (kind, size, leg, length) in enumerate(rows):
        if not any((kind, size, leg, length)):
            continue
        if kind not in KINDS:
            raise RowError(number, f"{kind!r} is no fitting that is known: choose one from the list")
        if leg not in LEGS:
            raise RowError(number, f"the leg is one of {', '.join(LEGS)}, not {leg!r}")
        try:
            made.append(MeasuredTakeOff(kind, size, cast(Any, leg), parse(length)))
        except ValueError as fault:
            raise RowError(number, str(fault)) from None
    return tuple(made)
