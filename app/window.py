"""The main window's frame, and from the command to a window at work: paint first, then load.

Nothing heavy is imported here: the frame stands on the screen, caution and all, before the canvas, the engine
and the panes are loaded into it.
"""

from __future__ import annotations

import base64
import gc
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from threading import Thread
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QObject, QSize, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QCloseEvent, QPaintEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QVBoxLayout, QWidget

from app import theme
from app.collector import Collector
from app.panels.caution import CautionLine
from app.settings import SettingsFile, settings_file, state_folder
from app.thread_turns import short_turns

if TYPE_CHECKING:
    from app.workplace import Workplace
    from engine.plan.records import Plan

PROGRAM = "Joistway"
FIRST_SIZE = QSize(1320, 840)
FRAME = QSize(8, 48)
"""What the desktop's own title and border may add to a window."""

AT_REST = 10
"""Milliseconds that the first painting gets to reach the screen before loading competes with it."""

UNPAINTED = 400
"""Milliseconds after which a window that was never painted (minimised from the start) is furnished all the same."""


def run(plan: Path | str | Plan | None = None) -> int:
    """Open the editor, on a plan or its file if one is given, and wait until it is closed; gives the exit code."""
    application = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(application, QApplication)
    application.setApplicationName(PROGRAM)
    theme.dress(application)
    collector = Collector(application)
    window = MainWindow(settings_file())
    opening = Opening(window, state_folder(), Path(plan) if isinstance(plan, str) else plan)
    window.painted.connect(opening.soon)
    QTimer.singleShot(UNPAINTED, opening.soon)
    window.show()
    try:
        with short_turns():
            return QApplication.exec()
    finally:
        collector.let_go()


class MainWindow(QMainWindow):
    """The frame: place, size and closing. `painted` tells of the first painting.

    `may_close` is asked before the window closes, once there is something in it to ask about.
    """

    painted = Signal()

    def __init__(self, settings: SettingsFile) -> None:
        super().__init__()
        self.settings = settings
        self.may_close: Callable[[], bool] | None = None
        self._painted = False
        self.setWindowTitle(PROGRAM)
        bare = QWidget()
        column = QVBoxLayout(bare)
        column.addStretch(1)
        column.addWidget(CautionLine())
        self.setCentralWidget(bare)
        self.resize(FIRST_SIZE.boundedTo(self.screen().availableSize() - FRAME))
        if settings.now.geometry:
            self.restoreGeometry(from_text(settings.now.geometry))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Tell of the first painting."""
        super().paintEvent(event)
        if not self._painted:
            self._painted = True
            self.painted.emit()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Close if what is in the window agrees."""
        if self.may_close is None or self.may_close():
            event.accept()
        else:
            event.ignore()


class Opening(QObject):
    """What follows the first painting: the engine, the workplace, the plan's file, left-over work, the cautions."""

    _loaded = Signal()

    def __init__(self, window: MainWindow, state: Path, plan: Path | Plan | None) -> None:
        super().__init__(window)
        self._window = window
        self._state = state
        self._plan = plan
        self._asked = False
        self._loaded.connect(self.begin, Qt.ConnectionType.QueuedConnection)
        self.workplace: Workplace | None = None

    def soon(self) -> None:
        """Load the engine beside the window, which stays at the person's hand, then begin. Asked again, do nothing."""
        if not self._asked:
            self._asked = True
            QTimer.singleShot(AT_REST, self._begin_loading)

    def _begin_loading(self) -> None:
        Thread(target=self._load, daemon=True).start()

    def _load(self) -> None:
        try:
            import engine.study  # noqa: F401 - loaded here so that the window need not wait for it
        finally:
            with suppress(RuntimeError):  # the window was closed meanwhile
                self._loaded.emit()

    @Slot()
    def begin(self) -> None:
        """Furnish the window, then offer and tell what there is."""
        if not self._window.isVisible():
            return
        from app.document import Document
        from app.filing import first_floor
        from app.safety import Safety
        from app.stopwatch import Stopwatch
        from app.workplace import Workplace

        settings, watch = self._window.settings, Stopwatch()
        path, plan = (self._plan, None) if isinstance(self._plan, Path) else (None, self._plan)
        document = Document(plan or first_floor(), judge=watch)
        document.setParent(self._window)
        self.workplace = workplace = Workplace(self._window, document, settings, watch)
        safety = Safety(workplace, self._state)
        safety.begin()
        if path is not None:
            workplace.filing.open_path(path)
        safety.offer_left_over()
        if not settings.now.cautions_read:
            workplace.pages.show("cautions")
            settings.change(cautions_read=True)
        gc.collect()
        gc.freeze()


def to_text(state: QByteArray) -> str:
    """A state that the toolkit wrote, as a text for the settings."""
    return base64.b64encode(state.data()).decode("ascii")


def from_text(text: str) -> QByteArray:
    """The state that such a text holds; empty when it holds none."""
    try:
        return QByteArray(base64.b64decode(text, validate=True))
    except ValueError:
        return QByteArray()
