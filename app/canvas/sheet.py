"""The sheet: how much of the plan is in sight, and how near. Zooming, scrolling, framing, nothing of tools."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QRect, QRectF, QSize, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QPainter, QResizeEvent, QShowEvent, QWheelEvent
from PySide6.QtWidgets import QFrame, QGraphicsView, QWidget

from app import palette
from app.canvas.places import to_scene
from app.canvas.scalebar import ScaleBar
from app.canvas.scene import PlanScene
from app.document import Document
from engine.plan.records import Point

LEAST_SCALE, MOST_SCALE = 0.15, 90.0
"""Farthest and nearest zoom, pixels an inch."""

PLACE_SCALE = 4.0
"""A place that has to be brought into sight is never shown from farther away than this, pixels an inch."""

RIM = 24
"""A place nearer to the view's edge than this is not in sight, pixels."""

ZOOM_STEP = 1.18
"""One notch of the wheel, or one press of a key, comes so much nearer."""

MARGIN = 40
"""Room left round the floor when the whole of it is shown, pixels."""

PLACE_SHOWN = 1600
"""How long a place stays pointed out, milliseconds."""


class Sheet(QGraphicsView):
    """A view of one document's scene. `scale_changed(scale)` tells the zoom in pixels an inch."""

    scale_changed = Signal(float)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
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
        self.scale_bar = ScaleBar(self)
        self._roams = False
        self._fade = QTimer(self)
        self._fade.setSingleShot(True)
        self._fade.setInterval(PLACE_SHOWN)
        self._fade.timeout.connect(self._on_fade)

    @property
    def scale_now(self) -> float:
        """Pixels an inch."""
        return self.transform().m11()

    def show_place(self, point: Point) -> None:
        """Point this plan point out for a moment, brought to the middle unless it is in sight already."""
        pixel = self.mapFromScene(to_scene(point))
        if not self.viewport().rect().adjusted(RIM, RIM, -RIM, -RIM).contains(pixel):
            self._roams = True
            if self.scale_now < PLACE_SCALE:
                self._set_scale(PLACE_SCALE)
            self.centerOn(to_scene(point))
        self._scene.sketches.point_out(point, "here")
        self._fade.start()

    def frame_floor(self) -> None:
        """Zoom and scroll so that the whole floor is in sight, and keep it so until the person zooms or scrolls."""
        self._roams = False
        area = self._scene.drawn()
        room = self._room()
        if area.isEmpty() or room.width() < 2 or room.height() < 2:
            return
        self._set_scale(min(room.width() / area.width(), room.height() / area.height()))
        self.centerOn(area.center())

    def _room(self) -> QSize:
        """The room to frame a floor in: the same with scroll bars and without, else each frame would call the next."""
        bars = QSize(self.verticalScrollBar().sizeHint().width(), self.horizontalScrollBar().sizeHint().height())
        return self.maximumViewportSize() - bars - QSize(2 * MARGIN, 2 * MARGIN)

    def zoom_by(self, factor: float) -> None:
        """Zoom about the middle of the view; above 1 comes nearer."""
        self._zoom_about(self.viewport().rect().center(), factor)

    def scroll_by(self, by: QPoint) -> None:
        """Move the sheet by so many pixels to the right and down."""
        self._roams = True
        self.horizontalScrollBar().setValue(self.horizontalScrollBar().value() - by.x())
        self.verticalScrollBar().setValue(self.verticalScrollBar().value() - by.y())

    def set_layer_visible(self, name: str, visible: bool) -> None:
        """Show or hide a layer by its name, a key of `LAYERS`."""
        self._scene.set_layer_visible(name, visible)

    def let_go(self) -> None:
        """Let go of the document and take every item out."""
        self._fade.stop()
        self._scene.teardown()

    def showEvent(self, event: QShowEvent) -> None:
        """Show the whole floor at first."""
        super().showEvent(event)
        if not self._roams:
            self.frame_floor()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the whole floor in sight until the person zooms, and the scale bar in its corner."""
        super().resizeEvent(event)
        if not self._roams:
            self.frame_floor()
        self.scale_bar.move(6, self.viewport().height() - self.scale_bar.height() - 4)

    def event(self, event: QEvent) -> bool:
        """Draw with pens of the right weight when the view comes to a screen of another sharpness."""
        if event.type() == QEvent.Type.DevicePixelRatioChange and palette.set_density(self.devicePixelRatioF()):
            self._scene.redraw()
        return super().event(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom about the pointer."""
        turned = event.angleDelta().y() or event.angleDelta().x()
        if turned:
            self._zoom_about(event.position().toPoint(), ZOOM_STEP ** (turned / 120.0))
        event.accept()

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Paint the ground under the exposed part."""
        self._scene.paint_ground(painter, rect, self.scale_now)

    def _zoom_about(self, pixel: QPoint, factor: float) -> None:
        self._roams = True
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

    @Slot()
    def _on_fade(self) -> None:
        self._scene.sketches.point_out(None, "")
