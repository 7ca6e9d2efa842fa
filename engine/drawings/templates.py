"""Full-size templates of the openings under closets and showers: one inch of paper is one inch of floor.

The wall behind the fixture lies up; joists, walls and everything else that stands near lie where they are.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import msgspec

from engine.drawings.clipping import clipped
from engine.drawings.labels import Box
from engine.drawings.linetypes import FINE, MEDIUM, THIN, WALL_EDGE, WALL_FILL, WIDE, WOOD, WOOD_FILL
from engine.drawings.strokes import Arc, Drawing, Fill, Line, Stroke, Text
from engine.drawings.struck import Setting, Struck, setting
from engine.drawings.typeface import text_width
from engine.framing.shadow import band
from engine.lengths import feet_inches, inches
from engine.plan.records import Fixture, Plan, Point, Wall
from engine.study import Study
from engine.takeoff.naming import whole_words
from engine.trade import fixtures as trade
from engine.trade.facts import Fact, table
from engine.trade.lumber import actual
from engine.trade.pipe import drain, label

FULL_SIZE = "FULL SIZE, 1 : 1"

CAPS = 0.085
"""Height of a template's capitals, inches."""

_ROUND_HOLE = 0.75
_TIGHT = 0.1
_TO_WALL = 15.0
"""Up to this distance a template reaches to the studs behind, on more than one sheet if need be, inches."""

_LOW = 0.4
"""How high on the paper the centre lies where no wall is near, as a share."""

_PAST_WALL = 0.6
_DASHED = (0.12, 0.06)
_AXIS = (0.3, 0.06, 0.06, 0.06)


class Template(NamedTuple):
    """One template: what it is for, and its drawing at full size."""

    title: str
    drawing: Drawing


class View(NamedTuple):
    """How a fixture's surroundings are looked at: its outlet at the origin, the wall behind it up."""

    at: Point
    turn: float

    def seen(self, point: Point) -> Point:
        """A plan point as the template has it: inches to the right, inches up."""
        angle = math.radians(self.turn)
        back = (-math.cos(angle), -math.sin(angle))
        dx, dy = point[0] - self.at[0], point[1] - self.at[1]
        return (dx * back[1] - dy * back[0], dx * back[0] + dy * back[1])

    def heading(self, degrees: float) -> float:
        """A plan heading (counter-clockwise from east) as the template has it."""
        return degrees - self.turn - 90.0


class Behind(NamedTuple):
    """The wall that stands square behind an outlet, and how far off its studs are."""

    wall: Wall
    studs: float


def opening_templates(study: Study, width: float, height: float) -> tuple[Template, ...]:
    """One template for each closet and floor outlet that is marked, as wide as the paper's window.

    One that reaches a wall may be taller than the window.
    """
    marks = setting(study.model)
    fixtures = {fixture.id: fixture for fixture in study.plan.fixtures}
    return tuple(
        _Opening(study, marks, one, fixtures[one.mark.element]).drawn(width, height)
        for one in marks.struck
        if one.mark.kind in ("closet", "floor outlet")
    )


def behind(plan: Plan, view: View) -> Behind | None:
    """The nearest wall that stands square behind an outlet; None where none is drawn."""
    found = []
    for wall in plan.walls:
        a, b = view.seen(wall.start), view.seen(wall.end)
        studs = (a[1] + b[1]) / 2.0 - actual(wall.lumber).depth / 2.0
        square = abs(a[1] - b[1]) <= math.tan(math.radians(1.0)) * abs(a[0] - b[0])
        if square and min(a[0], b[0]) <= 0.0 <= max(a[0], b[0]) and studs >= 0.0 and a != b:
            found.append(Behind(wall, studs))
    return min(found, key=lambda one: one.studs, default=None)


