"""Opening, saving and leaving: what happens between the document and the disk, with the person asked where needed."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from app.dialogs import ask
from app.document import Document
from app.recovery import CutShort
from app.settings import SettingsFile
from engine.plan.file import PlanFileError, read
from engine.plan.records import Plan
from engine.plan.start import new_floor

FIRST_FLOOR = (96.0, 192.0)
"""Measures of the floor that stands there before anything was chosen: 8 by 16 feet."""


def first_floor() -> Plan:
    """The empty floor that the program begins with."""
    return new_floor(*FIRST_FLOOR)


class Filing(QObject):
    """Carries plans between the document and files.

    `began` tells that another plan is under work now, `settled(words)` what was done, for the status line.
    """

    began = Signal()
    settled = Signal(str)

    def __init__(self, document: Document, settings: SettingsFile, window: QWidget) -> None:
        super().__init__(window)
        self._document = document
        self._settings = settings
        self._window = window

    @property
    def plan_words(self) -> str:
        """The plan by its file's name, else by its own, for titles and questions."""
        path = self._document.path
        if path is not None:
            return path.name
        return self._document.settled.name or "Unnamed floor"

    def open(self) -> bool:
        """Ask which plan to open, and open it."""
        if not self.may_leave():
            return False
        path = ask.ask_plan_to_open(self._window, self._settings.folder_to_start_in)
        return path is not None and self.open_path(path)

    def open_path(self, path: Path) -> bool:
        """Open this file; what keeps it from being opened is told, and the document stays as it was."""
        try:
            self._document.open(path)
        except (PlanFileError, OSError) as fault:
            self._settings.forget_plan(path)
            ask.tell(self._window, f"{path.name} can't be opened", _sentence(fault))
            return False
        self._settings.remember_plan(path)
        self.began.emit()
        self.settled.emit(f"Opened {path.name}")
        return True

    def begin(self, plan: Plan) -> None:
        """Begin anew with this plan."""
        self._document.new(plan)
        self.began.emit()

    def save(self) -> bool:
        """Write the plan to its file, or ask for one."""
        path = self._document.path
        return self._save_to(path) if path is not None else self.save_as()

    def save_as(self) -> bool:
        """Ask for a file and write the plan there."""
        path = ask.ask_where_to_save(self._window, self._suggestion())
        return path is not None and self._save_to(path)

    def may_leave(self) -> bool:
        """Whether the document may be left: it is saved, or the person saved it now or let it go."""
        if not self._document.modified:
            return True
        answer = ask.ask_unsaved(self._window, self.plan_words)
        if answer == "save":
            return self.save()
        return answer == "discard"

    def recover(self, left: CutShort) -> bool:
        """Take up the unsaved work of a sitting that was cut short, as one step after what is saved of it."""
        try:
            plan = read(left.plan_file)
        except (PlanFileError, OSError) as fault:
            ask.tell(self._window, "The recovery copy can't be read", f"{left.plan_file}: {_sentence(fault)}")
            return False
        saved = Path(left.about.path) if left.about is not None and left.about.path else None
        try:
            if saved is None:
                self._document.new(first_floor())
            else:
                self._document.open(saved)
        except (PlanFileError, OSError):
            self._document.new(first_floor())
        self._document.commit(plan, "recover unsaved work")
        self.began.emit()
        self.settled.emit("Recovered the unsaved work; it is not saved yet")
        return True

    def _save_to(self, path: Path) -> bool:
        try:
            self._document.save(path)
        except (PlanFileError, OSError) as fault:
            ask.tell(self._window, f"{path.name} can't be saved", _sentence(fault))
            return False
        self._settings.remember_plan(path)
        self.settled.emit(f"Saved {path.name}")
        return True

    def _suggestion(self) -> str:
        path = self._document.path
        if path is not None:
            return str(path)
        name = "".join(letter if letter.isalnum() or letter in " -_" else " " for letter in self.plan_words)
        return str(Path(self._settings.folder_to_start_in) / f"{'-'.join(name.split()).lower() or 'floor'}{ask.ENDING}")


def _sentence(fault: Exception) -> str:
    """What went wrong in one sentence, without the system's numbers."""
    said = (fault.strerror or str(fault)) if isinstance(fault, OSError) else str(fault)
    return said[:1].upper() + said[1:] + ("" if said.endswith(".") else ".")
