"""Drawing dry vents, with how far each may go sideways under the floor before it must stand in a wall."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

from app.tools.desk import Desk
from app.tools.run import DrawRun
from app.tools.sketch import Mark, Stroke
from app.tools.tool import Pointer
from engine.crossings.axis import drain_axis_at
from engine.drafting.wall_reach import Reach, reach_from
from engine.lengths import down, inches
from engine.plan.axis import length
from engine.plan.outline import called
from engine.plan.records import Plan, Point, Vent
from engine.study import Study

SIDES = 72
"""How many sides the circle of a reach is drawn with."""


STEEPEST = 12.0
"""The most that a run's slope can be, inches per foot: 45 degrees."""


class TakeOff(NamedTuple):
    """A place on a drain where a vent may leave it, and how far a vent can go from there."""

    at: Point
    reach: Reach


class DrawVent(DrawRun):
    """Draws a dry vent run under the floor; its properties raise it overhead.

    While the pointer is on a drain, and while a run is drawn from or to one, a circle shows how far the vent may go
    sideways, the walls within it stand out, and the status line says both in words. A run that stays within it is given
    the slope by which it rises far enough.
    """

    name, title, key = "vent", "Vent", "V"
    kind, layer = Vent, "under"

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._told = ""

    def hover(self, pointer: Pointer) -> None:
        """Show what a vent could reach from the drain under the pointer."""
        super().hover(pointer)
        if not self.busy:
            self.desk.sketch(self.beside())

    def leave(self) -> None:
        """Take the reach away with the pointer."""
        super().leave()
        if not self.busy:
            self.desk.clear_sketch()

    def beside(self) -> list[Mark]:
        """The circle of the reach and the stretches of walls inside it."""
        found = self._take_off()
        words = "" if found is None else in_words(found.reach, self.desk.document.settled)
        if words != self._told:
            self._told = words
            self.desk.say(words or self.hint)
        return [] if found is None else list(marks(found))

    def values(self, points: tuple[Point, ...]) -> dict[str, Any]:
        """A vent that can reach where it ends leans: it rises as steeply as pipe must to count as vertical."""
        study = self.desk.document.study
        if study is None or study.model.book.says("vent.low_allowed"):
            return {}
        plan = self.desk.document.settled
        first, last = (take_off(study, plan, at) for at in (points[0], points[-1]))
        found = first or last
        if found is None or (first and last) or length(points) > found.reach.sideways:
            return {}
        slope = round(12.0 * math.tan(math.radians(study.model.book.number("slope.vertical_from"))), 9)
        return {"slope": slope} if slope <= STEEPEST else {}

    def _take_off(self) -> TakeOff | None:
        """Where the vent in hand leaves a drain: at its first point, else where the pointer is."""
        study = self.desk.document.study
        if study is None or study.model.book.says("vent.low_allowed"):
            return None
        places = [*self._points[:1], *([self._next.point] if self._next is not None else [])]
        return next((found for at in places if (found := take_off(study, self.desk.document.settled, at))), None)


def take_off(study: Study, plan: Plan, at: Point) -> TakeOff | None:
    """What a vent reaches that leaves the drain at a point; None where no drain of known height passes."""
    model = study.model
    z = drain_axis_at(model.network, model.heights, at)
    return None if z is None else TakeOff(at, reach_from(plan, at, z, model.book.number("slope.vertical_from")))


def marks(found: TakeOff) -> tuple[Mark, ...]:
    """A dashed circle round the take-off and a strong line on each wall inside it."""
    (x, y), radius = found.at, found.reach.sideways
    if radius <= 0.0:
        return ()
    turns = (2.0 * math.pi * number / SIDES for number in range(SIDES))
    circle = tuple((x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns)
    return (
        Stroke(circle, "guide", closed=True),
        *(Stroke((one.start, one.end), "reach") for one in found.reach.within),
    )


def in_words(reach: Reach, plan: Plan) -> str:
    """The reach as the status line tells it, rounded to the safe side."""
    if reach.sideways <= 0.0:
        start = "The drain lies no lower than the joists' top here: a vent taken off it must stand in a wall at once"
    else:
        start = f"A vent taken off here may go {inches(down(reach.sideways))} in sideways before it stands in a wall"
    if reach.nearest is None or reach.away is None:
        return f"{start}; no wall is drawn."
    wall = next(wall for wall in plan.walls if wall.id == reach.nearest)
    if reach.away == 0.0:
        return f"{start}; {called(wall)} stands right over it."
    can = "within reach" if reach.away <= reach.sideways else "too far"
    return f"{start}; the nearest wall, {called(wall)}, is {inches(reach.away)} in away: {can}."
