"""What is worked on and read in windows of its own: measured fittings, shopping list, joists and walls, another book."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from app.document import Document
from app.gauging.own_file import own_file
from app.settings import SettingsFile
from engine.plan.own_fittings import OwnFittings
from engine.plan.records import Plan, Point

if TYPE_CHECKING:
    from app.beside.window import BesideWindow
    from app.elevation.window import ElevationWindow
    from app.shopping.window import ShoppingWindow
    from app.window import MainWindow


SHARED = ("undo", "redo", "save", "shopping_list", "measured_fittings", "other_book", "elevations")
"""The main window's commands that work in these windows by their keys too."""


class JobLists(QObject):
    """Opens them over the window, and carries what comes of them to the document.

    `faulted(error)` hands on a fault of the program, `place_wanted(x, y)` asks for a place to be shown.
    """

    faulted = Signal(object)
    place_wanted = Signal(object)

    def __init__(self, window: MainWindow, document: Document, settings: SettingsFile) -> None:
        super().__init__(window)
        self._window, self._document, self._settings = window, document, settings
        self.shopping: ShoppingWindow | None = None
        self.beside: BesideWindow | None = None
        self.elevation: ElevationWindow | None = None
        self._pointed: Point | None = None

    def does(self) -> dict[str, Callable[[], object]]:
        """The commands that it answers."""
        return {
            "measured_fittings": self.measured_fittings,
            "shopping_list": self.shopping_list,
            "other_book": self.other_book,
            "elevations": self.elevations,
        }

    def measured_before(self) -> OwnFittings:
        """What the person measured on other jobs, to be offered to a new one."""
        return own_file(self._settings).read()

    def measured_fittings(self) -> None:
        """Type in what a rule shows on the fittings of this job."""
        from app.gauging.dialog import MeasuredFittingsDialog

        dialog = MeasuredFittingsDialog(self._document, own_file(self._settings), self._window)
        dialog.made.connect(self._on_measured)
        dialog.open()

    def shopping_list(self) -> None:
        """What to buy, with a box to tick for what is there."""
        from app.shopping.window import ShoppingWindow

        if self.shopping is None:
            self.shopping = ShoppingWindow(self._document, self._shared(), self._window)
            self.shopping.failed.connect(self.faulted)
        _bring(self.shopping)

    def other_book(self) -> None:
        """What changes under another rule book."""
        from app.beside.window import BesideWindow

        if self.beside is None:
            self.beside = BesideWindow(self._document, self._shared(), self._window)
            self.beside.failed.connect(self.faulted)
            self.beside.place_wanted.connect(self.place_wanted)
        _bring(self.beside)

    def elevations(self) -> None:
        """Each cut joist and each wall with pipes from the side."""
        from app.elevation.window import ElevationWindow

        if self.elevation is None:
            self.elevation = ElevationWindow(self._document, self._shared(), self._window)
        self.elevation.point_to(self._pointed)
        _bring(self.elevation)

    def point_to(self, at: Point | None, _reason: str = "") -> None:
        """Remember where the pointer is on the plan, for what asks which joist is meant."""
        self._pointed = at if at is not None else self._pointed
        if self.elevation is not None:
            self.elevation.point_to(at)

    def let_go(self) -> None:
        """Stop what the windows work out."""
        for window in (self.shopping, self.beside, self.elevation):
            if window is not None:
                window.let_go()

    def _shared(self) -> list[QAction]:
        return [action for action in self._window.actions() if action.objectName() in SHARED]

    def _on_measured(self, plan: Plan) -> None:
        self._document.commit(plan, "measure fittings")


def _bring(window: QWidget) -> None:
    """Bring a window forward."""
    window.show()
    window.raise_()
    window.activateWindow()
