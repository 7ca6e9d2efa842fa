"""Drawings one under the other on as few sheets as they fill, with the legend and the cautions at the foot of each."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from engine.drawings.strokes import Drawing, Text
from engine.drawings.templates import shift, wrapped
from engine.planset.block import Titled
from engine.planset.book import Area, Book, Page

GAP = 0.2
"""Least way between two drawings, and over the foot, inches."""

FOOT = 0.86
"""The foot's lettering beside that of the drawings."""


def packed(drawings: Iterable[Drawing], height: float) -> list[list[Drawing]]:
    """Drawings in their order on as few pages as they fill."""
    pages: list[list[Drawing]] = []
    free = 0.0
    for drawing in drawings:
        if not pages or drawing.height > free:
            pages.append([])
            free = height
        pages[-1].append(drawing)
        free -= drawing.height + GAP
    return pages


def stacked_page(book: Book, titled: Titled, group: Sequence[Drawing], foot: Drawing) -> Page:
    """A page of drawings over its foot, with what is left between them."""

    def fill(_canvas: Any, area: Area) -> None:
        spare = area.height - foot.height - GAP - sum(drawing.height for drawing in group)
        gap = min(spare / len(group), 2.0 * GAP)
        top = area.bottom + area.height
        for drawing in group:
            book.drawing(drawing, area.left, top - drawing.height)
            top -= drawing.height + gap
        book.drawing(foot, area.left, area.bottom)

    return book.page(titled, fill)


def foot_of(legend: Drawing, said: Iterable[str], lettering: float) -> Drawing:
    """A legend with sentences under it, empty ones left out."""
    size, width = lettering * FOOT, legend.width
    lines = [line for words in said if words for line in wrapped(words, size, width)]
    step = size * 1.6
    low = len(lines) * step
    texts = [Text((0.0, low - (n + 1) * step + size * 0.3), line, size) for n, line in enumerate(lines)]
    strokes = [*texts, *(shift(stroke, 0.0, low) for stroke in legend.strokes)]
    return Drawing(tuple(strokes), width, legend.height + low, (0.0, 0.0, width, legend.height + low))
