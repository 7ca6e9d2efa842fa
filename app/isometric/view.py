"""The view of the isometric: where pointer and keys arrive. Turning, zooming, panning, choosing."""

from __future__ import annotations

import math

from PySide6.QtCore import QEvent, QPointF, Qt, Signal
from PySide6.QtGui import QHelpEvent, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QToolTip, QWidget

from app.document import Document
from app.isometric.sheet import IsometricSheet
from engine.plan.records import Point

ZOOM_STEP = 1.18
"""One notch of the wheel, or one press of a key, comes so much nearer."""

DRAG_FROM = 4
"""The pointer is dragging from this far on, pixels."""

PAN_STEP = 60.0
"""How far an arrow key moves the sheet, pixels."""


class IsometricView(IsometricSheet):
    """The sheet under the person's hand; `edit_requested(id)` tells that they want an element's properties."""

    edit_requested = Signal(str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(document, parent)
        self._press: QPointF | None = None
        self._last = QPointF()
        self._dragging = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom about the pointer."""
        turned = event.angleDelta().y() or event.angleDelta().x()
        if turned:
            self._zoom_about(event.position(), ZOOM_STEP ** (turned / 120.0))
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin a click or a drag."""
        self._press = self._last = event.position()
        self._dragging = event.button() != Qt.MouseButton.LeftButton
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the sheet, or show that something could be chosen."""
        at = event.position()
        if self._press is not None:
            gone = at - self._press
            self._dragging = self._dragging or math.hypot(gone.x(), gone.y()) >= DRAG_FROM
            if self._dragging:
                self.setCursor(Qt.CursorShape.ClosedHandCursor)
                self.pan_by(at.x() - self._last.x(), at.y() - self._last.y())
            self._last = at
            return
        name = self._at(at)
        self.setCursor(Qt.CursorShape.PointingHandCursor if name is not None else Qt.CursorShape.ArrowCursor)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """End a drag, or choose what lies under the pointer."""
        dragged, self._press = self._dragging, None
        self._dragging = False
        self.setCursor(Qt.CursorShape.ArrowCursor)
        if dragged or event.button() != Qt.MouseButton.LeftButton:
            return
        name = self._at(event.position())
        more = event.modifiers() & (Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier)
        if more and name is not None:
            self._held = name
            self._choosing = True
            self._document.select(self._document.selection ^ self._elements(name))
            self._choosing = False
            self.update()
        elif not more:
            self.hold(name)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Go to the properties of what lies under the pointer."""
        name = self._at(event.position())
        if name is not None:
            self.hold(name)
            self._edit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Turn, zoom, move, choose, without a mouse."""
        plain = not event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier)
        if not (plain and self._key(event)):
            super().keyPressEvent(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab walks the pieces and parts in reading order; past the last one it leaves the view."""
        names = self._drawn.names if self._drawn is not None else ()
        if names:
            place = names.index(self._held) + (1 if forward else -1) if self._held in names else (0 if forward else -1)
            if self._held not in names or 0 <= place < len(names):
                self.hold(names[place])
                self.reveal(names[place])
                return True
        return super().focusNextPrevChild(forward)

    def event(self, event: QEvent) -> bool:
        """Tell what the pointer rests on."""
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            name = self._at(QPointF(event.pos()))
            words = self._subject.lines.get(name or "", "") if self._subject is not None else ""
            QToolTip.showText(event.globalPos(), words, self)
            return True
        return super().event(event)

    # inside ----------------------------------------------------------------------------------------------------

    def _key(self, event: QKeyEvent) -> bool:
        key, letter = event.key(), event.text().upper()
        if key in _WAYS:
            across, down = _WAYS[key]
            self.pan_by(-PAN_STEP * across, -PAN_STEP * down)
        elif letter == "T":
            self.turn_by(-1 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1)
        elif letter in ("+", "="):
            self.zoom_by(ZOOM_STEP)
        elif letter == "-":
            self.zoom_by(1.0 / ZOOM_STEP)
        elif letter == "F":
            self.frame_all()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._edit()
        elif key == Qt.Key.Key_Escape and (self._held is not None or self._document.selection):
            self.hold(None)
        else:
            return False
        return True

    def _edit(self) -> None:
        elements = [each for each in self._in_order(self._held) if each in self._document.selection]
        if elements:
            self.edit_requested.emit(elements[0])


_WAYS: dict[int, Point] = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, -1.0),
    Qt.Key.Key_Down: (0.0, 1.0),
}
