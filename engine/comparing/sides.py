"""The two studies of one plan, with what each asked of its book."""

from __future__ import annotations

from functools import cached_property

from msgspec.structs import replace

from engine.checks.records import Rule
from engine.crossings.records import Window
from engine.plan.records import Plan
from engine.rulebooks import HeardBook, load
from engine.rulebooks.saying import found_in, heading
from engine.study import Study, study


class SameBookError(ValueError):
    """The other book is the plan's own, and nothing in it is amended: there is nothing to set beside."""


class Sides:
    """A plan under its own book as amended (`here`) and under another as printed (`there`)."""

    def __init__(self, plan: Plan, other: str) -> None:
        """RuleBookError and AmendmentError as `load` raises them; SameBookError where both would be the same book."""
        mine, theirs = load(plan.rulebook, plan.amendments), load(other)
        if other == plan.rulebook and not plan.amendments:
            raise SameBookError(f"the plan is judged by {mine.short} already, and no value of it is amended")
        self.plan = plan
        self.mine, self.theirs = HeardBook(mine), HeardBook(theirs)
        one = other == plan.rulebook
        self.here_is = f"{mine.short} as amended" if one else mine.short
        self.there_is = f"{theirs.short} as printed" if one else theirs.short
        self.here: Study = study(plan, self.mine)
        self.there: Study = study(replace(plan, rulebook=other, amendments=()), self.theirs)
        heard = self.mine.heard | self.theirs.heard
        self.asked = frozenset(key for key in heard if mine.has(key) or theirs.has(key))
        """The keys asked for under either book that either has."""
        self._read_by: dict[str, tuple[str, ...]] = {}

    @cached_property
    def order(self) -> dict[str, int]:
        """Every key's place in the two books, the plan's own first."""
        return {key: number for number, key in enumerate((*self.mine.keys(), *self.theirs.keys()))}

    @cached_property
    def parted(self) -> frozenset[str]:
        """Of the keys asked for, those whose values the books do not share."""
        return frozenset(key for key in self.asked if not self._shared(key))

    def _shared(self, key: str) -> bool:
        mine, theirs = self.mine, self.theirs
        if not (mine.has(key) and theirs.has(key)):
            return False
        return mine.value(key).value == theirs.value(key).value

    def read_by(self, rule: Rule) -> tuple[str, ...]:
        """The keys that a rule reads, that were asked for, and that the books do not share; in the book's order."""
        known = self._read_by.get(rule.id)
        if known is None:
            stems = (*rule.reads, *rule.may_read)
            under = (key for key in self.parted if any(key == stem or key.startswith(f"{stem}.") for stem in stems))
            known = self._read_by[rule.id] = tuple(sorted(under, key=self.order.__getitem__))
        return known

    def told(self, key: str) -> str:
        """One value in both books, in a sentence."""
        return f"{heading(key)}: {found_in(self.mine, key)}; {found_in(self.theirs, key)}."


NEAR = 1.0 / 64.0
"""Heights and measures that differ by less are the same under both books."""


def same(here: float | None, there: float | None) -> bool:
    """Whether two measures are as good as the same; with none on one side, only where there is none on either."""
    if here is None or there is None:
        return here is there
    return abs(here - there) < NEAR


def windows_by_exit(study: Study) -> dict[str, Window]:
    """The windows of a study's exits by the exits' ids."""
    return {window.exit: window for window in study.model.windows if window.exit is not None}
