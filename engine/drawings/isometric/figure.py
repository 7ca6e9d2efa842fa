"""The picture itself at one scale: every pipe and part as ink on paper, without a name yet."""

from __future__ import annotations

import math
from typing import Literal

from engine.drawings.isometric import lines
from engine.drawings.isometric.axes import project
from engine.drawings.isometric.levels import Places
from engine.drawings.isometric.lines import PaperLine
from engine.drawings.isometric.shapes import BODY, LEG, Leg, Site
from engine.drawings.isometric.skeleton import Joint, Mount, Skeleton
from engine.drawings.isometric.symbols import symbol_of
from engine.drawings.linetypes import LINE_TYPES, THIN
from engine.drawings.strokes import Line, Stroke
from engine.joinery.records import Part, Port, Space, System
from engine.plan.records import Point, Record

SLEEVES = ("coupling", "repair_coupling", "reducer_coupling", "tube_reducing_coupling")
"""Parts that sit on a straight pipe and reach along it less far than others."""

SLEEVE = 0.62
"""How far those reach, as a share of a fitting's reach."""

MOST = 0.42
"""The largest share of a length that a fitting at its end may take; parts glued into each other share all of it."""

UP: Space = (0.0, 0.0, 1.0)
"""Where a part points that stands at a joint without a direction."""

SAME_WAY = 0.8
"""A port and a pipe belong together where the cosine of their angle is above this."""


class Shown(Record, frozen=True, gc=False):
    """One thing of the lists as it is shown: its name there, what it belongs to in the plan, its ink, its middle."""

    name: str
    what: Literal["part", "piece", "tube"]
    system: System
    elements: tuple[str, ...]
    strokes: tuple[Stroke, ...]
    at: Point


