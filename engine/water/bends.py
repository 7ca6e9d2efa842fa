"""Where tube is bent by hand and where an elbow must turn it: a bend wants straight length on both sides of its corner.

A stretch between two turns, or between a turn and a fitting, has to hold what both take of it. Where a tube turns up
through the floor it has to stand plumb from the joists' top on, since the holes in floor and plate are straight. An
elbow costs as much pressure as many feet of tube, so as few are put as can be.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from engine.lengths import down, inches, up
from engine.plan.records import Plan, Point, Record, Water
from engine.trade.lumber import actual
from engine.trade.pipe import SUPPLY_SIZES, Tube, nominal, tube
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

    __slots__ = ("bend", "can", "down", "elbow", "least", "takes", "why")

    def __init__(self, size: Tube, turn: float, depth: float | None = None) -> None:
        self.bend = self.takes = size.bend * (1.0 if turn == _SQUARE else math.tan(math.radians(turn) / 2.0))
        self.elbow = size.fitting
        self.can = abs(turn - _SQUARE) <= KINK
        self.least = min(self.bend, self.elbow) if self.can else self.bend
        self.down = depth
        self.why = ""

    def use_elbow(self, size: Tube, where: str) -> None:
        """Turn the tube by an elbow here."""
        self.takes, self.why = self.elbow, f"a bend of {size.bend:g} in radius has no room {where}"


class _Leg(NamedTuple):
    """Straight tube from one turn, fitting or end to the next."""

    element: str
    size: Tube
    ends: tuple[Point, Point]
    length: float


def turns(plan: Plan, network: WaterNetwork, water: Water) -> Turns:
    """Which turns of one water are elbows, and the stretches that have no room for what stands at their two ends."""
    places, through = _places(plan, network, water)
    if not places:
        return Turns({}, ())
    legs = _short_legs(plan, water, places, through)
    for at, turn in places.items():
        if turn.down is not None and turn.down < turn.bend - _EXACT:
            turn.use_elbow(tube(network.meetings[water][at][0].size), "so near under the floor")
    for leg in legs:
        for here, there in (leg.ends, leg.ends[::-1]):
            bent = places.get(here)
            if bent is not None and bent.can and not bent.why:
                other = places.get(there)
                least = leg.size.fitting if other is None else other.least
                if bent.bend + least > leg.length + _EXACT:
                    bent.use_elbow(leg.size, "beside what stands next")
    for leg in legs:
        if _wants(places, leg) > leg.length + _EXACT:
            later = next((places[end] for end in leg.ends[::-1] if end in places and _may(places[end])), None)
            if later is not None:
                later.use_elbow(leg.size, "beside the next bend")
    faults = [_too_short(leg, wants) for leg in legs if (wants := _wants(places, leg)) > leg.length + _EXACT]
    return Turns(
        {at: turn.why for at, turn in places.items() if turn.why}, (*faults, *_too_high(network, water, places))
    )


def _places(plan: Plan, network: WaterNetwork, water: Water) -> tuple[dict[Point, _Turn], set[Point]]:
    """Corners of one size of tube, and ends that turn up to a fixture; and the points that tube passes straight."""
    depths = {supply.id: supply.down for supply in plan.supplies}
    middle = _mid_depth(plan)
    inlets = {inlet.at for inlet in plan.inlets} if water == "cold" else set()
    found: dict[Point, _Turn] = {}
    through = set()
    for at, ends in network.meetings[water].items():
        if len(ends) == 2 and ends[0].size == ends[1].size:
            turn = angle(ends[0], ends[1])
            if turn <= KINK:
                through.add(at)
            else:
                found[at] = _Turn(tube(ends[0].size), turn)
        elif len(ends) == 1 and at not in inlets and network.nearest_taker(water, at) is not None:
            own = depths[ends[0].element]
            found[at] = _Turn(tube(ends[0].size), _SQUARE, middle if own is None else own)
    return found, through


def _short_legs(plan: Plan, water: Water, places: dict[Point, _Turn], through: set[Point]) -> list[_Leg]:
    """The tube between turns, fittings and ends, but for legs that any two of them fit on.

    Vertices that the tube passes straight make no end of a leg.
    """
    most = 2.0 * max(_widest_fitting(), *(turn.bend for turn in places.values()))
    found: list[_Leg] = []
    links: dict[Point, list[_Leg]] = {}
    for supply in plan.supplies:
        if supply.water != water:
            continue
        for a, b in pairwise(supply.points):
            length = math.dist(a, b)
            if length and (a in through or b in through):
                leg = _Leg(supply.id, tube(nominal(supply.size)), (a, b), length)
                links.setdefault(a, []).append(leg)
                links.setdefault(b, []).append(leg)
            elif 0.0 < length < most:
                found.append(_Leg(supply.id, tube(nominal(supply.size)), (a, b), length))
    done: set[int] = set()
    found += [
        _walked(links, through, at, first, done)
        for at, some in links.items()
        if at not in through
        for first in some
        if id(first) not in done
    ]
    return found


@cache
def _widest_fitting() -> float:
    return max(tube(size).fitting for size in SUPPLY_SIZES)


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


def _may(turn: _Turn) -> bool:
    return turn.can and not turn.why


def _wants(places: dict[Point, _Turn], leg: _Leg) -> float:
    """What stands at the two ends of a leg takes of it: turns, else halves of fittings."""
    return sum(places[end].takes if end in places else leg.size.fitting for end in leg.ends)


def _too_short(leg: _Leg, wants: float) -> NoRoom:
    (x0, y0), (x1, y1) = leg.ends
    return NoRoom(
        ((x0 + x1) / 2.0, (y0 + y1) / 2.0),
        (leg.element,),
        leg.length,
        wants,
        f"{leg.element} has {inches(down(leg.length))} in of tube between two turns or fittings, which take "
        f"{inches(up(wants))} in of it.",
    )


def _too_high(network: WaterNetwork, water: Water, places: dict[Point, _Turn]) -> Iterator[NoRoom]:
    for at, turn in places.items():
        if turn.down is not None and turn.why and turn.elbow > turn.down + _EXACT:
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
    return _SQUARE if dot == 0.0 else 180.0 - math.degrees(math.acos(max(-1.0, min(1.0, dot))))


def _mid_depth(plan: Plan) -> float | None:
    """How deep tube lies whose depth is left open: the middle of the shallowest joists; None where none are drawn."""
    depths = [field.depth or actual(field.lumber).depth for field in plan.fields]
    depths += [joist.depth for field in plan.fields for joist in field.measured]
    return min(depths) / 2.0 if depths else None
