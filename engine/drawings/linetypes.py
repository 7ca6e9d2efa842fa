"""Line types and weights of the sheets: which line means which pipe, and how heavy everything is.

Waste solid and heavy, vents dashed, cold a long dash and a dot, hot a long dash and two dots, each with its
letters: the usual way of plumbing drawings (Typical plumbing layout, naval drafting course; Understanding
plumbing drawings). Patterns in printed inches are a choice of this program. Weights in millimetres follow
common drafting practice: 0.25 for dimensions, 0.35 for objects, 0.70 for the heaviest.
"""

from __future__ import annotations

from typing import NamedTuple

from engine.drawings.strokes import Dashes

FINE = 0.18
THIN = 0.25
MEDIUM = 0.35
WIDE = 0.50
HEAVY = 0.70

WOOD = 0.55
WOOD_FILL = 0.93
WALL_EDGE = 0.40
WALL_FILL = 0.86
BEAM_FILL = 0.86
FIXTURE = 0.30
FAINT = 0.62

DOT = 0.016
_GAP = 1.0 / 16.0


class LineType(NamedTuple):
    """How one system's pipes are drawn: letters on the line, weight, dash pattern, and its name in words."""

    letters: str
    weight: float
    dashes: Dashes
    words: str


LINE_TYPES: dict[str, LineType] = {
    "waste": LineType("SAN", HEAVY, (), "waste drain"),
    "vent": LineType("V", MEDIUM, (1.0 / 8.0, _GAP), "vent"),
    "cold": LineType("CW", MEDIUM, (0.75, _GAP, DOT, _GAP), "cold water"),
    "hot": LineType("HW", MEDIUM, (0.75, _GAP, DOT, _GAP, DOT, _GAP), "hot water"),
}
"""The line type of each system."""

BEARING: Dashes = (0.3, 0.06, 0.06, 0.06)
"""Pattern of a bearing line."""

LETTERS_EVERY = 2.5
"""Letters stand on a line about so far apart, printed inches."""
