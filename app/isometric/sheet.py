"""The isometric's sheet: what of it is in sight, how near, from which corner, and what of it is selected."""

from __future__ import annotations

import logging

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from app import palette, theme
from app.document import Document
from app.isometric.drawn import Drawn
from app.isometric.inking import pixel
from app.isometric.subject import PIXELS, Subject
from engine.drawings.isometric.axes import CORNERS
from engine.drawings.isometric.labelling import Label
from engine.drawings.isometric.skeleton import Cover
from engine.drawings.labels import Box
from engine.plan.records import Point

LEAST_SCALE, MOST_SCALE = 1.0 / 400.0, 1.0
"""Farthest and nearest zoom, paper inches an inch of the building."""

MARGIN = 76.0
"""Room left round the whole when it is framed, pixels: labels stand there."""

EDGE = 6.0
"""Bare rim of the view, on which no label stands, pixels."""

REVEALED = 60.0
"""What is to be seen is brought this far inside the view, pixels."""

REST = 110
"""How long nothing may move before the labels are seated anew, milliseconds."""

NOTHING = "No pipe is worked out yet: draw a drain to an exit, or a water run, and it stands here."

log = logging.getLogger(__name__)


class IsometricSheet(QWidget):
    """Shows one document's pipes in isometric, and follows its study and selection.

    `turned(corner)` tells from which corner it looks, `described(words)` what was chosen on it.
    """

    turned = Signal(int)
    described = Signal(str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._cover: Cover = "drains"
        self._turn: int | None = None
        self._subject: Subject | None = None
        self._drawn: Drawn | None = None
        self._offset = QPointF()
        self._roams = False
        self._held: str | None = None
        self._choosing = False
        self.setAccessibleName("Isometric")
        self.setMinimumSize(QSize(240, 200))
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(REST)
        self._rest.timeout.connect(self.seat_labels)
        document.study_changed.connect(self._on_study)
        document.selection_changed.connect(self._on_selection)
        self._stale = True

    # what is on show -------------------------------------------------------------------------------------------

    @property
    def subject(self) -> Subject | None:
        """What is shown; None before the first study."""
        return self._subject

    @property
    def cover(self) -> Cover:
        """Whether drains and vents are shown, or water."""
        return self._cover

    @property
    def corner(self) -> int:
        """The corner looked from, by quarter turns from the south-west."""
        return self._subject.turn if self._subject is not None else self._turn or 0

    @property
    def labels(self) -> tuple[Label, ...]:
        """The labels that have a place now."""
        return tuple(self._drawn.labels) if self._drawn is not None else ()

    @property
    def held(self) -> str | None:
        """The piece or part that was clicked or walked to last."""
        return self._held

    @property
    def glowing(self) -> frozenset[str]:
        """Names of the pieces and parts that belong to what is selected."""
        if self._subject is None:
            return frozenset()
        chosen = self._document.selection
        return frozenset(name for name, elements in self._subject.elements_of.items() if chosen & set(elements))

    @property
    def scale_now(self) -> float:
        """The zoom, pixels an inch of the building along the axes."""
        return self._scale * PIXELS

    def pixel_at(self, point: Point) -> QPointF:
        """Where a point of the drawing lies in the view, pixels."""
        return pixel(point) + self._offset

    def pixel_of(self, name: str) -> QPointF | None:
        """Where a piece or part stands in the view, pixels."""
        place = self._drawn.place(name) if self._drawn is not None else None
        return None if place is None else place + self._offset

    def show_cover(self, cover: Cover) -> None:
        """Show drains and vents, or water."""
        if cover != self._cover:
            self._cover, self._turn, self._roams = cover, None, False
            self._renew()

    def turn_by(self, quarters: int) -> None:
        """Look from the corner so many quarter turns on, and see the whole again."""
        self._turn, self._roams = (self.corner + quarters) % len(CORNERS), False
        self._renew()

    def frame_all(self) -> None:
        """Zoom and scroll so that everything is in sight, and keep it so until the person zooms or drags."""
        self._roams = False
        subject = self._subject
        if subject is None or subject.empty:
            return
        extent = subject.extent()
        wide = max(extent.right - extent.left, 12.0)
        high = max(extent.top - extent.bottom, 12.0)
        room = (max(40.0, self.width() - 2.0 * MARGIN), max(40.0, self.height() - 1.4 * MARGIN))
        scale = min(room[0] / wide, room[1] / high) / PIXELS
        self._draw(scale)
        middle = QPointF((extent.left + extent.right) / 2.0, -(extent.bottom + extent.top) / 2.0) * (
            self._scale * PIXELS
        )
        self._offset = QPointF(self.width() / 2.0, self.height() / 2.0) - middle
        self._settle()

    def zoom_by(self, factor: float) -> None:
        """Zoom about the middle of the view; above 1 comes nearer."""
        self._zoom_about(QPointF(self.width() / 2.0, self.height() / 2.0), factor)

    def pan_by(self, across: float, down: float) -> None:
        """Move the sheet by so many pixels."""
        self._roams = True
        self._offset += QPointF(across, down)
        self._settle()

    def reveal(self, name: str) -> None:
        """Bring a piece or part into sight if it is out of it."""
        place = self.pixel_of(name)
        inner = QRectF(self.rect()).adjusted(REVEALED, REVEALED, -REVEALED, -REVEALED)
        if place is not None and not inner.contains(place):
            self.pan_by(self.width() / 2.0 - place.x(), self.height() / 2.0 - place.y())

    def hold(self, name: str | None) -> None:
        """Take up a piece or part, as a click on it does: what it belongs to is selected."""
        self._held = name
        self._choosing = True
        try:
            self._document.select(self._elements(name))
        finally:
            self._choosing = False
        if name is not None and self._subject is not None:
            self.described.emit(self._subject.lines.get(name, ""))
        self.update()

    def seat_labels(self) -> None:
        """Give every label in sight a place for the present zoom."""
        self._rest.stop()
        if self._drawn is None or self._subject is None or self._subject.empty:
            return
        self._drawn.labels = self._subject.labels(self._drawn.figure, self._window())
        self.update()

    def let_go(self) -> None:
        """Stop following the document."""
        self._rest.stop()
        self._document.study_changed.disconnect(self._on_study)
        self._document.selection_changed.disconnect(self._on_selection)

    # events ----------------------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground and what stands on it; a fault is logged and leaves plain paper."""
        painter = QPainter(self)
        try:
            self._paint(painter)
        except Exception:  # an error that leaves a paint event would stop all further painting
            log.exception("the isometric could not be painted")
            painter.resetTransform()
            painter.fillRect(self.rect(), QColor(palette.GROUND))
        finally:
            painter.end()

    def _paint(self, painter: QPainter) -> None:
        painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing)
        painter.fillRect(self.rect(), QColor(palette.GROUND))
        if self._drawn is None or self._subject is None or self._subject.empty:
            painter.setPen(QColor(palette.QUIET))
            painter.drawText(self.rect().adjusted(24, 0, -24, 0), _MIDDLE, NOTHING)
        else:
            painter.translate(self._offset)
            self._drawn.paint(painter, self.glowing | self._document.selection, self._held)
            painter.resetTransform()
        if self.hasFocus():
            painter.setPen(QPen(QColor(theme.PINE), 2.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))

    def showEvent(self, event: QEvent) -> None:
        """Catch up with the study."""
        if self._stale:
            self._renew()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep everything in sight until the person zooms."""
        if not self._roams:
            self.frame_all()
        else:
            self._settle()

    # inside ----------------------------------------------------------------------------------------------------

    @property
    def _scale(self) -> float:
        return self._drawn.scale if self._drawn is not None else LEAST_SCALE

    def _in_order(self, name: str | None) -> tuple[str, ...]:
        """The elements that a thing belongs to, its own first; a tag's name is an element itself."""
        if name is None or self._subject is None:
            return ()
        return self._subject.elements_of.get(name, (name,))

    def _elements(self, name: str | None) -> frozenset[str]:
        return frozenset(self._in_order(name))

    def _at(self, place: QPointF) -> str | None:
        if self._drawn is None:
            return None
        spot = (place - self._offset) / PIXELS
        return self._drawn.at((spot.x(), -spot.y()))

    def _window(self) -> Box:
        """The part of the paper in which labels are seated."""
        left, right = (EDGE - self._offset.x()) / PIXELS, (self.width() - EDGE - self._offset.x()) / PIXELS
        low, high = (self._offset.y() - self.height() + EDGE) / PIXELS, (self._offset.y() - EDGE) / PIXELS
        return Box(left, low, right, high)

    def _zoom_about(self, place: QPointF, factor: float) -> None:
        if self._drawn is None:
            return
        self._roams = True
        before = self._scale
        self._draw(min(max(before * factor, LEAST_SCALE), MOST_SCALE))
        self._offset = place - (place - self._offset) * (self._scale / before)
        self._settle()

    def _draw(self, scale: float) -> None:
        """Draw the subject at a scale; labels go along until they are seated anew."""
        if self._subject is None:
            return
        before = self._drawn.figure if self._drawn is not None else None
        labels = self.labels
        self._drawn = Drawn(self._subject, scale)
        if before is not None and before.turn == self._subject.turn:
            self._drawn.carry(list(labels), before)

    def _settle(self) -> None:
        self._rest.start()
        self.update()

    def _renew(self) -> None:
        """Show the latest study."""
        study = self._document.study
        self._stale = False
        if study is None:
            self._subject = self._drawn = None
            self.update()
            return
        self._subject = Subject(study, self._cover, self._turn)
        if self._held not in self._subject.elements_of:
            self._held = None
        self.setAccessibleDescription(self._words())
        if self._subject.empty:
            self._drawn = None
            self.update()
        elif self._drawn is None or not self._roams:
            self.frame_all()
        else:
            self._draw(self._scale)
            self._settle()
        self.turned.emit(self._subject.turn)

    def _words(self) -> str:
        assert self._subject is not None
        pipes, parts = self._subject.told
        return (
            f"Seen from the {CORNERS[self._subject.turn]}: {len(pipes)} pipes, {len(parts)} parts. "
            "The list beside it says the same in words."
        )

    def _on_study(self) -> None:
        self._stale = True
        if self.isVisible():
            self._renew()

    def _on_selection(self, chosen: frozenset[str]) -> None:
        """Follow a choice that was made elsewhere into sight."""
        if not self._choosing:
            if self._held is not None and not chosen & self._elements(self._held):
                self._held = None
            glowing = self.glowing
            if glowing and self.isVisible() and self._drawn is not None:
                inside = QRectF(self.rect())
                places = [self.pixel_of(name) for name in sorted(glowing)]
                if not any(place is not None and inside.contains(place) for place in places):
                    self.reveal(min(glowing))
        self.update()


_MIDDLE = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
