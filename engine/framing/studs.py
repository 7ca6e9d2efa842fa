"""stand(wall, subfloor): one wall's studs and plates, as a carpenter lays them out from its start. Knows no pipe.

Studs stand at both ends, the others at their spacing from the first one's centre. The sole plate lies on the subfloor,
one or two top plates on the studs; all are as thick as the lumber.
"""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import pairwise
from typing import Literal

from msgspec.structs import replace

from engine.plan.records import Point, Record, Wall
from engine.trade.lumber import actual
from engine.trade.walls import usual_height

_SLACK = 1e-9


class Stud(Record, frozen=True, gc=False):
    """One stud, or two nailed together. `low` and `high` are its sides, inches from the wall's start.

    `centre` is the middle of the one that stands at the spacing. `number` counts from 0 at the wall's start.
    """

    number: int
    kind: Literal["end", "common"]
    centre: float
    low: float
    high: float
    doubled: bool = False


class WallWood(Record, frozen=True, gc=False):
    """A wall's wood. `along` is its unit heading, `depth` its studs' from face to face.

    `sole` and `plates` are the heights of their undersides and tops, inches above the joists' top.
    """

    wall: Wall
    along: Point
    length: float
    depth: float
    thickness: float
    studs: tuple[Stud, ...]
    sole: tuple[float, float]
    plates: tuple[float, float]

    def where(self, point: Point) -> tuple[float, float]:
        """A plan point as inches from the wall's start along it, and inches to the left of its centre line."""
        dx, dy = point[0] - self.wall.start[0], point[1] - self.wall.start[1]
        east, north = self.along
        return dx * east + dy * north, dy * east - dx * north

    def at(self, along: float, left: float = 0.0) -> Point:
        """The plan point so far along the wall and so far to the left of its centre line."""
        (x, y), (east, north) = self.wall.start, self.along
        return x + along * east - left * north, y + along * north + left * east


@lru_cache(maxsize=4096)
def stand(wall: Wall, subfloor: float) -> WallWood:
    """A wall's studs, in their order along it, and its plates on a subfloor of such a thickness."""
    (x0, y0), (x1, y1) = wall.start, wall.end
    lumber, length = actual(wall.lumber), math.dist(wall.start, wall.end)
    thick = lumber.thickness
    top = subfloor + (usual_height() if wall.height is None else wall.height)
    under = top - thick * (1.0 if wall.top_plate == "single" else 2.0)
    return WallWood(
        wall=wall,
        along=((x1 - x0) / (length or 1.0), (y1 - y0) / (length or 1.0)),
        length=length,
        depth=lumber.depth,
        thickness=thick,
        studs=_doubled(wall, _moved(wall, _single(wall, length, thick), length, thick), thick),
        sole=(subfloor, subfloor + thick),
        plates=(under, top),
    )


def _single(wall: Wall, length: float, thick: float) -> list[Stud]:
    """Every stud at its regular place; a common one that would stand in an end stud is left out."""
    half = thick / 2.0
    if length < 2.0 * thick:
        return [Stud(0, "end", min(half, length / 2.0), 0.0, min(thick, length))]
    first = wall.stud_spacing if wall.first_stud is None else wall.first_stud
    low, high = thick + half, length - thick - half
    back = math.ceil((low - first) / wall.stud_spacing - _SLACK)
    count = max(0, math.floor((high - first) / wall.stud_spacing + _SLACK) - back + 1)
    centres = [first + (back + k) * wall.stud_spacing for k in range(count)]
    return [
        Stud(0, "end", half, 0.0, thick),
        *(Stud(n, "common", centre, centre - half, centre + half) for n, centre in enumerate(centres, 1)),
        Stud(count + 1, "end", length - half, length - thick, length),
    ]


def _moved(wall: Wall, studs: list[Stud], length: float, thick: float) -> list[Stud]:
    """Common studs moved as the wall says, between its end studs at most."""
    shifts = {shift.number: shift.by for shift in wall.stud_shifts}
    if not shifts:
        return studs
    low, high = 1.5 * thick, length - 1.5 * thick
    made = []
    for stud in studs:
        by = shifts.get(stud.number, 0.0) if stud.kind == "common" else 0.0
        centre = min(high, max(low, stud.centre + by)) if by else stud.centre
        made.append(replace(stud, centre=centre, low=centre - thick / 2.0, high=centre + thick / 2.0) if by else stud)
    return sorted(made, key=lambda stud: stud.centre)


def _doubled(wall: Wall, studs: list[Stud], thick: float) -> tuple[Stud, ...]:
    """The studs with their seconds: beyond them as seen from the wall's start, else before them; none without room."""
    wanted = set(wall.doubled)
    if not wanted:
        return tuple(studs)
    made: list[Stud] = []
    ends = [*(after.low for _, after in pairwise(studs)), math.inf]
    for stud, beyond in zip(studs, ends, strict=True):
        before = made[-1].high if made else math.inf
        if stud.number in wanted and beyond < math.inf and stud.high + thick <= beyond + _SLACK:
            stud = replace(stud, high=stud.high + thick, doubled=True)
        elif stud.number in wanted and before < math.inf and stud.low - thick >= before - _SLACK:
            stud = replace(stud, low=stud.low - thick, doubled=True)
        made.append(stud)
    return tuple(made)
