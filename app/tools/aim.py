"""Aiming: from where the pointer is to where the person means, with the reason shown beside it."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from app.tools.desk import Desk
from app.tools.plane import ahead, heading_of
from app.tools.seating import Settled, settle
from app.tools.tool import Pointer
from engine.drafting.bodies import face_of
from engine.drafting.guides import LAYERS, Candidates, Guide, Layer, Mark, Rank
from engine.drafting.snapping import Snap, candidates, snap
from engine.framing.layout import lay_out
from engine.framing.records import Framing, Joist
from engine.framing.wood import Wood, wood_of
from engine.plan.dressed import WALL_DEPTH
from engine.plan.grid import spot
from engine.plan.outline import called
from engine.plan.points import Run
from engine.plan.records import FixtureKind, Floor, Plan, Point, Wall
from engine.plan.welds import Fixed

TOLERANCE = 10.0
"""How near to the pointer a place must be to draw it, pixels."""

SETTLE_PIXELS, SETTLE_INCHES = 16.0, 8.0
"""How near to a wall a fixture settles at it: the larger of the two."""

ON_HEADING = 1.0 / 64.0
"""A point so near to a heading lies on it, inches."""

STRAIGHT = 4.0
"""A pointer so near to a heading goes straight: only what is as near to the pointer draws it aside, pixels."""

HEADED = "straight "
"""What the reason begins with where only a heading holds a point."""

CORNER = "corner of the floor"

UNTOLD = "whole inches"
"""A reason that goes without saying: it gets no mark."""

Purpose = Literal["pipe", "wall", "opening", "framing", "heading", "flooring", "outline", "point"]
"""What is aimed for: a pipe's point, a wall's end, a corner of the floor, an opening's side, a corner of the framing, of a floor opening or of a
flooring area, or what stands at a point."""

STUDS = Wall(id="new", start=(0.0, 0.0), end=(1.0, 0.0))
"""A new wall as it is drawn: its studs decide how far inside the floor's edge its middle runs."""


class Aimed(NamedTuple):
    """A point meant, why, whether a pipe can be joined there, and the element that drew the pointer."""

    point: Point
    reason: str
    joins: bool = False
    element: str | None = None

    @property
    def is_loose(self) -> bool:
        """Whether nothing but a heading or the whole inch put the point just there."""
        return self.reason in ("", UNTOLD) or (self.element is None and self.reason.startswith(HEADED))


class Aim:
    """Snaps for one tool. `layer` is what its pipes lie in, None when it draws none."""

    def __init__(self, desk: Desk, purpose: Purpose = "point", layer: Layer | None = None) -> None:
        self._desk, self._purpose, self._layer = desk, purpose, layer
        self._plan: Plan | None = None
        self._left_out: frozenset[str] = frozenset()
        self._candidates: Candidates | None = None

    def at(
        self, pointer: Pointer, anchors: Sequence[Point] = (), leave: frozenset[str] = frozenset(), mark: bool = True
    ) -> Aimed:
        """Where the pointer means, and the mark of it on the sheet.

        `anchors` are the points that headings are kept from, `leave` the elements that must not draw the pointer
        because they move with it. Alt leaves every snap out; `mark` False shows no mark.
        """
        if pointer.alt:
            found = Snap(spot(*pointer.at), "", None)
        else:
            found = self._best(pointer.at, anchors, leave)
        if mark:
            told = found.reason not in ("", UNTOLD)
            self._desk.point_out(found.point if told else None, found.reason if told else "")
        return Aimed(found.point, found.reason, self._can_join(found), found.element)

    def settle(self, kind: FixtureKind, at: Point, turn: float, own_turn: bool = False, free: bool = False) -> Settled:
        """Where a fixture held at a point comes to stand; `free` leaves it where it is held."""
        plan = self._desk.document.settled
        if free:
            settled = Settled(spot(*at), turn, "")
        else:
            reach = max(self._desk.inches(SETTLE_PIXELS), SETTLE_INCHES)
            settled = settle(kind, at, turn, plan, self._bays(plan), reach, own_turn)
        self._desk.point_out(settled.at if settled.reason else None, settled.reason)
        return settled

    def _best(self, at: Point, anchors: Sequence[Point], leave: frozenset[str]) -> Snap:
        """The best snap. Pipes and walls keep to the eighth headings from an anchor unless they join something."""
        near, reach = self._gathered(leave), self._desk.inches(TOLERANCE)
        tried = [snap(at, near, reach, anchor, self._layer) for anchor in anchors or (None,)]
        found = next((one for one in tried if one.reason not in ("", UNTOLD)), tried[0])
        if not anchors or self._purpose not in ("pipe", "wall", "outline"):
            return found
        if self._can_join(found) and not self._is_aside(at, found.point, anchors):
            return found
        if self._purpose == "outline":
            if found.reason == CORNER:
                return found
            square = _square(at, anchors, reach)
            if square is not None:
                return Snap(square, "square with both corners", None)
        return min(
            (self._headed(at, anchor, near, reach) for anchor in anchors), key=lambda one: math.dist(one.point, at)
        )

    def _is_aside(self, at: Point, drawn: Point, anchors: Sequence[Point]) -> bool:
        """Whether the pointer goes straight from an anchor while what draws it lies off that heading and off it."""
        near = self._desk.inches(STRAIGHT)
        if math.dist(at, drawn) <= near:
            return False
        return any(_off_eighth(anchor, at) <= near and _off_eighth(anchor, drawn) > ON_HEADING for anchor in anchors)

    def _headed(self, at: Point, anchor: Point, near: Candidates, reach: float) -> Snap:
        """The best snap on the eighth heading from an anchor that is nearest to a point."""
        eighth = _eighth(anchor, at)
        along = (at[0] - anchor[0]) * math.cos(eighth) + (at[1] - anchor[1]) * math.sin(eighth)
        there = (anchor[0] + along * math.cos(eighth), anchor[1] + along * math.sin(eighth))
        found = snap(there, near, reach, anchor, self._layer)
        off = abs((found.point[0] - anchor[0]) * math.sin(eighth) - (found.point[1] - anchor[1]) * math.cos(eighth))
        if off <= ON_HEADING:
            return found
        return snap(there, self._nothing(), reach, anchor, self._layer)

    def _can_join(self, found: Snap) -> bool:
        if self._layer is None or found.element is None:
            return False
        element = self._desk.document.elements.get(found.element)
        return isinstance(element, Run | Fixed)

    def _gathered(self, leave: frozenset[str]) -> Candidates:
        """What can be snapped to, gathered once for as long as the committed plan stays."""
        plan = self._desk.document.settled
        if self._candidates is None or plan is not self._plan or leave != self._left_out:
            self._plan, self._left_out = plan, leave
            drawn, framing = _seen(plan, self._purpose)
            self._candidates = candidates(drawn, framing, leave)
            _add_own(self._candidates, plan, self._purpose, leave)
        return self._candidates

    def _nothing(self) -> Candidates:
        """What is left to snap to when only a heading counts."""
        return candidates(Plan(floor=self._desk.document.settled.floor), Framing(joists=()))

    def _bays(self, plan: Plan) -> Wood:
        return wood_of(lay_out(plan))


