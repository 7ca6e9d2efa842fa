"""Moving the sheet under the pointer; the middle button and the space bar do it with any tool in hand."""

from __future__ import annotations

from PySide6.QtCore import Qt

from app.tools.tool import Drag, Pointer, Tool


class Pan(Tool):
    """Drags the sheet."""

    name = "pan"
    title = "Pan"
    key = "P"
    hint = "Drag the sheet; with other tools hold the space bar or the middle button."
    cursor = Qt.CursorShape.OpenHandCursor
    tips = True

    def drag(self, press: Pointer) -> Drag:
        """The sheet follows the pointer."""
        last = press.pixel
        while True:
            pointer = yield
            self.desk.scroll(pointer.pixel - last)
            last = pointer.pixel
            if pointer.released:
                return
