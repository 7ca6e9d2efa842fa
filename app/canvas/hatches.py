"""Hatches: a broken square as wide as the way in is clear, with a ring to lift it by, and how wide it is."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QPainterPath

from app import palette
from app.canvas.picture import Picture, Seat, Tag, dot, shape
from app.canvas.places import to_scene, track
from engine.lengths import inches
from engine.plan.records import Hatch, Point

EDGE = 1.5
"""How far the frame stands out past the clear way, inches."""

RING = 1.3
"""Radius of the ring, inches."""

LETTERS = "WAY IN"


def draw_hatch(hatch: Hatch) -> Picture:
    """A way in under the floor: its frame solid, the edge of the clear way broken, a ring near one side."""
    half = hatch.clear / 2.0
    frame, way = _square(hatch.at, half + EDGE), _square(hatch.at, half)
    broken = palette.pen(palette.WOOD_TEXT, 1.2)
    broken.setStyle(Qt.PenStyle.DashLine)
    items = [
        shape(frame, palette.pen(palette.WOOD_TEXT, 2.0), QBrush(palette.shade(palette.WOOD_FILL, 120))),
        shape(way, broken, QBrush(palette.shade(palette.GROUND, 150))),
        *(shape(track(corner), palette.pen(palette.WOOD_TEXT, 1.2)) for corner in _corners(hatch.at, half)),
    ]
    x, y = hatch.at
    items.append(dot((x, y - half / 2.0), min(RING, half / 4.0), palette.WOOD_TEXT, 1.6, palette.GROUND))
    words = f"{hatch.name or LETTERS} {inches(hatch.clear)} in"
    below = Seat(hatch.at, side=-1, anchor=0, clear=half + EDGE)
    above = Seat(hatch.at, side=1, anchor=0, clear=half + EDGE)
    tag = Tag(words, (Seat(hatch.at, room=hatch.clear), below, above), palette.WOOD_TEXT, bold=True, pixels=11)
    tip = f"{hatch.name or 'way in'} under the floor, {inches(hatch.clear)} in clear"
    return Picture("walls", frame, tuple(items), (tag,), tip)


def _square(at: Point, half: float) -> QPainterPath:
    centre, path = to_scene(at), QPainterPath()
    path.addRect(centre.x() - half, centre.y() - half, 2.0 * half, 2.0 * half)
    return path


def _corners(at: Point, half: float) -> tuple[tuple[Point, Point], ...]:
    """Short strokes from the corners of the clear way toward its middle."""
    (x, y), short = at, half / 3.0
    return tuple(
        ((x + dx * half, y + dy * half), (x + dx * (half - short), y + dy * (half - short)))
        for dx in (-1.0, 1.0)
        for dy in (-1.0, 1.0)
    )
