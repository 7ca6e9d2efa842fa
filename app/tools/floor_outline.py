"""Drawing the floor's outline, corner after corner."""

from __future__ import annotations

import math
from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from app.tools.aim import Aim
from app.tools.desk import Desk
from app.tools.edge_grips import EdgeGrip, edge_grips, nearest_grip, pulled_edge
from app.tools.entry import LengthEntry
from app.tools.grips import REACH
from app.tools.plane import middle
from app.tools.sketch import Handle, Mark, Stroke, Words
from app.tools.tool import CLICK, Pointer, Tool
from engine.drafting.outside_walls import Followed, redrawn
from engine.drafting.snapping import numeric
from engine.lengths import feet_inches, inches
from engine.plan.edits import EditError
from engine.plan.outline import listed
from engine.plan.records import Point

CLOSE = 10.0
"""How near to the first corner a press closes the outline, pixels."""

LEAST = 3

ASKEW = 10.0
"""A side that leaves square by no more than this was hardly meant to, degrees."""

UNSEEN = 1.0 / 64.0
"""Out of square by less than this is square, inches."""


class DrawOutline(Tool):
    """Draws the outside of the floor's framing; the joists fill it anew. Enter or the first corner again closes it."""

    name, title, key = "outline", "Floor edge", "G"
    hint = (
        "Click the floor's corners in turn, by the outside of the framing; a number sets a side, Enter closes it. Or drag a "
        "corner or a side's middle."
    )

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._aim = Aim(desk, "outline")
        self._entry = LengthEntry()
        self._corners: list[Point] = []
        self._last: Point | None = None
        self._pull: tuple[Pointer, EdgeGrip] | None = None

    def refresh(self) -> None:
        """Show the grips of the outline that is there, until another is begun."""
        if not self.busy:
            self.desk.sketch(Handle(grip.at, grip.side) for grip in edge_grips(self._outline))

    @property
    def _outline(self) -> tuple[Point, ...]:
        return self.desk.document.settled.floor.outline

    @property
    def busy(self) -> bool:
        """Whether an outline was begun, or a grip of the one there is pulled."""
        return bool(self._corners) or self._pull is not None

    def press(self, pointer: Pointer) -> None:
        """Set the next corner; on the first one, close the outline. On a grip of the outline that is there, take it in hand."""
        if not self.busy:
            grip = nearest_grip(self._outline, pointer.at, self.desk.inches(REACH))
            if grip is not None:
                self._pull = (pointer, grip)
                return
        self._set(pointer)

    def _set(self, pointer: Pointer) -> None:
        at = self._measured(self._aimed(pointer))
        near = self.desk.inches(CLOSE)
        if len(self._corners) >= LEAST and math.dist(pointer.at, self._corners[0]) <= near and not self._entry.text:
            self.finish()
            return
        if not self._corners or at != self._corners[-1]:
            self._corners.append(at)
        self._entry.clear()
        self._show(at)

    def hover(self, pointer: Pointer) -> None:
        """Show the outline up to the pointer."""
        self._last = self._aimed(pointer)
        if self._corners:
            self._show(self._measured(self._last))

    def move(self, pointer: Pointer) -> None:
        """Pull the grip in hand, or show the outline up to the pointer."""
        if self._pull is None:
            self.hover(pointer)
        elif _far(self._pull[0], pointer):
            corners = self._pulled(pointer, self._pull[1])
            self.desk.sketch([Stroke(corners, "edge", closed=True), *_askew(corners)])

    def release(self, pointer: Pointer) -> None:
        """Let the grip go, as one step; one that was only clicked begins a new outline there."""
        if self._pull is None:
            return
        pressed, grip = self._pull
        self._pull = None
        if _far(pressed, pointer):
            self._make(self._pulled(pointer, grip))
            self.refresh()
        else:
            self._set(pressed)

    def _pulled(self, pointer: Pointer, grip: EdgeGrip) -> tuple[Point, ...]:
        around = self._outline
        last = len(around)
        anchors = () if grip.side else (around[grip.number - 1], around[(grip.number + 1) % last])
        return pulled_edge(around, grip, self._aim.at(pointer, anchors).point)

    def double(self, pointer: Pointer) -> None:
        """The second press of a double click closes it."""
        self.finish()

    def finish(self) -> bool:
        """Set what was typed; else close the outline, as one step."""
        if not self._corners:
            return False
        if self._entry.text and self._last is not None:
            self._corners.append(self._measured(self._last))
            self._entry.clear()
            self._show(self._corners[-1])
            return True
        corners = tuple(self._corners)
        if len(corners) < LEAST:
            self.desk.say("A floor has three corners at least.")
            return True
        self.clean()
        self._make(corners)
        self.refresh()
        return True

    def _make(self, corners: tuple[Point, ...]) -> None:
        """Give the floor this outline, as one step, and tell what became of the walls."""
        try:
            made = redrawn(self.desk.document.settled, corners)
        except EditError as fault:
            self.desk.say(str(fault))
            return
        self.desk.document.commit(made.plan, "draw the floor's outline")
        if told := _walls_told(made):
            self.desk.say(told)

    def typed(self, event: QKeyEvent) -> bool:
        """A number sets the next side's length; Backspace takes back a digit, else the last corner."""
        if not self._corners:
            return False
        if self._entry.take(event):
            self._show(self._measured(self._last or self._corners[-1]))
            return True
        if event.key() == Qt.Key.Key_Backspace:
            self._corners.pop()
            if self._corners:
                self._show(self._last or self._corners[-1])
            else:
                self.clean()
            return True
        return False

    def clean(self) -> None:
        """Forget the outline."""
        self._corners, self._last, self._pull = [], None, None
        self._entry.clear()
        super().clean()

    def _aimed(self, pointer: Pointer) -> Point:
        anchors = tuple(dict.fromkeys((self._corners[-1], self._corners[0]))) if self._corners else ()
        return self._aim.at(pointer, anchors).point

    def _measured(self, point: Point) -> Point:
        """The point at the typed distance from the last corner, or the point itself when nothing was typed."""
        length = self._entry.length()
        if length is None or not self._corners or point == self._corners[-1]:
            return point
        return numeric(self._corners[-1], point, length)

    def _show(self, end: Point) -> None:
        marks: list[Mark] = [Stroke((*self._corners, end), "edge", closed=len(self._corners) > 1)]
        words = self._entry.text or feet_inches(math.dist(self._corners[-1], end))
        self.desk.sketch([*marks, *_askew((*self._corners, end)), Words(end, words)])