class Figure:
    """Ink at one scale, in paper inches an inch of the building.

    `unit` is the lettering's share of the usual, `letters` the height of the letters in the pipes, `points` where
    each joint lies, `shown` everything there is, pipes first.
    """

    def __init__(
        self, bones: Skeleton, places: Places, turn: int, scale: float, origin: Point, unit: float, letters: float
    ) -> None:
        self.bones, self.places, self.turn, self.scale, self.unit = bones, places, turn, scale, unit
        self._origin = origin
        self.points = {key: self.paper(at) for key, at in places.at.items()}
        self.lines = [PaperLine(length, self.points[length.start], self.points[length.end]) for length in bones.lengths]
        self._meeting: dict[str, list[PaperLine]] = {key: [] for key in bones.joints}
        for line in self.lines:
            self._meeting[line.length.start].append(line)
            self._meeting[line.length.end].append(line)
        self._legs: dict[tuple[str, int], Leg] = {}
        fittings = [self._fitting(key, joint, part) for key, joint in bones.joints.items() for part in joint.fittings]
        mounted = [self._mounted(made) for made in bones.mounts]
        lines.cross(self.lines, places, turn, unit)
        for line in self.lines:
            lines.shorten(line, places, unit)
        for line in self.lines:
            lines.letter(line, self.lines, letters, unit)
            lines.arrow(line, unit)
        own = {line.length.name: line for line in self.lines if line.length.what == "part"}
        self.shown = [*self._pipes(), *(_with_tube(shown, own.get(shown.name)) for shown in (*fittings, *mounted))]

    def paper(self, at: Space) -> Point:
        """Where a place of the building lies on paper."""
        u, v = project(at, self.turn)
        return (self._origin[0] + u * self.scale, self._origin[1] + v * self.scale)

    def ink(self) -> list[Stroke]:
        """Every stroke of it."""
        return [stroke for shown in self.shown for stroke in shown.strokes]

    def lines_of(self, name: str) -> list[PaperLine]:
        """The lengths of one piece or tube, the longest on paper first."""
        return sorted((line for line in self.lines if line.length.name == name), key=lambda line: -line.long)

    # inside ----------------------------------------------------------------------------------------------------

    def _fitting(self, key: str, joint: Joint, part: Part) -> Shown:
        reach = LEG * self.unit * (SLEEVE if part.kind in SLEEVES else 1.0)
        used: list[PaperLine] = []
        legs: list[Leg] = []
        for number, port in enumerate(part.ports):
            line = self._line_at(key, port.toward, used)
            leg = self._leg(key, line, self._way(port.toward), reach, port)
            if line is not None:
                used.append(line)
            self._legs[part.id, number] = leg
            legs.append(leg)
        if not part.ports:
            legs = [self._leg(key, line, (0.0, 1.0), reach, None) for line in self._meeting[key]]
        toward = self.bones.facing.get(part.id)
        if toward is not None:
            legs.append(Leg(self._way(toward), reach))
        return self._shown(part, self.points[key], tuple(legs))

    def _mounted(self, made: Mount) -> Shown:
        at = self.points[made.joint]
        way, clear = self._way(made.toward or UP), self._reach(made)
        foot = (at[0] + way[0] * clear, at[1] + way[1] * clear)
        return self._shown(made.part, foot, (Leg(way, BODY * self.unit),))

    def _shown(self, part: Part, at: Point, legs: tuple[Leg, ...]) -> Shown:
        site = Site(at, legs, LINE_TYPES[part.system].weight, self.unit)
        return Shown(part.id, "part", part.system, part.elements, tuple(symbol_of(part.kind)(site)), at)

    def _leg(self, key: str, line: PaperLine | None, way: Point, reach: float, port: Port | None) -> Leg:
        """A leg along a length, which it shortens; along the port's own direction where no pipe leaves."""
        hub = port is None or port.end == "hub"
        if line is None:
            return Leg(way, reach, hub)
        end = 0 if line.length.start == key else 1
        glued = line.length.what == "bond"
        line.trims[end] = line.long / 2.0 if glued else min(reach, MOST * line.long)
        return Leg(line.way(end == 0), line.trims[end], hub)

    def _line_at(self, key: str, toward: Space, used: list[PaperLine]) -> PaperLine | None:
        """The length that leaves a joint in a direction."""
        best, most = None, SAME_WAY
        for line in self._meeting[key]:
            if line in used:
                continue
            other = line.length.end if line.length.start == key else line.length.start
            a, b = self.places.at[key], self.places.at[other]
            size = (math.dist(a, b) or 1.0) * (math.hypot(*toward) or 1.0)
            same = sum((q - p) * t for p, q, t in zip(a, b, toward, strict=True)) / size
            if same > most:
                best, most = line, same
        return best

    def _way(self, toward: Space) -> Point:
        """A direction of the building on paper, as a unit vector."""
        u, v = project(toward, self.turn)
        size = math.hypot(u, v)
        return (u / size, v / size) if size > 1e-9 else (0.0, 1.0)

    def _reach(self, made: Mount) -> float:
        """How far from its joint a mounted part stands: past the fitting's leg and the parts before it."""
        leg = 0.0
        for part in self.bones.joints[made.joint].fittings:
            if self.bones.facing.get(part.id) == made.toward:
                leg = LEG * self.unit
            for number, port in enumerate(part.ports):
                if made.toward is not None and math.dist(port.toward, made.toward) < 0.1:
                    leg = max(leg, self._legs[part.id, number].long)
        return leg + made.rank * BODY * self.unit

    def _pipes(self) -> list[Shown]:
        """Pieces and tubes, each with all its lengths."""
        found: dict[str, list[PaperLine]] = {}
        for line in self.lines:
            if line.length.what in ("piece", "tube"):
                found.setdefault(line.length.name, []).append(line)
        return [self._pipe(name, of_one) for name, of_one in found.items()]

    def _pipe(self, name: str, of_one: list[PaperLine]) -> Shown:
        first = of_one[0].length
        kind = LINE_TYPES[first.system]
        dashes = tuple(dash * self.unit for dash in kind.dashes)
        strokes: list[Stroke] = []
        for line in of_one:
            strokes += [Line((line.at(low), line.at(high)), kind.weight, dashes) for low, high in line.free()]
            strokes += line.marks
        longest = max(of_one, key=lambda line: line.long)
        elements = tuple(dict.fromkeys(element for line in of_one for element in line.length.elements))
        what: Literal["piece", "tube"] = "piece" if first.what == "piece" else "tube"
        return Shown(name, what, first.system, elements, tuple(strokes), longest.at(0.5))


def _with_tube(shown: Shown, line: PaperLine | None) -> Shown:
    """A trap with the arm that is its own tube."""
    if line is None:
        return shown
    strokes = [Line((line.at(low), line.at(high)), THIN) for low, high in line.free()]
    return Shown(shown.name, shown.what, shown.system, shown.elements, (*strokes, *shown.strokes), shown.at)
