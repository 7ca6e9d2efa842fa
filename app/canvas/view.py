"""The view of the plan: where the pointer and the keys arrive, and are handed to the tool in hand."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QRect, QRectF, Qt, QTimer, Signal, Slot
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QResizeEvent,
    QShowEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QFrame, QGraphicsView, QWidget

from app import palette
from app.canvas.desk import CanvasDesk
from app.canvas.places import to_plan, to_scene
from app.canvas.scalebar import ScaleBar
from app.canvas.scene import PlanScene
from app.document import Document
from app.tools import TOOLS, PlaceFixture, Pointer, Tool, keyboard, tool_for
from engine.plan.records import Point

LEAST_SCALE, MOST_SCALE = 0.15, 90.0
"""Farthest and nearest zoom, pixels an inch."""

PLACE_SCALE = 4.0
"""A place is never shown from farther away than this, pixels an inch."""

WHEEL_STEP = 1.18
MARGIN = 40
"""Room left round the floor when the whole of it is shown, pixels."""

PLACE_SHOWN = 1600
"""How long a place stays pointed out, milliseconds."""


class PlanView(QGraphicsView):
    """The canvas of one document.

    `tool_changed(name)`, `pointer_at(point, reason)` in plan inches with the reason for a snap,
    `hint_changed(text)`, `picked(ids)` when the person picked elements on the canvas, `edit_requested(id)` when
    they want its properties, `scale_changed(pixels an inch)`.
    """

    tool_changed = Signal(str)
    pointer_at = Signal(object, str)
    hint_changed = Signal(str)
    picked = Signal(object)
    edit_requested = Signal(str)
    scale_changed = Signal(float)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        palette.set_density(self.devicePixelRatioF())
        self._scene = PlanScene(document, self)
        self.setScene(self._scene)
        self.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.SmartViewportUpdate)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.AnchorViewCenter)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.viewport().setMouseTracking(True)
        self.setAcceptDrops(True)
        self.setAccessibleName("Plan")
        self.setAccessibleDescription("The plan drawn to scale; the outline lists the same things in words.")
        self.scale_bar = ScaleBar(self)
        self._desk = CanvasDesk(self, self._scene, document)
        self._tool: Tool = TOOLS["choose"](self._desk)
        self._tool_name = "choose"
        self._guest: PlaceFixture | None = None
        self._hand: QPoint | None = None
        self._space = False
        self._framed = self._gone = False
        self._fade = QTimer(self)
        self._fade.setSingleShot(True)
        self._fade.setInterval(PLACE_SHOWN)
        self._fade.timeout.connect(self._on_fade)
        document.selection_changed.connect(self._on_selection)
        document.plan_changed.connect(self._on_plan)
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
        self._tool.clean()
        self._tool, self._tool_name = made, name
        self._set_cursor()
        self._tool.begin()
        self.tool_changed.emit(name)
        self.hint_changed.emit(self._tool.hint)

    # what is in sight ------------------------------------------------------------------------------------------

    @property
    def scale_now(self) -> float:
        """Pixels an inch."""
        return self.transform().m11()

    def show_place(self, point: Point) -> None:
        """Bring this plan point to the middle and point it out for a moment."""
        self._framed = True
        if self.scale_now < PLACE_SCALE:
            self._set_scale(PLACE_SCALE)
        self.centerOn(to_scene(point))
        self._scene.sketches.point_out(point, "here")
        self._fade.start()

    def frame_floor(self) -> None:
        """Zoom and scroll so that the whole floor is in sight."""
        self._framed = True
        area = self._scene.drawn()
        room = self.viewport().rect().adjusted(MARGIN, MARGIN, -MARGIN, -MARGIN)
        if area.isEmpty() or room.width() < 2 or room.height() < 2:
            return
        self._set_scale(min(room.width() / area.width(), room.height() / area.height()))
        self.centerOn(area.center())

    def zoom_by(self, factor: float) -> None:
        """Zoom about the middle of the view; above 1 comes nearer."""
        self._zoom_about(self.viewport().rect().center(), factor)

    def scroll_by(self, by: QPoint) -> None:
        """Move the sheet by so many pixels to the right and down."""
        self.horizontalScrollBar().setValue(self.horizontalScrollBar().value() - by.x())
        self.verticalScrollBar().setValue(self.verticalScrollBar().value() - by.y())

    def set_layer_visible(self, name: str, visible: bool) -> None:
        """Show or hide a layer by its name, a key of `LAYERS`."""
        self._scene.set_layer_visible(name, visible)

    def let_go(self) -> None:
        """Put the tool down and let go of the document, before the window closes; a second call does nothing."""
        if self._gone:
            return
        self._gone = True
        self._tool.clean()
        self._fade.stop()
        self._document.selection_changed.disconnect(self._on_selection)
        self._document.plan_changed.disconnect(self._on_plan)
        self._scene.teardown()

    def _zoom_about(self, pixel: QPoint, factor: float) -> None:
        self._framed = True
        under = self.mapToScene(pixel)
        self._set_scale(self.scale_now * factor)
        moved = self.mapFromScene(under)
        self.scroll_by(pixel - moved)

    def _set_scale(self, scale: float) -> None:
        bounded = min(max(scale, LEAST_SCALE), MOST_SCALE)
        self.resetTransform()
        self.scale(bounded, bounded)
        self._scene.fit(bounded)
        self.scale_bar.show_scale(bounded)
        self.scale_changed.emit(bounded)

    # events ----------------------------------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        """Show the whole floor the first time."""
        super().showEvent(event)
        if not self._framed:
            self.frame_floor()
            self._framed = False

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the whole floor in sight until the person zooms, and the scale bar in its corner."""
        super().resizeEvent(event)
        if not self._framed:
            self.frame_floor()
            self._framed = False
        self.scale_bar.move(6, self.viewport().height() - self.scale_bar.height() - 4)

    def event(self, event: QEvent) -> bool:
        """Draw with pens of the right weight when the view comes to a screen of another sharpness."""
        if event.type() == QEvent.Type.DevicePixelRatioChange and palette.set_density(self.devicePixelRatioF()):
            self._scene.redraw()
        return super().event(event)

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
            self._tool.press(self._pointer(pixel, event.modifiers()))
            self._tell(pixel)
        elif event.button() == Qt.MouseButton.RightButton:
            self._tool.finish()
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Move the sheet in hand, or tell the tool."""
        pixel = event.position().toPoint()
        if self._hand is not None:
            self.scroll_by(pixel - self._hand)
            self._hand = pixel
        else:
            self._tool.move(self._pointer(pixel, event.modifiers()))
            self._tell(pixel)
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Put the sheet down, or tell the tool."""
        pixel = event.position().toPoint()
        if self._hand is not None:
            self._hand = None
            self._set_cursor()
        elif event.button() == Qt.MouseButton.LeftButton:
            self._tool.release(self._pointer(pixel, event.modifiers()))
            self._tell(pixel)
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Tell the tool of a double press."""
        if event.button() == Qt.MouseButton.LeftButton and not self._space:
            self._tool.double(self._pointer(event.position().toPoint(), event.modifiers()))
        event.accept()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom about the pointer."""
        turned = event.angleDelta().y() or event.angleDelta().x()
        if turned:
            self._zoom_about(event.position().toPoint(), WHEEL_STEP ** (turned / 120.0))
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys go to the tool, then to what any selection understands, then choose a tool or a view."""
        if self._tool.typed(event) or keyboard.work(event, self._desk, self._tool) or self._letter(event):
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

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab walks the elements in reading order; past the last one it leaves the canvas."""
        return keyboard.walk(self._desk, forward) or super().focusNextPrevChild(forward)

    def leaveEvent(self, event: QEvent) -> None:
        """Take the snap mark away when the pointer leaves."""
        self._scene.sketches.point_out(None, "")
        super().leaveEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Begin to show the fixture that is dragged in from the shelf."""
        self._guest = PlaceFixture.carried(event.mimeData(), self._desk)
        self._carry(event)

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        """Show the fixture where it would land."""
        self._carry(event)

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        """Take the fixture away again."""
        if self._guest is not None:
            self._guest.clean()
            self._guest = None
        event.accept()

    def dropEvent(self, event: QDropEvent) -> None:
        """Place the fixture, as one step."""
        guest, self._guest = self._guest, None
        if guest is None:
            event.ignore()
            return
        self._tool.clean()
        guest.put(self._pointer(event.position().toPoint(), event.modifiers()))
        self._tool.begin()
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        event.acceptProposedAction()

    # inside ----------------------------------------------------------------------------------------------------

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Paint the ground under the exposed part."""
        self._scene.paint_ground(painter, rect, self.scale_now)

    def _carry(self, event: QDragMoveEvent) -> None:
        if self._guest is None:
            event.ignore()
            return
        pixel = event.position().toPoint()
        self._guest.hover(self._pointer(pixel, event.modifiers()))
        self._tell(pixel)
        event.acceptProposedAction()

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
            self.zoom_by(WHEEL_STEP)
        elif letter == "-":
            self.zoom_by(1.0 / WHEEL_STEP)
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

    def _tell(self, pixel: QPoint) -> None:
        """Tell where the pointer is: at the snap when there is one."""
        snapped = self._scene.sketches.snapped
        at, reason = snapped if snapped is not None else (to_plan(self.mapToScene(pixel)), "")
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
    def _on_fade(self) -> None:
        self._scene.sketches.point_out(None, "")
