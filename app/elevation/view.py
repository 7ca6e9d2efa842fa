"""A joist or a wall from the side on the screen: painted from the strokes of the sheets; a cut can be picked by pointer and key."""

from __future__ import annotations

import logging

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from app import palette, theme
from app.elevation.subject import Subject, drawings, ids
from app.isometric.inking import inked, paint
from app.isometric.subject import PIXELS
from engine.drawings.strokes import Drawing, Text
from engine.drawings.typeface import CAP_HEIGHT

LETTERING = 13.0 * CAP_HEIGHT / PIXELS
"""Height of the capitals, paper inches: type of 13 pixels."""

LEAST = QSize(880, 360)
MARGIN = 14.0
GAP = 0.25

NOTHING = "No pipe that is drawn cuts a joist or stands in a wall: draw a run across one, and it stands here."

log = logging.getLogger(__name__)


class ElevationView(QWidget):
    """Shows a joist or wall; `picked(n)` tells which of its cuts, counted from the left, was clicked or walked to; `turned(by)`
    asks for the next one, or the one before.
    """

    picked = Signal(int)
    turned = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setMinimumSize(LEAST)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName("Joist or wall from the side")
        self._shown: Subject | None = None
        self._drawings: list[tuple[float, Drawing]] = []
        self._held: int | None = None

    @property
    def shown(self) -> Subject | None:
        """What is on show."""
        return self._shown

    @property
    def held(self) -> int | None:
        """The cut picked last, counted from the left."""
        return self._held

    def show_elevation(self, shown: Subject | None) -> None:
        """Show this joist or wall, or that there is none."""
        if self._shown is None or shown is None or ids(shown) != ids(self._shown):
            self._held = None
        self._shown = shown
        if shown is not None and self._held is not None and self._held >= len(shown.cuts):
            self._held = None
        self._lay_out()

    def hold(self, cut: int | None) -> None:
        """Take up a cut without telling of it."""
        self._held = cut
        self.update()

    def place_of(self, cut: int) -> QPointF | None:
        """Where a cut's number stands, pixels."""
        for top, drawing in self._drawings:
            text = _number(drawing, self._numbers(cut))
            if text is not None:
                return _pixel(text, top, drawing) - QPointF(0.0, text.height / 2.0 * PIXELS)
        return None

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the strokes; a fault is logged and leaves plain paper."""
        painter = QPainter(self)
        try:
            self._paint(painter)
        except Exception:  # an error that leaves a paint event would stop all further painting
            log.exception("the elevation could not be painted")
        finally:
            painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw for the new width."""
        self._lay_out()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Pick the cut whose column or hole is nearest to the pointer, along the joist."""
        places = [(n, self.place_of(n)) for n in range(len(self._shown.cuts) if self._shown is not None else 0)]
        near = [(abs(at.x() - event.position().x()), n) for n, at in places if at is not None]
        if near and min(near)[0] <= _REACH:
            self._pick(min(near)[1])

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and right walk the cuts, the page keys the joists and walls."""
        page = {Qt.Key.Key_PageUp: -1, Qt.Key.Key_PageDown: 1}.get(Qt.Key(event.key()))
        if page is not None:
            self.turned.emit(page)
            return
        by = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()))
        if by is None or self._shown is None or not self._shown.cuts:
            super().keyPressEvent(event)
            return
        count = len(self._shown.cuts)
        self._pick((0 if by > 0 else count - 1) if self._held is None else (self._held + by) % count)

    def _pick(self, cut: int) -> None:
        self.hold(cut)
        self.picked.emit(cut)

    def _numbers(self, cut: int) -> set[str]:
        if self._shown is None or cut >= len(self._shown.cuts):
            return set()
        return {str(number) for number in self._shown.cuts[cut].numbers}

    def _lay_out(self) -> None:
        self._drawings = []
        if self._shown is not None:
            top = MARGIN
            for drawing in drawings(self._shown, (self.width() - 2.0 * MARGIN) / PIXELS, LETTERING):
                self._drawings.append((top, drawing))
                top += (drawing.height + GAP) * PIXELS
            self.setMinimumHeight(max(LEAST.height(), round(top)))
        self.update()

    def _paint(self, painter: QPainter) -> None:
        painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing)
        painter.fillRect(self.rect(), QColor(palette.GROUND))
        if self._shown is None:
            painter.setPen(QColor(palette.QUIET))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, NOTHING)
        for top, drawing in self._drawings:
            painter.save()
            painter.translate(MARGIN, top + drawing.height * PIXELS)
            for stroke in drawing.strokes:
                if isinstance(stroke, Text):
                    _write(painter, stroke)
                else:
                    paint(painter, inked((stroke,), palette.INK))
            painter.restore()
        at = self.place_of(self._held) if self._held is not None else None
        if at is not None:
            painter.setPen(QPen(QColor(palette.SELECTED), 3.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(at, 15.0, 15.0)
        if self.hasFocus():
            painter.setPen(QPen(QColor(theme.PINE), 2.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))


_REACH = 40.0
"""The pointer may miss a cut's column by so much, pixels."""


def _number(drawing: Drawing, numbers: set[str]) -> Text | None:
    """The number over a cut's column."""
    texts = (stroke for stroke in drawing.strokes if isinstance(stroke, Text) and stroke.bold)
    return next((text for text in texts if text.anchor == "middle" and text.text in numbers), None)


def _pixel(text: Text, top: float, drawing: Drawing) -> QPointF:
    return QPointF(MARGIN + text.at[0] * PIXELS, top + (drawing.height - text.at[1]) * PIXELS)


def _write(painter: QPainter, text: Text) -> None:
    """One text in its own size, on a plate of the ground's colour where it crosses lines."""
    font = palette.lettering(max(1, round(text.height / CAP_HEIGHT * PIXELS)), text.bold)
    metrics = QFontMetricsF(font)
    wide = metrics.horizontalAdvance(text.text)
    shift = {"start": 0.0, "middle": -wide / 2.0, "end": -wide}[text.anchor]
    painter.save()
    painter.translate(text.at[0] * PIXELS, -text.at[1] * PIXELS)
    painter.rotate(-text.angle)
    if text.halo:
        high = metrics.capHeight()
        painter.fillRect(QRectF(shift - 3.0, -high - 2.0, wide + 6.0, high + 4.0), QColor(palette.GROUND))
    painter.setFont(font)
    painter.setPen(QColor(palette.GROUND) if text.grey >= 1.0 else palette.shade(palette.INK))
    painter.drawText(QPointF(shift, 0.0), text.text)
    painter.restore()
