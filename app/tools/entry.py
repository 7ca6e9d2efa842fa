"""A length typed on the canvas while something is being drawn: `54`, `4' 6 1/2"`, `2.5m`."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from engine.lengths import LengthError, parse

OPENS = "0123456789."
"""What a typed length begins with."""

HOLDS = OPENS + " '\"/-ftincm′″"
"""What may stand in it."""


class LengthEntry:
    """What was typed so far; empty most of the time."""

    def __init__(self) -> None:
        self.text = ""

    def take(self, event: QKeyEvent) -> bool:
        """Whether the key belongs to the length: another character, or Backspace while there is one to take back."""
        if event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier):
            return False
        if event.key() == Qt.Key.Key_Backspace and self.text:
            self.text = self.text[:-1]
            return True
        typed = event.text()
        if len(typed) == 1 and typed in (HOLDS if self.text else OPENS):
            self.text += typed
            return True
        return False

    def why_not(self) -> str:
        """Why what was typed gives no length, in one sentence; empty when it does, or when nothing was typed."""
        if not self.text or self.length() is not None:
            return ""
        return f"{self.text.strip()} is no length to draw: write it like 54, 4' 6 1/2\", 54 3/8 or 2.5m."

    def length(self) -> float | None:
        """The length in inches, or None while the text is none or not above 0."""
        if not self.text:
            return None
        try:
            length = parse(self.text)
        except LengthError:
            return None
        return length if length > 0.0 else None

    def clear(self) -> None:
        """Forget what was typed."""
        self.text = ""
