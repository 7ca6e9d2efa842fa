"""The list for boring: every bore and notch in the joists."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.drawings.marks import Kind
from engine.lengths import down, inches
from engine.planset.badges import mark
from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, note, table
from engine.planset.quantities import tape
from engine.study import Study
from engine.takeoff.boring import own_end
from engine.takeoff.joist_cuts import cut_rows
from engine.trade.pipe import nominal

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
            f"Numbers as on the drawings. Distances along a joist run from its own end, which is {own_end(study.model)}, to "
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
