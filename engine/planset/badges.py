"""Numbered marks for the cells of tables, as they stand on the drawings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.drawings.marks import Kind, badge
from engine.drawings.strokes import Drawing
from engine.planset import ink
from engine.planset.papers import POINTS

if TYPE_CHECKING:
    from reportlab.platypus import Flowable


def mark(kind: Kind, number: str, size: float) -> Flowable:
    """A numbered mark as on the drawings, for a table's cell."""
    from reportlab.platypus import Flowable as Base

    height = size * 0.66 / POINTS
    strokes = badge(kind, (0.0, 0.0), number, height)

    class Mark(Base):
        def wrap(self, available: float, _height: float) -> tuple[float, float]:
            self.width, self.height = available, size * 1.5
            return self.width, self.height

        def draw(self) -> None:
            drawing = Drawing(strokes, 0.0, 0.0, (0.0, 0.0, 0.0, 0.0))
            ink.draw(self.canv, drawing, self.width / 2.0 / POINTS, self.height / 2.0 / POINTS)

    return Mark()
