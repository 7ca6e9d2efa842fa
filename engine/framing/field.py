"""One field of joists laid out in its own two directions.

*Across* (`t`) runs from its west (or south) outside face over the joists, *along* (`s`) the way the joists run. Rims
lie across both ends at full length; joists stand between them, so the joists of a floor that is 108 in from outside to
outside are 105 in long. Where the floor's outline passes through the field, rims and end joists follow it.
"""

from __future__ import annotations

from typing import NamedTuple

from engine.framing.beams import over_beam
from engine.framing.clipping import EXACT, Clipped, clipped
from engine.framing.flush import is_flush
from engine.framing.records import Joist, Kind
from engine.plan.records import Beam, JoistField, Point
from engine.trade.lumber import actual

SLACK = 1e-9
_NORTH = (0.0, 1.0)
_EAST = (1.0, 0.0)


class Stick(NamedTuple):
    """A stick in its field's frame.

    One that runs along has its centre line at `t` and reaches from `first` to `last` along; one that lies `across` has
    its centre line at `t` along, and reaches from `first` to `last` across. `outer` is how far the floor itself reaches
    there. `hung` tells of each of its ends that it hangs on a header or a flush beam, `cut_at` which beams those are,
    `joined` that it is lapped or spliced there with the next of its joist.
    """

    name: str
    number: int
    kind: Kind
    t: float
    first: float
    last: float
    plies: int = 1
    outer: tuple[float, float] = (0.0, 0.0)
    hung: tuple[bool, bool] = (False, False)
    across: bool = False
    opening: str = ""
    ends: tuple[Point, Point] | None = None
    """Ends of a rim that lies aslant, in the field's frame: across, along."""
    depth: float | None = None
    """Its own measured depth, inches; None where it has the field's."""
    cut_at: tuple[str, str] = ("", "")
    joined: tuple[bool, bool] = (False, False)

    @property
    def reach(self) -> tuple[Point, Point]:
        """The ends of its centre line in the field's frame: across, along."""
        if self.ends is not None:
            return self.ends
        if self.across:
            return (self.first, self.t), (self.last, self.t)
        return (self.t, self.first), (self.t, self.last)


