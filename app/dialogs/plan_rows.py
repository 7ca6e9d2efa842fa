"""Amendments, rulings, sticks for sale and measured take-offs of a plan as rows of text, and back."""

from __future__ import annotations

from typing import Any, cast, get_args

from app.dialogs.rows import Cells, Column
from app.panels.writing import say_length
from engine.lengths import fraction, parse
from engine.plan.records import Amendment, DrainSize, MeasuredTakeOff, Plan, Ruling, StickForSale
from engine.rulebooks import RuleBook
from engine.rulebooks.saying import KNOWN, heading, said
from engine.trade import stock
from engine.trade.fittings import KINDS

USUAL_LENGTHS = tuple(f"{entry.length / 12.0:g} ft" for entry in stock.lengths("drain pipe"))
"""What most stores sell, offered in the list."""

SHORTEST_STICK, LONGEST_STICK, MOST_PRICE = 6.0, 480.0, 100_000.0
"""What a plan file holds of a stick: inches, and a price."""

LEGS = ("run_in", "run_out", "branch")
_YES, _NO = ("yes", "true"), ("no", "false")


class RowError(ValueError):
    """A row that says nothing a plan can hold: its number and what would be right."""

    def __init__(self, row: int, what: str) -> None:
        super().__init__(what)
        self.row = row


def amendment_columns(book: RuleBook) -> tuple[Column, ...]:
    """Value, what it becomes, who said so, when; told: what the book says, and what the value is in words."""

    def in_the_book(cells: Cells) -> str:
        if not book.has(cells[0]):
            return f"no value of {book.short} has this name" if cells[0] else ""
        value = book.value(cells[0])
        return f"{said(value)} · {book.cite(cells[0])} · {KNOWN[value.standing]}"

    return (
        Column("Value", book.keys(), wide=True),
        Column("Becomes"),
        Column("Said by"),
        Column("When"),
        Column("In the book", told=in_the_book, wide=True),
        Column("What it is", told=lambda cells: heading(cells[0]) if cells[0] else "", wide=True),
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


def stick_columns(material: str) -> tuple[Column, ...]:
    """Size, length and price of a stick, and what that makes a foot."""

    def a_foot(cells: Cells) -> str:
        try:
            stick = _stick(0, cells)
        except RowError:
            return ""
        return "" if stick.price is None else f"{stick.price / stick.length * 12.0:.2f} a foot"

    return (
        Column(f"{material} pipe, in", get_args(DrainSize)),
        Column("Length", USUAL_LENGTHS),
        Column("Price of one"),
        Column("", told=a_foot, wide=True),
    )


def stick_rows(plan: Plan) -> list[Cells]:
    """The plan's sticks for sale as rows."""
    return [(one.size, say_length(one.length), "" if one.price is None else f"{one.price:.2f}") for one in plan.sticks]


def sticks_of(rows: list[Cells]) -> tuple[StickForSale, ...]:
    """The sticks that rows make, each length of a size once; empty rows are left out. RowError."""
    made: dict[tuple[str, float], StickForSale] = {}
    for number, cells in enumerate(rows):
        if not any(cells):
            continue
        stick = _stick(number, cells)
        if (stick.size, stick.length) in made:
            raise RowError(number, f"{stick.size} in by {say_length(stick.length)} stands twice: write it once")
        made[stick.size, stick.length] = stick
    return tuple(made.values())


def _stick(row: int, cells: Cells) -> StickForSale:
    size, length, price = cells
    if size not in get_args(DrainSize):
        raise RowError(row, f"the size is one of {', '.join(get_args(DrainSize))}, not {size!r}")
    try:
        long = parse(length)
    except ValueError as fault:
        raise RowError(row, str(fault)) from None
    if not SHORTEST_STICK <= long <= LONGEST_STICK:
        raise RowError(row, f"{length!r}: a stick is from 6 in to 40 ft long")
    return StickForSale(cast(Any, size), long, _price(row, price))


def _price(row: int, text: str) -> float | None:
    if not text:
        return None
    try:
        price = float(text)
    except ValueError:
        raise RowError(row, f"{text!r} is no price; write it like 12.80, or leave it out") from None
    if not 0.0 <= price <= MOST_PRICE:
        raise RowError(row, f"{text!r} is no price of a stick; write it like 12.80, or leave it out")
    return price
