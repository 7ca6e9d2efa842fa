"""From distance and height to the strip's pixels and back: heights are drawn larger than lengths."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize

from engine.takeoff.long_section import LongSection

LEFT, RIGHT = 152.0, 92.0
"""Room beside the section, pixels: for the heights and what sets them, and for what stands at the upper end."""

TOP, BOTTOM = 20.0, 36.0
"""Room over the floor for the joists' names, and under the section for heights and distances, pixels."""

OVER, UNDER = 0.75, 0.6
"""What is shown over the finished floor and under the lowest wood or pipe, inches."""

LEAST = 1.0
"""Lengths are never drawn larger than heights."""


class Scale(NamedTuple):
    """Where distance 0 and height 0 lie, and pixels an inch along and up."""

    left: float
    zero: float
    along: float
    up: float

    @property
    def larger(self) -> float:
        """How many times larger heights are drawn than lengths."""
        return self.up / self.along

    def x(self, station: float) -> float:
        """The pixel column of a distance from the exit, inches."""
        return self.left + station * self.along

    def y(self, z: float) -> float:
        """The pixel row of a height over the joists' top, inches."""
        return self.zero - z * self.up

    def point(self, station: float, z: float) -> QPointF:
        """The pixel of a place."""
        return QPointF(self.x(station), self.y(z))

    def rect(self, begins: float, ends: float, top: float, bottom: float) -> QRectF:
        """The pixels between two distances and two heights."""
        return QRectF(self.point(begins, top), self.point(ends, bottom))

    def station(self, x: float) -> float:
        """The distance from the exit at a pixel column."""
        return (x - self.left) / self.along

    def z(self, y: float) -> float:
        """The height at a pixel row."""
        return (self.zero - y) / self.up


def fitted(section: LongSection, size: QSize) -> Scale:
    """The scale at which a section fills a strip of this size: the floor its height, the line its width."""
    top = section.finished + OVER
    bottom = _lowest(section) - UNDER
    up = max(1.0, (size.height() - TOP - BOTTOM) / (top - bottom))
    room = max(1.0, size.width() - LEFT - RIGHT)
    along = min(room / section.length, up / LEAST) if section.length else up / LEAST
    return Scale(LEFT, TOP + top * up, along, up)


def _lowest(section: LongSection) -> float:
    """The lowest wood or pipe on the line, without the exit's tail."""
    wood = [wood.bottom for wood in section.woods]
    bays = [-bay.depth for bay in section.bays]
    pipes = [min(leg.z0, leg.z1) - leg.od / 2.0 for leg in section.legs]
    traps = [thing.z - thing.back for thing in section.things if thing.kind == "p_trap"]
    return min([*wood, *bays, *pipes, *traps])
