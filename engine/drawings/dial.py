"""A clock dial that shows which way a fitting's leg looks when the fitting is pushed on."""

from __future__ import annotations

import math

from engine.drawings.linetypes import FINE, MEDIUM, THIN, WIDE
from engine.drawings.strokes import Arc, Drawing, Fill, Line, Stroke, Text

RADIUS = 0.19
_CAPS = 0.05
_HUB = 0.055


def dial(degrees: float, plumb: bool) -> Drawing:
    """A dial with its hand at `degrees`, clockwise from the top.

    A level joint's dial has 12 at its top (the pipe's upper side), a plumb one's N (north, seen from above).
    """
    centre = (RADIUS + 0.02, RADIUS + 0.02)
    strokes: list[Stroke] = [Arc(centre, RADIUS, THIN)]
    for hour in range(12):
        outer, inner = RADIUS, RADIUS * (0.78 if hour % 3 == 0 else 0.88)
        strokes.append(Line((_at(centre, 30.0 * hour, inner), _at(centre, 30.0 * hour, outer)), FINE))
    swept = degrees if degrees <= 180.0 else degrees - 360.0
    if abs(swept) > 1.0:
        strokes.append(Arc(centre, RADIUS * 0.55, FINE, start=90.0, sweep=-swept))
    foot, tip = _at(centre, degrees, _HUB), _at(centre, degrees, RADIUS * 0.98)
    strokes += [Line((foot, _at(centre, degrees, RADIUS * 0.75)), WIDE), _head(centre, degrees, tip)]
    strokes.append(Arc(centre, _HUB, MEDIUM, fill=1.0))
    word = "N" if plumb else "12"
    strokes.append(Text((centre[0], centre[1] + RADIUS + 0.02), word, _CAPS, "middle", bold=True))
    width, height = 2.0 * centre[0], 2.0 * centre[1] + _CAPS + 0.02
    return Drawing(tuple(strokes), width, height, (0.0, 0.0, width, height))


def _head(centre: tuple[float, float], degrees: float, tip: tuple[float, float]) -> Fill:
    back = RADIUS * 0.62
    spread = math.degrees(math.atan2(0.035, back))
    return Fill((tip, _at(centre, degrees - spread, back), _at(centre, degrees + spread, back)), 0.0)


def _at(centre: tuple[float, float], degrees: float, radius: float) -> tuple[float, float]:
    """The place on a dial at an hour's angle."""
    turn = math.radians(degrees)
    return (centre[0] + radius * math.sin(turn), centre[1] + radius * math.cos(turn))
