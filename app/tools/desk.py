"""What a tool may ask of the canvas it works on, so that tools know no window."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from PySide6.QtCore import QPoint, QRect

from app.document import Document
from app.tools.offer import Sections, Taken
from app.tools.sketch import Mark
from engine.plan.records import Point


class Desk(Protocol):
    """The canvas as its tools see it."""

    document: Document

    def inches(self, pixels: float) -> float:
        """How many plan inches so many pixels of the screen are at the present zoom."""

    def beneath(self, pixel: QPoint) -> tuple[str, ...]:
        """Ids of the elements under a spot of the viewport, likeliest first."""

    def inside(self, box: QRect) -> frozenset[str]:
        """Ids of the elements that lie wholly in a rectangle of the viewport."""

    def answer_at(self, pixel: QPoint) -> frozenset[str] | None:
        """The elements that the answer's mark under a spot of the viewport is about; None when there is no mark."""

    def reading_order(self) -> tuple[str, ...]:
        """Ids of the elements on show, in the order in which one reads a page."""

    def sketch(self, marks: Iterable[Mark]) -> None:
        """Show these provisional marks in place of the last ones."""

    def clear_sketch(self) -> None:
        """Take the provisional marks away, and the snap's."""

    def point_out(self, point: Point | None, reason: str = "") -> None:
        """Show where the pointer snapped and why; None takes the mark away."""

    def say(self, hint: str) -> None:
        """Tell in one line what can be done next, or what stands in the way."""

    def offer(self, at: Point, name: str, sections: Sections, taken: Taken) -> None:
        """Open a small menu of choices at a plan point; `name` says what it offers, for those who don't see it."""

    def scroll(self, by: QPoint) -> None:
        """Move the sheet under the pointer by so many pixels."""

    def reveal(self, element_id: str) -> None:
        """Scroll so that an element is in sight."""

    def edit(self, element_id: str) -> None:
        """Ask for the properties of an element."""

    def write(self, element_id: str, field: str, begun: str) -> None:
        """Ask for one field of an element's properties, with this text begun in it."""

    def leave(self) -> None:
        """Put the tool down and go back to choosing."""

    def pick(self, ids: frozenset[str]) -> None:
        """Select these elements and tell that the person picked them on the canvas."""
