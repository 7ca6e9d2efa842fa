"""What a check is and what it finds."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Literal

from engine.plan.records import Record

if TYPE_CHECKING:
    from engine.checks.model import Model

Weight = Literal["stop", "look", "note"]


class Finding(Record, frozen=True, gc=False):
    """One thing to stop for, look at or know.

    `at` is (x, y, z) in inches; `measured` and `limit` are in `unit`; `cites` is the section or
    ``common practice``; `mend` says in words what would put it right.
    """

    rule: str
    weight: Weight
    at: tuple[float, float, float]
    elements: tuple[str, ...]
    measured: float | None
    limit: float | None
    unit: str
    text: str
    cites: str
    mend: str


class Holds(Record, frozen=True, gc=False):
    """One thing that was looked at and is in order."""

    element: str = ""


class NotJudged(Record, frozen=True, gc=False):
    """One thing that could not be judged, and which datum is missing."""

    at: tuple[float, float, float]
    elements: tuple[str, ...]
    missing: str


class DoesNotApply(Record, frozen=True, gc=False):
    """One thing that the rule has nothing to say about."""

    element: str = ""


Outcome = Finding | Holds | NotJudged | DoesNotApply


class Rule(Record, frozen=True, gc=False):
    """A check's declaration: permanent id in trade words, title, subject, usual weight, rule-book keys it reads.

    Without the values in `reads` (keys, or groups of keys) there is nothing to judge by; those in `may_read` are
    looked at where the book has them.
    """

    id: str
    title: str
    subject: str
    weight: Weight
    reads: tuple[str, ...]
    judge: Callable[[Model], Iterator[Outcome]]
    may_read: tuple[str, ...] = ()
