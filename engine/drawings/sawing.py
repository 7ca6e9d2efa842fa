"""The cutting plan: every stick as a bar to scale, with its pieces, saw cuts, damaged end and what is left over."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from engine.drawings.linetypes import FINE, MEDIUM, THIN
from engine.drawings.strokes import Drawing, Fill, Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.lengths import down, inches, nearest
from engine.plan.records import Point
from engine.takeoff.records import Bought, Stick

BAR = 2.0
"""A bar's height, in heights of the lettering."""

UNDER = 1.55
"""From line to line of what does not fit into its piece and stands under the bar, in heights of the lettering."""

_GAP = 0.75
_HEAD = 0.78
"""Paper left of the bars, inches: how long the stick is."""

_HATCH = 0.05
_PIECE_GREY = 0.9


class _Told(NamedTuple):
    """A text about a stretch of a bar; `row` is 0 in the bar itself, else the line under it; `left` where it begins."""

    words: str
    span: tuple[float, float]
    grey: float
    row: int
    left: float


class Scale(NamedTuple):
    """How many inches of pipe one inch of paper shows."""

    ratio: float

    @property
    def words(self) -> str:
        """The scale in words."""
        return f"one inch of paper is {self.ratio / 12.0:.3g} ft"


def scale_for(bought: Sequence[Bought], width: float) -> Scale:
    """The one scale at which the longest stick of some fits the width of a sheet."""
    longest = max((stick.length for entry in bought for stick in entry.plan.sticks), default=12.0)
    return Scale(longest / max(width - _HEAD - 0.05, 1.0))


def bar(stick: Stick, entry: Bought, scale: Scale, width: float, lettering: float) -> Drawing:
    """One stick: pieces in sawing order from the left, each with its mark and length, the offcut's name at the end.

    What does not fit into its piece stands under it, with a tick to its middle.
    """
    told = _told(stick, entry, scale, width, lettering)
    high = BAR * lettering
    base = (max(one.row for one in told) * UNDER + _GAP) * lettering if told else _GAP * lettering
    strokes: list[Stroke] = [Text((0.0, base + (high - lettering) / 2.0), f"{stick.length / 12.0:g} ft", lettering)]
    strokes += _box(_HEAD, _HEAD + stick.length / scale.ratio, base, high, 1.0)
    at = _HEAD
    if entry.damaged > 0.0:
        strokes += _hatched(at, at + entry.damaged / scale.ratio, base, high)
        at += entry.damaged / scale.ratio
    for cut in stick.cuts:
        end = at + cut.length / scale.ratio
        strokes += _box(at, end, base, high, _PIECE_GREY)
        at = end + entry.kerf / scale.ratio
        if entry.kerf > 0.0:
            strokes.append(Line(((end, base - 0.02), (end, base + high + 0.02)), MEDIUM))
    for one in told:
        strokes += _written(one, base, high, lettering)
    return Drawing(tuple(strokes), width, base + high, (0.0, 0.0, width, base + high), scale.words, scale.ratio)


def _told(stick: Stick, entry: Bought, scale: Scale, width: float, lettering: float) -> list[_Told]:
    """What is said of each stretch, and where: in it, or in the first line under the bar that has room."""
    stretches: list[tuple[str, tuple[float, float], float]] = []
    at = _HEAD + entry.damaged / scale.ratio
    for cut in stick.cuts:
        end = at + cut.length / scale.ratio
        stretches.append((f"{cut.mark}  {inches(nearest(cut.length))}", (at, end), 0.0))
        at = end + entry.kerf / scale.ratio
    if stick.left > 0.0:
        name = f"{stick.offcut}  " if stick.offcut else ""
        end = _HEAD + stick.length / scale.ratio
        stretches.append((f"{name}{inches(down(stick.left))} left", (min(at, end), end), 0.25))
    rows: list[float] = []
    found = []
    for words, span, grey in stretches:
        wide, middle = text_width(words, lettering), (span[0] + span[1]) / 2.0
        if wide + 0.06 <= span[1] - span[0]:
            found.append(_Told(words, span, grey, 0, middle - wide / 2.0))
            continue
        wanted = min(max(middle - wide / 2.0, 0.0), width - wide)
        fit = (n for n, end in enumerate(rows) if max(wanted, end) + wide <= width)
        row = next(fit, len(rows))
        if row == len(rows):
            rows.append(_HEAD)
        left = max(wanted, rows[row])
        rows[row] = left + wide + lettering
        found.append(_Told(words, span, grey, row + 1, left))
    return found


def _written(one: _Told, base: float, high: float, lettering: float) -> list[Stroke]:
    if one.row == 0:
        return [Text((one.left, base + (high - lettering) / 2.0), one.words, lettering, grey=one.grey)]
    middle = (one.span[0] + one.span[1]) / 2.0
    foot = base - lettering * (1.3 + (one.row - 1) * UNDER)
    tick = (min(max(middle, one.left), one.left + text_width(one.words, lettering)), foot + lettering * 1.05)
    return [
        Line(((middle, base), tick), FINE, grey=0.3),
        Text((one.left, foot), one.words, lettering, halo=one.row > 1, grey=one.grey),
    ]


def _box(left: float, right: float, base: float, high: float, grey: float) -> list[Stroke]:
    corners: tuple[Point, ...] = ((left, base), (right, base), (right, base + high), (left, base + high))
    return [Fill(corners, grey), Line(corners, THIN, closed=True)]


def _hatched(left: float, right: float, base: float, high: float) -> list[Stroke]:
    """A stretch that is thrown away: lines aslant."""
    strokes = _box(left, right, base, high, 1.0)
    for n in range(1, max(2, math.ceil((right - left) / _HATCH))):
        x = min(left + n * _HATCH, right)
        strokes.append(Line(((x, base), (max(left, x - high), base + min(high, x - left))), FINE))
    return strokes
