"""Sheets on which drawings as wide as the paper stand one under another, over a legend and what has to be known of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from engine.drawings.strokes import Drawing, Text
from engine.drawings.templates import shift, wrapped
from engine.planset.block import Titled
from engine.planset.book import Area, Book, Page

FOOT = 0.86
"""The legend's lettering beside the drawings'."""

_GAP = 0.2


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
        foot = _foot(area.width, lettering, legend, stack.said)
        packed = _packed(stack.drawings, area.height - foot.height - _GAP)
        if best is None or len(packed) < len(best[2]):
            best = (stack, foot, packed)
    if best is None:
        return []
    return [_page(book, Titled(title, best[0].scale), group, best[1]) for group in best[2]]


def _packed(drawings: Sequence[Drawing], height: float) -> list[list[Drawing]]:
    """Drawings in their order on as few pages as they fill."""
    pages: list[list[Drawing]] = []
    free = 0.0
    for drawing in drawings:
        if not pages or drawing.height > free:
            pages.append([])
            free = height
        pages[-1].append(drawing)
        free -= drawing.height + _GAP
    return pages


def _page(book: Book, titled: Titled, group: list[Drawing], foot: Drawing) -> Page:
    def fill(_canvas: Any, area: Area) -> None:
        spare = area.height - foot.height - _GAP - sum(drawing.height for drawing in group)
        gap = min(spare / len(group), 2.0 * _GAP)
        top = area.bottom + area.height
        for drawing in group:
            book.drawing(drawing, area.left, top - drawing.height)
            top -= drawing.height + gap
        book.drawing(foot, area.left, area.bottom)

    return book.page(titled, fill)


def _foot(width: float, lettering: float, legend: Drawing, words: Sequence[str]) -> Drawing:
    """At the foot of every sheet: what the marks mean, what the two scales do, and what to beware of."""
    size = lettering * FOOT
    said = [line for told in words if told for line in wrapped(told, size, width)]
    step = size * 1.6
    low = len(said) * step
    texts = [Text((0.0, low - (n + 1) * step + size * 0.3), line, size) for n, line in enumerate(said)]
    strokes = [*texts, *(shift(stroke, 0.0, low) for stroke in legend.strokes)]
    return Drawing(tuple(strokes), width, legend.height + low, (0.0, 0.0, width, legend.height + low))
