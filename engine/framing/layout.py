"""lay_out(plan): the floor's wood, joist by joist, from the joist fields that were drawn.

A field lays itself out in its own two directions: *across*, from its west (or south) outside face over the
joists, and *along*, the way the joists run. Rims lie across both ends at full length; joists stand between
them, so the joists of a floor that is 108 in from outside to outside are 105 in long.
"""

from __future__ import annotations

from engine.framing.records import Framing, Joist
from engine.plan.records import JoistField, Plan, Point
from engine.trade.lumber import actual

_SLACK = 1e-9
_NORTH = (0.0, 1.0)
_EAST = (1.0, 0.0)


def lay_out(plan: Plan) -> Framing:
    """Every joist of the plan's fields: common joists first, then end joists, then rims, in file order."""
    laid = [_Laid(field) for field in plan.fields]
    return Framing(
        joists=(
            *(joist for field in laid for joist in field.commons()),
            *(joist for field in laid for joist in field.ends()),
            *(joist for field in laid for joist in field.rims()),
        )
    )


class _Laid:
    """One field with its lumber looked up and its two directions told apart."""

    def __init__(self, field: JoistField) -> None:
        lumber = actual(field.lumber)
        self.field = field
        self.thickness = lumber.thickness
        self.depth = lumber.depth if field.depth is None else field.depth
        self.northward = field.direction == "north-south"
        self.across, self.along = field.size if self.northward else (field.size[1], field.size[0])
        self.length = self.along - 2.0 * self.thickness
        self.shifts = {shift.number: shift.by for shift in field.shifts}
        self.supports = self._supports()

    def commons(self) -> list[Joist]:
        """Common joists, numbered from 1 at the west (south) edge; the end joist there is number 0."""
        inner = 1.5 * self.thickness
        return [
            self._joist(number, "common", self._shifted(number, centre, inner))
            for number, centre in enumerate(self._centres(), start=1)
        ]

    def ends(self) -> list[Joist]:
        """The two outermost joists, their outer faces on the field's edges unless shifted."""
        outer = self.thickness / 2.0
        last = len(self._centres()) + 1
        return [
            self._joist(number, "end", self._shifted(number, centre, outer))
            for number, centre in ((0, outer), (last, self.across - outer))
        ]

    def rims(self) -> list[Joist]:
        """The two rims across the joists' ends, at full length; they bear on the end bearing all along."""
        sides = ("south", "north") if self.northward else ("west", "east")
        half = self.thickness / 2.0
        bears = ((0.0, self.across),) if self.field.end_bearing > 0.0 else ()
        return [
            self._stick(f"{self.field.id}.rim-{side}", number, "rim", self._at(0.0, t), self._at(self.across, t), bears)
            for number, (side, t) in enumerate(zip(sides, (half, self.along - half), strict=True))
        ]

    def _centres(self) -> list[float]:
        """Centres of the common joists across the field; one that would stand in an end joist is left out."""
        first = self.field.spacing if self.field.first is None else self.field.first
        least, most = 1.5 * self.thickness - _SLACK, self.across - 1.5 * self.thickness + _SLACK
        count = int((most - first) // self.field.spacing) + 1
        centres = (first + k * self.field.spacing for k in range(max(0, count)))
        return [centre for centre in centres if least <= centre <= most]

    def _shifted(self, number: int, centre: float, edge: float) -> float:
        """A centre after the user's shift, which stops at the field's edge (or at the end joist's place)."""
        by = self.shifts.get(number, 0.0)
        return min(max(centre + by, edge), self.across - edge) if by else centre

    def _joist(self, number: int, kind: str, centre: float) -> Joist:
        start, end = self._at(centre, self.thickness), self._at(centre, self.along - self.thickness)
        return self._stick(f"{self.field.id}.{number}", number, kind, start, end, self.supports)

    def _stick(
        self, name: str, number: int, kind: str, start: Point, end: Point, supports: tuple[tuple[float, float], ...]
    ) -> Joist:
        rim = kind == "rim"
        return Joist(
            id=name,
            field=self.field.id,
            number=number,
            kind="rim" if rim else "end" if kind == "end" else "common",
            start=start,
            end=end,
            along=_NORTH if self.northward != rim else _EAST,
            length=self.across if rim else self.length,
            thickness=self.thickness,
            depth=self.depth,
            member=self.field.member,
            supports=supports,
        )

    def _at(self, across: float, along: float) -> Point:
        x, y = self.field.corner
        return (x + across, y + along) if self.northward else (x + along, y + across)

    def _supports(self) -> tuple[tuple[float, float], ...]:
        """Where a joist bears, measured from its own start, overlapping bearings made one.

        The end bearing counts from the rim's outside face. Where it is no wider than the rim, the joist hangs
        on the rim: a support without length. An end bearing of 0 says that none is drawn. A bearing line is
        as wide as a 2x4 laid flat, the narrowest plate in use (common practice, no source).
        """
        rim, reach, half = self.thickness, self.field.end_bearing, actual("2x4").depth / 2.0
        found = [(centre - half - rim, centre + half - rim) for centre in self.field.bearings]
        if reach > 0.0:
            own = max(0.0, reach - rim)
            found += [(0.0, own), (self.length - own, self.length)]
        clipped = sorted((max(0.0, a), min(self.length, b)) for a, b in found if b >= 0.0 and a <= self.length)
        joined: list[tuple[float, float]] = []
        for a, b in clipped:
            if joined and a <= joined[-1][1]:
                joined[-1] = (joined[-1][0], max(b, joined[-1][1]))
            else:
                joined.append((a, b))
        return tuple(joined)
