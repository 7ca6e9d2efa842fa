"""One joist's elevation put together: title, wood, lines down, columns of figures, notes; and how large it is drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engine.drawings.cut_columns import columns, columns_height, grouped, in_parts, label_width, noted
from engine.drawings.elevations.columns import done, rows
from engine.drawings.elevations.holes import cuts, drops
from engine.drawings.elevations.stick import SUPPORT, Stick, ends, measures, wood
from engine.drawings.elevations.subjects import Elevation
from engine.drawings.linetypes import FINE
from engine.drawings.scales import STANDARD, Scales, largest
from engine.drawings.strokes import Drawing, Line, Stroke, Text
from engine.drawings.templates import shift, wrapped
from engine.drawings.typeface import text_width

LETTERING = 5.0 / 64.0
"""Height of the capitals that the sizes below were chosen for, inches."""

_LEAST, _MOST = 0.6, 1.45
"""How tall the deepest joist may stand on paper at that lettering, inches."""

_TITLE = 1.5
_AIR = 0.1


OVALS = "a round hole shows as an oval"
"""What two scales do to a joist's elevation."""


def scales_for(drawn: Sequence[Elevation], width: float, lettering: float) -> tuple[Scales, ...]:
    """The scales that elevations may be drawn at over a width of paper, the largest first; all have one for lengths."""
    room = min((width - sum(_margins(one, lettering)) for one in drawn), default=width)
    longest = max((one.length for one in drawn), default=1.0)
    deepest = max((one.depth for one in drawn), default=1.0)
    along = largest(longest, 0.0, max(room, 0.5), 1.0)
    share = lettering / LETTERING
    fit = [scale for scale in STANDARD if _LEAST * share <= deepest / scale.ratio <= _MOST * share]
    middle = (_LEAST + _MOST) / 2.0 * share
    fit = fit or [min(STANDARD, key=lambda scale: abs(deepest / scale.ratio - middle))]
    return tuple(Scales(along, up) for up in fit)


def parted(drawn: Elevation, width: float, lettering: float) -> tuple[Elevation, ...]:
    """An elevation as one drawing, or as several of the same joist where its cuts need more columns than find room."""
    groups = grouped(rows(drawn), drawn.cuts, width - _margins(drawn, lettering)[0], lettering)
    return in_parts(drawn, groups)


def elevation_drawing(drawn: Elevation, scales: Scales, width: float, lettering: float) -> Drawing:
    """One elevation over a width of paper, as tall as it needs to be; the hooked end is at the left.

    Every cut has its figures in a column of its own, so the elevation must have been parted for this width.
    """
    height = lettering
    left, _ = _margins(drawn, height)
    head = list(_head(drawn, width, height))
    above = head[-1].at[1] - height * (2.6 if drawn.thirds else 1.0)
    stick = Stick(left, above - drawn.depth / scales.up.ratio, scales.along.ratio, scales.up.ratio)
    leading = drops(stick, drawn)
    foot = stick.bottom - SUPPORT
    strokes: list[Stroke] = [*head, *wood(stick, drawn)]
    strokes += [Line((*drop.start, (drop.x, foot)), FINE) for drop in leading]
    strokes += [*cuts(stick, drawn), *measures(stick, drawn, height), *ends(stick, drawn, height)]
    if drawn.cuts:
        strokes += columns(rows(drawn), leading, foot, (left, width), height, done(drawn))
        foot -= columns_height(rows(drawn), drawn.cuts, height, done(drawn))
    said, foot = noted(drawn.cuts, width, height, foot)
    strokes += said
    foot -= _AIR
    moved = tuple(shift(stroke, 0.0, -foot) for stroke in strokes)
    return Drawing(moved, width, -foot, (0.0, 0.0, width, -foot), scales.words, scales.along.ratio)


def _margins(drawn: Elevation, height: float) -> tuple[float, float]:
    """Paper left and right of the wood: for the rows' words and the near end's, and for the far end's."""
    near = text_width("MEASURE FROM HERE", height * 0.88) + 0.32
    far = max(text_width("NORTH END", height * 1.15, bold=True), text_width('2 15/16" NO HOLE', height * 0.88)) + 0.25
    return max(near, label_width(rows(drawn), height, done(drawn)) + 0.15), far


def _head(drawn: Elevation, width: float, height: float) -> Iterator[Text]:
    """The joists' names, what they are, from where they are seen; the last text is the lowest."""
    big = height * _TITLE
    y = -big
    title = drawn.title + (f" (drawing {drawn.part} of {drawn.of})" if drawn.of > 1 else "")
    seen = f"SEEN FROM THE {drawn.hook.seen.upper()}"
    words = "; ".join(drawn.facts)
    at = text_width(title, big, bold=True) + 0.2
    yield Text((width, y), seen, height, "end")
    room = width - text_width(seen, height) - 0.15
    if text_width(title, big, bold=True) > room:
        lines = wrapped(title, big * 1.05, room)
        for n, line in enumerate(lines):
            yield Text((0.0, y - n * big * 1.35), line, big, bold=True)
        y -= (len(lines) - 1) * big * 1.35
        at = width
    else:
        yield Text((0.0, y), title, big, bold=True)
    if at + text_width(words, height) <= room:
        yield Text((at, y), words, height)
        return
    for line in wrapped(words, height, width):
        y -= height * 1.6
        yield Text((0.0, y), line, height)
