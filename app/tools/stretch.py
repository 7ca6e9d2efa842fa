"""Tools that draw from one point to another: press, drag, release, or two clicks; a typed length sets the distance."""

from __future__ import annotations

import math
from typing import ClassVar

from PySide6.QtGui import QKeyEvent

from app.tools.aim import Aim, Purpose
from app.tools.desk import Desk
from app.tools.entry import LengthEntry
from app.tools.sketch import Mark, Words
from app.tools.tool import CLICK, Pointer, Tool
from engine.drafting.snapping import numeric
from engine.lengths import feet_inches
from engine.plan.records import Point

NO_HEADING = "Point the way first: the pointer lies on the last point, so the length has no heading."
"""Why a typed length can't be used while the pointer gives it no direction."""


class Stretch(Tool):
    """What they have in common. Subclasses show and make the stretch."""

    purpose: ClassVar[Purpose] = "point"

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.aim = Aim(desk, self.purpose)
        self.entry = LengthEntry()
        self._start: Point | None = None
        self._end: Point | None = None
        self._pressed: Pointer | None = None

    def show(self, start: Point, end: Point) -> None:
        """Show the stretch as far as it goes."""

    def make(self, start: Point, end: Point) -> None:
        """The stretch is drawn."""

    @property
    def busy(self) -> bool:
        """Whether a stretch was begun."""
        return self._start is not None

    def press(self, pointer: Pointer) -> None:
        """Begin, or end what a click began."""
        if self._start is None:
            self._start = self._aimed(pointer)
            self._end = self._start
            self._pressed = pointer
        else:
            self._follow(pointer)
            self.finish()

    def release(self, pointer: Pointer) -> None:
        """End a drag; a mere click leaves the other end to be clicked."""
        pressed, self._pressed = self._pressed, None
        if pressed is not None and (pointer.pixel - pressed.pixel).manhattanLength() > CLICK:
            self._follow(pointer)
            self.finish()

    def move(self, pointer: Pointer) -> None:
        """Show the stretch up to the pointer."""
        if self._start is None:
            self._aimed(pointer)
        else:
            self._follow(pointer)

    def double(self, pointer: Pointer) -> None:
        """The second press of a double click ends nothing that the first did not."""

    def finish(self) -> bool:
        """Make the stretch, if it has a length; a typed length that can't be used is told and stays to be mended."""
        start, end = self._start, self._end
        if start is None or end is None:
            return False
        why = self.entry.why_not() or (NO_HEADING if self.entry.text and start == end else "")
        if why:
            self.desk.say(why)
            return True
        self.clean()
        if start != end:
            self.make(start, end)
        return True

    def typed(self, event: QKeyEvent) -> bool:
        """A number sets the length; the pointer goes on giving the direction."""
        if not self.busy or not self.entry.take(event):
            return False
        self._set_end(self._end)
        return True

    def clean(self) -> None:
        """Forget the stretch."""
        self._start = self._end = self._pressed = None
        self.entry.clear()
        super().clean()

    def marks(self, start: Point, end: Point) -> list[Mark]:
        """The length so far, as typed or as drawn, beside the end."""
        return [Words(end, self.entry.text or feet_inches(math.dist(start, end)))]

    def _follow(self, pointer: Pointer) -> None:
        self._set_end(self._aimed(pointer))

    def _set_end(self, end: Point | None) -> None:
        start = self._start
        if start is None or end is None:
            return
        length = self.entry.length()
        if length is not None and start != end:
            end = numeric(start, end, length)
        self._end = end
        self.show(start, end)
        self.desk.sketch(self.marks(start, end))

    def _aimed(self, pointer: Pointer) -> Point:
        anchors = (self._start,) if self._start is not None else ()
        return self.aim.at(pointer, anchors).point