def _far(press: Pointer, pointer: Pointer) -> bool:
    return (pointer.pixel - press.pixel).manhattanLength() > CLICK


def _askew(corners: tuple[Point, ...]) -> list[Words]:
    """Words at the sides of a closed row of corners that are a little out of square."""
    closed = [(corners[-1], corners[0])] if len(corners) >= LEAST else []
    sides = [*pairwise(corners), *closed]
    return [Words(middle(*side), f"{off} out of square") for side in sides if (off := out_of_square(*side))]


def out_of_square(start: Point, end: Point) -> str:
    """By how much a side that nearly runs square leaves it, in words; empty where it is square or plainly meant aslant."""
    dx, dy = abs(end[0] - start[0]), abs(end[1] - start[1])
    off = min(dx, dy)
    if off < UNSEEN or math.degrees(math.atan2(off, max(dx, dy))) > ASKEW:
        return ""
    return f"{inches(off)} in"


def _walls_told(made: Followed) -> str:
    """What became of the outside walls, in one sentence; empty where there were none."""
    parts = [
        f"{'wall' if len(ids) == 1 else 'walls'} {listed(ids)} {what}"
        for ids, what in (
            (made.moved, "moved along the new outline"),
            (made.new, "drawn along its new sides"),
            (made.gone, "taken away"),
            (
                made.held,
                "left in place for what stands in it"
                if len(made.held) == 1
                else "left in place for what stands in them",
            ),
        )
        if ids
    ]
    said = "; ".join(parts)
    return f"{said[:1].upper()}{said[1:]}." if said else ""
