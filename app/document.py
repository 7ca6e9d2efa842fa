"""The open document: the one object round the plan, its history, the selection and the latest study.

The window's menus, panels and canvas all listen here; nothing else keeps a plan. A tool that drags proposes a
provisional plan, which is shown and studied live but stands in no history until it is committed.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from pathlib import Path

from PySide6.QtCore import QObject, Signal, Slot

import engine.plan.file as plan_file
from app.history import History
from app.live import Judge, LiveStudy
from engine.plan.records import KINDS, Element, Plan
from engine.study import Study
from engine.study import study as study_plan


class Contents:
    """A plan's elements by id, in the plan's own order, made once for a plan."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan

    @cached_property
    def by_id(self) -> dict[str, Element]:
        """Every element of the plan by its id."""
        return {element.id: element for kind in KINDS for element in getattr(self.plan, kind)}


class Document(QObject):
    """One plan under work.

    `plan_changed(old, new)` tells that the plan on show changed, by a commit, an undo, a proposal or its end.
    `study_changed(study)` brings the answer to the plan on show, or None when there is none yet.
    `study_failed(error)` tells that the study itself broke, which is an error of the program.
    """

    plan_changed = Signal(object, object)
    study_changed = Signal(object)
    study_failed = Signal(object)
    selection_changed = Signal(object)
    history_changed = Signal()
    path_changed = Signal()

    def __init__(self, plan: Plan, parent: QObject | None = None, judge: Judge = study_plan) -> None:
        super().__init__(parent)
        self._history = History(plan)
        self._shown = Contents(plan)
        self._proposing = False
        self._selection: frozenset[str] = frozenset()
        self._path: Path | None = None
        self._study: Study | None = None
        self._live = LiveStudy(self, judge)
        self._live.answered.connect(self._on_answer)
        self._live.failed.connect(self._on_failure)
        self._live.ask(plan)

    # what is on show -------------------------------------------------------------------------------------------

    @property
    def plan(self) -> Plan:
        """The plan on show: the proposal while there is one, else the committed plan."""
        return self._shown.plan

    @property
    def settled(self) -> Plan:
        """The committed plan, whatever is being proposed."""
        return self._history.plan

    @property
    def proposing(self) -> bool:
        """Whether a provisional plan is on show."""
        return self._proposing

    @property
    def study(self) -> Study | None:
        """The latest study, which may lag a moment behind the plan; None before the first."""
        return self._study

    @property
    def studied(self) -> bool:
        """Whether the latest study is of the very plan on show."""
        return self._study is not None and self._study.plan is self.plan

    @property
    def elements(self) -> dict[str, Element]:
        """The elements of the plan on show by id, in the plan's order. Not to be changed."""
        return self._shown.by_id

    def element(self, element_id: str) -> Element | None:
        """The element of the plan on show that has this id, or None."""
        return self._shown.by_id.get(element_id)

    # edits -----------------------------------------------------------------------------------------------------

    def commit(self, plan: Plan, label: str, token: object = None) -> None:
        """Make this plan the current one as one step of history named `label` ("move 2 walls").

        Steps that follow each other with the same token become one. A plan equal to the current one makes no
        step; any proposal ends.
        """
        self._proposing = False
        if plan == self._history.plan:
            self._show(self._history.plan)
            return
        self._history.push(label, plan, token)
        self._show(plan)
        self.history_changed.emit()

    def propose(self, plan: Plan) -> None:
        """Show and study this plan provisionally, outside history."""
        self._proposing = True
        self._show(plan)

    def drop_proposal(self) -> None:
        """Go back to showing the committed plan; nothing happens when none is proposed."""
        if self._proposing:
            self._proposing = False
            self._show(self._history.plan)

    def undo(self) -> None:
        """Take the last step back; nothing happens when there is none."""
        self.drop_proposal()
        if self._history.can_undo:
            self._history.undo()
            self._show(self._history.plan)
            self.history_changed.emit()

    def redo(self) -> None:
        """Do again the step last taken back; nothing happens when there is none."""
        self.drop_proposal()
        if self._history.can_redo:
            self._history.redo()
            self._show(self._history.plan)
            self.history_changed.emit()

    @property
    def modified(self) -> bool:
        """Whether the committed plan differs from what was last saved or opened."""
        return self._history.modified

    @property
    def can_undo(self) -> bool:
        """Whether a step can be taken back."""
        return self._history.can_undo

    @property
    def can_redo(self) -> bool:
        """Whether a step can be done again."""
        return self._history.can_redo

    @property
    def undo_label(self) -> str:
        """What undo would take back, in words; empty when nothing."""
        return self._history.undo_label or ""

    @property
    def redo_label(self) -> str:
        """What redo would do again, in words; empty when nothing."""
        return self._history.redo_label or ""

    # selection -------------------------------------------------------------------------------------------------

    @property
    def selection(self) -> frozenset[str]:
        """Ids of the selected elements, all of which are on show."""
        return self._selection

    def select(self, ids: Iterable[str]) -> None:
        """Select exactly these elements; ids that are not in the plan are left out."""
        chosen = frozenset(ids) & self._shown.by_id.keys()
        if chosen != self._selection:
            self._selection = frozenset(chosen)
            self.selection_changed.emit(self._selection)

    # files -----------------------------------------------------------------------------------------------------

    @property
    def path(self) -> Path | None:
        """The file of this plan, or None while it was never saved."""
        return self._path

    def open(self, path: str | Path) -> None:
        """Open a plan file in place of the current plan; raises `PlanFileError` and changes nothing when it can't."""
        plan = plan_file.read(Path(path))
        self._begin(plan, Path(path))

    def save(self, path: str | Path | None = None) -> None:
        """Write the committed plan to `path`, or to its own file; raises OSError when it can't be written."""
        target = Path(path) if path is not None else self._path
        if target is None:
            raise ValueError("this plan was never saved: a path is needed")
        plan_file.save(self._history.plan, target)
        self._history.mark_saved()
        if target != self._path:
            self._path = target
            self.path_changed.emit()
        self.history_changed.emit()

    def new(self, plan: Plan) -> None:
        """Begin a new document with this plan: no path, no history."""
        self._begin(plan, None)

    def close(self) -> None:
        """Stop the study under way; call before the document goes."""
        self._live.stop()

    # inside ----------------------------------------------------------------------------------------------------

    def _begin(self, plan: Plan, path: Path | None) -> None:
        self._proposing = False
        self.select(())
        self._history = History(plan)
        self._path = path
        self._show(plan)
        self.path_changed.emit()
        self.history_changed.emit()

    def _show(self, plan: Plan) -> None:
        old = self._shown.plan
        if plan is old:
            return
        self._shown = Contents(plan)
        self.plan_changed.emit(old, plan)
        if self._selection - self._shown.by_id.keys():
            self.select(self._selection)
        self._live.ask(plan)

    @Slot(object)
    def _on_answer(self, study: Study) -> None:
        self._study = study
        self.study_changed.emit(study)

    @Slot(object)
    def _on_failure(self, error: Exception) -> None:
        self._study = None
        self.study_changed.emit(None)
        self.study_failed.emit(error)
