"""A hand at the isometric's window: places of pieces, parts and labels in pixels, and real pointer events on them."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QImage, QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from app.isometric.view import IsometricView
from app.isometric.window import IsometricWindow
from app.workplace import Workplace
from engine.drawings.labels import Box

LEFT = Qt.MouseButton.LeftButton
SHIFT = Qt.KeyboardModifier.ShiftModifier
NO_KEYS = Qt.KeyboardModifier.NoModifier


def open_isometric(work: Workplace, qtbot) -> Workplace:
    """Open the isometric of a workplace and wait until it is worked out and lettered."""
    qtbot.waitUntil(lambda: work.document.studied)
    work.commands["isometric"].trigger()
    window = window_of(work)
    qtbot.waitExposed(window)
    qtbot.waitUntil(lambda: window.view.subject is not None)
    window.view.seat_labels()
    return work


def window_of(work: Workplace) -> IsometricWindow:
    assert work.isometric is not None
    return work.isometric


def view_of(work: Workplace) -> IsometricView:
    return window_of(work).view


def ink_of(view: IsometricView, name: str) -> QPoint:
    """A pixel on the ink of a piece or part."""
    place = view.pixel_of(name)
    assert place is not None, name
    return place.toPoint()


def names(view: IsometricView) -> dict[str, tuple[str, ...]]:
    assert view.subject is not None
    return view.subject.elements_of


def part(view: IsometricView, words: str) -> str:
    """The name of the first part whose line begins so."""
    assert view.subject is not None
    return next(told.name for told in view.subject.told[1] if told.text.startswith(words))


def pixel_in(view: IsometricView, box: Box) -> QPoint:
    """A pixel on the first line of a label."""
    return view.pixel_at(((box.left + box.right) / 2.0, box.top - 0.06)).toPoint()


def click(view: QWidget, at: QPoint, keys: Qt.KeyboardModifier = NO_KEYS) -> None:
    QTest.mouseClick(view, LEFT, keys, at)


def move(view: QWidget, at: QPoint, button: Qt.MouseButton) -> None:
    place = QPointF(at)
    event = QMouseEvent(QEvent.Type.MouseMove, place, view.mapToGlobal(place), Qt.MouseButton.NoButton, button, NO_KEYS)
    QApplication.sendEvent(view, event)


def wheel(view: QWidget, at: QPoint, notches: int) -> None:
    place = QPointF(at)
    event = QWheelEvent(
        place, view.mapToGlobal(place), QPoint(), QPoint(0, 120 * notches), Qt.MouseButton.NoButton, NO_KEYS,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(view, event)


def near(picture: QImage, view: QWidget, at: QPoint, colour: str) -> bool:
    """Whether a pixel of the view has about this colour."""
    ratio = picture.devicePixelRatio()
    found = picture.pixelColor(round(at.x() * ratio), round(at.y() * ratio))
    wanted = QColor(colour)
    off = (found.red() - wanted.red(), found.green() - wanted.green(), found.blue() - wanted.blue())
    return max(map(abs, off)) <= 24
