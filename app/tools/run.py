"""Drawing runs of pipe point by point: drains, cold and hot water, and what drawing vents has in common with them.

What is drawn so far, up to the pointer, is proposed all the time, so that its heights and findings show while
it grows. An end in the middle of another pipe puts the weld's vertex into that pipe.
"""

from __future__ import annotations

import math
from typing import Any, ClassVar

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from app.tools.aim import Aim, Aimed
from app.tools.desk import Desk
from app.tools.entry import LengthEntry
from app.tools.plane import heading_of
from app.tools.points import place_on
from app.tools.sketch import Mark, Words
from app.tools.straighten import Slide, slid
from app.tools.stretch import NO_HEADING
from app.tools.tool import Pointer, Tool
from app.tools.wording import named
from engine.drafting.beside import in_common, neighbour
from engine.drafting.guides import Layer
from engine.drafting.snapping import numeric
from engine.lengths import feet_inches
from engine.plan import edits
from engine.plan.outline import called
from engine.plan.points import Run
from engine.plan.record import Water
from engine.plan.records import Drain, Plan, Point, Supply

ABOUT_FACE = 1.0
"""A stretch within so many degrees of straight back lies over the one before it."""


class DrawRun(Tool):
    """What drawing any run has in common. A click on a pipe or outlet that it can join ends it."""

    hint = "Click each turn, or type a length for the next stretch; Enter ends, Backspace takes one back."
    kind: ClassVar[type]
    layer: ClassVar[Layer]
    given: ClassVar[dict[str, Any]] = {}

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._aim = Aim(desk, "pipe", self.layer)
        self._entry = LengthEntry()
        self._points: list[Point] = []
        self._slides: list[Slide | None] = []
        self._next: Aimed | None = None

    @property
    def busy(self) -> bool:
        """Whether a run was begun."""
        return bool(self._points)

    def press(self, pointer: Pointer) -> None:
        """Set the next point; one on something that the run can join is the last."""
        aimed = self._aimed(pointer)
        begun, why = self.busy, self._entry.why_not()
        typed = self._entry.length() is not None
        point = self._measured(aimed.point)
        if begun and not typed and self._lies_behind(point):
            self.desk.say("That lies back over the stretch just drawn; Backspace takes a point back.")
            return
        if begun and not typed:
            self._points = self._straightened(aimed)
        self._set(point, None if typed else self._way(aimed))
        self._next = aimed
        if begun and aimed.joins and not typed:
            self.finish()
            return
        self._entry.clear()
        self._show()
        if why:
            self.desk.say(f"{why} The point was set where the pointer is.")

    def hover(self, pointer: Pointer) -> None:
        """Show the run up to the pointer."""
        self._next = self._aimed(pointer)
        if self.busy:
            self._show()

    def double(self, pointer: Pointer) -> None:
        """End the run at the point that the first press set."""
        self.finish()

    def finish(self) -> bool:
        """Set what was typed; else end the run at the last point set."""
        if not self.busy:
            return False
        if self._entry.text:
            self._take_entry()
            return True
        points = tuple(self._points)
        self.clean()
        plan = self._with(points) if len(points) > 1 else None
        if plan is not None:
            name = edits.fresh_id(self.desk.document.settled, edits.LETTERS[self.kind])
            self.desk.document.commit(plan, f"draw {named(plan, (name,))}")
            self.desk.pick(frozenset({name}))
        return True

    def typed(self, event: QKeyEvent) -> bool:
        """A number sets the next stretch's length; Backspace takes back a digit, else the last point."""
        if not self.busy:
            return False
        if self._entry.take(event):
            self._show()
            return True
        if event.key() == Qt.Key.Key_Backspace:
            self._points.pop()
            self._slides.pop()
            if self._points:
                self._show()
            else:
                self.clean()
            return True
        return False

    def clean(self) -> None:
        """Forget the run."""
        self._points, self._slides, self._next = [], [], None
        self._entry.clear()
        super().clean()

    def _aimed(self, pointer: Pointer) -> Aimed:
        return self._aim.at(pointer, (self._points[-1],) if self._points else ())

    def _set(self, point: Point, slide: Slide | None) -> None:
        if not self._points or self._points[-1] != point:
            self._points.append(point)
            self._slides.append(slide)

    def _way(self, aimed: Aimed) -> Slide | None:
        """The line along which a point may still slide a little; None where it was meant just there."""
        if self._points:
            return Slide(self._points[-1]) if aimed.is_loose else None
        run = self.desk.document.element(aimed.element) if aimed.element is not None else None
        if not isinstance(run, Run) or aimed.point in run.points:
            return None
        segment = place_on(run, aimed.point).segment
        return Slide(run.points[segment], run.points[segment + 1])

    def _straightened(self, end: Aimed) -> list[Point]:
        """The points so far, the last slid so that the stretch to a place that can be joined comes out straight."""
        slide = self._slides[-1] if end.joins else None
        if slide is None:
            return self._points
        return [*self._points[:-1], slid(slide, self._points[-1], end.point)]

    def _take_entry(self) -> None:
        """Set the point that was typed; one that can't be used is told and stays to be mended."""
        point = self._measured(self._next.point if self._next is not None else self._points[-1])
        why = self._entry.why_not() or (NO_HEADING if point == self._points[-1] else "")
        if why:
            self.desk.say(why)
            return
        self._set(point, None)
        self._entry.clear()
        self._show()

    def _measured(self, point: Point) -> Point:
        """The point at the typed distance from the last one, or the point itself when nothing was typed.

        The pointer gives the heading; while it lies on the last point or behind it, the last stretch does.
        """
        length = self._entry.length()
        if length is None or not self._points:
            return point
        last = self._points[-1]
        if len(self._points) > 1 and (point == last or self._lies_behind(point)):
            before = self._points[-2]
            point = (2.0 * last[0] - before[0], 2.0 * last[1] - before[1])
        return point if last == point else numeric(last, point, length)

    def _lies_behind(self, point: Point) -> bool:
        """Whether a stretch to a point would go straight back over the last one."""
        if len(self._points) < 2 or point == self._points[-1]:
            return False
        turn = heading_of(self._points[-1], point) - heading_of(self._points[-2], self._points[-1])
        return abs(turn % 360.0 - 180.0) <= ABOUT_FACE

    def _show(self) -> None:
        document = self.desk.document
        typed = self._entry.length() is not None
        points = list(self._points if self._next is None or typed else self._straightened(self._next))
        last = points[-1]
        end = self._measured(self._next.point) if self._next is not None else last
        if self._lies_behind(end):
            end = last
        if end != last:
            points.append(end)
        plan = self._with(tuple(points)) if len(points) > 1 else None
        if plan is not None:
            document.propose(plan)
        else:
            document.drop_proposal()
        words = self._entry.text or feet_inches(math.dist(last, end))
        self.desk.sketch([Words(end, words), *self.beside()])

    def beside(self) -> list[Mark]:
        """What a tool shows beside the run that is drawn."""
        return []

    def values(self, points: tuple[Point, ...]) -> dict[str, Any]:
        """What a run through these points is given beside them."""
        return self.given

    def _with(self, points: tuple[Point, ...]) -> Plan | None:
        """The plan with the run, welded at both ends to what they lie on."""
        settled = self.desk.document.settled
        name = edits.fresh_id(settled, edits.LETTERS[self.kind])

        def make() -> Plan:
            return edits.join_ends(edits.add_new(settled, self.kind, points=points, **self.values(points)), name)

        return self.attempt(make)


