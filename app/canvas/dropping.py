"""Fixtures dragged in from the shelf: shown where they would land, placed where they are dropped."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtGui import QDragEnterEvent, QDragMoveEvent, QDropEvent

from app.tools import Desk, PlaceFixture, Pointer

ToPointer = Callable[[QDropEvent], Pointer]


class Dropping:
    """What is being dragged over one canvas, if it is a fixture."""

    def __init__(self, desk: Desk, to_pointer: ToPointer) -> None:
        self._desk, self._to_pointer = desk, to_pointer
        self._guest: PlaceFixture | None = None

    def enter(self, event: QDragEnterEvent) -> Pointer | None:
        """Something is dragged in: where it is when it is a fixture, else None and it is refused."""
        self._guest = PlaceFixture.carried(event.mimeData(), self._desk)
        return self.over(event)

    def over(self, event: QDragMoveEvent) -> Pointer | None:
        """Show the fixture where it would land."""
        if self._guest is None:
            event.ignore()
            return None
        pointer = self._to_pointer(event)
        self._guest.hover(pointer)
        event.acceptProposedAction()
        return pointer

    def leave(self) -> None:
        """Take the fixture away again."""
        guest, self._guest = self._guest, None
        if guest is not None:
            guest.clean()

    def drop(self, event: QDropEvent) -> bool:
        """Place the fixture as one step; whether there was one."""
        guest, self._guest = self._guest, None
        if guest is None:
            event.ignore()
            return False
        guest.put(self._to_pointer(event))
        event.acceptProposedAction()
        return True
