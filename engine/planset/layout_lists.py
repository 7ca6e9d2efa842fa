"""The lists for boring and hanging: joist cuts, heights along the runs, and supports."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.drawings.marks import Kind
from engine.lengths import down, feet_inches, inches
from engine.plan.records import Point
from engine.planset.badges import mark
from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, note, table
from engine.planset.quantities import tape
from engine.study import Study
from engine.takeoff.heights import height_table
from engine.takeoff.joist_cuts import cut_rows
from engine.takeoff.naming import joist_words
from engine.takeoff.schedules import TakenOff
from engine.trade.pipe import label, nominal

if TYPE_CHECKING:
    from reportlab.platypus import Flowable


def joist_cuts(book: Book, study: Study) -> list[Page]:
    """Every bore and notch: which joist, from which end, how far down, with which bit, and whether it is legal."""
    size, width = book.paper.type_size, book.area().width
    rows: list[list[Any]] = []
    for row in cut_rows(study.model):
        kinds: dict[str, Kind] = {"yes": "legal cut", "no": "illegal cut", "not judged": "unjudged cut"}
        if row.depth is not None and row.length is not None:
            what = f"{row.kind}, {tape(row.depth)} deep, {tape(row.length)} long"
            if row.sawn is not None:
                what += f": saw at {tape(row.sawn[0])} and {tape(row.sawn[1])} from {row.end}"
        else:
            what = f'bore, {row.bit}" bit' if row.bit else f"bore, {tape(row.diameter)} (no bit that size)"
        rows.append(
            [
                mark(kinds[row.verdict], str(row.number), size * 0.9),
                row.joist,
                row.pipe,
                what,
                f"{tape(row.from_end)} from {row.end}",
                f"{tape(row.from_other)} from {row.other_end}",
                tape(row.down_from_top),
                tape(row.up_from_bottom),
                f"{tape(down(row.wood_above))} / {tape(down(row.wood_below))}",
                f'{inches(down(row.limit))}"' if row.limit else "none",
                row.verdict,
                row.faults,
            ]
        )
    story: list[Flowable] = [
        note(
            "Numbers as on the drawings. Distances along a joist run from its own end, which is the rim's inside face, to "
            "the cut's middle. Down and up are the bore's middle, from the joist's top and from its bottom edge. Limits "
            "are rounded down. Measure each joist's real depth before boring. What a hole at an angle has on each face stands on "
            "its joist's elevation.",
            size,
        )
    ]
    if not rows:
        story.append(note("No pipe that is drawn cuts a joist.", size))
        return flowed(book, "Joist cuts", story)
    bits = sorted({row.bit for row in cut_rows(study.model) if row.bit}, key=nominal)
    if bits:
        story.append(note(", ".join(f'{bit}"' for bit in bits), size, lead="Bits to bring:"))
    columns = (
        Column("No.", 4.6, "CENTER"),
        Column("Joist", 12),
        Column("Pipe", 10),
        Column("Cut", 17),
        Column("Along the joist", 15),
        Column("or from its other end", 16),
        Column("Down from top", 9, "RIGHT"),
        Column("Up from bottom", 9, "RIGHT"),
        Column("Wood left above / below", 15, "RIGHT"),
        Column("Limit", 8, "RIGHT"),
        Column("Legal", 8),
        Column("What is wrong", 20),
    )
    story.append(table(columns, rows, width, size))
    return flowed(book, "Joist cuts", story)


def heights(book: Book, study: Study) -> list[Page]:
    """The height of every pipe at each joist, fitting and end."""
    size, width = book.paper.type_size, book.area().width
    rows: list[list[Any]] = []
    last = ""
    for row in height_table(study.model):
        first = row.element != last
        last = row.element
        rows.append(
            [
                f'{row.element}, {label(row.size)}" {row.system}' if first else row.element,
                tape(row.along),
                row.what,
                _place(row.at),
                tape(row.centre_down),
                tape(row.bottom_down),
            ]
        )
    story: list[Flowable] = [
        note(
            "Hook the tape on the joists' top. A run is listed from its upper end down; “along” counts from there. The "
            "bottom is the outside of the pipe, where a block or strap goes; water tube without its sleeve.",
            size,
        )
    ]
    if not rows:
        story.append(note("No pipe is drawn under the floor.", size))
        return flowed(book, "Heights along the runs", story)
    columns = (
        Column("Run", 17),
        Column("Along", 13, "RIGHT"),
        Column("What is there", 30),
        Column("Place", 27),
        Column("Centre down", 11.5, "RIGHT"),
        Column("Bottom down", 11.5, "RIGHT"),
    )
    half = (width - 0.3) / 2.0
    story.append(table(columns, rows, half, size * 0.94))
    return flowed(book, "Heights along the runs", story, columns=2)


def supports(book: Book, study: Study, taken: TakenOff) -> list[Page]:
    """Where every pipe is held."""
    size, width = book.paper.type_size, book.area().width
    rows: list[list[Any]] = []
    last = ""
    for held in taken.held:
        first, last = held.element != last, held.element
        joist = study.model.joists.get(held.joist or "")
        rows.append(
            [
                f'{held.element}, {label(held.size)}" {held.system}' if first else held.element,
                held.kind if joist is None else f"{held.kind} ({joist_words(study.model, joist)})",
                tape(held.along),
                _place(held.at),
                _height(held.down),
                inches(held.limit) if first else "",
            ]
        )
    story: list[Flowable] = [
        note(
            "“Along” counts from a run's upper end, from a supply's first end, or up from a riser's foot. A block's or "
            "strap's height is the pipe's underside, others' the axis; down from the joists' top. “Apart” is the "
            "greatest spacing allowed, inches"
            + "".join(f"; {cites}" for cites in dict.fromkeys(held.cites for held in taken.held))
            + ".",
            size,
        )
    ]
    if not rows:
        story.append(note("No pipe is drawn that needs holding.", size))
        return flowed(book, "Supports", story)
    columns = (
        Column("Run", 18),
        Column("Held by", 25),
        Column("Along", 13, "RIGHT"),
        Column("Place", 26),
        Column("Down", 17, "RIGHT"),
        Column("Apart", 8, "RIGHT"),
    )
    half = (width - 0.3) / 2.0
    story.append(table(columns, rows, half, size * 0.94))
    return flowed(book, "Supports", story, columns=2)


def _place(at: Point) -> str:
    return f"{feet_inches(at[0])} E, {feet_inches(at[1])} N"


def _height(value: float | None) -> str:
    if value is None:
        return "–"
    return tape(value) if value >= 0.0 else f"{tape(-value)} up"