class _Opening:
    """One opening in the making; coordinates are inches from its centre until :meth:`drawn` shifts them."""

    def __init__(self, study: Study, marks: Setting, one: Struck, fixture: Fixture) -> None:
        self.study, self.marks, self.one, self.fixture = study, marks, one, fixture
        self.view = View(one.mark.at, fixture.turn)
        self.behind = behind(study.plan, self.view)
        self.closet = one.mark.kind == "closet"
        self.pipe = max(
            (p.size for p in study.model.network.pipes if self._stands_here(p.shape, p.start)), default=None
        )
        hole = one.mark.hole
        self.radius = hole / 2.0 if hole is not None else drain(self.pipe).od / 2.0 if self.pipe is not None else 1.0
        self.bolts = _bolts() if self.closet else None

    def _stands_here(self, shape: str, node: tuple[float, ...]) -> bool:
        return shape == "plumb" and (node[0], node[1]) == self.one.mark.at

    def drawn(self, width: float, height: float) -> Template:
        """The template, its lower left corner at the origin."""
        below, height = self._reach(height)
        top = height - below
        self.box = Box(-width / 2.0, -below, width / 2.0, top)
        strokes = [*self._wood(), *self._walls(), *self._lines(), *self._hole(), *self._wall_words(), *self._notes()]
        shifted = tuple(shift(stroke, -self.box.left, -self.box.bottom) for stroke in strokes)
        called = f"{self.fixture.name or trade.fixture(self.fixture.kind).words} ({self.fixture.id})"
        bounds = (0.0, 0.0, width, height)
        return Template(
            f"Opening for {called}, mark {self.one.number}",
            Drawing(shifted, width, height, bounds, FULL_SIZE, 1.0),
        )

    def _reach(self, height: float) -> tuple[float, float]:
        """How far the template goes below the centre, and its whole height, where `height` is what one sheet takes.

        It reaches the studs behind where they are near: with room round everything, on one sheet only just if that
        saves a second one.
        """
        if self.behind is None or self.behind.studs > _TO_WALL:
            return height * _LOW, height
        below = self.radius + _ROUND_HOLE
        roomy = below + self.behind.studs + _PAST_WALL
        tight = self.radius + _TIGHT + self.behind.studs + _TIGHT
        if tight <= height < roomy:
            return height - self.behind.studs - _TIGHT, height
        return below, max(height, roomy)

    def _wood(self) -> Iterator[Stroke]:
        """Joists where they lie under the subfloor, with their names."""
        for joist in self.study.model.framing.joists:
            corners = [self.view.seen(point) for point in band(joist.start, joist.end, joist.thickness)]
            shown = clipped(corners, self.box)
            if not shown:
                continue
            yield Fill(shown, WOOD_FILL)
            yield Line(shown, THIN, _DASHED, WOOD, closed=True)
            yield from self._named(shown, f"{whole_words(self.study.model, joist)} under the subfloor")

    def _named(self, shown: tuple[Point, ...], words: str) -> Iterator[Stroke]:
        """A name along a band, in its part that lies low on the paper."""
        xs, ys = zip(*shown, strict=True)
        wide, high = max(xs) - min(xs), max(ys) - min(ys)
        reach = text_width(words, CAPS)
        if high >= wide and high > reach + 0.3:
            yield Text(((min(xs) + max(xs) + CAPS) / 2.0, min(ys) + 0.15), words, CAPS, angle=90.0, grey=0.3)
        elif wide > reach + 0.3:
            yield Text((min(xs) + 0.15, (min(ys) + max(ys) - CAPS) / 2.0), words, CAPS, grey=0.3)

    def _walls(self) -> Iterator[Stroke]:
        """Stud faces of every wall near, and the finished face of the one behind."""
        for wall in self.study.plan.walls:
            corners = [self.view.seen(p) for p in band(wall.start, wall.end, actual(wall.lumber).depth)]
            shown = clipped(corners, self.box)
            if shown:
                yield Fill(shown, WALL_FILL)
                yield Line(shown, WIDE, grey=WALL_EDGE, closed=True)

    def _lines(self) -> Iterator[Stroke]:
        """The two centre lines, with the ways to the faces that the mark is measured from, and north."""
        left, bottom, right, top = self.box
        end = min(top, self.behind.studs) if self.behind is not None else top
        yield Line(((left, 0.0), (right, 0.0)), *((FINE, _AXIS) if self.bolts is None else (MEDIUM, ())))
        yield Line(((0.0, bottom), (0.0, end)), FINE, _AXIS)
        for distance, face in ((self.one.mark.east_from, self.one.east), (self.one.mark.north_from, self.one.north)):
            toward = {"east": 0.0, "north": 90.0, "west": 180.0, "south": 270.0}[face.side]
            words = f"{self.marks.letters[face]}: {feet_inches(distance)}"
            yield from self._way(self.view.heading(toward), words)
        north = self.view.heading(90.0)
        c, s = math.cos(math.radians(north)), math.sin(math.radians(north))
        middle = (right - 0.45, bottom + 0.42)
        yield from pointer((middle[0] + 0.2 * c, middle[1] + 0.2 * s), north, 0.4)
        yield Text((middle[0] + 0.3 * c, middle[1] + 0.3 * s - 0.06), "N", 0.12, "middle", bold=True)

    def _way(self, degrees: float, words: str) -> Iterator[Stroke]:
        """An arrow from beside the hole toward a face, with the distance from the centre written on it."""
        c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        far = min(self.radius + 1.22, self._bound(c, s) - 0.05)
        if far < self.radius + 0.4:
            far = self.radius - 0.12
        tip = (far * c, far * s)
        yield from pointer(tip, degrees, 0.22)
        height = CAPS * 1.25
        if abs(c) > abs(s):
            yield Text((tip[0] - 0.05 * c, 0.09), words, height, "end" if c > 0 else "start", halo=True, bold=True)
        else:
            yield Text((0.1, tip[1] - (0.16 if s > 0 else 0.0)), words, height, halo=True, bold=True)

    def _bound(self, c: float, s: float) -> float:
        """How far the paper reaches from the centre in a direction."""
        left, bottom, right, top = self.box
        ways = [(right if c > 0 else -left) / abs(c)] if abs(c) > 1e-9 else []
        ways += [(top if s > 0 else -bottom) / abs(s)] if abs(s) > 1e-9 else []
        return min(ways)

    def _hole(self) -> Iterator[Stroke]:
        """The hole to make, the pipe in it, the cross at the centre, and a closet's bolt line."""
        if self.one.mark.hole is not None:
            yield Arc((0.0, 0.0), self.radius, WIDE)
        if self.pipe is not None:
            yield Arc((0.0, 0.0), drain(self.pipe).od / 2.0, MEDIUM, dashes=_DASHED)
        for ends in (((-0.3, 0.0), (0.3, 0.0)), ((0.0, -0.3), (0.0, 0.3))):
            yield Line(ends, WIDE)
        if self.bolts is not None:
            half = float(self.bolts.value) / 2.0
            for x in (-half, half):
                yield Line(((x, -0.18), (x, 0.18)), MEDIUM)
            words = "BOLT LINE, parallel to the finished wall"
            yield Text((0.0, -0.17), words, CAPS, "middle", halo=True)
        inside = []
        if self.one.mark.hole is not None:
            inside.append(f"HOLE TO MAKE: {inches(self.one.mark.hole)} in")
        if self.pipe is not None:
            inside.append(f"dashed: {label(self.pipe)} in pipe, {inches(drain(self.pipe).od, 32)} in outside")
        y = -0.42 if self.closet else -self.radius - 0.22
        for words in inside:
            yield Text((0.0, y), words, CAPS, "middle", halo=True, bold=words.startswith("HOLE"))
            y -= CAPS * 1.7

    def _wall_words(self) -> Iterator[Stroke]:
        """The wall behind: its stud face and finished face at their true place, or the way to them."""
        if self.behind is None:
            return
        wall, studs = self.behind
        name = wall.name or f"wall {wall.id}"
        finished = studs - wall.finish
        said = f"{inches(finished)} in to the finished {name}, {inches(studs)} in to its studs"
        if studs > self.box.top:
            yield from pointer((0.0, self.box.top - 0.05), 90.0, 0.3)
            yield Text((0.15, self.box.top - 0.25), said, CAPS * 1.2, halo=True, bold=True)
            return
        yield Line(((self.box.left, finished), (self.box.right, finished)), THIN, _DASHED)
        yield from pointer((0.0, studs), 90.0, 0.22)
        above = f"FACE OF THE STUDS OF THE {name.upper()}: SET THIS LINE AGAINST THEM"
        yield Text((self.box.left + 0.15, studs - 0.2), above, CAPS, halo=True, bold=True)
        words = f"dashed: the finished wall, {inches(wall.finish)} in of finish allowed for"
        yield Text((self.box.left + 0.15, finished - 0.2), words, CAPS, halo=True)
        yield Text((0.15, finished - 0.55), said, CAPS * 1.2, halo=True, bold=True)

    def _notes(self) -> Iterator[Stroke]:
        """What the template cannot show, over the hole."""
        mark = self.one.mark
        faces = (self.one.east, self.one.north)
        said = [f"{self.marks.letters[face]} is the {face.words}." for face in faces]
        said.append(
            f"Lay the cross on mark {self.one.number} of the sheet “Setting out”, north to north, and check the ways to "
            "both faces before sawing."
        )
        said.append(f"The wall behind: {mark.walls}.")
        said += [f"Hole for {hole.passes}: {hole.source}." for hole in mark.holes if hole.standing == "assumed"]
        if self.bolts is not None:
            said.append(
                f"Short strokes on the bolt line: slots {inches(float(self.bolts.value))} in apart, {self.bolts.source}. "
                "Measure the flange in hand."
            )
        if not self.closet:
            said.append("The pan's drain may want a wider opening: by its maker's sheet.")
        lines = [line for words in said for line in wrapped(words, CAPS, -self.box.left - 0.6)]
        top = self.radius + 0.18 + CAPS * 1.7 * (len(lines) - 1)
        for n, line in enumerate(lines):
            yield Text((self.box.left + 0.35, top - CAPS * 1.7 * n), line, CAPS, halo=True)


