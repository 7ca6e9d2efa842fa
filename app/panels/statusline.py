"""The line at the window's foot: what was just done or can be done next, where the pointer is, what it snapped to."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QLabel, QSizePolicy, QStatusBar, QWidget

from app.panels.pane import label
from engine.lengths import feet_inches
from engine.plan.records import Point

NEWS_SHOWN = 12_000
"""How long a piece of news stands at most before the hint comes back, milliseconds."""


class StatusLine(QStatusBar):
    """Hints and news to the left, the pointer's figures to the right, all in feet and inches east and north.

    The hint is what the tool in hand waits for. News takes its place until something else happens.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizeGripEnabled(False)
        self._words = label()
        self._words.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._words.setContentsMargins(8, 0, 8, 0)
        self._snap = label(role="quiet")
        self._pointer = label()
        for part, name in (
            (self._words, "What was done or can be done next"),
            (self._snap, "What the pointer snapped to"),
            (self._pointer, "Where the pointer is"),
        ):
            part.setAccessibleName(name)
        self.addWidget(self._words, 1)
        for part in (self._snap, self._pointer):
            self.addPermanentWidget(part)
        _keep_room(self._pointer, _place((1211.0 - 1.0 / 16.0, 1211.0 - 1.0 / 16.0)))
        self._hint = ""
        self._study = ""
        self._stale = QTimer(self)
        self._stale.setSingleShot(True)
        self._stale.setInterval(NEWS_SHOWN)
        self._stale.timeout.connect(self.forget_news)

    @property
    def hint(self) -> str:
        """What the line says now: the news while there is some, else the hint."""
        return self._words.text()

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
        """What is told of the latest study to a pointer that rests on the line."""
        return self._study

    def tell_hint(self, text: str) -> None:
        """What the tool in hand waits for; news is over."""
        self._hint = text
        self.forget_news()

    def tell(self, news: str) -> None:
        """Something that was just done, or stands in the way."""
        self._say(news)
        self._stale.start()

    def forget_news(self) -> None:
        """Something else happened: say the hint again."""
        self._stale.stop()
        self._say(self._hint)

    def tell_pointer(self, point: Point | None, reason: str) -> None:
        """Where the pointer is in the plan and why it stands just there."""
        self._pointer.setText("" if point is None else _place(point))
        self._snap.setText(reason)

    def tell_study(self, seconds: float | None) -> None:
        """How long the latest study took; None while there is none."""
        self._study = "" if seconds is None else f"The last study took {seconds * 1000.0:.1f} ms."
        self._pointer.setToolTip(self._study)

    def _say(self, text: str) -> None:
        self._words.setText(text)
        self._words.setToolTip(text)


def _place(point: Point) -> str:
    return f"{feet_inches(point[0])} east   {feet_inches(point[1])} north"


def _keep_room(part: QLabel, widest: str) -> None:
    part.setMinimumWidth(part.fontMetrics().horizontalAdvance(widest))
