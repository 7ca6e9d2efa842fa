"""A place for every label: beside what it names, on bare paper, with a leader where it stands off.

Labels lie neither on pipes nor on symbols nor on each other, and no leader runs through a text. The largest are
seated first; then each is taken up once more to see whether a better place has come free.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from engine.drawings.isometric.raster import Raster
from engine.drawings.labels import Box
from engine.drawings.strokes import Stroke, Text
from engine.plan.records import Point

DISTANCES = (0.03, 0.08, 0.14, 0.21, 0.3, 0.4, 0.52, 0.66, 0.82, 1.0, 1.25, 1.55, 1.9, 2.3, 2.8)
"""How far a label may stand from what it names, paper inches at the usual lettering, tried in this order."""

HEADINGS = tuple(math.radians(22.5 * n) for n in (0, 8, 2, 6, 14, 10, 1, 7, 15, 9, 4, 12, 3, 5, 13, 11))
"""In which directions, the ones that read best first."""

_TURNS = tuple((math.cos(heading), math.sin(heading)) for heading in HEADINGS)

LEADER_FROM = 0.075
"""From this distance on a leader ties a label to its place, paper inches."""

AIR = 0.02
"""Bare paper kept round ink, paper inches."""

_PER_CROSSING = 0.16
_PER_LEADER = 0.3
_PER_HEADING = 0.0015
_SWAPS = 6
_RADII = (0.5, 0.8, 1.1, 0.65, 1.5, 2.0)
_HOPELESS = 9
_FAR = 0.42
_DRAWN_IN = 14


class Wanted(NamedTuple):
    """A label to be seated: its width and height, the points it may be tied to, and how far their own marks reach.

    Those of lower `rank` choose their places first; of equals the larger ones.
    """

    width: float
    height: float
    anchors: tuple[Point, ...]
    clear: float
    rank: int = 0


class Seat(NamedTuple):
    """Where a label lies, and its leader if it has one."""

    box: Box
    leader: tuple[Point, Point] | None
    cost: float


class Seating:
    """The labels of one sheet on their way to their places."""

    def __init__(self, bounds: Box, ink: Iterable[Stroke], unit: float, kept: Iterable[Box] = ()) -> None:
        self._bounds, self._unit = bounds, unit
        self._ink, self._texts, self._leaders = Raster(bounds), Raster(bounds), Raster(bounds)
        self._wanted: Sequence[Wanted] = ()
        self._seated: list[Seat | None] = []
        self._farthest = math.inf
        for stroke in ink:
            self._ink.cover_stroke(stroke, AIR)
            if isinstance(stroke, Text):
                self._texts.cover_stroke(stroke, 0.0)
        for box in kept:
            self._ink.cover(box)

    def seat_all(self, wanted: Sequence[Wanted], farthest: float = math.inf, swaps: int = _SWAPS) -> list[Seat | None]:
        """A seat for each, or None where there is no bare place within the farthest distance.

        Up to so many times a label without a place has the ones round it moved aside.
        """
        self._wanted, self._farthest = wanted, farthest
        self._seated = [None] * len(wanted)
        order = sorted(range(len(wanted)), key=lambda n: (wanted[n].rank, -wanted[n].height * wanted[n].width, n))
        for n in order:
            self._take(n)
        self._improve(order)
        for radius in _RADII[: max(0, swaps)]:
            homeless = [n for n in order if self._seated[n] is None]
            if not homeless or len(homeless) > _HOPELESS:
                break
            for n in homeless:
                if self._seated[n] is None:
                    self._make_room(n, radius * self._unit)
        if swaps and None not in self._seated:
            self._draw_in()
        return self._seated

    def _draw_in(self) -> None:
        """Bring the labels that stand farthest off nearer, if the ones round their places can give way."""
        far = [n for n, seat in enumerate(self._seated) if _cost(seat) > _FAR * self._unit]
        for n in sorted(far, key=lambda n: _cost(self._seated[n]), reverse=True)[:_DRAWN_IN]:
            self._make_room(n, _FAR * self._unit)

    def _improve(self, order: Sequence[int]) -> None:
        """Take each label that stands off up once more, the farthest first."""
        for n in sorted(order, key=lambda n: _cost(self._seated[n]), reverse=True):
            seat = self._seated[n]
            if seat is None or seat.cost >= DISTANCES[2] * self._unit:
                self._leave([n])
                self._take(n)

    def _make_room(self, homeless: int, radius: float) -> None:
        """Seat a label first and the ones round it after; all stay where they were if that helps nobody."""
        before = (list(self._seated), self._texts.kept(), self._leaders.kept())
        at = self._wanted[homeless].anchors[0]
        near = [n for n, seat in enumerate(self._seated) if seat is not None and _gap(at, seat) < radius]
        self._leave(near)
        self._take(homeless)
        for n in sorted(near, key=lambda n: math.dist(at, self._wanted[n].anchors[0])):
            self._take(n)
        if _worth(self._seated) >= _worth(before[0]):
            self._seated = before[0]
            self._texts.put_back(before[1])
            self._leaders.put_back(before[2])

    def _take(self, n: int) -> None:
        """Give a label the best seat there is now."""
        seat = min(self._seats(self._wanted[n], self._farthest), key=lambda seat: seat.cost, default=None)
        self._seated[n] = seat
        if seat is not None:
            self._texts.cover(seat.box)
            if seat.leader is not None:
                self._leaders.trace(*seat.leader)

    def _leave(self, numbers: Iterable[int]) -> None:
        """Lay seats bare again; leaders may share cells, so the others' are traced anew."""
        stood_off = False
        for n in numbers:
            seat = self._seated[n]
            if seat is not None:
                self._texts.uncover(seat.box)
                stood_off = stood_off or seat.leader is not None
                self._seated[n] = None
        if stood_off:
            self._leaders.clear()
            for seat in self._seated:
                if seat is not None and seat.leader is not None:
                    self._leaders.trace(*seat.leader)

    def _seats(self, wanted: Wanted, farthest: float) -> Iterator[Seat]:
        """Bare places, each better than the ones before it."""
        best = math.inf
        inside, unit = self._bounds, self._unit
        ways = _ways(wanted)
        for far in DISTANCES:
            distance = far * unit
            if distance >= best or far > farthest:
                return
            for rank, (x, y) in enumerate(wanted.anchors):
                for order, (c, s, reach) in enumerate(ways):
                    cost = distance + (order + 2.0 * rank) * _PER_HEADING * unit
                    if cost >= best:
                        break
                    out = wanted.clear + distance + reach
                    left, low = x + c * out - wanted.width / 2.0, y + s * out - wanted.height / 2.0
                    right, high = left + wanted.width, low + wanted.height
                    if left < inside.left or right > inside.right or low < inside.bottom or high > inside.top:
                        continue
                    box = Box(left, low, right, high)
                    if not self._ink.bare_with(box, self._texts, self._leaders):
                        continue
                    leader = _leader((x, y), box, wanted.clear, unit)
                    if leader is not None:
                        if self._texts.crossed(*leader):
                            continue
                        cost += unit * _PER_CROSSING * self._ink.crossed(*leader)
                        cost += unit * _PER_LEADER * self._leaders.crossed(*leader)
                    if cost < best:
                        best = cost
                        yield Seat(box, leader, cost)


