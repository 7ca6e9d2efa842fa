"""The pages of words that the help menu opens."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtWidgets import QWidget

NAMES = ("guide", "keys", "cautions", "about")
"""How to draw a floor, every key, all cautions, what the program is made of."""


class Pages:
    """Opens the pages over a window, each made when it is first asked for."""

    def __init__(self, window: QWidget) -> None:
        self._window = window

    def does(self) -> dict[str, Callable[[], None]]:
        """What each command does, by its name."""
        return {name: partial(self.show, name) for name in NAMES}

    def show(self, name: str) -> None:
        """Bring one page forward."""
        from app.dialogs import pages

        page = pages.PAGES[name](self._window)
        page.show()
        page.raise_()
