"""What every tool is: one at a time, told of presses, moves, releases and keys in plan coordinates.

A drag is one generator: set up at the press, one `yield` for each move, finish at the release. Whatever ends
it (a release, Escape, another tool, the window closing), it ends with exactly one step of history or none.
"""

from __future__ import annotations

from collections.abc import Generator
from typing import ClassVar, NamedTuple

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QKeyEvent

from app.tools.desk import Desk
from engine.plan.records import Point


class Pointer(NamedTuple):
    """Where the pointer is: in plan inches, and in pixels of the viewport, with the keys held down."""

    at: Point
    pixel: QPoint
    released: bool = False
    shift: bool = False
    control: bool = False
    alt: bool = False


Drag = Generator[None, Pointer, None]
"""A drag under way: it is sent every move, and last the release."""


class Tool:
    """A way of working on the canvas; subclasses say what its gestures mean."""

    name: ClassVar[str] = ""
    title: ClassVar[str] = ""
    hint: ClassVar[str] = ""
    key: ClassVar[str] = ""
    cursor: ClassVar[Qt.CursorShape] = Qt.CursorShape.CrossCursor

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self._drag: Drag | None = None

    def press(self, pointer: Pointer) -> None:
        """The main button went down: begin the tool's drag, if it has one."""
        self._run(self.drag(pointer))

    def move(self, pointer: Pointer) -> None:
        """The pointer moved, button up or down."""
        if self._drag is not None:
            self._send(pointer)
        else:
            self.hover(pointer)

    def release(self, pointer: Pointer) -> None:
        """The main button came up."""
        if self._drag is not None:
            self._send(pointer._replace(released=True))

    def double(self, pointer: Pointer) -> None:
        """The main button was pressed twice; the first press was told already."""
        self.press(pointer)

    def finish(self) -> bool:
        """Enter or the right button: end what is under way; whether there was something to end."""
        return False

    def typed(self, event: QKeyEvent) -> bool:
        """A key that the canvas has no use for itself; whether the tool used it."""
        return False

    def cancel(self) -> bool:
        """Escape: give up what is under way; whether there was something to give up."""
        busy = self._drag is not None
        self.clean()
        return busy

    def clean(self) -> None:
        """Leave nothing behind: no drag, no proposal, no sketch. Called whatever ended the work."""
        drag, self._drag = self._drag, None
        if drag is not None:
            drag.close()
        self.desk.document.drop_proposal()
        self.desk.clear_sketch()

    def drag(self, press: Pointer) -> Drag | None:
        """The generator that a press starts, or None when a press alone does everything."""
        return None

    def hover(self, pointer: Pointer) -> None:
        """The pointer moved while nothing is dragged."""

    def _run(self, drag: Drag | None) -> None:
        if drag is None:
            return
        self._drag = drag
        try:
            next(drag)
        except StopIteration:
            self._drag = None

    def _send(self, pointer: Pointer) -> None:
        drag = self._drag
        if drag is None:
            return
        try:
            drag.send(pointer)
        except StopIteration:
            self._drag = None
        except BaseException:
            self._drag = None
            self.clean()
            raise
        else:
            if pointer.released:
                self.clean()
