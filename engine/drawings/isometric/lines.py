"""The lengths of pipe on paper: trimmed at their fittings, open where one passes behind, broken, lettered, arrowed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from engine.drawings.isometric.axes import away
from engine.drawings.isometric.levels import Places
from engine.drawings.isometric.skeleton import Length
from engine.drawings.labels import Box, text_boxes
from engine.drawings.linetypes import LETTERS_EVERY, LINE_TYPES, THIN
from engine.drawings.strokes import Fill, Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.plan.records import Point

APART = 0.055
"""How far a pipe that passes behind another one is left out on both sides of it, paper inches."""

BREAK = 0.045
"""Half the gap of a break mark."""

BREAK_AT = 0.42
"""Where in a shortened stretch its mark stands: a little below the middle, clear of what ends the riser."""

ARROW = (0.085, 0.028)
"""A flow arrow's length and half its width."""

LETTERED = 0.62
"""Pipe that must show beside the letters in it, paper inches."""

_AIR = 0.04
_SHIFTS = (0.0, 0.25, -0.25)


@dataclass(slots=True)
class PaperLine:
    """One length on paper: its ends, what fittings take of it at each, the gaps in it as shares, what stands on it."""

    length: Length
    a: Point
    b: Point
    trims: list[float] = field(default_factory=lambda: [0.0, 0.0])
    gaps: list[tuple[float, float]] = field(default_factory=list)
    marks: list[Stroke] = field(default_factory=list)

    @property
    def long(self) -> float:
        """Its length on paper."""
        return math.dist(self.a, self.b)

    def at(self, share: float) -> Point:
        """A point along it."""
        return (self.a[0] + share * (self.b[0] - self.a[0]), self.a[1] + share * (self.b[1] - self.a[1]))

    def free(self) -> list[tuple[float, float]]:
        """The stretches of it that are drawn, as shares."""
        if self.long < 1e-9:
            return []
        begin, end = self.trims[0] / self.long, 1.0 - self.trims[1] / self.long
        stretches = []
        for low, high in sorted(self.gaps):
            if low > begin:
                stretches.append((begin, min(low, end)))
            begin = max(begin, high)
        stretches.append((begin, end))
        return [(low, high) for low, high in stretches if high - low > 1e-6]

    def way(self, from_start: bool) -> Point:
        """The direction in which it leaves one of its ends."""
        a, b = (self.a, self.b) if from_start else (self.b, self.a)
        long = self.long or 1.0
        return ((b[0] - a[0]) / long, (b[1] - a[1]) / long)


def cross(lines: Sequence[PaperLine], places: Places, turn: int, unit: float) -> None:
    """Leave a gap in the pipe that passes behind another."""
    for n, one in enumerate(lines):
        for other in lines[n + 1 :]:
            ends = {one.length.start, one.length.end} & {other.length.start, other.length.end}
            met = None if ends else _meet(one, other)
            if met is None:
                continue
            t, s = met
            hidden = _away(one, t, places, turn) > _away(other, s, places, turn)
            behind, share = (one, t) if hidden else (other, s)
            half = APART * unit / (behind.long or 1.0)
            behind.gaps.append((share - half, share + half))


def shorten(line: PaperLine, places: Places, unit: float) -> None:
    """Mark where a riser is longer than it is drawn."""
    start, end = places.at[line.length.start][2], places.at[line.length.end][2]
    low, high = min(start, end), max(start, end)
    over = [each for each in places.breaks if low - 0.01 <= each.drawn_low and each.drawn_high <= high + 0.01]
    if line.length.shape != "plumb" or line.long < 1e-9 or not over:
        return
    widest = max(over, key=lambda each: each.left_out)
    share = (widest.drawn_low + BREAK_AT * (widest.drawn_high - widest.drawn_low) - low) / (high - low)
    share = share if start < end else 1.0 - share
    half = BREAK * unit
    line.gaps.append((share - half / line.long, share + half / line.long))
    line.marks += _slants(line.at(share), half)


