"""The canvas's own colours and pens.

Systems are told apart by line as well as by colour: waste solid and heavy, vents dashed, cold water long dash
and dot, hot water long dash and two dots, each with its letters. The hues keep their distance for eyes that
mix up red and green: they differ in lightness and along blue-yellow too. Pens are cosmetic, so a line keeps
its weight at every zoom.
"""

from __future__ import annotations

from functools import cache
from typing import Literal, NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QPen

from app import theme

System = Literal["waste", "vent", "cold", "hot"]

GROUND = theme.SHEET
BEYOND = theme.PLASTER
INK = theme.INK
QUIET = theme.QUIET

FINE_GRID = "#f0ede4"
FOOT_GRID = "#e4dfd2"

WOOD_FILL = "#f3e7d0"
WOOD_EDGE = "#c8ab7e"
WOOD_TEXT = "#7a5c2e"
BEARING = "#7d6238"

FLOORING = "#5f6b9a"

WALL_FILL = "#dfe2df"
WALL_EDGE = "#7f8a88"
WALL_EXTERIOR_FILL = "#c9cfcd"
BOARD_EDGE = "#b4bbb9"

FIXTURE_FILL = "#ffffff"
FIXTURE_EDGE = "#4a5a57"
FIXTURE_INNER = "#94a09d"

WASTE = "#33291f"
VENT = "#277052"
AIR = "#3f5f8a"
COLD = "#1b66a8"
HOT = "#a8326e"

LEGAL = "#00796b"
BROKEN = "#b93510"
UNKNOWN = theme.UNJUDGED

SELECTED = "#e0a100"
SNAP = "#b3126b"
GUIDE = "#7a8583"


class Line(NamedTuple):
    """How one system's pipes are drawn: colour, weight in pixels, dashes in weights, letters."""

    colour: str
    weight: float
    dashes: tuple[float, ...]
    letters: str


LINES: dict[System, Line] = {
    "waste": Line(WASTE, 3.0, (), "SAN"),
    "vent": Line(VENT, 2.0, (5.0, 2.5), "V"),
    "cold": Line(COLD, 1.8, (12.0, 3.0, 1.0, 3.0), "CW"),
    "hot": Line(HOT, 1.8, (12.0, 3.0, 1.0, 3.0, 1.0, 3.0), "HW"),
}
"""Each system's line, for the canvas and for the legend beside it."""


_density = 1.0


def set_density(ratio: float) -> bool:
    """Set the screen's dots per pixel, which cosmetic pens leave out of account; whether it changed.

    Pens made before a change keep their old weight: what is on show must be drawn anew.
    """
    global _density
    before, _density = _density, ratio
    return before != ratio


def shade(colour: str, alpha: int = 255) -> QColor:
    """A colour of this palette with an opacity from 0 to 255."""
    made = QColor(colour)
    made.setAlpha(alpha)
    return made


def pen(colour: str, weight: float = 1.0, alpha: int = 255, dashes: tuple[float, ...] = ()) -> QPen:
    """A cosmetic pen: `weight` in pixels whatever the zoom, `dashes` in multiples of it."""
    made = QPen(shade(colour, alpha), weight * _density)
    made.setCosmetic(True)
    made.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if dashes:
        made.setDashPattern(list(dashes))
        made.setCapStyle(Qt.PenCapStyle.FlatCap)
    return made


def line_pen(system: System) -> QPen:
    """The pen of a system's centre line."""
    line = LINES[system]
    made = pen(line.colour, line.weight, dashes=line.dashes)
    made.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return made


@cache
def lettering(pixels: int = 12, bold: bool = False) -> QFont:
    """The canvas's lettering at a height in pixels of a screen at scale 1."""
    font = QFont(theme.FAMILY)
    font.setPixelSize(pixels)
    font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return font
