"""The outlines of fittings seen from the side, in inches of the fitting: barrels, hubs, axes and stops.

The run stands upright with its upper or upstream hub on top, the branch points to the right. Lengths are those that
the catalogue or geometry gives, drawn out where a leg is too short to be seen: a sketch shows which leg is meant,
not how long it is.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from engine.plan.records import Point
from engine.trade.fittings import KINDS, LegName, Size, takeoff
from engine.trade.openings import hub
from engine.trade.pipe import drain

SQUARE = 90.0

_STEPS = 14
_SHORTEST = 0.16
"""The least at which a leg is drawn, as a share of its pipe's outside."""


class Barrel(NamedTuple):
    """A tube along a line, `half` its width to each side."""

    line: tuple[Point, ...]
    half: float


class Stop(NamedTuple):
    """Where a pipe stops in a hub: the point on its axis, the way out of the hub, half the hub's bore."""

    at: Point
    way: Point
    half: float


class Span(NamedTuple):
    """What a leg's measure runs between, and the side on which its dimension stands, clear of the body."""

    start: Point
    end: Point
    side: Point
    clear: float


class Outline(NamedTuple):
    """A fitting from the side: what is drawn of it, and the span of each leg."""

    barrels: tuple[Barrel, ...]
    axes: tuple[tuple[Point, Point], ...]
    stops: tuple[Stop, ...]
    spans: dict[LegName, Span]


def outline(kind: str, size: Size) -> Outline:
    """A kind of fitting from the side."""
    plain = KINDS[kind].double_of or kind
    return _SHAPES.get(plain, _bend)(kind, size)


class _Leg(NamedTuple):
    way: Point
    length: float
    size: float
    spigot: bool

    @property
    def end(self) -> Point:
        return _along((0.0, 0.0), self.way, self.length)

    @property
    def half(self) -> float:
        return drain(self.size).od / 2.0

    def hub(self) -> Barrel:
        return Barrel((self.end, _along(self.end, self.way, drain(self.size).socket)), hub(self.size) / 2.0)

    def stop(self) -> Stop:
        return Stop(self.end, self.way, self.half)

    def span(self, side: Point, clear: float = 0.0) -> Span:
        own = self.half if self.spigot else hub(self.size) / 2.0
        return Span((0.0, 0.0), self.end, side, max(own, clear))

    def axis(self, back: float = 0.0) -> tuple[Point, Point]:
        far = self.length + (0.0 if self.spigot else drain(self.size).socket)
        return (_along((0.0, 0.0), self.way, -back), _along((0.0, 0.0), self.way, far))


def _leg(kind: str, size: Size, leg: LegName, way: Point) -> _Leg:
    own = size[KINDS[kind].legs.index(leg)]
    length = max(takeoff(kind, size, leg).length, drain(own).od * _SHORTEST)
    return _Leg(way, length, own, KINDS[kind].end(leg) == "spigot")


def _heading(degrees: float) -> Point:
    return (math.sin(math.radians(degrees)), math.cos(math.radians(degrees)))


_UP, _DOWN, _RIGHT, _LEFT = (0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0)


def _bend(kind: str, size: Size) -> Outline:
    """Two legs; the second leaves turned off the first's line by the bend's angle."""
    upper = _leg(kind, size, "run_in", _UP)
    lower = _leg(kind, size, "run_out", _heading(180.0 - KINDS[kind].turn))
    turn = 0.96 * min(upper.length, lower.length - (drain(lower.size).socket if lower.spigot else 0.0))
    curve = _curve(_along((0.0, 0.0), upper.way, turn), (0.0, 0.0), _along((0.0, 0.0), lower.way, turn))
    half = max(upper.half, lower.half)
    hubs = [leg for leg in (upper, lower) if not leg.spigot]
    outer = _turned(lower.way, -90.0)
    return Outline(
        (Barrel((upper.end, *curve, lower.end), half), *(leg.hub() for leg in hubs)),
        (upper.axis(), lower.axis()),
        tuple(leg.stop() for leg in hubs),
        {"run_in": upper.span(_LEFT), "run_out": lower.span(outer)},
    )


