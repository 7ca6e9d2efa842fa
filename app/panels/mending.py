"""The desk where mends are tried while the window goes on: asked for one finding at a time, answered in the background.

Trying a mend is a study of the whole plan, so it never happens on the window's thread, nor while something is dragged.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QObject, Signal, Slot

from app.document import Document
from app.live import LiveStudy

if TYPE_CHECKING:
    from engine.checks.records import Finding
    from engine.mending.trying import Mend
    from engine.study import Study


class Question(NamedTuple):
    """One finding of one study, for which mends are wanted."""

    study: Study
    finding: Finding


class Answer(NamedTuple):
    """The mends that were found to hold for a finding, or why its rule has none."""

    study: Study
    finding: Finding
    mends: tuple[Mend, ...]
    why_none: str


def work_out(question: Question) -> Answer:
    """Try what might mend a finding. Pure: it touches no widget."""
    from engine.mending import WITHOUT, mends_for

    study, finding = question
    return Answer(study, finding, mends_for(study, finding), WITHOUT.get(finding.rule, ""))


class MendDesk(QObject):
    """Tries mends for the finding last asked about; `found(answer)` brings those that hold.

    `failed(error)` tells that the trying itself broke, which is an error of the program.
    """

    found = Signal(object)
    failed = Signal(object)

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._live = LiveStudy(self, work_out)
        self._live.answered.connect(self._on_answer)
        self._live.failed.connect(self.failed)

    @property
    def may_ask(self) -> bool:
        """Whether the latest study is of the committed plan, so that a mend of it could be made."""
        study = self._document.study
        return study is not None and not self._document.proposing and study.plan is self._document.settled

    def ask(self, finding: Finding) -> bool:
        """Try mends for a finding of the latest study; whether that can be done now."""
        study = self._document.study
        if study is None or not self.may_ask:
            return False
        self._live.ask(Question(study, finding))
        return True

    def make(self, mend: Mend, study: Study) -> bool:
        """Commit a mend as one step, where the plan is still the one that it was tried on."""
        if study.plan is not self._document.settled:
            return False
        self._document.commit(mend.plan, mend.label)
        return True

    def let_go(self) -> None:
        """Forget what is being tried and wait until the worker is out."""
        self._live.stop()

    @Slot(object)
    def _on_answer(self, answer: Answer) -> None:
        if answer.study is self._document.study:
            self.found.emit(answer)
