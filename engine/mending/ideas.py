"""An idea: an edit of the plan that might mend a finding, in words, before anybody has tried it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from engine.checks.records import Finding
from engine.crossings.records import Window
from engine.plan.records import Plan
from engine.study import Study

DONE = {
    "Close": "Closed",
    "Delete": "Deleted",
    "Double": "Doubled",
    "Frame": "Framed",
    "Give": "Gave",
    "Hang": "Hung",
    "Join": "Joined",
    "Leave": "Left",
    "Let": "Let",
    "Lower": "Lowered",
    "Make": "Made",
    "Move": "Moved",
    "Pin": "Pinned",
    "Put": "Put",
    "Raise": "Raised",
    "Roll": "Rolled",
    "Say": "Said",
    "Slide": "Slid",
    "Stand": "Stood",
    "Take": "Took",
    "Turn": "Turned",
    "Unpin": "Unpinned",
    "Use": "Used",
}
"""How the first word of each idea reads once it is done."""


AND = ", and "
"""Between two edits that are made as one."""


class Idea(NamedTuple):
    """An edit that might mend a finding. `cost` says how small a change it is: the less, the earlier it is offered.

    `words` begins with a word of :data:`DONE` ("Make d2 2 in"). `make` raises EditError when the plan does not allow
    it. Of several ideas of one `family` only the first that holds is offered. `gains` tells from the exits' windows after it what was won, where that is worth a number.
    """

    words: str
    cost: float
    make: Callable[[], Plan]
    gains: Callable[[tuple[Window, ...]], str] | None = None
    family: str = ""

    @property
    def label(self) -> str:
        """The step's name in history: ``make d2 2 in``."""
        return _small(self.words)

    @property
    def done(self) -> str:
        """What is said once it is done: ``Made d2 2 in.``"""
        first, *then = self.words.split(AND)
        return AND.join((_past(first), *(_small(_past(_great(step))) for step in then))) + "."


Maker = Callable[[Study, Finding], Iterator[Idea]]
"""Yields what might mend a finding of one rule. It promises nothing: only what has been tried is offered."""


def both(first: Idea, then: Callable[[Plan], Plan], words: str, cost: float) -> Idea:
    """Two ideas made one: the first, then another edit of the plan that it makes; `words` are the second's."""
    told = f"{first.words}{AND}{_small(words)}"
    return first._replace(words=told, cost=first.cost + cost, make=lambda: then(first.make()))


def _past(words: str) -> str:
    """A step's words once it is done; words that begin with no verb of a step are left as they are."""
    first, _, rest = words.partition(" ")
    return f"{DONE.get(first, first)} {rest}"


def _great(words: str) -> str:
    return words[:1].upper() + words[1:]


def _small(words: str) -> str:
    return words[:1].lower() + words[1:]
