"""A text field that says when the person is done with it, and leaves undo to the plan while nothing is typed in it."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit, QWidget


class Line(QLineEdit):
    """A text field that is done when the person leaves it or presses Enter, and forgets on Escape."""

    done = Signal()

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._shown = ""
        self.editingFinished.connect(self._on_finished)

    def show_text(self, text: str) -> None:
        """Show this as what the plan says. What is being typed stays while the plan goes on saying the same."""
        if text == self._shown and self.text() != text and self.hasFocus():
            return
        self._shown = text
        if self.text() != text:
            self.setText(text)
            self.setCursorPosition(0)
        self.mark_wrong(False)

    def mark_wrong(self, wrong: bool) -> None:
        """Frame the field as wrong or not."""
        if bool(self.property("wrong")) != wrong:
            self.setProperty("wrong", wrong)
            self.style().unpolish(self)
            self.style().polish(self)

    def event(self, event: QEvent) -> bool:
        """Undo and redo are the plan's while nothing is being typed here."""
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and self.untouched
            and (event.matches(QKeySequence.StandardKey.Undo) or event.matches(QKeySequence.StandardKey.Redo))
        ):
            event.ignore()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape puts back what the plan says."""
        if event.key() == Qt.Key.Key_Escape and self.text() != self._shown:
            self.setText(self._shown)
            self._on_finished()
            return
        super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Arriving by Tab marks the whole text, ready to be typed over."""
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.selectAll()

    def _on_finished(self) -> None:
        self.done.emit()

    @property
    def untouched(self) -> bool:
        """Whether the text is still what the plan says."""
        return self.text() == self._shown