def _branched(kind: str, size: Size, lean: float, sweep: Callable[[_Leg, _Leg], tuple[Point, ...]]) -> Outline:
    upper, lower = _leg(kind, size, "run_in", _UP), _leg(kind, size, "run_out", _DOWN)
    sides = [_heading(lean), _heading(-lean)] if KINDS[kind].double_of else [_heading(lean)]
    branches = [_leg(kind, size, "branch", way) for way in sides]
    half = branches[0].half
    swept = [Barrel(_mirrored(sweep(branches[0], lower), way[0] < 0.0), half) for way in sides]
    if lean == SQUARE and sweep is not _turned_in:
        swept += [Barrel(((0.0, 0.0), branch.end), half) for branch in branches]
    legs = [upper, lower, *branches]
    clear = -min(x for x, _ in branches[-1].axis()) if KINDS[kind].double_of else 0.0
    under = _turned(branches[0].way, -90.0)
    return Outline(
        (Barrel((upper.end, lower.end), max(upper.half, lower.half)), *swept, *(leg.hub() for leg in legs)),
        tuple(leg.axis() for leg in legs),
        tuple(leg.stop() for leg in legs),
        {
            "run_in": upper.span(_LEFT, clear),
            "run_out": lower.span(_LEFT, clear),
            "branch": branches[0].span(under),
        },
    )


def _swept(branch: _Leg, lower: _Leg) -> tuple[Point, ...]:
    """A branch that rounds into the run the way the water goes."""
    start = _along((0.0, 0.0), branch.way, branch.length * 0.85)
    return (branch.end, *_curve(start, (0.0, 0.0), _along((0.0, 0.0), _DOWN, lower.length * 0.85)))


def _plain(branch: _Leg, _lower: _Leg) -> tuple[Point, ...]:
    return ((0.0, 0.0), branch.end)


def _turned_in(branch: _Leg, lower: _Leg) -> tuple[Point, ...]:
    """A wye's branch with an eighth bend on it."""
    reach = min(branch.length * 0.62, lower.length * 0.8)
    start, end = (reach * 1.25, 0.0), (reach * 0.72, -reach * 0.28)
    return (branch.end, *_curve(start, (reach, 0.0), end), (0.0, -reach))


def _tee(kind: str, size: Size) -> Outline:
    return _branched(kind, size, SQUARE, _swept)


def _test_tee(kind: str, size: Size) -> Outline:
    return _branched(kind, size, SQUARE, _plain)


def _wye(kind: str, size: Size) -> Outline:
    return _branched(kind, size, SQUARE / 2.0, _plain)


def _combination(kind: str, size: Size) -> Outline:
    return _branched(kind, size, SQUARE, _turned_in)


def _straight(kind: str, size: Size) -> Outline:
    """A coupling: its one measure is the space between both stops."""
    upper, lower = _leg(kind, size, "run_in", _UP), _leg(kind, size, "run_out", _DOWN)
    wide = hub(max(size)) / 2.0
    span = Span(upper.end, lower.end, _LEFT, wide)
    return Outline(
        (Barrel((upper.end, lower.end), max(upper.half, lower.half)), upper.hub(), lower.hub()),
        ((upper.axis()[1], lower.axis()[1]),),
        (upper.stop(), lower.stop()),
        {"run_in": span, "run_out": span},
    )


def _flange(kind: str, size: Size) -> Outline:
    lower = _leg(kind, size, "run_out", _DOWN)
    ring = hub(max(size)) * 0.8
    thick = ring * 0.09
    body = Barrel(((0.0, 0.0), lower.end), hub(lower.size) / 2.0)
    return Outline(
        (body, lower.hub(), Barrel(((-ring, thick / 2.0), (ring, thick / 2.0)), thick / 2.0)),
        ((_along((0.0, 0.0), _UP, ring * 0.4), lower.axis()[1]),),
        (lower.stop(),),
        {"run_out": Span((0.0, 0.0), lower.end, _LEFT, ring)},
    )


