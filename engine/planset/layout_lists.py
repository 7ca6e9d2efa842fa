"""The list for boring: every bore and notch in the joists."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.drawings.elevations import past
from engine.drawings.marks import Kind
from engine.lengths import down, inches, up
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
                row.pipe + (" + foam" if row.sleeve else ""),
                what,
                f'{inches(down(row.limit))}"' if row.limit else "none",
                f"{tape(row.from_end)} from {row.end}",
                f"{tape(row.from_other)} from {row.other_end}",
                past(row.down_from_top, "above"),
                past(row.up_from_bottom, "below"),
                _left(row.wood_above, "above the top"),
                _left(row.wood_below, "below the edge"),
                tape(up(row.least_wood)) if row.least_wood is not None else "–",
                row.verdict,
                row.faults,
            ]
        )
    story: list[Flowable] = [
        note(
            f"Along: from the joist's own south or west end, which is {own_end(study.model)}, to the cut's middle; the other end's "
            "figure is to check by. Down and up: the bore's middle from the joist's top and its bottom edge. “+ foam”: bored for tube "
            "and sleeve together; through plates the tube goes bare. A hole at an angle: see its elevation.",
            size,
        )
    ]
    if not rows:
        story.append(note("No pipe that is drawn cuts a joist.", size))
        return flowed(book, "Joist cuts", story)
    bits = sorted({row.bit for row in cut_rows(study.model) if row.bit}, key=nominal)
    if bits:
        told = ", ".join(f'{bit}"' for bit in bits)
        story.append(
            note(
                f"{told}. Those for the floor, plates and studs stand with them on the shopping list.",
                size,
                lead="Bits to bring:",
            )
        )
    columns = (
        Column("No.", 4.4, "CENTER"),
        Column("Joist", 11),
        Column("Pipe", 13),
        Column("Cut", 15),
        Column("Widest allowed", 8.5, "RIGHT"),
        Column("Along the joist", 15.5),
        Column("or from its other end", 15.5),
        Column("Down from top", 8, "RIGHT"),
        Column("Up from bottom", 8, "RIGHT"),
        Column("Wood left above", 8, "RIGHT"),
        Column("Wood left below", 8, "RIGHT"),
        Column("Least wood", 7.5, "RIGHT"),
        Column("Legal", 7),
        Column("What is wrong", 13),
    )
    story.append(table(columns, rows, width, size))
    return flowed(book, "Joist cuts", story)


def _left(wood: float, beyond: str) -> str:
    """Wood left at an edge; a cut that reaches past the edge leaves none, and says how far it stands out."""
    return tape(down(wood)) if wood >= 0.0 else f"none: {tape(up(-wood))} {beyond}"
