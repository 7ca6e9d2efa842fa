"""What lies under the drawing: the floor's ground and a grid of feet and inches, coarser as the view goes away."""

from __future__ import annotations

import math

from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QPainter, QPainterPath

from app import palette

PITCHES: tuple[tuple[float, float], ...] = ((1.0, 12.0), (6.0, 12.0), (12.0, 48.0), (48.0, 240.0))
"""Fine and strong pitch of the grid in inches, nearest view first."""

LEAST_PIXELS = 9.0
"""Grid lines are never drawn closer together than this."""


def pitches(scale: float) -> tuple[float, float]:
    """Fine and strong pitch of the grid at a zoom of `scale` pixels an inch."""
    for fine, strong in PITCHES:
        if fine * scale >= LEAST_PIXELS:
            return fine, strong
    return PITCHES[-1]


def paint_ground(painter: QPainter, exposed: QRectF, floor: QPainterPath, scale: float, grid: bool) -> None:
    """Paint the exposed part of the ground, and the grid over it."""
    painter.fillRect(exposed, palette.shade(palette.BEYOND))
    painter.fillPath(floor, palette.shade(palette.GROUND))
    if not grid:
        return
    fine, strong = pitches(scale)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setPen(palette.pen(palette.FINE_GRID, 1.0))
    painter.drawLines(_lines(exposed, fine, skip=strong))
    painter.setPen(palette.pen(palette.FOOT_GRID, 1.0))
    painter.drawLines(_lines(exposed, strong))


def _lines(area: QRectF, pitch: float, skip: float | None = None) -> list[QLineF]:
    """The grid's lines across an area, without those that a coarser pitch draws."""
    return [
        *(QLineF(x, area.top(), x, area.bottom()) for x in _steps(area.left(), area.right(), pitch, skip)),
        *(QLineF(area.left(), y, area.right(), y) for y in _steps(area.top(), area.bottom(), pitch, skip)),
    ]


def _steps(low: float, high: float, pitch: float, skip: float | None) -> list[float]:
    every = round(skip / pitch) if skip is not None else 0
    steps = range(math.floor(low / pitch), math.ceil(high / pitch) + 1)
    return [k * pitch for k in steps if not every or k % every]
