"""The view of the plan: where the pointer and the keys arrive, and are handed to the tool in hand."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import QEvent, QPoint, Qt, Signal, Slot
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
)
from PySide6.QtWidgets import QToolTip, QWidget

from app.canvas.arrows import ArrowPointer
from app.canvas.desk import CanvasDesk
from app.canvas.dropping import Dropping
from app.canvas.places import to_plan
from app.canvas.sheet import ZOOM_STEP, Sheet
from app.document import Document
from app.tools import TOOLS, Pointer, Tool, keyboard, tool_for


class PlanView(Sheet):
    """The canvas of one document.

    `tool_changed(name)`, `pointer_at(point, reason)` in plan inches with the reason for a snap,
    `hint_changed(text)`, `picked(ids)` when the person picked elements on the canvas, `edit_requested(id)` when
    they want its properties.
    """

    tool_changed = Signal(str)
    pointer_at = Signal(object, str)
    hint_changed = Signal(str)
    picked = Signal(object)
    edit_requested = Signal(str)
    field_requested = Signal(str, str, str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(document, parent)
        self._document = document
        self.setAcceptDrops(True)
        self.setAccessibleName("Plan")
        self.setAccessibleDescription("The plan drawn to scale; the outline lists the same things in words.")
        self._desk = CanvasDesk(self, self._scene, document)
        self._tool: Tool = TOOLS["choose"](self._desk)
        self._tool_name = "choose"
        self._dropping = Dropping(self._desk, self._dropped)
        self._arrows = ArrowPointer(self)
        self._hand: QPoint | None = None
        self._space = False
        self._gone = False
        document.selection_changed.connect(self._on_selection)
        document.plan_changed.connect(self._on_plan)
        document.history_changed.connect(self._on_history)
        self._tool.begin()

    # the tool in hand ------------------------------------------------------------------------------------------

    @property
    def tool_name(self) -> str:
        """The name of the tool in hand; a fixture to place is `place:<kind>`."""
        return self._tool_name

    @property
    def tool(self) -> Tool:
        """The tool in hand."""
        return self._tool

    def set_tool(self, name: str) -> None:
        """Take up the tool of that name, a key of `TOOLS` or `place:<kind>`; what the old one did is cancelled.

        KeyError when there is none of that name.
        """
        made = tool_for(name, self._desk)
        QToolTip.hideText()
        self._tool.clean()
        self._tool, self._tool_name = made, name
        self._set_cursor()
        self._tool.begin()
        self.tool_changed.emit(name)
        self.hint_changed.emit(self._tool.hint)

    def point_to(self, pointer: Pointer) -> None:
        """The pointer is here: let the tool follow, and tell where it is."""
        self._tool.move(pointer)
        self._tell(pointer)

    def let_go(self) -> None:
        """Put the tool down and let go of the document, before the window closes; a second call does nothing."""
        if self._gone:
            return
        self._gone = True
        self._tool.clean()
        self._document.selection_changed.disconnect(self._on_selection)
        self._document.plan_changed.disconnect(self._on_plan)
        self._document.history_changed.disconnect(self._on_history)
        super().let_go()

    # events ----------------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Middle button or space: take the sheet in hand. Right: end what is under way. Left: the tool's."""
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        pixel = event.position().toPoint()
        if event.button() == Qt.MouseButton.MiddleButton or (
            event.button() == Qt.MouseButton.LeftButton and self._space
        ):
            self._hand = pixel
            self._set_cursor()
        elif event.button() == Qt.MouseButton.LeftButton:
            pointer = self._pointer(pixel, event.modifiers())
            self._tool.press(pointer)
            self._tell(pointer)
        elif event.button() == Qt.MouseButton.RightButton and not self._tool.finish():
            self._tool.ask(self._pointer(pixel, event.modifiers()))
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Move the sheet in hand, or tell the tool."""
        pixel = event.position().toPoint()
        if self._hand is not None:
            self.scroll_by(pixel - self._hand)
            self._hand = pixel
        else:
            pointer = self._pointer(pixel, event.modifiers())
            self._arrows.mouse_at(pointer.at)
            self.point_to(pointer)
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Put the sheet down, or tell the tool."""
        pixel = event.position().toPoint()
        if self._hand is not None:
            self._hand = None
            self._set_cursor()
        elif event.button() == Qt.MouseButton.LeftButton:
            pointer = self._pointer(pixel, event.modifiers())
            self._tool.release(pointer)
            self._tell(pointer)
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Tell the tool of a double press."""
        if event.button() == Qt.MouseButton.LeftButton and not self._space:
            self._tool.double(self._pointer(event.position().toPoint(), event.modifiers()))
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys go to the tool, then to the pointer, then to the selection; what is left chooses a tool or a view."""
        if (
            self._tool.typed(event)
            or self._arrows.take(event)
            or keyboard.work(event, self._desk, self._tool)
            or self._letter(event)
        ):
            event.accept()
        else:
            event.ignore()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Space up: the sheet can no longer be taken in hand."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
            self._set_cursor()
        else:
            super().keyReleaseEvent(event)

    def event(self, event: QEvent) -> bool:
        """While the canvas has the keyboard, plain letters are its own before they are anyone's shortcut."""
        if event.type() == QEvent.Type.ShortcutOverride and _is_plain(cast("QKeyEvent", event)):
            event.accept()
            return True
        return super().event(event)

    def viewportEvent(self, event: QEvent) -> bool:
        """Things tell what they are only while the tool in hand draws nothing."""
        if event.type() == QEvent.Type.ToolTip:
            help_event = cast("QHelpEvent", event)
            if not self._tool.tips:
                event.ignore()
                return True
            tip = self._tool.tip(self._pointer(help_event.pos(), Qt.KeyboardModifier.NoModifier))
            if tip:
                QToolTip.showText(help_event.globalPos(), tip, self.viewport())
                return True
        return super().viewportEvent(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab walks the elements in reading order; past the last one it leaves the canvas."""
        return keyboard.walk(self._desk, forward) or super().focusNextPrevChild(forward)

    def leaveEvent(self, event: QEvent) -> None:
        """The pointer leaves: take the snap's mark away, and what a mere hovering shows."""
        self._scene.sketches.point_out(None, "")
        self._tool.leave()
        super().leaveEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """A fixture is dragged in from the shelf: what the tool had under way is given up."""
        self._tool.clean()
        pointer = self._dropping.enter(event)
        if pointer is not None:
            self._tell(pointer)

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        """Show the fixture where it would land."""
        pointer = self._dropping.over(event)
        if pointer is not None:
            self._tell(pointer)

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        """Take the fixture away again."""
        self._dropping.leave()
        self._tool.begin()
        event.accept()

    def dropEvent(self, event: QDropEvent) -> None:
        """Place the fixture, as one step."""
        if self._dropping.drop(event):
            self.setFocus(Qt.FocusReason.OtherFocusReason)
        self._tool.begin()

    # inside ----------------------------------------------------------------------------------------------------

    def _dropped(self, event: QDropEvent) -> Pointer:
        return self._pointer(event.position().toPoint(), event.modifiers())

    def _letter(self, event: QKeyEvent) -> bool:
        """Keys that belong to the view: tools by their letter, zoom, the sheet in hand."""
        if event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier):
            return False
        if event.key() == Qt.Key.Key_Space:
            self._space = self._space or not event.isAutoRepeat()
            self._set_cursor()
            return True
        letter = event.text().upper()
        for name, tool in TOOLS.items():
            if letter and letter == tool.key:
                self.set_tool(name)
                return True
        if letter in ("+", "="):
            self.zoom_by(ZOOM_STEP)
        elif letter == "-":
            self.zoom_by(1.0 / ZOOM_STEP)
        elif letter == "F":
            self.frame_floor()
        else:
            return False
        return True

    def _pointer(self, pixel: QPoint, keys: Qt.KeyboardModifier) -> Pointer:
        return Pointer(
            at=to_plan(self.mapToScene(pixel)),
            pixel=pixel,
            shift=bool(keys & Qt.KeyboardModifier.ShiftModifier),
            control=bool(keys & Qt.KeyboardModifier.ControlModifier),
            alt=bool(keys & Qt.KeyboardModifier.AltModifier),
        )

    def _tell(self, pointer: Pointer) -> None:
        """Tell where the pointer is: at the snap when there is one."""
        snapped = self._scene.sketches.snapped
        at, reason = snapped if snapped is not None else (pointer.at, "")
        self.pointer_at.emit(at, reason)

    def _set_cursor(self) -> None:
        if self._hand is not None:
            self.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
        elif self._space:
            self.viewport().setCursor(Qt.CursorShape.OpenHandCursor)
        else:
            self.viewport().setCursor(self._tool.cursor)

    @Slot(object)
    def _on_selection(self, chosen: object) -> None:
        self._tool.refresh()

    @Slot(object, object)
    def _on_plan(self, old: object, new: object) -> None:
        self._tool.refresh()

    @Slot()
    def _on_history(self) -> None:
        """What is under way grew from a plan that is no longer the current one: give it up, unless it made the step."""
        if self._tool.busy and not self._tool.stepping:
            self._tool.cancel()


def _is_plain(event: QKeyEvent) -> bool:
    """Whether a key types a character by itself: no menu's own key."""
    held = event.modifiers() & ~(Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier)
    return held == Qt.KeyboardModifier.NoModifier and event.text().isprintable() and bool(event.text())
