"""Drawings as wide as the paper one under the other on as few sheets as they fill, a legend and cautions at the foot of each."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

from engine.drawings.strokes import Drawing, Text
from engine.drawings.templates import shift, wrapped
from engine.planset.block import Titled
from engine.planset.book import Area, Book, Page

GAP = 0.2
"""Least way between two drawings, and over the foot, inches."""

FOOT = 0.86
"""The foot's lettering beside that of the drawings."""


class Stack(NamedTuple):
    """Drawings made at one scale, the scale as the block tells it, and what is said at the foot of their sheets."""

    drawings: tuple[Drawing, ...]
    scale: str
    said: tuple[str, ...]


def stacked(book: Book, title: str, tried: Sequence[Stack], legend: Drawing, lettering: float) -> list[Page]:
    """Of several stacks, the largest scale first, the one that takes the fewest sheets, in order, no drawing split."""
    area = book.area()
    best: tuple[Stack, Drawing, list[list[Drawing]]] | None = None
    for stack in tried:
        foot = foot_of(legend, stack.said, lettering)
        pages = packed(stack.drawings, area.height - foot.height - GAP)
        if best is None or len(pages) < len(best[2]):
            best = (stack, foot, pages)
    if best is None:
        return []
    return [stacked_page(book, Titled(title, best[0].scale), group, best[1]) for group in best[2]]


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
