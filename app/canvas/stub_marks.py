"""Where water comes up for a fixture: a small ring with a C for cold or an H for hot, at its true place."""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainterPath
from PySide6.QtWidgets import QGraphicsPathItem

from app import palette
from app.canvas.picture import dot, shape
from app.canvas.places import to_scene
from engine.drafting.stubs import Stub

RING = 1.9
"""Radius of the ring, inches: the rings of a pair of taps keep clear of each other and of the drain between them."""

LETTER = 0.85
"""Half the height of the letter, inches."""

COLOURS = {"cold": palette.COLD, "hot": palette.HOT}


def stub_marks(stub: Stub) -> tuple[QGraphicsPathItem, ...]:
    """The ring and letter of one stub."""
    colour = COLOURS[stub.water]
    letter = _c(stub) if stub.water == "cold" else _h(stub)
    return dot(stub.at, RING, colour, 1.0, palette.GROUND), shape(letter, palette.pen(colour, 1.5))


def _c(stub: Stub) -> QPainterPath:
    centre, path = to_scene(stub.at), QPainterPath()
    round_it = QRectF(centre.x() - LETTER, centre.y() - LETTER, 2.0 * LETTER, 2.0 * LETTER)
    path.arcMoveTo(round_it, 50.0)
    path.arcTo(round_it, 50.0, 260.0)
    return path


def _h(stub: Stub) -> QPainterPath:
    centre, path = to_scene(stub.at), QPainterPath()
    half = 0.7 * LETTER
    for x in (-half, half):
        path.moveTo(centre.x() + x, centre.y() - LETTER)
        path.lineTo(centre.x() + x, centre.y() + LETTER)
    path.moveTo(centre.x() - half, centre.y())
    path.lineTo(centre.x() + half, centre.y())
    return path
