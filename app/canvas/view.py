"""The view of the plan: where the pointer and the keys arrive, and are handed to the tool in hand."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGraphicsScene, QGraphicsView, QWidget

from app.document import Document
from engine.plan.records import Point


class PlanView(QGraphicsView):
    """The canvas of one document.

    `tool_changed(name)`, `pointer_at(point, reason)` in plan inches with the reason for a snap, `hint_changed(text)`,
    `picked(ids)` when the person picked elements on the canvas, `edit_requested(id)` when they want its properties.
    """

    tool_changed = Signal(str)
    pointer_at = Signal(object, str)
    hint_changed = Signal(str)
    picked = Signal(object)
    edit_requested = Signal(str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.setScene(QGraphicsScene(self))
        self._tool_name = "choose"

    @property
    def tool_name(self) -> str:
        """The name of the tool in hand; a fixture to place is `place:<kind>`."""
        return self._tool_name

    def set_tool(self, name: str) -> None:
        """Take up the tool of that name, a key of `TOOLS` or `place:<kind>`; what the old one did is cancelled."""
        self._tool_name = name
        self.tool_changed.emit(name)

    def show_place(self, point: Point) -> None:
        """Bring this plan point to the middle and point it out for a moment."""

    def frame_floor(self) -> None:
        """Zoom and scroll so that the whole floor is in sight."""

    def zoom_by(self, factor: float) -> None:
        """Zoom about the middle of the view; above 1 comes nearer."""

    def set_layer_visible(self, name: str, visible: bool) -> None:
        """Show or hide a layer by its name, a key of `LAYERS`."""
