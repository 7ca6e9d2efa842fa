"""What every tool is: one at a time, told of presses, moves, releases and keys in plan coordinates.

A drag is one generator: set up at the press, one `yield` for each move, finish at the release. Whatever ends
it (a release, Escape, another tool, the window closing), it ends with exactly one step of history or none.
"""

from __future__ import annotations

from collections.abc import Callable, Generator
from typing import ClassVar, NamedTuple

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QKeyEvent

from app.tools.desk import Desk
from engine.plan.edits import EditError
from engine.plan.records import Plan, Point


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

CLICK = 4
"""A press that moves less than this before its release is a click, pixels."""


class Tool:
    """A way of working on the canvas; subclasses say what its gestures mean."""

    name: ClassVar[str] = ""
    title: ClassVar[str] = ""
    hint: ClassVar[str] = ""
    key: ClassVar[str] = ""
    cursor: ClassVar[Qt.CursorShape] = Qt.CursorShape.CrossCursor
    tips: ClassVar[bool] = False
    """Whether things tell what they are under a resting pointer: not while one draws, where words would cover it."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self._drag: Drag | None = None
        self.stepping = False
        """Whether the drag is at work this very moment, as when it commits its step."""

    # what a subclass means by its gestures ---------------------------------------------------------------------

    def drag(self, press: Pointer) -> Drag | None:
        """The generator that a press starts, or None when a press alone does everything."""
        return None

    def hover(self, pointer: Pointer) -> None:
        """The pointer moved while nothing is dragged."""

    def tip(self, pointer: Pointer) -> str:
        """What a resting pointer is told in place of what the thing under it is; empty leaves it to the thing."""
        return ""

    def double(self, pointer: Pointer) -> None:
        """The main button was pressed twice; the first press was told already, and mostly did all there was to do."""

    def leave(self) -> None:
        """The pointer left the canvas: nothing stays on show that only hovered under it."""
        if not self.busy:
            self.desk.document.drop_proposal()

    def finish(self) -> bool:
        """Enter or the right button: end what is under way; whether there was something to end."""
        return False

    def ask(self, pointer: Pointer) -> None:
        """The right button with nothing under way to end: what can be done to the thing there."""

    def typed(self, event: QKeyEvent) -> bool:
        """A key that the canvas has no use for itself; whether the tool used it."""
        return False

    def refresh(self) -> None:
        """The plan or the selection changed: renew what the tool shows about them."""

    @property
    def busy(self) -> bool:
        """Whether something is under way that Escape would give up."""
        return self._drag is not None

    # what the canvas calls -------------------------------------------------------------------------------------

    def begin(self) -> None:
        """The tool was taken up, or is in charge again."""
        self.refresh()

    def press(self, pointer: Pointer) -> None:
        """The main button went down: begin the tool's drag, if it has one."""
        self._close()
        drag = self.drag(pointer)
        if drag is not None:
            self._drag = drag
            self._step(None)

    def move(self, pointer: Pointer) -> None:
        """The pointer moved, button up or down."""
        if self._drag is not None:
            self._step(pointer)
        else:
            self.hover(pointer)

    def release(self, pointer: Pointer) -> None:
        """The main button came up."""
        if self._drag is not None:
            self._step(pointer._replace(released=True))

    def cancel(self) -> bool:
        """Escape: give up what is under way; whether there was something to give up."""
        busy = self.busy
        self.clean()
        self.refresh()
        return busy

    def clean(self) -> None:
        """Leave nothing behind: no drag, no proposal, no sketch. Called whatever ended the work."""
        self._close()
        self.desk.document.drop_proposal()
        self.desk.clear_sketch()

    def attempt(self, make: Callable[[], Plan]) -> Plan | None:
        """The plan that an edit makes; None when it can't be made, and then the reason is told."""
        try:
            return make()
        except EditError as fault:
            self.desk.say(str(fault))
            return None

    def _close(self) -> None:
        drag, self._drag = self._drag, None
        if drag is not None:
            drag.close()

    def _step(self, pointer: Pointer | None) -> None:
        """Go on with the drag. When it ends, by itself or by an error, nothing of it stays."""
        drag = self._drag
        assert drag is not None  # both callers just looked
        self.stepping = True
        try:
            if pointer is None:
                next(drag)
            else:
                drag.send(pointer)
        except StopIteration:
            self._over(drag)
        except BaseException:
            self._over(drag)
            raise
        finally:
            self.stepping = False

    def _over(self, drag: Drag) -> None:
        if self._drag is drag:
            self._drag = None
            self.clean()
            self.refresh()