def _ways(wanted: Wanted) -> list[tuple[float, float, float]]:
    """For each heading its cosine and sine, and how far a label's edge lies from its middle that way."""
    half_w, half_h = wanted.width / 2.0, wanted.height / 2.0
    return [
        (c, s, min(half_w / abs(c) if abs(c) > 1e-9 else math.inf, half_h / abs(s) if abs(s) > 1e-9 else math.inf))
        for c, s in _TURNS
    ]


def _gap(at: Point, seat: Seat) -> float:
    """How far a seat's box lies from a point."""
    box = seat.box
    return math.hypot(max(box.left - at[0], 0.0, at[0] - box.right), max(box.bottom - at[1], 0.0, at[1] - box.top))


def _worth(seats: Sequence[Seat | None]) -> tuple[int, float]:
    """How bad a seating is: labels without a place first, then what the others' places cost."""
    return sum(1 for seat in seats if seat is None), sum(seat.cost for seat in seats if seat is not None) + 1e-9


def _cost(seat: Seat | None) -> float:
    return math.inf if seat is None else seat.cost


def _leader(at: Point, box: Box, clear: float, unit: float) -> tuple[Point, Point] | None:
    """From the mark's edge to the nearest point of the label; None where they stand close enough without."""
    nearest = (min(max(at[0], box.left), box.right), min(max(at[1], box.bottom), box.top))
    gap = math.dist(at, nearest)
    if gap <= clear + LEADER_FROM * unit:
        return None
    begin, end = clear * 0.6 / gap, 1.0 - AIR / gap
    (x, y), (dx, dy) = at, (nearest[0] - at[0], nearest[1] - at[1])
    return ((x + begin * dx, y + begin * dy), (x + end * dx, y + end * dy))
