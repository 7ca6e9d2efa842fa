"""One plan beside itself under another rule book: `here` is always the plan's own book, `there` the other."""

from __future__ import annotations

from typing import Literal

from engine.checks.records import Finding, Weight
from engine.plan.records import Record
from engine.takeoff.vent_rows import State

Where = Literal["here", "there", "both"]


class BookSide(Record, frozen=True, gc=False):
    """A book that judges: `amended` is how many of its values the plan amends."""

    name: str
    short: str
    title: str
    notice: str
    amended: int


class LeftOut(Record, frozen=True, gc=False):
    """A local amendment, which belongs to the book that it was made for, and what the other book has in its place."""

    key: str
    means: str
    becomes: str
    said_by: str
    on: str
    there: str


class TrapSide(Record, frozen=True, gc=False):
    """How a trap fares under one book: lengths in inches, None where there is no vent or no limit."""

    state: State
    method: str
    how: str
    distance: float | None
    limit: float | None
    section: str
    limit_section: str


class TrapBeside(Record, frozen=True, gc=False):
    """One trap under both books; None under one where its drain is not there. `why` is empty where nothing differs."""

    fixture: str
    words: str
    here: TrapSide | None
    there: TrapSide | None
    why: tuple[str, ...]

    @property
    def differs(self) -> bool:
        """Whether anything but the sections is another."""
        return bool(self.why)


class FindingBeside(Record, frozen=True, gc=False):
    """A finding that only one book makes, or both in another measure, and why that is."""

    rule: str
    title: str
    here: Finding | None
    there: Finding | None
    why: tuple[str, ...]

    @property
    def where(self) -> Where:
        """Which book makes it."""
        return (
            "both" if self.here is not None and self.there is not None else "here" if self.here is not None else "there"
        )

    @property
    def finding(self) -> Finding:
        """The finding as the plan's own book makes it, else as the other does."""
        found = self.here if self.here is not None else self.there
        assert found is not None
        return found

    @property
    def weight(self) -> Weight:
        """How much it weighs, under the book that makes it."""
        return self.finding.weight


class ValueBeside(Record, frozen=True, gc=False):
    """A value that was asked for while this plan was judged, and that the books do not share.

    `here` and `there` say what it is and where that stands, or that the book has none; `rules` are the ids of the
    rules that read it. `tells` marks one that explains a difference named elsewhere.
    """

    key: str
    means: str
    here: str
    there: str
    rules: tuple[str, ...]
    tells: bool


class SilentRule(Record, frozen=True, gc=False):
    """A rule that judged something under one book and has nothing to judge by under the other."""

    rule: str
    title: str
    silent: Where
    why: str


class SizeBeside(Record, frozen=True, gc=False):
    """Pipes of one drawn thing whose size is another: nominal sizes, and what sets each."""

    element: str
    words: str
    system: str
    here: str
    there: str
    here_why: str
    there_why: str


class PartBeside(Record, frozen=True, gc=False):
    """A line of the shopping list of which another number is needed."""

    part: str
    size: str
    system: str
    unit: str
    here: int
    there: int


class ExitSide(Record, frozen=True, gc=False):
    """Heights that an exit may have, inches from the joists' top, up positive; None where nothing limits them."""

    low: float | None
    high: float | None
    chosen: float
    low_set_by: str
    high_set_by: str


class ExitBeside(Record, frozen=True, gc=False):
    """One exit's heights under both books."""

    exit: str
    here: ExitSide
    there: ExitSide

    @property
    def differs(self) -> bool:
        """Whether the books allow it another height."""
        return self.here != self.there


class Comparison(Record, frozen=True, gc=False):
    """A plan judged by its own book and by another, side by side.

    `findings` are those that differ; `alike` counts those that both books make in one measure. `traps` and `exits` are
    all that are drawn, the other lists hold what differs. `counts` are stop, look, note and not judged, here and there.
    """

    plan: str
    here: BookSide
    there: BookSide
    counts: tuple[tuple[str, int, int], ...]
    left_out: tuple[LeftOut, ...]
    findings: tuple[FindingBeside, ...]
    alike: int
    silent: tuple[SilentRule, ...]
    traps: tuple[TrapBeside, ...]
    exits: tuple[ExitBeside, ...]
    sizes: tuple[SizeBeside, ...]
    parts: tuple[PartBeside, ...]
    values: tuple[ValueBeside, ...]
