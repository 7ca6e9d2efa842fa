"""What every pane looks like: a sheet with a title line, room for a remark beside it, and its contents."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget


class Pane(QFrame):
    """A titled sheet; `rim` is the title's line, `body` takes the contents. The title is its accessible name."""

    def __init__(self, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("pane")
        self.setAccessibleName(title)
        self.title = label(title, "pane-title")
        self.rim = QHBoxLayout()
        self.rim.setContentsMargins(10, 6, 8, 2)
        self.rim.addWidget(self.title)
        self.rim.addStretch(1)
        self.body = QVBoxLayout()
        self.body.setContentsMargins(6, 0, 6, 6)
        self.body.setSpacing(4)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(2)
        whole.addLayout(self.rim)
        whole.addLayout(self.body, 1)

    def home(self) -> QWidget:
        """The widget that takes the keyboard when the person goes to this pane."""
        return self


def label(text: str = "", role: str = "", wrap: bool = False) -> QLabel:
    """A label that shows what it is given letter for letter, in one of the stylesheet's roles."""
    made = QLabel(text)
    made.setTextFormat(Qt.TextFormat.PlainText)
    if role:
        made.setProperty("role", role)
    if wrap:
        made.setWordWrap(True)
        made.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
    return made


def give_role(widget: QWidget, role: str) -> None:
    """Change a widget's role and have the stylesheet look at it again."""
    if widget.property("role") != role:
        widget.setProperty("role", role)
        widget.style().unpolish(widget)
        widget.style().polish(widget)
