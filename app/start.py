"""From the command to a window at work: paint first, then load, then offer what an earlier sitting left."""

from __future__ import annotations

import gc
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QApplication

from app import theme
from app.document import Document
from app.filing import first_floor
from app.settings import SettingsFile, settings_file, state_folder
from app.stopwatch import Stopwatch
from app.window import PROGRAM, MainWindow
from engine.plan.records import Plan

if TYPE_CHECKING:
    from app.safety import Safety


def start(plan: Path | Plan | None) -> int:
    """Open one window and stay until it is closed; gives the program's exit code."""
    application = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(application, QApplication)
    application.setApplicationName(PROGRAM)
    theme.dress(application)
    watch = Stopwatch()
    document = Document(plan if isinstance(plan, Plan) else first_floor(), judge=watch)
    window = MainWindow(document, settings_file(), watch)
    opening = Opening(window, state_folder(), plan if isinstance(plan, Path) else None)
    window.show()
    opening.soon()
    return application.exec()


class Opening(QObject):
    """What follows the first painting: the recovery folder, the plan's file, left-over work, the cautions."""

    def __init__(self, window: MainWindow, state: Path, path: Path | None) -> None:
        super().__init__(window)
        self._window = window
        self._settings: SettingsFile = window.settings
        self._state = state
        self._path = path
        self._safety: Safety | None = None

    def soon(self) -> None:
        """Begin once the window has been painted."""
        QTimer.singleShot(0, self.begin)

    def begin(self) -> None:
        """Set up the recovery folder, open what was asked for, then offer and tell what there is."""
        from app.safety import Safety

        self._safety = Safety(self._window, self._state)
        self._safety.begin()
        if self._path is not None:
            self._window.filing.open_path(self._path)
        self._safety.offer_left_over()
        if not self._settings.now.cautions_read:
            self._window.cautions()
            self._settings.change(cautions_read=True)
        gc.collect()
        gc.freeze()
