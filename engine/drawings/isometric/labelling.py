"""Labels on an isometric: what is written at each joint and on each pipe, seated and put into strokes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from engine.drawings.isometric.figure import Figure
from engine.drawings.isometric.seating import Seat, Seating, Wanted
from engine.drawings.isometric.tags import Words
from engine.drawings.isometric.wording import Wording
from engine.drawings.labels import Box
from engine.drawings.linetypes import FINE, THIN
from engine.drawings.strokes import Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.plan.records import Point, Record

PITCH = 1.42
"""From one line of a label to the next, as a multiple of the lettering's height."""

FRAME = 0.026
"""Air between a piece's mark and its frame, paper inches at the usual lettering."""

_AT_JOINT = 0.055
_ON_PIPE = 0.022
_SHARES = (0.5, 0.36, 0.64, 0.24, 0.76)


class Wish(Record, frozen=True, gc=False):
    """A label before it has its place. With `framed` its first line is a piece's mark in its frame."""

    lines: tuple[Words, ...]
    anchors: tuple[Point, ...]
    clear: float
    framed: bool


class Label(Record, frozen=True, gc=False):
    """A label in its place: its box, its strokes, and for each text what it is about; `anchor` is what it names."""

    box: Box
    anchor: Point
    texts: tuple[Text, ...]
    about: tuple[str, ...]
    leader: Line | None
    frame: Line | None

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """Leader first, then frame and texts."""
        return (*(line for line in (self.leader, self.frame) if line is not None), *self.texts)


def wishes(figure: Figure, wording: Wording) -> list[Wish]:
    """Every label that a figure asks for."""
    found: list[Wish] = []
    unit, bones = figure.unit, figure.bones
    places = {shown.name: shown.at for shown in figure.shown}
    for key, at in figure.points.items():
        lines = wording.at(key)
        if lines:
            mounted = [places[made.part.id] for made in bones.mounts if made.joint == key]
            found.append(Wish(tuple(lines), tuple(dict.fromkeys((at, *mounted))), _AT_JOINT * unit, False))
    for name in dict.fromkeys(length.name for length in bones.lengths if length.what in ("piece", "tube")):
        lines_of = figure.lines_of(name)
        anchors = tuple(lines_of[0].at(share) for share in _SHARES)
        lines = wording.mark([line.length for line in lines_of])
        found.append(Wish(tuple(lines), anchors, _ON_PIPE * unit, True))
    return found


def seat(
    figure: Figure,
    wanted: Sequence[Wish],
    bounds: Box,
    lettering: float,
    kept: Sequence[Box] = (),
    farthest: float = math.inf,
    hasty: bool = False,
) -> list[Label | None]:
    """A label for each wish, or None where there is no bare place for it.

    In haste, as on a screen, marks and tags choose first and no label is moved aside for another.
    """
    seating = Seating(bounds, figure.ink(), figure.unit, kept)
    asked = []
    for wish in wanted:
        wide, high = _size(wish, lettering, figure.unit)
        rank = int(hasty and not wish.lines[0].bold)
        asked.append(Wanted(wide, high, wish.anchors, wish.clear, rank))
    seats = seating.seat_all(asked, farthest, 0) if hasty else seating.seat_all(asked, farthest)
    return [
        None if found is None else _written(wish, found, lettering, figure.unit)
        for wish, found in zip(wanted, seats, strict=True)
    ]


def at_anchor(figure: Figure, wish: Wish, lettering: float) -> Label:
    """A label right on what it names, whatever it covers: where no sheet has room for it."""
    wide, high = _size(wish, lettering, figure.unit)
    x, y = wish.anchors[0]
    return _written(wish, Seat(Box(x, y, x + wide, y + high), None, 0.0), lettering, figure.unit)


def _size(wish: Wish, lettering: float, unit: float) -> tuple[float, float]:
    wide = max(text_width(line.text, lettering, line.bold) for line in wish.lines)
    high = (len(wish.lines) - 1) * PITCH * lettering + lettering * 1.3
    air = FRAME * unit if wish.framed else 0.0
    return wide + 2.0 * air, high + (3.0 if len(wish.lines) > 1 else 2.0) * air


def _written(wish: Wish, seat: Seat, lettering: float, unit: float) -> Label:
    """The lines of a label, set toward what they name."""
    box, air = seat.box, FRAME * unit if wish.framed else 0.0
    near = seat.leader[0] if seat.leader is not None else wish.anchors[0]
    right = near[0] >= box.right - 1e-6
    texts: list[Text] = []
    for number, line in enumerate(wish.lines):
        y = box.top - air * min(number + 1, 2) - lettering * 1.12 - number * PITCH * lettering
        if right:
            texts.append(Text((box.right - air, y), line.text, lettering, "end", bold=line.bold))
        else:
            texts.append(Text((box.left + air, y), line.text, lettering, bold=line.bold))
    frame = None
    if wish.framed:
        wide = text_width(wish.lines[0].text, lettering, wish.lines[0].bold) + 2.0 * air
        left = box.right - wide if right else box.left
        low = texts[0].at[1] - air - lettering * 0.08
        frame = Line(((left, low), (left + wide, low), (left + wide, box.top), (left, box.top)), THIN, closed=True)
    leader = None if seat.leader is None else Line(seat.leader, FINE, grey=0.3)
    return Label(box, wish.anchors[0], tuple(texts), tuple(line.about for line in wish.lines), leader, frame)
