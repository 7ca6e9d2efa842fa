"""Signs beside the steps of the assembly order, each with its word, so that no step rests on a picture alone."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Literal

from engine.drawings.linetypes import FINE, MEDIUM, THIN, WIDE
from engine.drawings.strokes import Arc, Drawing, Fill, Line, Stroke, Text
from engine.drawings.templates import shift

Sign = Literal[
    "start", "glue", "thread", "dry-fit", "leave dry", "level", "closing", "stop", "long", "test", "untest", "roof",
    "finish", "loose",
]  # fmt: skip

WIDTH = 0.46
_PICTURE = 0.2
_CAPS = 0.048
_ROW = 0.072

_WORDS: dict[Sign, tuple[str, ...]] = {
    "start": ("START",),
    "glue": ("GLUE",),
    "thread": ("THREAD",),
    "dry-fit": ("DRY-FIT",),
    "leave dry": ("LEAVE DRY",),
    "level": ("LEVEL",),
    "closing": ("CLOSING", "JOINT"),
    "stop": ("CAN'T GO", "IN"),
    "long": ("LEAVE", "LONG"),
    "test": ("TEST",),
    "untest": ("AFTER", "TEST"),
    "roof": ("AFTER", "ROOF"),
    "finish": ("AFTER", "FINISH"),
    "loose": ("NO JOINT", "DRAWN"),
}


def sign(kind: Sign) -> Drawing:
    """One sign over its word, :data:`WIDTH` inches wide."""
    words = _WORDS[kind]
    height = _PICTURE + 0.03 + _ROW * len(words)
    strokes = [shift(stroke, (WIDTH - 0.3) / 2.0, height - _PICTURE) for stroke in _PICTURES[kind]()]
    for n, word in enumerate(words):
        y = height - _PICTURE - 0.03 - _ROW * n - _CAPS
        strokes.append(Text((WIDTH / 2.0, y), word, _CAPS, "middle", bold=True))
    return Drawing(tuple(strokes), WIDTH, height, (0.0, 0.0, WIDTH, height))


def words_of(kind: Sign) -> str:
    """A sign's word."""
    return " ".join(_WORDS[kind])


def _box(left: float, bottom: float, right: float, top: float) -> tuple[tuple[float, float], ...]:
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def _arrow(start: tuple[float, float], end: tuple[float, float], weight: float = MEDIUM) -> list[Stroke]:
    angle = math.atan2(end[1] - start[1], end[0] - start[0])
    c, s = math.cos(angle), math.sin(angle)
    foot = (end[0] - 0.06 * c, end[1] - 0.06 * s)
    head = (end, (foot[0] - 0.03 * s, foot[1] + 0.03 * c), (foot[0] + 0.03 * s, foot[1] - 0.03 * c))
    return [Line((start, foot), weight), Fill(head, 0.0)]


def _drop(x: float, y: float, size: float, filled: bool) -> list[Stroke]:
    """A drop of cement: a round foot that runs up to a point."""
    turns = [math.radians(a) for a in range(150, 391, 20)]
    foot = [(x + size * math.cos(a), y + size * math.sin(a)) for a in turns]
    points = ((x, y + 2.3 * size), *foot)
    return [Fill(points, 0.0)] if filled else [Line(points, MEDIUM, closed=True)]


def _start() -> list[Stroke]:
    return [Fill(((0.08, 0.02), (0.24, 0.1), (0.08, 0.18)), 0.0)]


def _glue() -> list[Stroke]:
    return _drop(0.15, 0.06, 0.05, filled=True)


def _thread() -> list[Stroke]:
    """A pipe on its way through two joists."""
    joists = [Line(_box(x, 0.0, x + 0.05, 0.2), THIN, closed=True) for x in (0.09, 0.19)]
    return [*joists, *_arrow((0.0, 0.1), (0.3, 0.1), WIDE)]


