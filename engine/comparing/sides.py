"""The two studies of one plan, with what each asked of its book."""

from __future__ import annotations

from functools import cached_property

from msgspec.structs import replace

from engine.checks.records import Rule
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
        self.asked = self._asked()

    def _asked(self) -> frozenset[str]:
        """The keys asked for under either book that either has."""
        heard = self.mine.heard | self.theirs.heard
        books = (load(self.plan.rulebook, self.plan.amendments), load(self.theirs.name))
        return frozenset(key for key in heard if any(book.has(key) for book in books))

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
        stems = (*rule.reads, *rule.may_read)
        under = {key for key in self.parted if any(key == stem or key.startswith(f"{stem}.") for stem in stems)}
        order = {key: number for number, key in enumerate((*self.mine.keys(), *self.theirs.keys()))}
        return tuple(sorted(under, key=lambda key: order[key]))

    def told(self, key: str) -> str:
        """One value in both books, in a sentence."""
        return f"{heading(key)}: {found_in(self.mine, key)}; {found_in(self.theirs, key)}."
