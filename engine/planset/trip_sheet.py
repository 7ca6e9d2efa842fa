"""The shopping list on paper: a box to tick for each line, in the order in which a store is walked."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.planset.book import Book, Page
from engine.planset.boxes import tick_box
from engine.planset.flow import GUTTER, Column, flowed, heading, note, table
from engine.planset.words import paragraph
from engine.study import Study
from engine.takeoff.records import TripLine
from engine.takeoff.schedules import TakenOff
from engine.takeoff.shopping import not_counted

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Shopping list"
_COLUMNS = (
    Column("", 3),
    Column("Buy", 5, "RIGHT"),
    Column("What", 37),
    Column("Size", 12),
    Column("Need", 6, "RIGHT"),
    Column("Spare", 6.5, "RIGHT"),
    Column("Have", 6, "RIGHT"),
)

_WITH_REASON = (
    "cement",
    "primer",
    "applicator",
    "sleeve",
    "seam_tape",
    "hung_strap",
    "block_lumber",
    "wall_sleeve",
    "frost_box",
    "heat_cable",
)
"""Kinds whose count or size is told on the sheet: what is bought by length or by the can, and what is cut to a place."""


def shopping_list(book: Book, study: Study, taken: TakenOff) -> list[Page]:
    """Every stop in the store, then what people forget and what is not counted."""
    size = book.paper.type_size
    half = (book.area().width - GUTTER) / 2.0
    made = taken.trip
    share = f"{study.plan.spares * 100.0:g} %"
    story: list[Flowable] = [
        note(made.made_under, size),
        note(
            f"Buy is what is needed and {share} more of each kind and size, rounded up, less what is there; spares of cheap "
            "parts only, none of pipe. A ticked line is there already. How each count was worked out stands in "
            "shopping-list.csv.",
            size,
        ),
    ]
    if not made.stops:
        return flowed(book, TITLE, [*story, note("There is nothing to buy yet.", size)])
    for stop in made.stops:
        rows = [_row(line, size) for line in stop.lines]
        story += [heading(stop.title, size * 1.15), table(_COLUMNS, rows, half, size * 0.94)]
        total = _total(stop.lines)
        if total:
            story.append(note(total, size))
    if made.unknown:
        story.append(note(", ".join(made.unknown), size, lead="On hand, but not asked for:"))
    story.append(heading("What people forget", size * 1.15))
    story.append(_checked(made.check_list, half, size))
    story.append(heading("Not counted", size * 1.15))
    story += [note(words, size) for words in not_counted(study.model, taken.held)]
    return flowed(book, TITLE, story, columns=2)


def _row(line: TripLine, size: float) -> list[Any]:
    unit = "" if line.unit in ("each", "stick", "coil") else f", {line.unit}"
    why = f"\n{line.why}" if line.kind in _WITH_REASON else ""
    return [
        tick_box(size, line.buy == 0),
        str(line.buy) if line.buy else "–",
        f"{line.part}{unit}{why}",
        line.size,
        str(line.need),
        str(line.spares) if line.spares else "",
        str(line.on_hand) if line.on_hand else "",
    ]


def _total(lines: tuple[TripLine, ...]) -> str:
    """What the lines cost together where every one that is to be bought has a price."""
    prices = [line.price for line in lines if line.buy]
    if not prices or any(price is None for price in prices):
        return ""
    return f"{sum(price for price in prices if price is not None):.2f} together, by the prices in the plan."


def _checked(lines: tuple[str, ...], width: float, size: float) -> Flowable:
    rows = [[tick_box(size), paragraph(words, size * 0.94)] for words in lines]
    return table((Column("", 3), Column("Look over before you leave", 70)), rows, width, size * 0.94)
