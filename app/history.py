"""The history of edits: a stack of plans, and a place in it. No Qt."""

from __future__ import annotations

from typing import NamedTuple

from engine.plan.records import Plan


class _Step(NamedTuple):
    label: str
    plan: Plan
    token: object


class History:
    """Every plan since the document was opened, the one it stands at, and the one that was saved.

    A step joins the one before it when both carry the same token (a drag's, a spin box's), unless that one is the
    saved plan. A new step always drops what was undone, joined or not.
    """

    def __init__(self, plan: Plan) -> None:
        self._steps = [_Step("", plan, None)]
        self._at = 0
        self._saved = plan

    @property
    def plan(self) -> Plan:
        """The plan that the history stands at."""
        return self._steps[self._at].plan

    @property
    def modified(self) -> bool:
        """Whether that plan differs from the saved one."""
        return self.plan is not self._saved and self.plan != self._saved

    def push(self, label: str, plan: Plan, token: object = None) -> None:
        """Stand at a new plan, reached by what `label` says."""
        del self._steps[self._at + 1 :]
        before = self._steps[-1]
        joins = token is not None and token == before.token and before.plan is not self._saved
        self._steps[self._at + (0 if joins else 1) :] = [_Step(label, plan, token)]
        self._at = len(self._steps) - 1

    def undo(self) -> None:
        """Stand one step earlier; nothing happens at the first."""
        self._at = max(0, self._at - 1)

    def redo(self) -> None:
        """Stand one step later; nothing happens at the last."""
        self._at = min(len(self._steps) - 1, self._at + 1)

    def mark_saved(self) -> None:
        """Take the plan that the history stands at for the saved one."""
        self._saved = self.plan

    @property
    def can_undo(self) -> bool:
        """Whether there is an earlier step."""
        return self._at > 0

    @property
    def can_redo(self) -> bool:
        """Whether there is a later step."""
        return self._at < len(self._steps) - 1

    @property
    def undo_label(self) -> str | None:
        """What undo takes back, None when nothing."""
        return self._steps[self._at].label if self.can_undo else None

    @property
    def redo_label(self) -> str | None:
        """What redo does again, None when nothing."""
        return self._steps[self._at + 1].label if self.can_redo else None
