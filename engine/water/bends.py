"""Where tube is bent by hand and where an elbow must turn it: a bend wants straight length on both sides of its corner.

A stretch between two turns, or between a turn and a fitting, has to hold what both take of it. Where a tube turns up
through the floor it has to stand plumb from the joists' top on, since the holes in floor and plate are straight. An
elbow costs as much pressure as many feet of tube, so as few are put as can be.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from engine.lengths import down, inches, up
from engine.plan.records import Plan, Point, Record, Water
from engine.trade.lumber import actual
from engine.trade.pipe import Tube, tube
from engine.water.network import TubeEnd, WaterNetwork

KINK = 10.0
"""A turn below this needs neither a bend support nor an elbow, degrees (common practice, no source)."""
_EXACT = 1e-6
_SQUARE = 90.0
"""The only turn that elbows for tube are made for, degrees."""


class NoRoom(Record, frozen=True, gc=False):
    """A stretch of tube, or its way up to the floor, that not even elbows fit: `has` inches, of `wants` taken up."""

    at: Point
    elements: tuple[str, ...]
    has: float
    wants: float
    text: str


class Turns(NamedTuple):
    """The turning places of one water: those with an `elbow`, each with why no bend fits there, and what fits nowhere."""

    elbows: dict[Point, str]
    no_room: tuple[NoRoom, ...]


class _Turn:
    """One place where a tube turns: what a bend and an elbow take of each stretch, and how deep it lies if it turns up."""

    __slots__ = ("bend", "can", "down", "elbow", "why")

    def __init__(self, size: Tube, turn: float, depth: float | None = None) -> None:
        self.bend = size.bend * math.tan(math.radians(turn) / 2.0)
        self.elbow = size.fitting
        self.can = abs(turn - _SQUARE) <= KINK
        self.down = depth
        self.why = ""

    @property
    def takes(self) -> float:
        return self.elbow if self.why else self.bend

    @property
    def least(self) -> float:
        return min(self.bend, self.elbow) if self.can else self.bend


class _Leg(NamedTuple):
    """Straight tube from one turn, fitting or end to the next."""

    element: str
    size: float
    ends: tuple[Point, Point]
    length: float


def turns(plan: Plan, network: WaterNetwork, water: Water) -> Turns:
    """Which turns of one water are elbows, and the stretches that have no room for what stands at their two ends."""
    places = dict(_places(plan, network, water))
    if not places:
        return Turns({}, ())
    legs = list(_legs(plan, network, water))
    for turn in places.values():
        if turn.down is not None and _over(turn.bend, turn.down):
            turn.why = f"it lies {inches(turn.down)} in under the floor, a bend up takes {inches(turn.bend)} in"
    for leg in legs:
        for here, there in (leg.ends, leg.ends[::-1]):
            bent = places.get(here)
            if bent is not None and bent.can and _over(bent.bend + _least(places, there, leg), leg.length):
                bent.why = bent.why or _why(leg, bent.bend + _least(places, there, leg))
    for leg in legs:
        wants = sum(_takes(places, end, leg) for end in leg.ends)
        if _over(wants, leg.length):
            later = next((places[end] for end in leg.ends[::-1] if end in places and _may(places[end])), None)
            if later is not None:
                later.why = _why(leg, wants)
    faults = [*_too_short(places, legs), *_too_high(network, water, places)]
    return Turns({at: turn.why for at, turn in places.items() if turn.why}, tuple(faults))


def _places(plan: Plan, network: WaterNetwork, water: Water) -> Iterator[tuple[Point, _Turn]]:
    """Corners of one size of tube, and ends that turn up to a fixture."""
    depths = {supply.id: supply.down for supply in plan.supplies}
    middle = _mid_depth(plan)
    inlets = {inlet.at for inlet in plan.inlets} if water == "cold" else set()
    for at, ends in network.meetings[water].items():
        size = tube(ends[0].size)
        if len(ends) == 2 and ends[0].size == ends[1].size:
            turn = angle(ends[0], ends[1])
            if turn > KINK:
                yield at, _Turn(size, turn)
        elif len(ends) == 1 and at not in inlets and network.nearest_taker(water, at) is not None:
            own = depths[ends[0].element]
            yield at, _Turn(size, _SQUARE, middle if own is None else own)


def _legs(plan: Plan, network: WaterNetwork, water: Water) -> Iterator[_Leg]:
    """The tube between turns, fittings and ends; vertices that it passes straight make no end."""
    meetings = network.meetings[water]
    through = {
        at
        for at, ends in meetings.items()
        if len(ends) == 2 and ends[0].size == ends[1].size and angle(ends[0], ends[1]) <= KINK
    }
    links: dict[Point, list[_Leg]] = {}
    for supply in plan.supplies:
        if supply.water != water:
            continue
        for a, b in zip(supply.points, supply.points[1:], strict=False):
            if a != b:
                leg = _Leg(supply.id, meetings[a][0].size, (a, b), math.dist(a, b))
                leg = leg._replace(size=next(end.size for end in meetings[a] if end.element == supply.id))
                links.setdefault(a, []).append(leg)
                links.setdefault(b, []).append(leg)
    done: set[int] = set()
    for at, found in links.items():
        for first in () if at in through else found:
            if id(first) not in done:
                yield _walked(links, through, at, first, done)


def _walked(links: dict[Point, list[_Leg]], through: set[Point], at: Point, leg: _Leg, done: set[int]) -> _Leg:
    """The whole leg that begins at a point with this piece, as far as the tube goes straight."""
    start, length, element = at, 0.0, leg.element
    while True:
        done.add(id(leg))
        length += leg.length
        at = leg.ends[1] if leg.ends[0] == at else leg.ends[0]
        after = next((one for one in links[at] if id(one) not in done), None) if at in through else None
        if after is None:
            return _Leg(element, leg.size, (start, at), length)
        leg = after


def _over(wanted: float, there: float) -> bool:
    return wanted > there + _EXACT


def _may(turn: _Turn) -> bool:
    return turn.can and not turn.why


def _takes(places: dict[Point, _Turn], at: Point, leg: _Leg) -> float:
    """What stands at an end of a leg takes of it: a turn, else half a fitting."""
    turn = places.get(at)
    return tube(leg.size).fitting if turn is None else turn.takes


def _least(places: dict[Point, _Turn], at: Point, leg: _Leg) -> float:
    turn = places.get(at)
    return tube(leg.size).fitting if turn is None else turn.least


def _why(leg: _Leg, wants: float) -> str:
    """Why a bend has no room on a leg."""
    return f"{leg.element} has {inches(down(leg.length))} in of straight tube there, with a bend it takes {inches(up(wants))} in"


def _too_short(places: dict[Point, _Turn], legs: list[_Leg]) -> Iterator[NoRoom]:
    for leg in legs:
        wants = sum(_takes(places, end, leg) for end in leg.ends)
        if _over(wants, leg.length):
            (x0, y0), (x1, y1) = leg.ends
            yield NoRoom(
                ((x0 + x1) / 2.0, (y0 + y1) / 2.0),
                (leg.element,),
                leg.length,
                wants,
                f"{leg.element} has {inches(down(leg.length))} in of tube between two turns or fittings, which take "
                f"{inches(up(wants))} in of it.",
            )


def _too_high(network: WaterNetwork, water: Water, places: dict[Point, _Turn]) -> Iterator[NoRoom]:
    for at, turn in places.items():
        if turn.down is not None and turn.why and _over(turn.elbow, turn.down):
            element = network.meetings[water][at][0].element
            yield NoRoom(
                at,
                (element,),
                turn.down,
                turn.elbow,
                f"{element} turns up {inches(down(turn.down))} in under the floor, where even an elbow takes "
                f"{inches(up(turn.elbow))} in.",
            )


def angle(a: TubeEnd, b: TubeEnd) -> float:
    """By how many degrees two tubes that meet turn: 0 where they lie in one line."""
    dot = a.toward[0] * b.toward[0] + a.toward[1] * b.toward[1]
    return 180.0 - math.degrees(math.acos(max(-1.0, min(1.0, dot))))


def _mid_depth(plan: Plan) -> float | None:
    """How deep tube lies whose depth is left open: the middle of the shallowest joists; None where none are drawn."""
    depths = [field.depth or actual(field.lumber).depth for field in plan.fields]
    depths += [joist.depth for field in plan.fields for joist in field.measured]
    return min(depths) / 2.0 if depths else None
