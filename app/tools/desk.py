"""What a tool may ask of the canvas it works on, so that tools know no window."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from PySide6.QtCore import QPoint, QRect

from app.document import Document
from app.tools.sketch import Mark
from engine.plan.records import Point


class Desk(Protocol):
    """The canvas as its tools see it."""

    @property
    def document(self) -> Document:
        """The document under work."""

    def inches(self, pixels: float) -> float:
        """How many plan inches so many pixels of the screen are at the present zoom."""

    def beneath(self, pixel: QPoint, only: Iterable[str] = ()) -> tuple[str, ...]:
        """Ids of the elements under a spot of the viewport, likeliest first; of `only` when given."""

    def inside(self, box: QRect) -> frozenset[str]:
        """Ids of the elements that lie wholly in a rectangle of the viewport."""

    def sketch(self, marks: Iterable[Mark]) -> None:
        """Show these provisional marks in place of the last ones."""

    def clear_sketch(self) -> None:
        """Take the provisional marks away."""

    def point_out(self, point: Point | None, reason: str = "") -> None:
        """Show where the pointer snapped and why; None takes the mark away."""

    def say(self, hint: str) -> None:
        """Tell in one line what can be done next."""

    def scroll(self, by: QPoint) -> None:
        """Move the sheet under the pointer by so many pixels."""

    def edit(self, element_id: str) -> None:
        """Ask for the properties of an element."""

    def leave(self) -> None:
        """Put the tool down and go back to choosing."""

    def picked(self, ids: frozenset[str]) -> None:
        """Tell that the person picked these elements on the canvas."""
