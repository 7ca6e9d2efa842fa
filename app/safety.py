"""The net under the window: recovery copies while it works, left-over work offered, the program's faults owned up to."""

from __future__ import annotations

import logging
from pathlib import Path

from PySide6.QtCore import QObject

from app.dialogs import ask
from app.errors import FaultDesk, log_into
from app.recovery import Autosave, CutShort, Sitting, cut_short, discard, keep_fault_report
from app.workplace import Workplace

log = logging.getLogger(__name__)


class Safety(QObject):
    """Holds this sitting's recovery copy and the fault desk of one workplace; both end with it."""

    def __init__(self, workplace: Workplace, state: Path) -> None:
        super().__init__(workplace)
        self._workplace = workplace
        self._window = workplace.window
        self._state = state
        self._sitting: Sitting | None = None
        self._autosave: Autosave | None = None
        self._desk: FaultDesk | None = None

    def begin(self, hooks: bool = True) -> None:
        """Open a sitting and watch over the window; `hooks` also takes over the interpreter's last resorts."""
        workplace = self._workplace
        try:
            log_path = log_into(self._state)
            self._sitting = Sitting(self._state)
        except OSError as fault:
            log.warning("no recovery copies: %s", fault)
            workplace.status.tell(f"No recovery copies are kept: {self._state} can't be written.")
            return
        self._autosave = Autosave(workplace.document, self._sitting, workplace.settings.now.autosave_seconds, self)
        self._desk = desk = FaultDesk(log_path, self.keep_now, self._tell_fault, self)
        workplace.faulted.connect(desk.report)
        workplace.closed.connect(self._on_closed)
        if hooks:
            self._sitting.watch_for_crashes()
            desk.install()

    def keep_now(self) -> None:
        """Write the recovery copy without waiting."""
        if self._autosave is not None:
            self._autosave.keep_now()

    def offer_left_over(self) -> None:
        """Ask about the unsaved work of each sitting that was cut short, and tell of crashes."""
        for left in cut_short(self._state):
            if left.crashed:
                self._tell_crash(left)
            if left.about is not None:
                self._offer(left)
            else:
                discard(left)

    def _offer(self, left: CutShort) -> None:
        about, filing = left.about, self._workplace.filing
        if about is None:
            return
        name = Path(about.path).name if about.path else about.name or "an unnamed floor"
        answer = ask.ask_left_over(self._window, name, about.path, about.kept_at)
        if answer == "recover" and filing.may_leave():
            if filing.recover(left) and self._autosave is not None and self._autosave.keep_now():
                discard(left)
        elif answer == "saved" and about.path is not None and filing.may_leave():
            filing.open_path(Path(about.path))
        elif answer == "discard":
            discard(left)

    def _tell_crash(self, left: CutShort) -> None:
        report = keep_fault_report(left, self._state)
        ask.tell(
            self._window,
            "The program crashed the last time",
            f"What it wrote while falling is in {report}. Your saved files are as they were.",
        )

    def _tell_fault(self, fault: str, log_path: Path) -> None:
        if ask.tell_fault(self._window, fault, log_path):
            self._window.close()

    def _on_closed(self) -> None:
        if self._desk is not None:
            self._desk.uninstall()
        if self._autosave is not None:
            self._autosave.stop()
        if self._sitting is not None:
            self._sitting.drop()
            self._sitting.end()