def _trap(kind: str, size: Size) -> Outline:
    """The inlet on the left, its arm to the right; the arm's axis is the level that all is measured from."""
    radius = takeoff(kind, size, "run_out").length / 3.0
    pipe, wide = drain(max(size)), hub(max(size)) / 2.0
    inlet: Point = (0.0, -radius)
    bowl = [_on_circle((radius, -radius), radius, 180.0 + 180.0 * n / _STEPS) for n in range(_STEPS + 1)]
    rise = [_on_circle((3.0 * radius, -radius), radius, 180.0 - 90.0 * n / _STEPS) for n in range(1, _STEPS + 1)]
    outlet: Point = (3.0 * radius, 0.0)
    arm = _along(outlet, _RIGHT, pipe.socket)
    mouth = _along(inlet, _UP, pipe.socket)
    return Outline(
        (
            Barrel((inlet, *bowl, *rise, outlet), pipe.od / 2.0),
            Barrel((inlet, mouth), wide),
            Barrel((outlet, arm), wide),
        ),
        (((-wide * 1.9, 0.0), arm), (_along(mouth, _UP, radius * 0.9), (0.0, -2.2 * radius))),
        (Stop(inlet, _UP, pipe.od / 2.0), Stop(outlet, _RIGHT, pipe.od / 2.0)),
        {
            "run_in": Span((0.0, 0.0), inlet, _LEFT, wide),
            "run_out": Span((0.0, 0.0), outlet, _UP, wide),
        },
    )


def _bushing(kind: str, size: Size) -> Outline:
    """In section: the spigot that fills the larger hub, and the socket inside it."""
    small, large = drain(min(size)), drain(max(size))
    inside = min(small.socket, large.socket * 0.8)
    floor: Point = (0.0, -inside)
    foot: Point = (0.0, -large.socket)
    return Outline(
        (Barrel(((0.0, 0.0), foot), large.od / 2.0), Barrel(((0.0, 0.0), floor), small.od / 2.0)),
        (((0.0, large.od * 0.2), (0.0, -large.socket * 1.2)),),
        (),
        {"run_in": Span(floor, foot, _LEFT, large.od / 2.0)},
    )


_SHAPES: dict[str, Callable[[str, Size], Outline]] = {
    "sanitary_tee": _tee,
    "test_tee": _test_tee,
    "wye": _wye,
    "combo_wye_eighth_bend": _combination,
    "coupling": _straight,
    "repair_coupling": _straight,
    "reducer_coupling": _straight,
    "closet_flange_4x3": _flange,
    "closet_flange_hub": _flange,
    "p_trap": _trap,
    "flush_bushing_addon": _bushing,
}


def _along(at: Point, way: Point, far: float) -> Point:
    return (at[0] + way[0] * far, at[1] + way[1] * far)


def _turned(way: Point, degrees: float) -> Point:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (way[0] * c - way[1] * s, way[0] * s + way[1] * c)


def _on_circle(centre: Point, radius: float, degrees: float) -> Point:
    return (
        centre[0] + radius * math.cos(math.radians(degrees)),
        centre[1] + radius * math.sin(math.radians(degrees)),
    )


def _mirrored(points: tuple[Point, ...], left: bool) -> tuple[Point, ...]:
    return tuple((-x, y) for x, y in points) if left else points


def _curve(a: Point, by: Point, b: Point) -> tuple[Point, ...]:
    """Points of the curve that leaves `a` toward `by` and arrives in `b` from there."""
    found = []
    for n in range(_STEPS + 1):
        s = n / _STEPS
        p, q, r = (1.0 - s) ** 2, 2.0 * s * (1.0 - s), s**2
        found.append((p * a[0] + q * by[0] + r * b[0], p * a[1] + q * by[1] + r * b[1]))
    return tuple(found)
