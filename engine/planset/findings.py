"""The sheet of findings, keyed to the marks on the floor plan."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.planset.badges import mark
from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, note, table
from engine.planset.quantities import WEIGHTS, place, quantity
from engine.study import Study
from engine.takeoff.local import source_of
from engine.takeoff.naming import on_paper

if TYPE_CHECKING:
    from reportlab.platypus import Flowable


def findings(book: Book, study: Study) -> list[Page]:
    """Every finding with its mark on the plan, what was measured, the limit, where that stands, and what mends it."""
    size, width = book.paper.type_size, book.area().width
    story: list[Flowable] = [
        note(
            "The numbers are those of the marks on the floor plan. Places are east (E) and north (N) of the framing's "
            "outside south-west corner, heights down from the joists' top.",
            size,
        )
    ]
    if not study.findings:
        story.append(
            note("Nothing was found among what was judged. See the first sheets for what was not judged.", size)
        )
        return flowed(book, "Findings", story)
    rulings = study.plan.rulings
    rows: list[list[Any]] = []
    for number, found in enumerate(study.findings, 1):
        words = on_paper(study.model, found.text + (f"\nMend: {found.mend}" if found.mend else ""))
        for ruling in rulings:
            if ruling.about in (found.rule, *found.elements):
                words += f"\nRuling: {ruling.text} ({source_of(ruling.said_by, ruling.on)})"
        rows.append(
            [
                mark(found.weight, str(number), size),
                WEIGHTS[found.weight],
                words,
                on_paper(study.model, ", ".join(found.elements)),
                place(found.at),
                quantity(found.measured, found.unit),
                quantity(found.limit, found.unit),
                found.cites,
            ]
        )
    columns = (
        Column("No.", 4.4, "CENTER"),
        Column("Weight", 5.0),
        Column("What was found, and what mends it", 46),
        Column("Drawn as", 8),
        Column("Where", 16),
        Column("Measured", 9),
        Column("Limit", 9),
        Column("Rests on", 14),
    )
    story.append(table(columns, rows, width, size))
    return flowed(book, "Findings", story)
