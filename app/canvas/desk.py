"""The canvas as its tools see it: what they may ask, and what they may show."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QPointF, QRect

from app.canvas import hits
from app.canvas.badges import ASIDE, BADGE, DOUBT, LIFT
from app.canvas.choice_menu import ChoiceMenu
from app.canvas.places import to_plan, to_scene
from app.document import Document
from app.tools.offer import Sections, Taken
from app.tools.sketch import Mark
from engine.plan.records import Point

if TYPE_CHECKING:
    from app.canvas.scene import PlanScene
    from app.canvas.view import PlanView


class CanvasDesk:
    """Answers `app.tools.desk.Desk` for one view."""

    def __init__(self, view: PlanView, scene: PlanScene, document: Document) -> None:
        self._view, self._scene = view, scene
        self.document = document

    def inches(self, pixels: float) -> float:
        """How many plan inches so many pixels of the screen are at the present zoom."""
        return pixels / self._view.scale_now

    def beneath(self, pixel: QPoint) -> tuple[str, ...]:
        """Ids of the elements under a spot of the viewport, likeliest first."""
        return hits.beneath(self._view, self._scene, pixel)

    def inside(self, box: QRect) -> frozenset[str]:
        """Ids of the elements that lie wholly in a rectangle of the viewport."""
        return hits.inside(self._view, self._scene, box)

    def answer_at(self, pixel: QPoint) -> frozenset[str] | None:
        """The elements that the answer's mark under a spot of the viewport is about; None when there is no mark."""
        answers, hidden = self._scene.answers, self._scene.hidden
        size = answers.badge_size

        def under(lift: QPointF) -> Point:
            return to_plan(self._view.mapToScene(pixel - (lift * size).toPoint()))

        spot = answers.near(under(LIFT), self.inches(BADGE * size)) if "findings" not in hidden else None
        if spot is not None:
            return frozenset(name for finding in spot.findings for name in finding.elements)
        doubt = answers.doubt_near(under(ASIDE), self.inches(DOUBT * size)) if "not_judged" not in hidden else None
        return doubt.elements if doubt is not None else None

    def sketch(self, marks: Iterable[Mark]) -> None:
        """Show these provisional marks in place of the last ones."""
        self._scene.sketches.show(marks)

    def clear_sketch(self) -> None:
        """Take the provisional marks away."""
        self._scene.sketches.clear()

    def point_out(self, point: Point | None, reason: str = "") -> None:
        """Show where the pointer snapped and why; None takes the mark away."""
        self._scene.sketches.point_out(point, reason)

    def say(self, hint: str) -> None:
        """Tell in one line what can be done next."""
        self._view.hint_changed.emit(hint)

    def offer(self, at: Point, name: str, sections: Sections, taken: Taken) -> None:
        """Open a small menu of choices at a plan point."""
        place = self._view.mapFromScene(to_scene(at))
        ChoiceMenu(name, sections, taken, self._view).open_at(self._view.viewport().mapToGlobal(place))

    def scroll(self, by: QPoint) -> None:
        """Move the sheet under the pointer by so many pixels."""
        self._view.scroll_by(by)

    def edit(self, element_id: str) -> None:
        """Ask for the properties of an element."""
        self._view.edit_requested.emit(element_id)

    def write(self, element_id: str, field: str, begun: str) -> None:
        """Ask for one field of an element's properties, with this text begun in it."""
        self._view.field_requested.emit(element_id, field, begun)

    def leave(self) -> None:
        """Put the tool down and go back to choosing."""
        self._view.set_tool("choose")

    def pick(self, ids: frozenset[str]) -> None:
        """Select these elements and tell that the person picked them on the canvas."""
        self.document.select(ids)
        self._view.picked.emit(self.document.selection)

    def reading_order(self) -> tuple[str, ...]:
        """Ids of the elements on show, in the order in which one reads a page."""
        return self._scene.reading_order()

    def reveal(self, element_id: str) -> None:
        """Scroll so that an element is in sight."""
        self._view.ensureVisible(self._scene.area_of(element_id).boundingRect(), 40, 40)
