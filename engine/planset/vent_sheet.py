"""The sheet on vents: for every trap what vents it, how far that is, how far it may be, and by which section."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, heading, note, table
from engine.planset.quantities import tape
from engine.study import Study
from engine.takeoff.vent_rows import VentRow, vent_rows

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Traps and their vents"


def vents(book: Book, study: Study) -> list[Page]:
    """A row for every trap; those without a vent stand first, under a heading of their own."""
    size, width = book.paper.type_size, book.area().width
    rows = vent_rows(study.model)
    story: list[Flowable] = [
        note(
            "Each trap keeps sewer gas out by a plug of water, and a vent keeps the plug from being pulled along. Distances "
            "run along the pipe's centre line, from the trap's weir to the centre line of the pipe where the air is; a "
            "closet's from where its book counts. The limit goes by the trap's size, whatever the pipe's.",
            size,
        )
    ]
    if not rows:
        return flowed(book, TITLE, [*story, note("No trap is drawn yet.", size)])
    wrong = [row for row in rows if row.state != "vented"]
    for title, found in (("To put right, or not judged", wrong), ("Vented", [r for r in rows if r.state == "vented"])):
        if found:
            story += [heading(title, size * 1.2), table(_COLUMNS, [_cells(row) for row in found], width, size)]
    return flowed(book, TITLE, story)


_COLUMNS = (
    Column("Fixture", 16),
    Column("Trap", 7),
    Column("What vents it", 48),
    Column("Method's section", 15),
    Column("Away", 9, "RIGHT"),
    Column("May be", 9, "RIGHT"),
    Column("Limit's section", 16),
)


def _cells(row: VentRow) -> list[str]:
    air = f" The air goes {row.air}." if row.air else ""
    state = "" if row.state == "vented" else f"{row.state.upper()}: "
    return [
        row.words,
        row.trap,
        f"{state}{row.how}{air}",
        row.section,
        "" if row.distance is None else tape(row.distance),
        "no limit" if row.limit is None else tape(row.limit),
        row.limit_section,
    ]
