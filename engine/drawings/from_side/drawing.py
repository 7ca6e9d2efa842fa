"""One strip put together: title, slopes, the floor cut along the line, lines down, columns of figures; and its scales."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engine.checks.model import Model
from engine.checks.way_down import drops
from engine.drawings import columns as under
from engine.drawings.columns import JOG
from engine.drawings.cut_columns import KINDS
from engine.drawings.from_side import ends, pipes, slopes, wood
from engine.drawings.from_side.frame import Frame
from engine.drawings.from_side.strips import PAST, Strip, column_width, label_width, rows, strips
from engine.drawings.labels import Box
from engine.drawings.linetypes import FINE, LINE_TYPES, THIN
from engine.drawings.marks import badge
from engine.drawings.scales import STANDARD, Scale, Scales
from engine.drawings.strokes import Arc, Drawing, Line, Stroke, Text
from engine.drawings.templates import shift, wrapped
from engine.drawings.typeface import text_width
from engine.lengths import inches
from engine.takeoff.drain_lines import DrainLine
from engine.takeoff.section_shapes import lowest_pipe
from engine.trade.pipe import label

SKEWED = "the pipe looks steeper than it lies"
"""What two scales do to a line."""

LETTERING = 5.0 / 64.0
"""Height of the capitals that the sizes below were chosen for, inches."""

_LEAST, _MOST = 0.7, 1.5
_FAR = 1.0
_OVER, _UNDER = 1.2, 0.7
_TOO_HIGH = 12.0
_TITLE = 1.5
_AIR = 0.1
_DOT = 0.013


class Layout:
    """What every strip of a set of lines shares: paper, margins, columns, and what of the floor all are drawn with."""

    def __init__(self, model: Model, lines: Sequence[DrainLine], width: float, height: float) -> None:
        self.lines, self.width, self.height = lines, width, height
        self.belly = model.plan.floor.belly
        self.windows = {window.exit: window for window in model.windows if window.exit is not None}
        self.grounds = {drop.exit.id: drop.ground for drop in drops(model)}
        whole = [Strip(line, line.begins - PAST, line.ends + PAST, line.places) for line in lines]
        name = max((ends.near_width(one, self.outlet(one), height) for one in whole), default=0.0)
        self.left = max(label_width(lines, height) + 0.15, name)
        self.apart = column_width(lines, height)
        self.most = max(1, int((width - self.left) / self.apart))
        self.room = max(width - self.left - _FAR, 1.0)

    def outlet(self, strip: Strip) -> ends.Outlet | None:
        """The exit at whose left end a strip stands, with the heights that it may have."""
        if strip.before or strip.line.joins or strip.line.exit not in self.windows:
            return None
        return ends.Outlet(self.windows[strip.line.exit], self.grounds[strip.line.exit])

    def strips(self, along: Scale) -> tuple[Strip, ...]:
        """The lines as they break at a scale for lengths."""
        return strips(self.lines, self.most, self.room * along.ratio)


def scales_for(layout: Layout) -> tuple[Scales, ...]:
    """The scales that the lines may be drawn at, the largest first: lengths at the one that needs fewest strips.

    Heights are never drawn smaller than lengths, so that the fall can be seen.
    """
    tall = max((_tall(line, layout.belly) for line in layout.lines), default=1.0)
    share = layout.height / LETTERING
    fit = [scale for scale in STANDARD if _LEAST * share <= tall / scale.ratio <= _MOST * share]
    middle = (_LEAST + _MOST) / 2.0 * share
    fit = fit or [min(STANDARD, key=lambda scale: abs(tall / scale.ratio - middle))]
    needs = {scale: (_too_long(layout, scale), len(layout.strips(scale)), scale.ratio) for scale in STANDARD}
    found = [(min((scale for scale in STANDARD if scale.ratio >= up.ratio), key=needs.__getitem__), up) for up in fit]
    return tuple(Scales(along, up) for along, up in found)


def _too_long(layout: Layout, scale: Scale) -> bool:
    """Whether at a scale a stretch without any place is longer than a strip."""
    return any(strip.length > layout.room * scale.ratio for strip in layout.strips(scale))


def line_drawing(strip: Strip, scales: Scales, layout: Layout) -> Drawing:
    """One strip over the layout's paper, as tall as it needs to be; the exit lies at the left."""
    height, width, left = layout.height, layout.width, layout.left
    line, belly = strip.line, layout.belly
    head = list(_head(strip, width, height))
    top = head[-1].at[1] - height * 2.6
    high, low = _high(line), _low(line, belly)
    right = left + strip.length / scales.along.ratio
    box = Box(left, top - (high - low) / scales.up.ratio, right, top)
    zero = top - high / scales.up.ratio
    frame = Frame(left, zero, strip.low, scales.along.ratio, scales.up.ratio, box)
    string, left_over = slopes.drawn(frame, strip, top + height * 0.9, height)
    strokes: list[Stroke] = [*head, *wood.floor(frame, line.section, belly), *wood.joists(frame, line.section)]
    strokes += [*pipes.hangers(frame, strip), *pipes.pipes(frame, line.section), *pipes.fittings(frame, line.section)]
    strokes += [*pipes.axes(frame, line.section), *string]
    strokes += [
        *ends.near(frame, strip, layout.outlet(strip), height),
        *ends.far(frame, strip, height, width),
    ]
    foot = min(box.bottom, zero - ends.reach(strip, layout.outlet(strip), height))
    table, foot = _columns(frame, strip, layout, foot)
    strokes += table
    if left_over:
        for text in wrapped(f"Slopes: {'; '.join(left_over)}.", height, width):
            foot -= height + 0.055
            strokes.append(Text((0.0, foot), text, height))
    foot -= _AIR
    moved = tuple(shift(stroke, 0.0, -foot) for stroke in strokes)
    return Drawing(moved, width, -foot, (0.0, 0.0, width, -foot), scales.words, scales.along.ratio)


