"""Over a strip how each stretch falls: which way and by how much to the foot."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from engine.drawings.from_side.frame import Frame
from engine.drawings.from_side.strips import Strip
from engine.drawings.linetypes import FINE, THIN
from engine.drawings.strokes import Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.lengths import inches
from engine.plan.outline import compass
from engine.takeoff.drain_lines import DrainLine
from engine.takeoff.section_shapes import grade

_TICK = 0.035
_SAME = 1e-6


class Slope(NamedTuple):
    """A stretch of one heading and slope: where it lies along the line, which way the water runs, inches to the foot."""

    begins: float
    ends: float
    heading: str
    fall: float

    @property
    def words(self) -> str:
        """All of it in few words."""
        if abs(self.fall) < _SAME:
            return f"LEVEL, {self.heading.upper()}"
        if self.fall < 0.0:
            return f"RISES {self.heading.upper()}, {rate(-self.fall)}: UPHILL"
        return f"FALLS {self.heading.upper()}, {rate(self.fall)}"


def rate(fall: float) -> str:
    """A slope as a level shows it."""
    return f'{inches(fall, 64)}" PER FT'


def slopes(line: DrainLine) -> list[Slope]:
    """The stretches from the lower end up; neighbours with one heading and slope are one."""
    found: list[Slope] = []
    for leg in line.legs:
        if leg.shape != "level" or leg.ends - leg.begins <= _SAME:
            continue
        down = math.degrees(math.atan2(leg.start[1] - leg.end[1], leg.start[0] - leg.end[0]))
        here = Slope(leg.begins, leg.ends, compass(down), grade(leg) * 12.0)
        before = found[-1] if found else None
        if before and before.heading == here.heading and abs(before.fall - here.fall) < 1e-4:
            found[-1] = before._replace(ends=here.ends)
        else:
            found.append(here)
    return found


def drawn(frame: Frame, strip: Strip, y: float, height: float) -> tuple[list[Stroke], list[str]]:
    """The string over a strip with what finds room on it; and in words what does not."""
    strokes: list[Stroke] = []
    left_over: list[str] = []
    for slope in slopes(strip.line):
        low, high = max(slope.begins, strip.low), min(slope.ends, strip.high)
        if high - low <= _SAME:
            continue
        a, b = frame.x(low), frame.x(high)
        strokes.append(Line(((a, y), (b, y)), THIN))
        for x, station in ((a, slope.begins), (b, slope.ends)):
            if strip.low <= station <= strip.high:
                strokes += _end(x, y, height)
        size = height * 0.9
        words = next((said for said in _said(slope) if text_width(said, size) <= b - a - 0.12), None)
        if words is not None:
            strokes.append(Text(((a + b) / 2.0, y - size / 2.0), words, size, "middle", halo=True))
        if words is None:
            left_over.append(f'{inches(slope.begins)}" to {inches(slope.ends)}" {slope.words.lower()}')
    return strokes, left_over


def _said(slope: Slope) -> Iterator[str]:
    """What may stand on the string, the longest first; the compass in letters where room is short."""
    yield slope.words
    if slope.fall > _SAME:
        points = "".join(word[0] for word in slope.heading.split("-")).upper()
        yield f"{points}, {rate(slope.fall)}"
        yield f'{points} {inches(slope.fall, 64)}"/FT'


def _end(x: float, y: float, height: float) -> Iterator[Stroke]:
    yield Line(((x - _TICK, y - _TICK), (x + _TICK, y + _TICK)), THIN)
    yield Line(((x, y - height * 0.9), (x, y + _TICK)), FINE, grey=0.4)
