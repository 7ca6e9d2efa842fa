"""The sheet of the fall strip: the section painted, hovered, dragged and nudged.

It knows the document only through what it is told: `moved(z)` asks for a height while the pipe is dragged,
`settled(z)` at the end, `nudged(z)` from the keyboard; `dropped` gives a drag up.
"""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QHideEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QWheelEvent,
)
from PySide6.QtWidgets import QAbstractSlider, QSizePolicy, QWidget

from app import theme
from app.strip import picture, pipes
from app.strip.scale import Scale, fitted
from app.strip.subject import Subject
from app.strip.wording import height, shown, verdict
from engine.takeoff.levers import Lever, sticking
from engine.takeoff.long_section import Leg, LongSection

CLICK = 3
"""A press that moves less than this is no drag, pixels."""

STICK = 4.0
"""How far past a limit the pointer pulls before the pipe follows, pixels."""

MOST = 16_777_215
"""What the toolkit takes for no bound at all, pixels."""

LOWEST = 132
"""The least height at which a floor can be read and a pipe be taken, pixels."""

FOLDED = 44
"""The height while nothing is drawn that has a fall, pixels: two lines of words."""

SLOW = 1.0 / 32.0
"""Inches that the pipe moves for each pixel while Shift is held."""

STEP, LARGE = 1.0 / 16.0, 1.0 / 2.0
"""How far an arrow and a page key move the pipe, inches."""

KEYS = (
    "Up and Down move the pipe by a sixteenth, Page Up and Page Down by half an inch, Left and Right go along it; "
    "Enter types its height, Home leaves it to the program."
)

FINEST = 16.0
"""Steps of the value that assistive programs read, an inch."""


class Hold(NamedTuple):
    """A drag under way: what is held, the pixel row last seen, the height pulled to, and whether it moved at all."""

    lever: Lever
    scale: Scale
    row: float
    pulled: float
    begun: bool