class LaidField:
    """One field with its lumber looked up and its two directions told apart."""

    def __init__(self, field: JoistField, outline: tuple[Point, ...] = (), beams: tuple[Beam, ...] = ()) -> None:
        lumber = actual(field.lumber)
        self.field = field
        self.thickness = lumber.thickness
        self.depth = lumber.depth if field.depth is None else field.depth
        self.northward = field.direction == "north-south"
        self.across, self.along = field.size if self.northward else (field.size[1], field.size[0])
        self._shifts = {shift.number: shift.by for shift in field.shifts}
        self._doubled = {one.number: one for one in field.doubled}
        self._measured = {one.number: one.depth for one in field.measured}
        self._beams = tuple(one for one in beams if one.bearing)
        self.flush = tuple(one for one in beams if is_flush(one, self.depth))
        self._clipped: Clipped | None = None
        if field.to_outline and outline:
            framed = [self.framed(corner) for corner in outline]
            self._clipped = clipped(framed, self.across, self.along, self.thickness)

    # what stands in it -----------------------------------------------------------------------------------------

    def lines(self) -> list[Stick]:
        """Common joists, numbered from 1 at the west (south) edge, and end joists; where the outline cuts, its pieces.

        A joist along a side of the outline that is not the field's own edge is not counted among them: it is named for
        its side, and nothing that the field says of a numbered joist is meant for it.
        """
        centres = self._centres()
        last = len(centres) + 1
        outer, inner = self.thickness / 2.0, 1.5 * self.thickness
        commons = [(number, self._shifted(number, centre, inner)) for number, centre in enumerate(centres, start=1)]
        edges = {0: outer, last: self.across - outer}
        if self._clipped is None:
            found = [self._whole("common", number, centre) for number, centre in commons]
            return found + [self._whole("end", n, self._shifted(n, centre, outer)) for n, centre in edges.items()]
        sides: list[Stick] = []
        for place, side in enumerate(self._clipped.sides):
            counted = next((number for number, edge in edges.items() if abs(side - edge) <= EXACT), None)
            if counted is None:
                sides += self._pieces(Stick(f"{self.field.id}.side-{place}", place, "end", side, 0.0, 0.0))
            else:
                sides += self._pieces(self._whole("end", counted, self._shifted(counted, edges[counted], outer)))
        found = [piece for number, centre in commons for piece in self._pieces(self._whole("common", number, centre))]
        return [piece for piece in found if not any(_overlap(piece, side, self.thickness) for side in sides)] + sides

    def rims(self) -> list[Stick]:
        """The rims across the joists' ends, at full length; where the outline cuts, one along each side that cuts."""
        name = self.field.id
        sides = ("south", "north") if self.northward else ("west", "east")
        if self._clipped is not None:
            return [
                Stick(f"{name}.rim-{number}", number, "rim", 0.0, 0.0, 0.0, across=True, ends=rim)
                for number, rim in enumerate(self._clipped.rims)
            ]
        half = self.thickness / 2.0
        return [
            Stick(f"{name}.rim-{side}", number, "rim", at, 0.0, self.across, across=True)
            for number, (side, at) in enumerate(zip(sides, (half, self.along - half), strict=True))
        ]

    def span(self, t: float, plies: int, near: float) -> tuple[tuple[float, float], tuple[float, float]] | None:
        """How far a stick at `t` reaches along, rim to rim, and the floor there, by the piece that `near` lies in."""
        if self._clipped is None:
            return (self.thickness, self.along - self.thickness), (0.0, self.along)
        found = self._clipped.along(t, plies * self.thickness / 2.0)
        return next(((inner, outer) for inner, outer in found if inner[0] <= near <= inner[1]), None)

    def framed(self, point: Point) -> Point:
        """A plan point in the field's frame: across, along."""
        x, y = point[0] - self.field.corner[0], point[1] - self.field.corner[1]
        return (x, y) if self.northward else (y, x)

    # as sticks in plan -----------------------------------------------------------------------------------------

    def joist(self, stick: Stick, name: str) -> Joist:
        """A stick as it stands in plan, with what it bears on."""
        start, end = (self._at(*place) for place in stick.reach)
        cut_at, joined = stick.cut_at, stick.joined
        if start > end:
            start, end, cut_at, joined = end, start, cut_at[::-1], joined[::-1]
        if stick.ends is not None:
            length = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
            along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
        else:
            length = stick.last - stick.first
            along = _NORTH if self.northward != stick.across else _EAST
        return Joist(
            id=name,
            field=self.field.id,
            number=stick.number,
            kind=stick.kind,
            start=start,
            end=end,
            along=along,
            length=length,
            thickness=stick.plies * self.thickness,
            depth=self._depth(stick),
            member=self.field.member,
            supports=self._supports(stick, length),
            plies=stick.plies,
            opening=stick.opening,
            cut_at=cut_at,
            joined=joined,
        )

    def flush_for(self, stick: Stick) -> tuple[Beam, ...]:
        """The beams at the level of one stick, which may be shallower than the others."""
        return tuple(one for one in self.flush if is_flush(one, self._depth(stick)))

    def _depth(self, stick: Stick) -> float:
        return self.depth if stick.depth is None else stick.depth

    def _at(self, across: float, along: float) -> Point:
        x, y = self.field.corner
        return (x + across, y + along) if self.northward else (x + along, y + across)

    # where joists stand ----------------------------------------------------------------------------------------

    def _centres(self) -> list[float]:
        """Centres of the common joists across the field; one that would stand in an end joist is left out."""
        first = self.field.spacing if self.field.first is None else self.field.first
        least, most = 1.5 * self.thickness - SLACK, self.across - 1.5 * self.thickness + SLACK
        count = int((most - first) // self.field.spacing) + 1
        centres = (first + k * self.field.spacing for k in range(max(0, count)))
        return [centre for centre in centres if least <= centre <= most]

    def _shifted(self, number: int, centre: float, edge: float) -> float:
        """A centre after the user's shift, which stops at the field's edge (or at the end joist's place)."""
        by = self._shifts.get(number, 0.0)
        return min(max(centre + by, edge), self.across - edge) if by else centre

    def _plied(self, number: int, centre: float) -> tuple[int, float]:
        """How many plies a joist has, and the middle of them all, which stays within the field."""
        doubled = self._doubled.get(number)
        if doubled is None:
            return 1, centre
        beyond = (doubled.plies - 1) * self.thickness / 2.0
        half = doubled.plies * self.thickness / 2.0
        placed = centre + (beyond if doubled.side == "east or north" else -beyond)
        return doubled.plies, min(max(placed, half), self.across - half)

    def _whole(self, kind: Kind, number: int, centre: float) -> Stick:
        plies, t = self._plied(number, centre)
        ends = self.thickness, self.along - self.thickness
        depth = self._measured.get(number)
        return Stick(f"{self.field.id}.{number}", number, kind, t, *ends, plies, (0.0, self.along), depth=depth)

    def _pieces(self, whole: Stick) -> list[Stick]:
        """What the outline leaves of a joist."""
        if self._clipped is None:
            return [whole]
        return [
            whole._replace(first=inner[0], last=inner[1], outer=outer)
            for inner, outer in self._clipped.along(whole.t, whole.plies * self.thickness / 2.0)
        ]

    # what they bear on -----------------------------------------------------------------------------------------

    def _supports(self, stick: Stick, length: float) -> tuple[tuple[float, float], ...]:
        """Where a stick bears, measured from its own start, overlapping bearings made one.

        The end bearing counts from the rim's outside face, or from the end of the overhang. Where it is no wider than
        the rim, the joist hangs on the rim: a support without length. An end bearing of 0 says that none is drawn. A
        bearing line is as wide as a 2x4 laid flat, the narrowest plate in use (common practice, no source).
        """
        reach = self.field.end_bearing
        if stick.kind == "rim":
            over = self.field.overhangs[stick.number] if stick.ends is None else 0.0
            return ((0.0, length),) if reach > 0.0 and over == 0.0 else ()
        if stick.across:
            return ((0.0, 0.0), (length, length)) if stick.kind == "header" else ()
        half = actual("2x4").depth / 2.0
        found = [(centre - half, centre + half) for centre in self.field.bearings]
        found += [between for one in self._beams if (between := self._over(one, stick)) is not None]
        if reach > 0.0:
            found += self._end_bearings(stick, reach)
        found += [(end, end) for end, hung in zip((stick.first, stick.last), stick.hung, strict=True) if hung]
        clipped_ = sorted(
            (max(0.0, a - stick.first), min(length, b - stick.first))
            for a, b in found
            if b >= stick.first and a <= stick.last
        )
        joined: list[tuple[float, float]] = []
        for a, b in clipped_:
            if joined and a <= joined[-1][1]:
                joined[-1] = (joined[-1][0], max(b, joined[-1][1]))
            else:
                joined.append((a, b))
        return tuple(joined)

    def _end_bearings(self, stick: Stick, reach: float) -> list[tuple[float, float]]:
        low, high = stick.outer
        over_low = self.field.overhangs[0] if low <= SLACK else 0.0
        over_high = self.field.overhangs[1] if high >= self.along - SLACK else 0.0
        least = max(reach, self.thickness)
        return [
            (low + over_low, low + over_low + (reach if over_low else least)),
            (high - over_high - (reach if over_high else least), high - over_high),
        ]

    def _over(self, one: Beam, stick: Stick) -> tuple[float, float] | None:
        """Between which places along it a joist rests on a beam; None where it does not."""
        if one.top_z is not None and one.top_z != -self._depth(stick):
            return None
        return over_beam(self.framed(one.start), self.framed(one.end), one.width, stick.t)


def _overlap(one: Stick, other: Stick, thickness: float) -> bool:
    """Whether two sticks that run along would stand in the same wood."""
    apart = abs(one.t - other.t) < (one.plies + other.plies) * thickness / 2.0 - SLACK
    return apart and one.first < other.last and other.first < one.last
