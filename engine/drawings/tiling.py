"""Full-size drawings larger than the paper, parted over several sheets with marks to glue them by."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from engine.drawings.labels import Box, text_boxes
from engine.drawings.linetypes import MEDIUM, THIN
from engine.drawings.strokes import Drawing, Fill, Line, Stroke, Text
from engine.drawings.templates import shift

OVERLAP = 0.5
"""How far one sheet lies over the next, inches."""

_CAPS = 0.075
_DASHES = (0.1, 0.05)
_DIAMOND = 0.14


class Tile(NamedTuple):
    """One sheet's part of a drawing: its strokes from the sheet window's lower left corner, and what to clip them to.

    `number` counts from 1 through `of`, from the lower left on, row by row.
    """

    number: int
    of: int
    strokes: tuple[Stroke, ...]
    window: Box


def tiles(drawing: Drawing, width: float, height: float) -> tuple[Tile, ...]:
    """A drawing at its own size over windows of at most `width` by `height` inches that overlap by :data:`OVERLAP`.

    One that fits gets a single tile, in the window's middle; of several, all are equally large. A text is printed on every sheet that shows all of it.
    """
    if drawing.width <= width + 1e-6 and drawing.height <= height + 1e-6:
        left, bottom = (width - drawing.width) / 2.0, (height - drawing.height) / 2.0
        window = Box(left, bottom, left + drawing.width, bottom + drawing.height)
        return (Tile(1, 1, tuple(shift(stroke, left, bottom) for stroke in drawing.strokes), window),)
    across, up = _count(drawing.width, width), _count(drawing.height, height)
    width, height = (drawing.width + (across - 1) * OVERLAP) / across, (drawing.height + (up - 1) * OVERLAP) / up
    found = []
    for row in range(up):
        for column in range(across):
            corner = (column * (width - OVERLAP), row * (height - OVERLAP))
            shown = Box(
                corner[0],
                corner[1],
                min(corner[0] + width, drawing.width),
                min(corner[1] + height, drawing.height),
            )
            strokes = [stroke for stroke in drawing.strokes if not isinstance(stroke, Text) or _within(stroke, shown)]
            strokes += _glue(shown, column, row, across, up)
            moved = tuple(shift(stroke, -corner[0], -corner[1]) for stroke in strokes)
            window = Box(0.0, 0.0, shown.right - shown.left, shown.top - shown.bottom)
            found.append(Tile(row * across + column + 1, across * up, moved, window))
    return tuple(found)


def _count(length: float, window: float) -> int:
    return max(1, math.ceil((length - OVERLAP - 1e-6) / (window - OVERLAP)))


def _within(text: Text, box: Box) -> bool:
    return all(
        box.left <= one.left and one.right <= box.right and box.bottom <= one.bottom and one.top <= box.top
        for one in text_boxes(text)
    )


def _glue(shown: Box, column: int, row: int, across: int, up: int) -> Iterator[Stroke]:
    """The marks at a tile's seams: a line to glue the next sheet to, an edge to cut, and diamonds that both share."""
    number = row * across + column + 1
    if row + 1 < up:
        y = shown.top - OVERLAP
        yield from _seam(
            (shown.left, y), (shown.right, y), f"GLUE SHEET {number + across} HERE, its cut edge on this line"
        )
    if row:
        yield from _cut((shown.left, shown.bottom), (shown.right, shown.bottom), number - across)
    if column + 1 < across:
        x = shown.right - OVERLAP
        yield from _seam((x, shown.bottom), (x, shown.top), f"GLUE SHEET {number + 1} HERE, its cut edge on this line")
    if column:
        yield from _cut((shown.left, shown.bottom), (shown.left, shown.top), number - 1)


def _seam(a: tuple[float, float], b: tuple[float, float], words: str) -> Iterator[Stroke]:
    yield Line((a, b), THIN, _DASHES)
    yield from _diamonds(a, b)
    yield _words(a, b, words, 0.08)


def _cut(a: tuple[float, float], b: tuple[float, float], other: int) -> Iterator[Stroke]:
    yield Line((a, b), MEDIUM)
    yield from _diamonds(a, b)
    yield _words(
        a, b, f"CUT ALONG THIS EDGE and lay it on sheet {other}'s dashed line; the diamonds must be whole", 0.2
    )


def _words(a: tuple[float, float], b: tuple[float, float], words: str, off: float) -> Text:
    middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)
    if a[1] == b[1]:
        return Text((middle[0], a[1] + off), words, _CAPS, "middle", halo=True)
    return Text((a[0] + off + _CAPS, middle[1]), words, _CAPS, "middle", 90.0, halo=True)


def _diamonds(a: tuple[float, float], b: tuple[float, float]) -> Iterator[Stroke]:
    """A diamond at a quarter and at three quarters of a seam, half on either side of it."""
    for share in (0.08, 0.92):
        x, y = a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])
        corners = ((x - _DIAMOND, y), (x, y - _DIAMOND), (x + _DIAMOND, y), (x, y + _DIAMOND))
        yield Fill(corners, 0.0)
