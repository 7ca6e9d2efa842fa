"""The lists for the shop and the saw: cut list, sticks to buy and parts to buy."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.lengths import inches
from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, heading, note, table
from engine.planset.quantities import tape
from engine.study import Study
from engine.takeoff.cutlist import FREE_END, cut_list
from engine.takeoff.records import CutRow
from engine.takeoff.schedules import TakenOff, sawing_order
from engine.takeoff.shopping import not_counted
from engine.trade.facts import table as table_of
from engine.trade.pipe import label

if TYPE_CHECKING:
    from reportlab.platypus import Flowable


def cuts(book: Book, study: Study) -> list[Page]:
    """The cut list."""
    size, width = book.paper.type_size, book.area().width
    rows = [
        [
            row.mark,
            row.system,
            f'{label(row.size)}" {row.material}',
            tape(row.length),
            f"± {tape(row.tolerance)}",
            f"{row.start} to {row.end}",
            row.lies,
            row.rests_on,
            _measure_first(row),
        ]
        for row in cut_list(study.model)
    ]
    story: list[Flowable] = [
        note(
            "Lengths to the nearest 1/16 in, from pipe stop to pipe stop. “Rests on” is the weakest take-off in the length: "
            "measured on the fitting in hand, published, derived from published, from memory, an estimate, or assumed. "
            "Fittings differ from maker to maker: a length that rests on a fitting not measured yet is to be checked on the "
            "fitting before sawing. Write what you measure into the plan and print again.",
            size,
        )
    ]
    if not rows:
        story.append(note("There is no pipe to cut yet.", size))
        return flowed(book, "Cut list", story)
    columns = (
        Column("Mark", 5.5),
        Column("System", 6.5),
        Column("Pipe", 9),
        Column("Cut to", 8.5, "RIGHT"),
        Column("Give or take", 7.5, "RIGHT"),
        Column("Between", 33),
        Column("Where it lies", 30),
        Column("Rests on", 8),
        Column("Not measured yet", 17),
    )
    story.append(table(columns, rows, width, size))
    return flowed(book, "Cut list", story)


def sticks(book: Book, taken: TakenOff) -> list[Page]:
    """Which sticks and coils to buy, and what to saw from each."""
    size, width = book.paper.type_size, book.area().width
    story: list[Flowable] = [
        note(
            "Saw in the order given, long pieces first. "
            f"A kerf of {inches(table_of('allowances').number('cutting', 'kerf'))} in is allowed for each cut.",
            size,
        )
    ]
    if not taken.bought:
        story.append(note("There is no pipe to buy yet.", size))
        return flowed(book, "Sticks to buy", story)
    rows: list[list[Any]] = []
    for bought in taken.bought:
        for n, stick in enumerate(bought.plan.sticks):
            rows.append(
                [
                    f'{label(bought.size)}" {bought.material}' if n == 0 else "",
                    f"{stick.length / 12.0:g} ft",
                    sawing_order(stick),
                    tape(stick.left),
                ]
            )
        rows.append(["", "", f"{_counts(bought.plan.counts)}. {bought.plan.note}", ""])
    columns = (
        Column("Pipe", 14),
        Column("Stick or coil", 11),
        Column("Pieces in sawing order, inches", 75),
        Column("Left over", 11, "RIGHT"),
    )
    story.append(table(columns, rows, width, size))
    return flowed(book, "Sticks to buy", story)


def shopping_list(book: Book, study: Study, taken: TakenOff) -> list[Page]:
    """Every part to buy besides pipe and tube, with the arithmetic and source."""
    size, width = book.paper.type_size, book.area().width
    rows = [
        [str(line.count), line.unit, line.part, line.size, line.system, line.why, line.source] for line in taken.lines
    ]
    story: list[Flowable] = [note("Pipe and tube are on the sheet of sticks.", size)]
    if rows:
        columns = (
            Column("Count", 6, "RIGHT"),
            Column("Unit", 12),
            Column("Part", 34),
            Column("Size", 12),
            Column("System", 8),
            Column("Why, and what for", 50),
            Column("Rests on", 34),
        )
        story.append(table(columns, rows, width, size))
    else:
        story.append(note("There is nothing to buy yet.", size))
    story.append(heading("Not counted", size * 1.2))
    story += [note(words, size) for words in not_counted(study.model)]
    return flowed(book, "Parts to buy", story)


def _measure_first(row: CutRow) -> str:
    """Which of a piece's fittings to measure, in few words, and what else to know of it."""
    ends = [end for end in dict.fromkeys((row.start, row.end)) if end != FREE_END]
    if row.unmeasured and len(row.unmeasured) == len(ends):
        words = (
            "either fitting"
            if len(ends) == 2
            else "the fitting"
            if FREE_END in (row.start, row.end)
            else "both fittings"
        )
    else:
        words = ", ".join(row.unmeasured)
    return "; ".join(part for part in (words, row.note) if part)


def _counts(counts: tuple[tuple[float, int], ...]) -> str:
    return "Buy " + ", ".join(f"{count} of {length / 12.0:g} ft" for length, count in counts)
