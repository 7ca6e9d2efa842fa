"""The live study: works out the newest plan in the background and hands over only answers that still count.

One run at a time; while it runs only the newest plan waits. Every request is numbered, and an answer whose
number is not the newest is dropped. The work itself is pure and touches no widget; its answer comes back by a
queued signal.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, QRunnable, Qt, QThreadPool, Signal, Slot

from engine.plan.records import Plan
from engine.study import Study
from engine.study import study as study_plan

Judge = Callable[[Plan], Study]
"""Works out a plan's whole answer; must be pure, since it runs outside the window's thread."""

Work = Callable[[Any], object]
"""Works out something of a plan, its whole answer or a list, or of one of its findings; must be pure likewise."""


class _Courier(QObject):
    """Carries one run's answer over to the window's thread; outlives the run, not the desk that made it."""

    arrived = Signal(int, object, object)


class _Run(QRunnable):
    """One study of one plan in a worker thread."""

    def __init__(self, number: int, plan: object, judge: Work, courier: _Courier) -> None:
        super().__init__()
        self._number, self._plan, self._judge, self._courier = number, plan, judge, courier

    def run(self) -> None:
        """Study the plan and post the answer, or the error that came instead."""
        answer: object = None
        error: Exception | None = None
        try:
            answer = self._judge(self._plan)
        except Exception as fault:  # every fault must reach the person, none may kill the worker silently
            error = fault
        try:
            self._courier.arrived.emit(self._number, answer, error)
        except RuntimeError:
            return  # the window is gone, nobody is left to tell


class LiveStudy(QObject):
    """Studies the newest plan it was given; `answered` brings the study, `failed` the error instead.

    With another work than the study it brings what that works out.
    """

    answered = Signal(object)
    failed = Signal(object)

    def __init__(self, parent: QObject | None = None, judge: Work = study_plan) -> None:
        super().__init__(parent)
        self._judge = judge
        self._number = 0
        self._waiting: object | None = None
        self._busy = False
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._courier = _Courier(self)
        self._courier.arrived.connect(self._on_arrived, Qt.ConnectionType.QueuedConnection)

    @property
    def idle(self) -> bool:
        """Whether no plan is being studied or waits to be."""
        return not self._busy and self._waiting is None

    def ask(self, plan: object) -> None:
        """Study this plan next; whatever was asked before no longer counts."""
        self._number += 1
        self._waiting = plan
        if not self._busy:
            self._start()

    def stop(self) -> None:
        """Forget what waits, drop the answer under way and wait until the worker is out."""
        self._number += 1
        self._waiting = None
        self._pool.clear()
        self._pool.waitForDone()

    def _start(self) -> None:
        plan, self._waiting = self._waiting, None
        if plan is None:
            return
        self._busy = True
        self._pool.start(_Run(self._number, plan, self._judge, self._courier))

    @Slot(int, object, object)
    def _on_arrived(self, number: int, answer: object, error: Exception | None) -> None:
        self._busy = False
        if self._waiting is not None:
            self._start()
        if number != self._number:
            return
        if error is not None:
            self.failed.emit(error)
        else:
            self.answered.emit(answer)
