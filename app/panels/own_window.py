"""A window of its own beside the main one."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget


class OwnWindow(QWidget):
    """A window that stands beside the main one, is called by its title, and takes some of the main one's keys."""

    def __init__(self, name: str, title: str, actions: Iterable[QAction], parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setObjectName(name)
        self.setWindowTitle(f"{title} - Joistway")
        self.setAccessibleName(title)
        self.addActions(list(actions))