def _columns(frame: Frame, strip: Strip, layout: Layout, foot: float) -> tuple[list[Stroke], float]:
    """The lines down from the places, the cuts' numbers and the rows; and where they end."""
    height, room = layout.height, (layout.left, layout.width)
    places = strip.places
    shown = rows(strip.line, places, height)
    apart = layout.apart
    xs = [frame.x(place.station) for place in places]
    seats = under.seated(xs, apart, room[0] + apart / 2.0, room[1] - apart / 2.0)
    heads = foot - JOG
    mark = height + 0.12
    first = heads - (mark if any(place.number for place in places) else 0.02)
    strokes: list[Stroke] = list(under.figures(shown, seats, first, room, height, apart))
    low = first - under.rows_height(shown, height)
    strokes += [Line(((0.0, first), (room[1], first)), THIN), Line(((0.0, low), (room[1], low)), FINE, grey=0.4)]
    for x, seat, place in zip(xs, seats, places, strict=True):
        z = -place.row.centre_down if place.row.centre_down is not None else 0.0
        y = min(max(frame.y(z), frame.box.bottom), frame.box.top)
        end = heads if place.number else first
        strokes.append(Line(((x, y), (x, foot), (x, foot - 0.03), (seat, heads + 0.03), (seat, end)), FINE, grey=0.25))
        strokes.append(Arc((x, y), _DOT, FINE, fill=0.0))
        if place.cut is not None:
            verdict = "legal" if place.cut.legal else "not judged" if place.cut.legal is None else "NOT LEGAL"
            strokes += badge(KINDS[verdict], (seat, heads - mark / 2.0), str(place.number), height)
    return strokes, low


def _head(strip: Strip, width: float, height: float) -> Iterator[Text]:
    """Which line this is, from where to where, how long and with what fall; the last text is the lowest."""
    line, big = strip.line, height * _TITLE
    part = f" (drawing {strip.part} of {strip.of})" if strip.of > 1 else ""
    title = f"{'DRAIN' if line.system == 'waste' else 'VENT'} {line.element}{part}"
    yield Text((0.0, -big), title, big, bold=True)
    at = text_width(title, big, bold=True) + 0.2
    y = -big
    for words in wrapped("; ".join(_facts(line)), height, width - at):
        yield Text((at, y), words, height)
        y -= height * 1.6


def _facts(line: DrainLine) -> Iterator[str]:
    yield f'{label(line.size)}" {LINE_TYPES[line.system].letters}'
    low = f"RUN {line.joins}" if line.joins else f"EXIT {line.exit}"
    words, _, name = line.section.high_end.rpartition(" ")
    yield f"FROM {low} UP TO {f'RUN {line.comes}' if line.comes else f'{words.upper()} {name}'}"
    yield f'{inches(line.ends - line.begins)}" LONG'
    if line.fall >= 0.0:
        yield f'FALLS {inches(line.fall)}" IN ALL'
    else:
        yield f'RISES {inches(-line.fall)}" TOWARD THE EXIT'
    first = line.legs[0]
    if first.shape != "level" and line.joins:
        plumb, leaning = (
            ("IN THE DROP ONTO", "IN THE ROLL ONTO") if line.system == "waste" else ("PLUMB OVER", "LEANING OVER")
        )
        yield f'{inches(first.z1 - first.z0)}" OF IT {plumb if first.shape == "plumb" else leaning} {line.joins}'


def _high(line: DrainLine) -> float:
    """The greatest height that is drawn: over the floor, and over pipe that lies too high, as far as that is sensible."""
    highest = max(max(leg.z0, leg.z1) + leg.od for leg in line.section.legs)
    floor = line.section.finished
    return max(floor + _OVER, min(highest, floor + _TOO_HIGH))


def _low(line: DrainLine, belly: float | None) -> float:
    """The lowest height that is drawn."""
    deepest = max((bay.depth for bay in line.section.bays), default=0.0)
    closed = -deepest - belly if belly is not None and line.section.bays else 0.0
    return min(lowest_pipe(line.section), closed) - _UNDER


def _tall(line: DrainLine, belly: float | None) -> float:
    """How much height is drawn, inches."""
    return _high(line) - _low(line, belly)
