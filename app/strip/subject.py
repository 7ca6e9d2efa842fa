"""Which line the strip shows: that of what is selected, else the longest of the first exit that has one."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from engine.plan.outline import called
from engine.plan.records import KINDS, Drain, Element, Supply
from engine.study import Study
from engine.takeoff.levers import Lever, lever
from engine.takeoff.long_section import LongSection, long_section

NOTHING = (
    "Draw a drain to an exit: then its fall stands here, cut along its length, with every joist that it meets. "
    "A water run shows when you select it."
)
MOST = 24
"""So many selected things are looked at; more are not one line."""


class Subject(NamedTuple):
    """What the strip shows: a line with what sets its height, or in `words` why there is none.

    `lever` is None where nobody can set the height, and `words` says why.
    """

    section: LongSection | None
    lever: Lever | None
    words: str


def subject(study: Study | None, selection: Iterable[str], held: str = "") -> Subject:
    """The line to show. `held` is the pipe whose height the person took hold of last, where it lies on the line."""
    if study is None:
        return Subject(None, None, "")
    elements: dict[str, Element] = {one.id: one for kind in KINDS for one in getattr(study.plan, kind)}
    chosen = [elements[name] for name in sorted(selection) if name in elements]
    found = _best(study, chosen[:MOST]) if chosen else None
    if found is None:
        lost = next((one for one in chosen if isinstance(one, Drain | Supply)), None)
        if lost is not None and len(chosen) == 1:
            what = "reaches no exit" if isinstance(lost, Drain) else "has no length, or no joists to lie in"
            return Subject(None, None, f"{called(lost).capitalize()} {what}, so no height of it is known.")
        found = next((made for exit_ in study.plan.exits if (made := long_section(study.model, exit_))), None)
    if found is None:
        return Subject(None, None, NOTHING)
    legs = [one for one in (*found.legs, found.tail, found.stands) if one is not None]
    leg = next((one for one in legs if one.pipe == held), found.legs[-1])
    sets = lever(study.model, found, leg)
    return Subject(found, None, sets) if isinstance(sets, str) else Subject(found, sets, "")


def _best(study: Study, chosen: list[Element]) -> LongSection | None:
    """Of the lines of several things the one on which most of them lie, the longest of these."""
    names = {one.id for one in chosen}
    made = (long_section(study.model, one) for one in chosen)
    return max(
        (one for one in made if one is not None),
        key=lambda one: (len(names & {leg.element for leg in one.legs}), one.length),
        default=None,
    )
