"""Going from pane to pane with the keyboard."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget


class Stop(NamedTuple):
    """One pane on the round: the widget that holds it, and the one in it that takes the keyboard."""

    pane: QWidget
    home: Callable[[], QWidget]


class PaneRing:
    """The panes in the order in which the keyboard goes round them."""

    def __init__(self, stops: tuple[Stop, ...]) -> None:
        self._stops = stops

    def go(self, by: int) -> None:
        """Move the keyboard so many panes on, round the end; from outside them all, to the first."""
        here = self._here()
        shown = [stop for stop in self._stops if stop.pane.isVisible()]
        if not shown:
            return
        number = (shown.index(here) + by) % len(shown) if here in shown else 0
        shown[number].home().setFocus(Qt.FocusReason.TabFocusReason)

    def _here(self) -> Stop | None:
        focus = QApplication.focusWidget()
        if focus is None:
            return None
        return next((stop for stop in self._stops if stop.pane is focus or stop.pane.isAncestorOf(focus)), None)
