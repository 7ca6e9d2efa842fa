"""The words under a field that say why what was entered can't stand."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel


class Reason(QLabel):
    """Why something can't stand, in as many lines as it takes at its width: a form alone would cut the last ones off."""

    def __init__(self) -> None:
        super().__init__()
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("role", "fault")
        self.setWordWrap(True)

    def setText(self, text: str) -> None:
        """Say this."""
        super().setText(text)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take the height that the new width asks for."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        self.setMinimumHeight(self.heightForWidth(self.width()) if self.text() else 0)
