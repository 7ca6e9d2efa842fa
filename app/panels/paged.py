"""Panes that share one place in the window, one on show at a time."""

from __future__ import annotations

from PySide6.QtWidgets import QTabWidget, QWidget

from app.panels.pane import Pane


class Paged(QTabWidget):
    """Panes behind each other, each with a tab of few words at the foot."""

    def __init__(self, name: str, *pages: tuple[str, Pane]) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setObjectName("paged")
        self.setTabPosition(QTabWidget.TabPosition.South)
        self.setDocumentMode(True)
        self.tabBar().setAccessibleName(name)
        for title, pane in pages:
            self.addTab(pane, title)

    def bring(self, pane: QWidget) -> None:
        """Put a pane on show."""
        self.setCurrentWidget(pane)
