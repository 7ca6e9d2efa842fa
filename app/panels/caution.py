"""The caution that never leaves the window, with the way to the whole of them."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QHBoxLayout, QToolButton, QWidget

from app.cautions import IN_ONE_LINE
from app.panels.pane import label


class CautionLine(QWidget):
    """One line of caution; `opened` asks for all of them."""

    opened = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Caution")
        self._words = label(IN_ONE_LINE, "caution", wrap=True)
        self.more = QToolButton()
        self.more.setText("All cautions")
        self.more.setAccessibleName("All cautions")
        self.more.clicked.connect(self.opened)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        row.addWidget(self._words, 1)
        row.addWidget(self.more, 0)

    @property
    def words(self) -> str:
        """What it says."""
        return self._words.text()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """The words lead there as well."""
        self.opened.emit()
