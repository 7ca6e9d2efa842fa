"""Writing the plan set: which folder, which paper; written in the background, then the folder is offered.

A folder holds the plan set on one paper. Another paper is given a folder of its own beside it, and what lies in a
folder already is replaced without a word only where it is the same plan set on the same paper.
"""

from __future__ import annotations

from pathlib import Path
from typing import cast

from PySide6.QtCore import QObject, QRunnable, QSize, Qt, QThreadPool, QUrl, Signal, Slot
from PySide6.QtGui import QCloseEvent, QDesktopServices
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QHBoxLayout,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.dialogs import ask
from app.panels.line import Line
from app.panels.pane import give_role, label
from app.settings import Paper, SettingsFile
from engine.plan.records import Plan
from engine.rulebooks import load, names

PAPERS: dict[Paper, str] = {
    "letter": "Letter, 8 1/2 by 11 in",
    "tabloid": "Tabloid, 11 by 17 in",
    "a4": "A4, 210 by 297 mm",
    "a3": "A3, 297 by 420 mm",
}


WHAT = "Sheets as PDF, lists as CSV. The files of an earlier writing on the same paper are replaced."

WRITE, REPLACE = "&Write", "&Replace"

PDF = "plan-set.pdf"
"""The file by which a folder is known to hold a plan set."""


class _Courier(QObject):
    """Carries what was written, or the error, over to the window's thread."""

    done = Signal(object, object)


class _Writing(QRunnable):
    """Studies one plan and writes its sheets."""

    def __init__(self, plan: Plan, folder: Path, paper: Paper, beside: str | None, courier: _Courier) -> None:
        super().__init__()
        self._plan, self._folder, self._paper, self._courier = plan, folder, paper, courier
        self._beside = beside

    def run(self) -> None:
        """Write everything and post the paths, or the error that came instead."""
        written: tuple[Path, ...] = ()
        error: Exception | None = None
        try:
            from engine.planset import write
            from engine.study import study

            self._folder.mkdir(parents=True, exist_ok=True)
            written = tuple(write(study(self._plan), self._folder, self._paper, self._beside))
        except Exception as fault:  # posted to the window, which tells it or hands it to the fault desk
            error = fault
        try:
            self._courier.done.emit(written, error)
        except RuntimeError:
            return  # the window is gone, nobody is left to tell


