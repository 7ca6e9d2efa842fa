"""Boxes to write in and boxes to tick, for the cells of tables."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from engine.planset.fonts import REGULAR
from engine.planset.papers import MILLIMETRE, POINTS
from engine.planset.words import plain

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

WRITE_WIDE, WRITE_HIGH = 0.78, 0.25
"""A box that a fraction is written into with a pencil, inches."""

_SMALL = 0.78
_GAP = 0.16


def tick_box(size: float, done: bool = False) -> Flowable:
    """A box to tick; one that is done has its tick already."""
    from reportlab.platypus import Flowable as Base

    side = size * 0.92

    class Box(Base):
        def wrap(self, available: float, _height: float) -> tuple[float, float]:
            self.width, self.height = available, side
            return self.width, self.height

        def draw(self) -> None:
            canvas = self.canv
            canvas.setStrokeGray(0.0)
            canvas.setDash([], 0)
            canvas.setLineWidth(0.3 * MILLIMETRE)
            canvas.rect(1.0, 0.0, side - 1.0, side - 1.0, stroke=1, fill=0)
            if done:
                path = canvas.beginPath()
                path.moveTo(side * 0.22, side * 0.45)
                path.lineTo(side * 0.42, side * 0.2)
                path.lineTo(side * 0.82, side * 0.76)
                canvas.setLineWidth(0.5 * MILLIMETRE)
                canvas.drawPath(path, stroke=1, fill=0)

    return Box()


def write_boxes(names: Sequence[str], signs: Sequence[str], size: float) -> Flowable:
    """Boxes in a row, each with its name under it and a sign between it and the next."""
    from reportlab.platypus import Flowable as Base

    wide, high, gap = WRITE_WIDE * POINTS, WRITE_HIGH * POINTS, _GAP * POINTS
    small = size * _SMALL

    class Boxes(Base):
        def wrap(self, available: float, _height: float) -> tuple[float, float]:
            self.width, self.height = available, high + small * 1.5
            return self.width, self.height

        def draw(self) -> None:
            canvas = self.canv
            for n, name in enumerate(names):
                left = n * (wide + gap)
                canvas.setStrokeGray(0.0)
                canvas.setDash([], 0)
                canvas.setLineWidth((0.5 if n + 1 == len(names) else 0.25) * MILLIMETRE)
                canvas.rect(left, small * 1.3, wide, high, stroke=1, fill=0)
                canvas.setFillGray(0.3)
                canvas.setFont(REGULAR, small)
                canvas.drawCentredString(left + wide / 2.0, small * 0.3, plain(name))
                if n < len(signs):
                    canvas.setFillGray(0.0)
                    canvas.setFont(REGULAR, size * 1.2)
                    middle = left + wide + gap / 2.0
                    canvas.drawCentredString(middle, small * 1.3 + high / 2.0 - size * 0.4, signs[n])

    return Boxes()
