"""Choosing by hand the fitting that stands where pipes turn or meet."""

from __future__ import annotations

import math
from collections.abc import Hashable
from functools import partial
from typing import NamedTuple

from app.tools.aim import TOLERANCE
from app.tools.corners import Corner, chosen, corners, offers, standing
from app.tools.desk import Desk
from app.tools.offer import Line, Section
from app.tools.tool import CLICK, Pointer, Tool
from app.tools.wording import named
from engine.plan import edits
from engine.plan.outline import PATTERNS
from engine.plan.records import Pattern, PinnedFitting, Plan, Point
from engine.study import Study

WHERE = {"under": "Under the floor", "wall": "In the wall"}

BY_ITSELF = "Let the program choose"


class Wish(NamedTuple):
    """What a line of the menu stands for: a fitting at a corner, or None where the program is to choose."""

    corner: Corner
    pattern: Pattern | None


class ChooseFitting(Tool):
    """Offers, at a corner or junction, the fittings that can stand there; what is taken becomes one step."""

    name, title, key = "fitting", "Fitting", "N"
    hint = "Click where waste or vent pipes turn or meet, and choose the fitting that is to stand there."

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._study: Study | None = None
        self._corners: tuple[Corner, ...] = ()
        self._pressed: tuple[Pointer, Point | None] | None = None

    def hover(self, pointer: Pointer) -> None:
        """Ring the corner under the pointer and say what stands there now."""
        at = self._nearest(pointer)
        self.desk.point_out(at, self._now(at) if at is not None else "")

    def press(self, pointer: Pointer) -> None:
        """A click begins on a corner."""
        self.hover(pointer)
        self._pressed = (pointer, self._nearest(pointer))

    def release(self, pointer: Pointer) -> None:
        """A click that ends where it began opens the menu, or says why there is none."""
        pressed, self._pressed = self._pressed, None
        if pressed is None or (pointer.pixel - pressed[0].pixel).manhattanLength() > CLICK:
            return
        at = pressed[1]
        if self._current() is None:
            self.desk.say("The plan is not worked out yet: try again in a moment.")
        elif at is None:
            self.desk.say(self.hint)
        else:
            self._offer(at)

    def clean(self) -> None:
        """Forget the press."""
        self._pressed = None
        super().clean()

    # what stands and what could --------------------------------------------------------------------------------

    def _current(self) -> Study | None:
        """The study of the very plan on show, with its corners gathered once."""
        document = self.desk.document
        study = document.study if document.studied else None
        if study is not self._study:
            self._study, self._corners = study, corners(study) if study is not None else ()
        return study

    def _nearest(self, pointer: Pointer) -> Point | None:
        """The corner nearest to the pointer, within reach of it."""
        self._current()
        reach = self.desk.inches(TOLERANCE)
        pinned = (pin.at for pin in self.desk.document.settled.fittings)
        places = {*(corner.at for corner in self._corners), *pinned}
        near = [at for at in places if math.dist(at, pointer.at) <= reach]
        return min(near, key=lambda at: (math.dist(at, pointer.at), at), default=None)

    def _levels(self, at: Point) -> tuple[Corner, ...]:
        """The corners over each other at a point, the one under the floor first."""
        pinned = (Corner(pin.at, pin.level) for pin in self.desk.document.settled.fittings)
        return tuple(sorted({corner for corner in (*self._corners, *pinned) if corner.at == at}))

    def _now(self, at: Point) -> str:
        """What stands at a point now, for the mark beside it."""
        study = self._study
        if study is None:
            return ""
        levels = self._levels(at)
        told = [_state(study, corner) for corner in levels]
        if len(levels) == 1:
            return told[0]
        return "; ".join(f"{WHERE[corner.level].lower()} {words}" for corner, words in zip(levels, told, strict=True))

    def _offer(self, at: Point) -> None:
        study = self._study
        assert study is not None  # the caller just looked
        sections = [section for corner in self._levels(at) if (section := _section(study, corner)).lines]
        if sections:
            self.desk.point_out(at, "")
            self.desk.offer(at, "Fittings that can stand here", sections, self._take)
        else:
            self.desk.say("None of the fittings that can be chosen joins the pipes as they are drawn here.")

    def _take(self, key: Hashable) -> None:
        """Make the choice, as one step, and select what was chosen."""
        assert isinstance(key, Wish)  # the keys of the lines below
        self.desk.point_out(None)
        document = self.desk.document
        before = document.settled
        pin = chosen(before, key.corner)
        plan = self.attempt(partial(_with, before, pin, key))
        if plan is None or plan == before:
            return
        if key.pattern is None and pin is not None:
            document.commit(plan, f"let the program choose in place of {named(before, (pin.id,))}")
            return
        name = plan.fittings[-1].id if pin is None else pin.id
        document.commit(plan, f"choose {named(plan, (name,))}")
        self.desk.pick(frozenset({name}))


def _section(study: Study, corner: Corner) -> Section:
    """What can be chosen at a corner, under what stands there now."""
    pin = chosen(study.plan, corner)
    lines = [
        Line(Wish(corner, pattern), PATTERNS[pattern], pin is not None and pin.pattern == pattern)
        for pattern in offers(study, corner)
    ]
    if pin is not None:
        lines.append(Line(Wish(corner, None), BY_ITSELF))
    return Section(f"{WHERE[corner.level]}, {_state(study, corner)}", tuple(lines))


def _state(study: Study, corner: Corner) -> str:
    """What stands at a corner: `now: wye`, and what was chosen where that does not fit."""
    now, pin = standing(study, corner), chosen(study.plan, corner)
    if now:
        return f"now: {now}"
    return f"chosen: {PATTERNS[pin.pattern]}, which does not fit" if pin is not None else "now: no fitting fits"


def _with(plan: Plan, pin: PinnedFitting | None, wish: Wish) -> Plan:
    if wish.pattern is None:
        return edits.delete(plan, pin.id) if pin is not None else plan
    if pin is not None:
        return edits.set_field(plan, pin.id, "pattern", wish.pattern)
    at, level = wish.corner
    return edits.add_new(plan, PinnedFitting, at=at, pattern=wish.pattern, level=level)