def _eighth(anchor: Point, at: Point) -> float:
    """The nearest of the eight headings from a point to another, radians."""
    return round(math.atan2(at[1] - anchor[1], at[0] - anchor[0]) / (math.pi / 4.0)) * (math.pi / 4.0)


def _square(at: Point, anchors: Sequence[Point], reach: float) -> Point | None:
    """The place within reach that lies due east, west, north or south of two anchors at once."""
    if len(anchors) != 2:
        return None
    (ax, ay), (bx, by) = anchors
    places = [place for place in ((ax, by), (bx, ay)) if place not in anchors and math.dist(place, at) <= reach]
    return min(places, key=lambda place: math.dist(place, at), default=None)


def _off_eighth(anchor: Point, at: Point) -> float:
    """How far a point lies off the eighth heading from another that comes nearest to it, inches."""
    eighth = _eighth(anchor, at)
    return abs((at[0] - anchor[0]) * math.sin(eighth) - (at[1] - anchor[1]) * math.cos(eighth))


def _seen(plan: Plan, purpose: Purpose) -> tuple[Plan, Framing]:
    """The part of the plan that draws the pointer: walls, openings and floorings only walls, framing only the floor, the rest everything."""
    if purpose in ("wall", "opening", "flooring"):
        return Plan(floor=plan.floor, walls=plan.walls), Framing(joists=())
    if purpose in ("framing", "heading", "outline"):
        return Plan(floor=plan.floor), Framing(joists=())
    return plan, lay_out(plan)


def _add_own(near: Candidates, plan: Plan, purpose: Purpose, leave: Collection[str]) -> None:
    """Add what only this purpose is drawn to: the floor's edges and corners, and the ends of walls."""
    if purpose == "heading":
        for joist in lay_out(plan).joists:
            if joist.runs:
                _faces(near, joist)
    if purpose in ("framing", "flooring", "outline", "point"):
        for corner in plan.floor.outline:
            near.marks.put(Mark(Rank.END, corner, CORNER, "", LAYERS), corner)
        _guides(near, plan.floor, 0.0, "edge of the floor")
    if purpose == "flooring":
        for wall in plan.walls:
            _boards(near, wall)
    if purpose == "wall":
        _guides(near, plan.floor, WALL_DEPTH[STUDS.lumber] / 2.0, "studs flush with the floor's edge")
        for wall in plan.walls:
            if wall.id not in leave:
                for end in (wall.start, wall.end):
                    near.marks.put(Mark(Rank.END, end, f"end of wall {wall.id}", wall.id, LAYERS), end)


def _boards(near: Candidates, wall: Wall) -> None:
    """Add the two finished faces of a wall, at which a flooring ends, as lines to be drawn to."""
    heading, off = heading_of(wall.start, wall.end), face_of(wall)
    for side in (off, -off):
        start, end = (spot(*ahead(point, heading, 0.0, side)) for point in (wall.start, wall.end))
        reason = f"finished face of {called(wall)}"
        near.guides.put(Guide(Rank.WALL, start, end, reason, reason, None, LAYERS), start, end)


def _faces(near: Candidates, joist: Joist) -> None:
    """Add the two faces of a joist, along which an opening's trimmers lie, as lines to be drawn to."""
    for side in (-0.5, 0.5):
        dx, dy = -joist.along[1] * side * joist.thickness, joist.along[0] * side * joist.thickness
        start, end = ((x + dx, y + dy) for x, y in (joist.start, joist.end))
        reason = f"face of joist {joist.id}"
        near.guides.put(Guide(Rank.WALL, start, end, reason, reason, None, LAYERS), start, end)


def _guides(near: Candidates, floor: Floor, inside: float, reason: str) -> None:
    """Add the floor's edges, or the lines so far inside them, as lines to be drawn to."""
    corners = (*floor.outline, floor.outline[0])
    turning = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(corners))
    for start, end in pairwise(corners):
        run = math.dist(start, end)
        if run == 0.0:
            continue
        side = math.copysign(inside, turning) / run
        dx, dy = -(end[1] - start[1]) * side, (end[0] - start[0]) * side
        a, b = spot(start[0] + dx, start[1] + dy), spot(end[0] + dx, end[1] + dy)
        near.guides.put(Guide(Rank.WALL, a, b, reason, reason, None, LAYERS), a, b)
