"""The line at the window's foot: what can be done next, where the pointer is, what it snapped to, the study's time."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QSizePolicy, QStatusBar, QWidget

from app.panels.pane import label
from engine.lengths import feet_inches
from engine.plan.records import Point


class StatusLine(QStatusBar):
    """Shows hints to the left and the pointer's figures to the right, all in feet and inches."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizeGripEnabled(False)
        self._hint = label()
        self._hint.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._hint.setContentsMargins(8, 0, 8, 0)
        self._snap = label(role="quiet")
        self._pointer = label()
        self._study = label(role="quiet")
        for part, name in (
            (self._hint, "What can be done next"),
            (self._snap, "What the pointer snapped to"),
            (self._pointer, "Where the pointer is"),
            (self._study, "How long the study took"),
        ):
            part.setAccessibleName(name)
        self.addWidget(self._hint, 1)
        for part in (self._snap, self._pointer, self._study):
            self.addPermanentWidget(part)
        _keep_room(self._pointer, "x 100'-10 15/16\"   y 100'-10 15/16\"")
        _keep_room(self._study, "study 1000.0 ms")

    @property
    def hint(self) -> str:
        """What the line says can be done next."""
        return self._hint.text()

    @property
    def pointer(self) -> str:
        """Where the line says the pointer is."""
        return self._pointer.text()

    @property
    def snap(self) -> str:
        """What the line says the pointer snapped to."""
        return self._snap.text()

    @property
    def study(self) -> str:
        """What the line says of the latest study."""
        return self._study.text()

    def tell_hint(self, text: str) -> None:
        """What the tool in hand waits for."""
        self._hint.setText(text)
        self._hint.setToolTip(text)

    def tell_pointer(self, point: Point | None, reason: str) -> None:
        """Where the pointer is in the plan and why it stands just there."""
        if point is None:
            self._pointer.clear()
        else:
            self._pointer.setText(f"x {feet_inches(point[0])}   y {feet_inches(point[1])}")
        self._snap.setText(reason)

    def tell_study(self, seconds: float | None) -> None:
        """How long the latest study took; None while there is none."""
        self._study.setText("" if seconds is None else f"study {seconds * 1000.0:.1f} ms")


def _keep_room(part: QLabel, widest: str) -> None:
    part.setMinimumWidth(part.fontMetrics().horizontalAdvance(widest))