def letter(line: PaperLine, others: Sequence[PaperLine], height: float, unit: float) -> None:
    """The system's letters in the pipe, again and again on a long one, where they keep clear of other pipes."""
    if line.length.what not in ("piece", "tube"):
        return
    words = LINE_TYPES[line.length.system].letters
    wide = height if line.length.shape == "plumb" else text_width(words, height)
    half = (wide / 2.0 + _AIR * unit) / (line.long or 1.0)
    for low, high in line.free():
        if (high - low) * line.long <= wide + LETTERED * unit:
            continue
        count = max(1, round((high - low) * line.long / LETTERS_EVERY))
        for n in range(count):
            for shift in _SHIFTS:
                share = low + (high - low) * (n + 0.5 + shift) / count
                text = _in_line(line, share, words, height)
                if low + half < share < high - half and _clear(text, line, others):
                    line.gaps.append((share - half, share + half))
                    line.marks.append(text)
                    break


def arrow(line: PaperLine, unit: float) -> None:
    """An arrowhead the way the water flows, on a level waste pipe long enough for one."""
    if (line.length.system, line.length.shape, line.length.what) != ("waste", "level", "piece"):
        return
    long, half = ARROW[0] * unit, ARROW[1] * unit
    spans = [(low, high) for low, high in line.free() if (high - low) * line.long > 1.7 * long]
    if not spans:
        return
    low, high = max(spans, key=lambda span: span[1] - span[0])
    (x, y), (wx, wy) = line.at((low + high) / 2.0), line.way(from_start=True)
    tail = (x - wx * long / 2.0, y - wy * long / 2.0)
    head = (
        (x + wx * long / 2.0, y + wy * long / 2.0),
        (tail[0] - wy * half, tail[1] + wx * half),
        (tail[0] + wy * half, tail[1] - wx * half),
    )
    line.marks.append(Fill(head, 0.0))


def _away(line: PaperLine, share: float, places: Places, turn: int) -> float:
    (ax, ay, az), (bx, by, bz) = places.at[line.length.start], places.at[line.length.end]
    return away((ax + share * (bx - ax), ay + share * (by - ay), az + share * (bz - az)), turn)


def _meet(one: PaperLine, other: PaperLine) -> tuple[float, float] | None:
    """Where two lengths cross on paper, as shares of each; None where they don't, or at an end."""
    (ax, ay), (bx, by) = one.a, one.b
    (cx, cy), (dx, dy) = other.a, other.b
    across = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if abs(across) < 1e-9:
        return None
    t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / across
    s = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / across
    return (t, s) if 0.0 < t < 1.0 and 0.0 < s < 1.0 else None


def _clear(text: Text, line: PaperLine, others: Sequence[PaperLine]) -> bool:
    """Whether letters keep clear of every other pipe and of the letters in it."""
    for box in text_boxes(text):
        for other in others:
            if other is not line and touches(box, other.a, other.b):
                return False
            written = (each for each in other.marks if isinstance(each, Text))
            if any(box.overlap(taken) > 0.0 for each in written for taken in text_boxes(each)):
                return False
    return True


def touches(box: Box, a: Point, b: Point) -> bool:
    """Whether a straight line runs through a rectangle."""
    low, high = 0.0, 1.0
    for start, end, least, most in ((a[0], b[0], box.left, box.right), (a[1], b[1], box.bottom, box.top)):
        step = end - start
        if abs(step) < 1e-12:
            if not least <= start <= most:
                return False
            continue
        enters, leaves = sorted(((least - start) / step, (most - start) / step))
        low, high = max(low, enters), min(high, leaves)
    return low <= high


def _slants(at: Point, half: float) -> list[Stroke]:
    """A break mark: two slanting strokes across the pipe, with bare paper between them."""
    x, y = at
    wide, lean = half * 1.5, half * 0.55
    return [Line(((x - wide, y + way * half - lean), (x + wide, y + way * half + lean)), THIN) for way in (-1.0, 1.0)]


def _in_line(line: PaperLine, share: float, words: str, height: float) -> Text:
    """A text in the line; upright in a plumb one, else along it."""
    x, y = line.at(share)
    if line.length.shape == "plumb":
        return Text((x, y - height / 2.0), words, height, "middle")
    wx, wy = line.way(from_start=True)
    angle = math.degrees(math.atan2(wy, wx))
    if angle > 91.0 or angle <= -89.0:
        angle += 180.0 if angle < 0.0 else -180.0
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return Text((x + s * height / 2.0, y - c * height / 2.0), words, height, "middle", angle)
