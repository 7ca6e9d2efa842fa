"""A small menu at a place of the sheet, reached by mouse and by keys alike."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QLabel, QMenu, QWidget, QWidgetAction

from app.tools.offer import Sections, Taken

ASIDE = QPoint(14, 8)
"""From the place to the menu's corner, pixels: the place stays in sight, and no line lies under the pointer."""


class ChoiceMenu(QMenu):
    """Offers the lines of some sections; it goes by itself once it closes.

    Every line has a digit; the one that holds now is ticked and, like the first one otherwise, under the keyboard
    at once.
    """

    def __init__(self, name: str, sections: Sections, taken: Taken, parent: QWidget) -> None:
        super().__init__(parent)
        self._taken = taken
        self.setAccessibleName(name)
        first: QAction | None = None
        held: QAction | None = None
        number = 0
        for section in sections:
            if number:
                self.addSeparator()
            self.addAction(_heading(section.heading, self))
            for line in section.lines:
                number += 1
                action = self.addAction(f"&{number}  {line.words}" if number <= 9 else line.words)
                action.setData(line.key)
                action.setCheckable(line.holds)
                action.setChecked(line.holds)
                first = first or action
                held = held or (action if line.holds else None)
        self._begin = held or first
        self.triggered.connect(self._on_triggered)
        self.aboutToHide.connect(self.deleteLater)

    def open_at(self, place: QPoint) -> None:
        """Show it beside a place of the screen."""
        self.popup(place + ASIDE)
        if self._begin is not None:
            self.setActiveAction(self._begin)

    def _on_triggered(self, action: QAction) -> None:
        self._taken(action.data())


def _heading(words: str, parent: QWidget) -> QWidgetAction:
    """A line that is only read."""
    label = QLabel(words)
    label.setProperty("role", "quiet")
    label.setContentsMargins(10, 4, 14, 4)
    label.setTextFormat(Qt.TextFormat.PlainText)
    made = QWidgetAction(parent)
    made.setText(words)
    made.setDefaultWidget(label)
    made.setEnabled(False)
    return made