class DrawDrain(DrawRun):
    """Draws a drain run."""

    name, title, key = "drain", "Drain", "D"
    kind, layer = Drain, "under"


class DrawWater(DrawRun):
    """What drawing cold and hot has in common: one drawn along the other takes its insulation, depth and way over.

    So the two lie against each other, and pass each joist in one hole.
    """

    kind = Supply
    water: ClassVar[Water]

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._against: Supply | None = None
        self._told = ""

    def values(self, points: tuple[Point, ...]) -> dict[str, Any]:
        """The water, and what the run has in common with the one that it lies against."""
        self._against = found = neighbour(self.desk.document.settled, self.water, points)
        return {"water": self.water, **({} if found is None else in_common(found))}

    def beside(self) -> list[Mark]:
        """No marks; the status line says what the run takes over."""
        run = self._against
        words = "" if run is None else f"It lies against {called(run)}, and takes over its insulation and depth."
        if words != self._told:
            self._told = words
            self.desk.say(words or self.hint)
        return []


class DrawCold(DrawWater):
    """Draws a cold water run."""

    name, title, key = "cold", "Cold", "O"
    layer, water = "cold", "cold"


class DrawHot(DrawWater):
    """Draws a hot water run."""

    name, title, key = "hot", "Hot", "H"
    layer, water = "hot", "hot"
