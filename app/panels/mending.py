"""What a finding's button does: the edit of the plan that mends it, for those that one edit mends."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Literal, NamedTuple

from app.panels.verdict import Entry
from engine.plan import edits
from engine.plan.points import Run
from engine.plan.records import Plan

END_NOT_JOINED = "end-not-joined"
"""The rule about ends, risers, exits and outlets that lie on a pipe without a point of it."""


class Mend(NamedTuple):
    """A way to mend: the button's words, the step's name in history, what is said when it is done, and the edit.

    `make` raises EditError when the plan does not allow it.
    """

    words: str
    label: str
    done: str
    make: Callable[[], Plan]


def mend_of(entry: Entry, plan: Plan) -> Mend | None:
    """The edit that mends an entry in this plan; None where the mending is the person's own work."""
    if entry.rule != END_NOT_JOINED or len(entry.elements) < 2:
        return None
    loose, main = entry.elements[:2]
    try:
        element = edits.find(plan, loose)
        edits.find(plan, main)
    except edits.EditError:
        return None
    at = entry.at[:2]
    end: Literal["start", "end"] = "start" if isinstance(element, Run) and element.points[0] == at else "end"
    return Mend(
        f"&Join {loose} to {main}",
        f"join {loose} to {main}",
        f"Joined {loose} to {main}.",
        partial(edits.join, plan, loose, end, main),
    )