def _dry_fit() -> list[Stroke]:
    """A pipe's end before its hub, dashed: not glued."""
    hub = Line(((0.3, 0.04), (0.17, 0.04), (0.17, 0.16), (0.3, 0.16)), MEDIUM, (0.03, 0.02))
    pipe = Line(((0.0, 0.06), (0.11, 0.06), (0.11, 0.14), (0.0, 0.14)), MEDIUM)
    return [hub, pipe]


def _leave_dry() -> list[Stroke]:
    return [*_drop(0.15, 0.06, 0.05, filled=False), Line(((0.05, 0.01), (0.25, 0.19)), WIDE)]


def _level() -> list[Stroke]:
    """A level with its bubble in the middle."""
    return [
        Line(_box(0.0, 0.04, 0.3, 0.16), MEDIUM, closed=True),
        Line(((0.11, 0.04), (0.11, 0.16)), THIN),
        Line(((0.19, 0.04), (0.19, 0.16)), THIN),
        Arc((0.15, 0.1), 0.03, THIN, fill=0.0),
    ]


def _closing() -> list[Stroke]:
    """Two pipes that meet in a coupling."""
    coupling = Line(_box(0.1, 0.03, 0.2, 0.17), MEDIUM, closed=True)
    return [*_arrow((0.0, 0.1), (0.14, 0.1)), *_arrow((0.3, 0.1), (0.16, 0.1)), coupling]


def _stop() -> list[Stroke]:
    turns = [math.radians(22.5 + 45.0 * n) for n in range(8)]
    plate = tuple((0.15 + 0.1 * math.cos(a), 0.1 + 0.1 * math.sin(a)) for a in turns)
    return [Fill(plate, 0.0), Text((0.15, 0.055), "!", 0.09, "middle", grey=1.0, bold=True)]


def _long() -> list[Stroke]:
    """A capped stub that stands up over its final height."""
    pipe = [Line(((x, 0.0), (x, 0.15)), MEDIUM) for x in (0.11, 0.19)]
    return [*pipe, Fill(_box(0.09, 0.15, 0.21, 0.19), 0.0), Line(((0.02, 0.08), (0.28, 0.08)), FINE, (0.03, 0.02))]


def _test() -> list[Stroke]:
    """A stack with water in it to a level."""
    pipe = Line(((0.09, 0.2), (0.09, 0.0), (0.21, 0.0), (0.21, 0.2)), MEDIUM)
    return [Fill(_box(0.09, 0.0, 0.21, 0.13), 0.6), pipe, Line(((0.04, 0.13), (0.26, 0.13)), THIN)]


def _untest() -> list[Stroke]:
    """The water let out."""
    pipe = Line(((0.09, 0.2), (0.09, 0.08)), MEDIUM)
    other = Line(((0.21, 0.2), (0.21, 0.08)), MEDIUM)
    return [pipe, other, *_arrow((0.15, 0.16), (0.15, 0.0))]


def _roof() -> list[Stroke]:
    """A vent through a roof's slope."""
    vent = [Line(((x, 0.0), (x, 0.2)), MEDIUM) for x in (0.12, 0.18)]
    return [*vent, Line(((0.0, 0.03), (0.3, 0.13)), WIDE)]


def _finish() -> list[Stroke]:
    """Tiles on a floor."""
    tiles = [Line(_box(x, 0.06, x + 0.09, 0.12), MEDIUM, closed=True) for x in (0.0, 0.1, 0.2)]
    return [*tiles, Line(((0.0, 0.03), (0.3, 0.03)), WIDE)]


def _loose() -> list[Stroke]:
    return [Arc((0.15, 0.1), 0.09, MEDIUM, dashes=(0.03, 0.02)), Text((0.15, 0.06), "?", 0.09, "middle", bold=True)]


_PICTURES: dict[Sign, Callable[[], list[Stroke]]] = {
    "start": _start,
    "glue": _glue,
    "thread": _thread,
    "dry-fit": _dry_fit,
    "leave dry": _leave_dry,
    "level": _level,
    "closing": _closing,
    "stop": _stop,
    "long": _long,
    "test": _test,
    "untest": _untest,
    "roof": _roof,
    "finish": _finish,
    "loose": _loose,
}