class StripSheet(QAbstractSlider):
    """Paints one line and lets a hand move it. To assistive programs it is a slider of sixteenths.

    `asked` is the height that a key asked for last, while the study of it is under way: the next key goes on from it.
    """

    taken = Signal(str)
    moved = Signal(object, float)
    settled = Signal(object, float)
    dropped = Signal()
    nudged = Signal(object, float)
    released = Signal()
    typing = Signal()
    told = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Long section of the fall")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(LOWEST)
        self.setOrientation(Qt.Orientation.Vertical)
        self.subject = Subject(None, None, "")
        self.may_drag = False
        self.scale = Scale(0.0, 0.0, 1.0, 1.0)
        self.asked: float | None = None
        self._hold: Hold | None = None
        self._station: float | None = None
        self._walked = False
        self.valueChanged.connect(self._on_value)

    def fold(self, folded: bool) -> None:
        """Take no more room than words need, or as much as a section does."""
        self.setMinimumHeight(FOLDED if folded else LOWEST)
        self.setMaximumHeight(FOLDED if folded else MOST)

    def sizeHint(self) -> QSize:
        """Room for a 2x10 floor at ten pixels an inch."""
        return QSize(520, 156)

    def minimumSizeHint(self) -> QSize:
        """The least that can be read."""
        return QSize(300, self.minimumHeight())

    def show_subject(self, subject: Subject, may_drag: bool) -> None:
        """Show this line; `may_drag` tells that it is the answer to the very plan on show."""
        if (
            subject.section is None
            or self.subject.section is None
            or subject.section.element != self.subject.section.element
        ):
            self._station = None
        self.subject, self.may_drag = subject, may_drag
        if may_drag:
            self.asked = None
        self._tell_value()
        self._describe()
        self.update()

    @property
    def holding(self) -> bool:
        """Whether the pipe is in a hand."""
        return self._hold is not None and self._hold.begun

    # painting --------------------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        """The floor, the wood, the pipe over it and what is written round it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        section, lever = self.subject.section, self.subject.lever
        if section is None:
            picture.paint_words(painter, self.subject.words, self.size())
        else:
            self.scale = scale = self._hold.scale if self._hold is not None else fitted(section, self.size())
            picture.paint(painter, scale, section, lever, self.size(), self.subject.words)
            if self.holding and lever is not None:
                picture.paint_dragging(painter, section, lever, self.size())
            elif self._station is not None:
                picture.paint_place(painter, scale, section, self._station, self.size())
        if self.hasFocus():
            painter.setPen(QPen(QColor(theme.PINE), 2.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1.0, 1.0, -1.0, -1.0), 4.0, 4.0)

    # the pointer -----------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the pipe under the pointer."""
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        leg = self._leg_at(event.position())
        if event.button() != Qt.MouseButton.LeftButton or leg is None:
            return
        self.taken.emit(leg.pipe)
        lever = self.subject.lever
        if lever is None:
            self.told.emit(self.subject.words)
        elif self.may_drag and leg.pipe in (*lever.pipes, *self._beside()):
            row = event.position().y()
            self._hold = Hold(lever, self.scale, row, lever.z, False)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag what is held, else tell what is under the pointer."""
        section = self.subject.section
        if section is None:
            return
        at = event.position()
        hold = self._hold
        if hold is None:
            self._hover(section, at)
            return
        if not hold.begun and abs(at.y() - hold.row) < CLICK:
            return
        slow = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        pulled = hold.pulled + (hold.row - at.y()) * (SLOW if slow else 1.0 / hold.scale.up)
        self._hold = hold._replace(row=at.y(), pulled=pulled, begun=True)
        self.moved.emit(hold.lever, sticking(hold.lever, pulled, STICK / hold.scale.up))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Leave the pipe where it was pulled to."""
        hold, self._hold = self._hold, None
        if event.button() == Qt.MouseButton.LeftButton and hold is not None and hold.begun:
            self.settled.emit(hold.lever, sticking(hold.lever, hold.pulled, STICK / hold.scale.up))
        self.update()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """On a pipe: type its height."""
        leg = self._leg_at(event.position())
        if leg is not None:
            self.taken.emit(leg.pipe)
            self.typing.emit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel moves no pipe."""
        event.ignore()

    def leaveEvent(self, event: QEvent) -> None:
        """Nothing of the hover stays."""
        super().leaveEvent(event)
        if self._station is not None and not self._walked:
            self._station = None
            self._describe()
            self.update()

    def give_up(self) -> bool:
        """Let go of the pipe and put it back; whether it was held."""
        hold, self._hold = self._hold, None
        if hold is None:
            return False
        if hold.begun:
            self.dropped.emit()
        self.update()
        return True

    def hideEvent(self, event: QHideEvent) -> None:
        """A strip out of sight holds nothing."""
        self.give_up()
        super().hideEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """The frame goes with the keyboard."""
        super().focusOutEvent(event)
        self.update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """The frame comes with the keyboard, and what the keys do is told."""
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.told.emit(KEYS)
        self.update()

    # the keyboard ----------------------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows and page keys move the pipe or walk along it; Home leaves it to the program, Enter types, Escape gives up."""
        key = event.key()
        if key == Qt.Key.Key_Escape and self._escape():
            return
        lever = self.subject.lever
        ways = {
            Qt.Key.Key_Up: STEP,
            Qt.Key.Key_Down: -STEP,
            Qt.Key.Key_PageUp: LARGE,
            Qt.Key.Key_PageDown: -LARGE,
        }
        if key in ways:
            self._nudge(lever, ways[Qt.Key(key)])
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self._walk(1 if key == Qt.Key.Key_Right else -1)
        elif key == Qt.Key.Key_Home and lever is not None:
            self.released.emit()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and lever is not None:
            self.typing.emit()
        else:
            event.ignore()

    def _escape(self) -> bool:
        if self.give_up():
            return True
        had = self._station is not None
        self._station, self._walked = None, False
        self._describe()
        self.update()
        return had

    def _nudge(self, lever: Lever | None, by: float) -> None:
        """Move to the next mark of the tape, or by half an inch from it."""
        if lever is None:
            self.told.emit(self.subject.words)
        elif (self.may_drag or self.asked is not None) and self._hold is None:
            now = lever.z if self.asked is None else self.asked
            mark = lever.on_tape(now)
            between = abs(mark - now) > 1.0e-6 and abs(by) == STEP
            self.nudged.emit(lever, mark if between and (mark - now) * by > 0.0 else mark + by)

    def _walk(self, by: int) -> None:
        """Go to the next joist or fitting along the line and tell of it."""
        section = self.subject.section
        if section is None:
            return
        stations = [one.station for one in section.woods] + [one.station for one in section.things]
        places = sorted({0.0, section.length, *stations})
        here, self._walked = self._station, True
        if here is None:
            self._station = places[0] if by > 0 else places[-1]
        else:
            onward = [place for place in places if (place - here) * by > 1.0e-6]
            self._station = (onward[0] if by > 0 else onward[-1]) if onward else here
        self._describe()
        self.update()

    # small steps -----------------------------------------------------------------------------------------------

    def _hover(self, section: LongSection, at: QPointF) -> None:
        leg = self._leg_at(at)
        self.setCursor(Qt.CursorShape.SizeVerCursor if leg is not None else Qt.CursorShape.ArrowCursor)
        station = self.scale.station(at.x())
        inside = -1.0 <= station <= section.length + 1.0
        before, self._walked = self._station, False
        self._station = self._drawn_to(section, min(max(0.0, station), section.length)) if inside else None
        if before != self._station:
            self._describe()
            self.update()

    def _drawn_to(self, section: LongSection, station: float) -> float:
        """A joist or fitting near the pointer draws it to itself."""
        places = [one.station for one in section.woods] + [one.station for one in section.things]
        nearest = min(places, key=lambda place: abs(place - station), default=None)
        return (
            nearest if nearest is not None and abs(nearest - station) * self.scale.along <= picture.SLACK else station
        )

    def _leg_at(self, at: QPointF) -> Leg | None:
        section = self.subject.section
        return pipes.leg_at(self.scale, section, at, picture.SLACK) if section is not None else None

    def _beside(self) -> tuple[str, ...]:
        """The upright pipes, which go with what they stand on."""
        section = self.subject.section
        assert section is not None  # only asked with one on show
        extra = (section.stands, section.tail, *(leg for leg in section.legs if leg.begins == leg.ends))
        return tuple(leg.pipe for leg in extra if leg is not None)

    def _tell_value(self) -> None:
        """Keep the value that assistive programs read at the height on show, without moving the pipe by it."""
        lever = self.subject.lever
        self.blockSignals(True)
        if lever is not None:
            value = round(shown(lever, lever.z) * FINEST)
            self.setRange(min(0, value), max(value, int(40 * FINEST)))
            self.setValue(value)
        self.blockSignals(False)

    def _on_value(self, value: int) -> None:
        """An assistive program set the value: move the pipe there."""
        lever = self.subject.lever
        if lever is not None and self.may_drag:
            by = shown(lever, lever.z) - value / FINEST
            self.nudged.emit(lever, lever.on_tape(lever.z + (by if lever.field != "rise" else -by)))

    def _describe(self) -> None:
        section, lever = self.subject.section, self.subject.lever
        if section is None:
            self.setAccessibleDescription(self.subject.words)
            return
        said = [f"{height(lever)}, {verdict(lever, section)}"] if lever is not None else [self.subject.words]
        if self._station is not None:
            said = [*picture.told_at(self.scale, section, self._station), *said]
        self.setAccessibleDescription(". ".join(said))
