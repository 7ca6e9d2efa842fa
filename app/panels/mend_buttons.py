"""The buttons of the edits that mend a finding: one each, the smallest change first, and a line that says what they are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QFontMetrics, QResizeEvent
from PySide6.QtWidgets import QPushButton, QSizePolicy, QVBoxLayout, QWidget

from app.panels.pane import label

if TYPE_CHECKING:
    from app.panels.mending import Answer
    from engine.mending import Mend

PATIENCE = 250
"""Milliseconds after which it is said that mends are being tried."""

TRIED = "Each was tried: the finding goes, and nothing new to stop for comes."
NONE = "No single edit was found that mends it."
TRYING = "Trying what would mend it\u2026"

FRAME = 36
"""What a button needs beside its words, pixels."""


class MendButtons(QWidget):
    """Shows what was found for one finding; `wanted(mend)` tells which button was pressed, `none` what is said without any."""

    wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None, none: str = NONE) -> None:
        super().__init__(parent)
        self._none = none
        self._mends: tuple[Mend, ...] = ()
        self._buttons: list[QPushButton] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 2, 0, 0)
        self._column.setSpacing(4)
        self._remark = label(role="quiet", wrap=True)
        self._column.addWidget(self._remark)
        self._waits = QTimer(self)
        self._waits.setSingleShot(True)
        self._waits.setInterval(PATIENCE)
        self._waits.timeout.connect(self._say_trying)
        self.clear()

    @property
    def remark(self) -> str:
        """What is said under the buttons, or in their place."""
        return self._remark.text()

    @property
    def shown(self) -> tuple[QPushButton, ...]:
        """The buttons that are there now, in order."""
        return tuple(self._buttons[: len(self._mends)])

    @property
    def words(self) -> tuple[str, ...]:
        """What the buttons say, in order."""
        return tuple(mend.words for mend in self._mends)

    def clear(self) -> None:
        """Show nothing."""
        self._waits.stop()
        self._show((), "")

    def wait(self) -> None:
        """Mends are being tried: said only when it takes a while."""
        self.clear()
        self._waits.start()

    def show_answer(self, answer: Answer, besides: str = "") -> None:
        """Show the mends that hold and what is to be said besides, or that there are none and why."""
        self._waits.stop()
        if answer.mends:
            self._show(answer.mends, f"{TRIED} {besides}".rstrip())
        else:
            self._show((), f"No edit of the plan mends it: {answer.why_none}." if answer.why_none else self._none)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Break the buttons' words anew."""
        super().resizeEvent(event)
        self._fit()

    def _say_trying(self) -> None:
        self._show((), TRYING)

    def _show(self, mends: tuple[Mend, ...], remark: str) -> None:
        self._mends = mends
        while len(self._buttons) < len(mends):
            button = QPushButton()
            button.setProperty("role", "mend")
            button.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
            button.clicked.connect(self._on_clicked)
            self._column.insertWidget(len(self._buttons), button)
            self._buttons.append(button)
        for number, button in enumerate(self._buttons):
            button.setVisible(number < len(mends))
            button.setAccessibleName(mends[number].words if number < len(mends) else "")
        self._fit()
        self._remark.setText(remark)
        self._remark.setVisible(bool(remark))
        self.setVisible(bool(mends or remark))

    def _fit(self) -> None:
        """Write each button's words in as many lines as the pane's width asks."""
        for button, mend in zip(self._buttons, self._mends, strict=False):
            button.setText(broken(mend.words.replace("&", "&&"), button.fontMetrics(), max(120, self.width() - FRAME)))

    def _on_clicked(self) -> None:
        pressed = self.sender()
        for button, mend in zip(self._buttons, self._mends, strict=False):
            if button is pressed:
                self.wanted.emit(mend)
                return


def broken(words: str, metrics: QFontMetrics, width: int) -> str:
    """Words in lines no wider than so many pixels, as far as single words allow."""
    lines: list[str] = []
    for word in words.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and metrics.horizontalAdvance(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return "\n".join(lines)