def _bolts() -> Fact:
    return table("openings").fact("water_closet", "bolts apart")


def pointer(tip: Point, degrees: float, length: float) -> Iterator[Stroke]:
    """An arrow that ends at a point, pointing in a direction (counter-clockwise from the right)."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    head, half = min(0.14, length), 0.045
    foot = (tip[0] - head * c, tip[1] - head * s)
    yield Line(((tip[0] - length * c, tip[1] - length * s), foot), MEDIUM)
    yield Fill((tip, (foot[0] - half * s, foot[1] + half * c), (foot[0] + half * s, foot[1] - half * c)), 0.0)


def shift(stroke: Stroke, x: float, y: float) -> Stroke:
    """A stroke moved to the right and up."""
    if isinstance(stroke, Text):
        return msgspec.structs.replace(stroke, at=(stroke.at[0] + x, stroke.at[1] + y))
    if isinstance(stroke, Arc):
        return msgspec.structs.replace(stroke, centre=(stroke.centre[0] + x, stroke.centre[1] + y))
    return msgspec.structs.replace(stroke, points=tuple((px + x, py + y) for px, py in stroke.points))


def wrapped(words: str, height: float, width: float) -> list[str]:
    """A text in lines no wider than `width`, except where one word is."""
    lines: list[str] = []
    for word in words.split():
        if lines and text_width(f"{lines[-1]} {word}", height) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines
