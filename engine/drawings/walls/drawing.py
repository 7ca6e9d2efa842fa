"""One wall's drawing put together: title, wall from the side, sole plate from above, columns of figures; and how large it is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.drawings.cut_columns import columns, columns_height, grouped, in_parts, label_width, noted
from engine.drawings.linetypes import FINE
from engine.drawings.scales import STANDARD, Scale, largest
from engine.drawings.strokes import Drawing, Line, Stroke, Text
from engine.drawings.templates import shift, wrapped
from engine.drawings.typeface import text_width
from engine.drawings.walls import plate as top
from engine.drawings.walls import side as view
from engine.drawings.walls.figures import rows
from engine.drawings.walls.names import labels
from engine.drawings.walls.records import WallView
from engine.drawings.walls.side import Side

ACROSS = STANDARD[1]
"""Scale of the sole plate's depth: a 2x4 shows nearly half an inch."""

_HEIGHTS = tuple(sorted((*STANDARD, Scale('3/16" = 1\'-0"', 64.0)), key=lambda scale: scale.ratio))
_LEAST, _MOST = 1.3, 4.2
"""How tall a wall may stand on paper, inches."""

_TITLE = 1.5
_AIR = 0.08


class WallScales(NamedTuple):
    """The scales of a wall's drawing: along it, and up it from the side; the plate's depth has :data:`ACROSS`."""

    along: Scale
    up: Scale

    @property
    def words(self) -> str:
        """The scales in few words."""
        along = f"{self.along.name} ALONG"
        return f"{along}, {self.up.name} UP" if self.along != self.up else f"{self.along.name}"


def scales_for(drawn: WallView, width: float, lettering: float) -> tuple[WallScales, ...]:
    """The scales that a wall may be drawn at over a width of paper, the tallest first."""
    room = width - sum(_margins(drawn, lettering))
    along = largest(drawn.hook.length, 0.0, max(room, 0.5), 1.0)
    along = along if along.ratio > ACROSS.ratio else ACROSS
    high = drawn.plates[1] + drawn.subfloor
    fit = [scale for scale in _HEIGHTS if _LEAST <= high / scale.ratio <= _MOST]
    fit = fit or [largest(0.0, high, 1.0, _MOST)]
    return tuple(WallScales(along, up) for up in fit)


def parted(drawn: WallView, width: float, lettering: float) -> tuple[WallView, ...]:
    """A wall as one drawing, or as several of it where its cuts need more columns than find room."""
    groups = grouped(rows(drawn), drawn.cuts, width - _margins(drawn, lettering)[0], lettering)
    return in_parts(drawn, groups)


def wall_drawing(drawn: WallView, scales: WallScales, width: float, lettering: float) -> Drawing:
    """One wall over a width of paper, as tall as it needs to be; the hooked end is at the left.

    Every cut has its figures in a column of its own, so the wall must have been parted for this width.
    """
    height = lettering
    left, _ = _margins(drawn, height)
    head = list(_head(drawn, scales, width, height))
    foot = min(text.at[1] for text in head) - height * 0.8
    side = Side(left, 0.0, scales.along.ratio, scales.up.ratio)
    _, over = view.stud_rows(side, drawn, height, width)
    side = side._replace(foot=foot - over - drawn.plates[1] / scales.up.ratio)
    strokes: list[Stroke] = [*head, *view.wood(side, drawn), *view.pipes(side, drawn)]
    strokes += view.stud_rows(side, drawn, height, width)[0]
    strokes += view.heights(side, drawn, height)
    foot = side.at(0.0, -drawn.subfloor)[1] - height * 2.6 - drawn.hook.depth / ACROSS.ratio
    seen = Side(left, foot, scales.along.ratio, ACROSS.ratio)
    leading = top.drops(seen, side, drawn)
    foot -= 0.04
    strokes += top.plate(seen, drawn)
    strokes += [Line((*drop.start, (drop.x, foot)), FINE) for drop in leading]
    strokes += top.words(seen, drawn, height)
    strokes += labels(side, drawn, height)
    if drawn.cuts:
        strokes += columns(rows(drawn), leading, foot, (left, width), height)
        foot -= columns_height(rows(drawn), drawn.cuts, height)
    said, foot = noted(drawn.cuts, width, height, foot)
    strokes += said
    foot -= _AIR
    moved = tuple(shift(stroke, 0.0, -foot) for stroke in strokes)
    return Drawing(moved, width, -foot, (0.0, 0.0, width, -foot), scales.words, scales.along.ratio)


def _margins(drawn: WallView, height: float) -> tuple[float, float]:
    """Paper left and right of the wood: for the rows' words, and for the heights and the far end's name."""
    near = max(
        text_width("MEASURE FROM HERE", height * 0.88),
        text_width(f"stud's near side from {drawn.hook.end} end", height * 0.88),
    )
    far = max(text_width(words, height * 0.88) for _, words in view.height_words(drawn))
    far = max(far, text_width("NORTH-EAST END", height * 1.15, bold=True))
    return max(near + 0.2, label_width(rows(drawn), height) + 0.15), far + 0.25


def _head(drawn: WallView, scales: WallScales, width: float, height: float) -> Iterator[Text]:
    """The wall's name, what it is, from where it is seen, its scales, and what is to be known of it."""
    big = height * _TITLE
    title = drawn.title + (f" (drawing {drawn.part} of {drawn.of})" if drawn.of > 1 else "")
    seen = f"SEEN FROM THE {drawn.hook.near.upper()}"
    y = -big
    yield Text((width, y), seen, height, "end")
    room = width - text_width(seen, height) - 0.15
    for n, line in enumerate(wrapped(title, big * 1.05, room)):
        y = -big - n * big * 1.35
        yield Text((0.0, y), line, big, bold=True)
    words = "; ".join((*drawn.facts, scales.words))
    for text in (words, *drawn.remarks):
        for line in wrapped(text, height, width):
            y -= height * 1.6
            yield Text((0.0, y), line, height)
