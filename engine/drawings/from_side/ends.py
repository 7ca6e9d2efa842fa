"""What stands at a strip's two ends: the exit with the heights that it may have, what the line joins, where it goes on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.crossings.records import Window
from engine.drawings.columns import shortened
from engine.drawings.from_side.frame import Frame
from engine.drawings.from_side.strips import Strip
from engine.drawings.linetypes import FINE, MEDIUM, THIN
from engine.drawings.marks import badge
from engine.drawings.strokes import Arc, Line, Stroke, Text
from engine.drawings.templates import wrapped
from engine.drawings.typeface import text_width
from engine.lengths import down, inches, up

SMALL = 0.88
BIG = 1.15
_GAUGE = 0.16
_TICK = 0.05
_LEADING = 1.75
_LINES = 3
_HAIR = 1.0 / 16.0


class Outlet(NamedTuple):
    """An exit's heights, and how high the ground lies under it, None where that is not known."""

    window: Window
    ground: float | None


def near_words(strip: Strip, outlet: Outlet | None) -> tuple[str, list[str]]:
    """What stands at the left end: its name, and lines about it."""
    line = strip.line
    if strip.before:
        return f"FROM {strip.before}", []
    if line.joins:
        return f"JOINS {line.joins}", [f'{inches(line.begins)}" FROM EXIT {line.exit}']
    said = []
    if outlet is not None:
        window, ground = outlet
        said = [f'AXIS {inches(-window.chosen)}" DOWN' + (", AS SET" if window.pinned else ""), *_room(window)]
        said += [f'GROUND {inches(-ground)}" DOWN'] if ground is not None else []
    return f"EXIT {line.exit}", said


def far_words(strip: Strip) -> list[str]:
    """What stands at the right end."""
    line = strip.line
    if strip.after:
        return ["ON TO", strip.after]
    if line.comes:
        return [f"{line.comes} COMES IN"]
    words, _, name = line.section.high_end.rpartition(" ")
    return [words.upper(), name]


def _room(window: Window) -> list[str]:
    """Between which heights the exit's axis may lie, rounded inward."""
    low, high = window.low, window.high
    if low is not None and high is not None and low > high:
        return ["NO HEIGHT SERVES ALL:", "SEE THE COVER"]
    if low is not None and high is not None and high - low < _HAIR:
        return ["NO OTHER HEIGHT SERVES"]
    if low is not None and high is not None:
        return ["MAY LIE BETWEEN", f'{inches(up(-high))}" AND {inches(down(-low))}"']
    said = [f'NOT LESS THAN {inches(up(-high))}"'] if high is not None else []
    return said + ([f'NOT MORE THAN {inches(down(-low))}"'] if low is not None else [])


def near_width(strip: Strip, outlet: Outlet | None, height: float) -> float:
    """How much paper the left end takes."""
    name, said = near_words(strip, outlet)
    small = max((text_width(words, height * SMALL) for words in said), default=0.0)
    return max(text_width(name, height * BIG, bold=True), small) + 0.12 + 2.0 * _GAUGE


def reach(strip: Strip, outlet: Outlet | None, height: float) -> float:
    """How far the words at both ends come down from the joists' top, paper inches."""
    near_lines = len(near_words(strip, outlet)[1]) * SMALL * _LEADING
    return height * (BIG + max(near_lines, _LINES * BIG * _LEADING) + 0.4)


def near(frame: Frame, strip: Strip, outlet: Outlet | None, height: float) -> Iterator[Stroke]:
    """The left end: its name, what has to be known of it, and at the exit the gauge of its heights."""
    name, said = near_words(strip, outlet)
    right = frame.box.left - 0.12 - (2.0 * _GAUGE if outlet is not None and not strip.before else 0.0)
    y = frame.y(0.0) - height * BIG
    if strip.before:
        yield from _match(frame, strip.before, frame.box.left, -1.0, height)
        return
    yield Text((right, y), name, height * BIG, "end", bold=True)
    for words in said:
        y -= height * SMALL * _LEADING
        yield Text((right, y), words, height * SMALL, "end")
    if outlet is not None:
        yield from _gauge(frame, outlet.window)


def far(frame: Frame, strip: Strip, height: float, width: float) -> Iterator[Stroke]:
    """The right end: what stands there, or the letter under which the line goes on."""
    if strip.after:
        yield from _match(frame, strip.after, frame.box.right, 1.0, height)
        return
    x, size = frame.box.right + 0.12, height * BIG
    *words, name = far_words(strip)
    lines = [line for part in words for line in wrapped(part, size, width - x)][:_LINES]
    for n, line in enumerate([*lines, name]):
        fits = shortened(line, size, width - x, bold=True)
        yield Text((x, frame.y(0.0) - size * (1.0 + n * _LEADING)), fits, size, bold=True)


def _match(frame: Frame, name: str, x: float, way: float, height: float) -> Iterator[Stroke]:
    """The line at which a strip is cut off, with the letter under which it goes on."""
    yield Line(((x, frame.box.bottom), (x, frame.box.top)), MEDIUM, (0.14, 0.04, 0.03, 0.04))
    yield from badge("look", (x + way * (height + 0.12), frame.y(0.0) - height * 2.0), name, height * BIG)


def _gauge(frame: Frame, window: Window) -> Iterator[Stroke]:
    """Beside the exit its heights: a tick for the highest and lowest, a ring for the one that it has."""
    x = frame.box.left - _GAUGE
    ends = [z for z in (window.low, window.high) if z is not None]
    ticks = [min(max(frame.y(z), frame.box.bottom), frame.box.top) for z in ends]
    for y in ticks:
        yield Line(((x - _TICK, y), (x + _TICK, y)), THIN)
    if len(ticks) == 2:
        yield Line(((x, min(ticks)), (x, max(ticks))), THIN)
    now = (x, min(max(frame.y(window.chosen), frame.box.bottom), frame.box.top))
    yield Arc(now, 0.028, THIN, fill=1.0)
    yield Line((now, (frame.box.left - 0.02, now[1])), FINE, grey=0.4)
