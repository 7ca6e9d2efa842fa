"""The sheets of a plan under another rule book: what changes, and by which value of either book."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.comparing import Comparison
from engine.comparing.telling import CAUTION, Section, labels, told
from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, heading, note, table
from engine.study import Study
from engine.takeoff.naming import on_paper

if TYPE_CHECKING:
    from reportlab.platypus import Flowable


def beside_sheet(book: Book, study: Study, comparison: Comparison) -> list[Page]:
    """Every difference with its reason, a table for each kind; values that change nothing are left out."""
    size, width = book.paper.type_size, book.area().width
    here, there = labels(comparison)
    story: list[Flowable] = [
        note(
            f"This plan is drawn and judged by {here}. Here it stands beside itself as {comparison.there.title} ({there}) "
            f"would have it. {CAUTION}",
            size,
        )
    ]
    for section in told(comparison, all_values=False):
        story += _section(section, study, width, size)
    rest = sum(not value.tells for value in comparison.values)
    if rest:
        story.append(note(f"{rest} more values differ between the books and change nothing on this plan.", size))
    return flowed(book, f"Under {there}", story)


def _section(section: Section, study: Study, width: float, size: float) -> list[Flowable]:
    story = [heading(section.title, size * 1.2), note(section.note, size)]
    if section.rows:
        columns = [Column(title, share) for title, share in section.columns]
        share = min(1.0, sum(share for _, share in section.columns) / 100.0)
        rows = [[on_paper(study.model, cell) for cell in row] for row in section.rows]
        story.append(table(columns, rows, width * share, size))
    return story