class PrintSetDialog(QDialog):
    """Asks where to and on what paper, writes, and tells what it wrote. `faulted(error)` hands on a program's fault."""

    faulted = Signal(object)

    def __init__(self, plan: Plan, settings: SettingsFile, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Write plan set")
        self._plan, self._settings = plan, settings
        self._courier = _Courier(self)
        self._courier.done.connect(self._on_done, Qt.ConnectionType.QueuedConnection)
        self._pool = QThreadPool(self)
        self.written: tuple[Path, ...] = ()
        self._written_to: tuple[Path, Paper] = (Path(), settings.now.paper)

        self.folder = Line("Folder to write into")
        self.folder.show_text(settings.now.print_folder or str(_first_folder(settings)))
        browse = QPushButton("&Choose…")
        browse.setAutoDefault(False)
        browse.clicked.connect(self._choose)
        self.paper = QComboBox()
        self.paper.setAccessibleName("Paper")
        for name, words in PAPERS.items():
            self.paper.addItem(words, name)
        self.paper.setCurrentIndex(self.paper.findData(settings.now.paper))
        self.paper.activated.connect(self._on_paper)
        self.folder.textEdited.connect(self._on_folder)
        self.beside = QComboBox()
        self.beside.setAccessibleName("Beside another rule book")
        self.beside.addItem("Only as it is judged", None)
        for other in (other for other in names() if other != plan.rulebook):
            self.beside.addItem(f"Add what changes under {load(other).short}", other)
        where = QHBoxLayout()
        where.addWidget(self.folder, 1)
        where.addWidget(browse)
        form = QFormLayout()
        form.setHorizontalSpacing(12)
        form.setVerticalSpacing(8)
        form.addRow("Folder", where)
        form.addRow("Paper", self.paper)
        form.addRow("Rule book", self.beside)

        self._busy = QProgressBar()
        self._busy.setRange(0, 0)
        self._busy.setAccessibleName("Writing the plan set")
        self._busy.hide()
        self._words = label(WHAT, "quiet", wrap=True)
        self._agreed: Path | None = None
        button = QDialogButtonBox.StandardButton
        self.buttons = QDialogButtonBox(button.Ok | button.Close)
        self._offer(WRITE)
        self.show_folder = self.buttons.addButton("&Open the folder", QDialogButtonBox.ButtonRole.ActionRole)
        self.show_folder.hide()
        self.show_folder.clicked.connect(self._open_folder)
        self.buttons.accepted.connect(self.begin)
        self.buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 16, 16, 12)
        column.setSpacing(10)
        column.addLayout(form)
        column.addWidget(self._words)
        column.addWidget(self._busy)
        column.addStretch(1)
        column.addWidget(self.buttons)
        self.resize(QSize(560, 270))

    @property
    def said(self) -> str:
        """What the window says about the work: what it will write, wrote, or could not."""
        return self._words.text()

    def begin(self) -> None:
        """Write the plan set in the background."""
        text = self.folder.text().strip()
        if not text:
            self._say("Choose the folder that the plan set is written into.", "fault")
            return
        paper, folder = self._paper, Path(text).expanduser()
        if self._holds_another(folder) and folder != self._agreed:
            self._agreed = folder
            self._say(f"A plan set lies in {folder} already. Replace it, or choose another folder.", "fault")
            self._offer(REPLACE)
            return
        self._agreed = None
        self._offer(WRITE)
        self._settings.change(print_folder=text, paper=paper)
        self._written_to = (folder, paper)
        self._working(True)
        self._say("Writing…", "quiet")
        self._pool.start(_Writing(self._plan, folder, paper, self.beside.currentData(), self._courier))

    @property
    def _paper(self) -> Paper:
        return cast("Paper", self.paper.currentData())

    def _holds_another(self, folder: Path) -> bool:
        """Whether a plan set lies in a folder that is not known to be on the chosen paper."""
        return (folder / PDF).is_file() and self._settings.printed_paper(folder) != self._paper

    def _on_paper(self) -> None:
        """A folder that holds the plan set on another paper gives way to one of the new paper's own beside it."""
        self._on_folder()
        folder = Path(self.folder.text().strip()).expanduser()
        plain = folder.parent / _plain_name(folder.name)
        fitting = (plain, plain.parent / f"{plain.name} {self._paper}")
        if self._holds_another(folder) or folder != plain:
            free = next((one for one in fitting if not self._holds_another(one)), fitting[-1])
            self.folder.show_text(str(free))

    def _on_folder(self) -> None:
        """What was agreed to holds no longer."""
        self._agreed = None
        self._offer(WRITE)
        self._say(WHAT, "quiet")

    def _offer(self, words: str) -> None:
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setText(words)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Closing waits for what is being written, so that no sheet is left half done."""
        self._pool.waitForDone()
        super().closeEvent(event)

    def reject(self) -> None:
        """Close, once what is being written is done."""
        self._pool.waitForDone()
        super().reject()

    @Slot(object, object)
    def _on_done(self, written: tuple[Path, ...], error: Exception | None) -> None:
        self._working(False)
        self.written = written
        if error is None:
            self._settings.remember_print(*self._written_to)
            self.show_folder.show()
            names = ", ".join(path.name for path in written)
            self._say(f"Wrote {len(written)} files into {self.folder.text()}: {names}.", "")
        elif isinstance(error, OSError):
            self._say(f"Nothing could be written there: {error.strerror or error}.", "fault")
        elif isinstance(error, ValueError):
            self._say(f"This plan can't be printed: {error}.", "fault")
        else:
            self._say("The program failed at this; the fault is written to its log.", "fault")
            self.faulted.emit(error)

    def _working(self, busy: bool) -> None:
        self._busy.setVisible(busy)
        for part in (self.folder, self.paper, self.buttons.button(QDialogButtonBox.StandardButton.Ok)):
            part.setEnabled(not busy)

    def _say(self, words: str, role: str) -> None:
        self._words.setText(words)
        give_role(self._words, role)

    def _choose(self) -> None:
        chosen = ask.ask_folder(self, "Folder for the plan set", self.folder.text())
        if chosen is not None:
            self.folder.show_text(str(chosen))
            self._on_folder()

    def _open_folder(self) -> None:
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(Path(self.folder.text()).expanduser().absolute())))


def _first_folder(settings: SettingsFile) -> Path:
    """Where a first plan set goes: beside the plans, or among the person's documents."""
    return Path(settings.folder_to_start_in) / "plan set"


def _plain_name(name: str) -> str:
    """A folder's name without the paper that was put behind it."""
    return next((name.removesuffix(f" {paper}") for paper in PAPERS if name.endswith(f" {paper}")), name)
