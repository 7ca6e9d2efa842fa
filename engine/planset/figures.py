"""Drawings that stand in the text and in the cells of tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.drawings.strokes import Drawing
from engine.planset import ink
from engine.planset.papers import POINTS

if TYPE_CHECKING:
    from reportlab.platypus import Flowable


def figure(drawing: Drawing) -> Flowable:
    """A drawing as a flowable of its own size."""
    from reportlab.platypus import Flowable as Base

    class Figure(Base):
        def wrap(self, _width: float, _height: float) -> tuple[float, float]:
            self.width, self.height = drawing.width * POINTS, drawing.height * POINTS
            return self.width, self.height

        def draw(self) -> None:
            ink.draw(self.canv, drawing, 0.0, 0.0)

    return Figure()
