"""joints(plan): the fittings of the water lines, read off where the drawn runs turn, meet and end.

Tube bends where there is room for its radius; an elbow is only put where there is none (`bends.py`). Every tube end in a fitting takes one ring (metal insert fittings with crimp
rings, ASTM F1807 and F2159).
"""

from __future__ import annotations

from engine.plan.records import Plan, Point, Record, Water
from engine.trade.pipe import tube
from engine.water.bends import KINK, NoRoom, angle, turns
from engine.water.network import WATERS, TubeEnd, WaterNetwork

STRAIGHT = 1.0
"""Two tubes within this many degrees of one line run straight through a joint."""
ABOVE = frozenset({"tube_stub_elbow", "stop_valve", "hammer_arrester", "tube_adapter", "heater_valve"})
"""What stands at the upper end of a tube that turns up to its fixture, over the floor."""


class Joint(Record, frozen=True, gc=False):
    """One fitting or bend of a water line.

    `size` is nominal inches: run, run and branch of a tee, the two ends of a coupling, one size else. `rings`
    are the ring sizes that it takes, one a tube end. `fixture` is the fixture that an end serves.
    """

    kind: str
    size: tuple[float, ...]
    water: Water
    at: Point
    elements: tuple[str, ...]
    rings: tuple[float, ...]
    fixture: str | None
    note: str


class CannotJoin(Record, frozen=True, gc=False):
    """A place where more tubes meet than one fitting joins."""

    at: Point
    elements: tuple[str, ...]
    text: str


QUICK_CLOSING = frozenset({"washer_standpipe", "dishwasher"})
"""Fixtures whose valves close at once: a hammer arrester goes with them (IRC 2021 P2903.5)."""


def joints(plan: Plan, network: WaterNetwork) -> tuple[tuple[Joint, ...], tuple[CannotJoin | NoRoom, ...]]:
    """Every joint of both waters, and the places that no fitting joins or has room in."""
    made: list[Joint] = []
    faults: list[CannotJoin | NoRoom] = []
    for water in WATERS:
        turned = turns(plan, network, water)
        faults += turned.no_room
        for at, ends in network.meetings[water].items():
            found = _joint(plan, network, water, at, ends, turned.elbows.get(at, ""))
            if isinstance(found, CannotJoin):
                faults.append(found)
            else:
                made.extend(found)
    return tuple(made), tuple(faults)


def _joint(
    plan: Plan, network: WaterNetwork, water: Water, at: Point, ends: list[TubeEnd], elbow: str
) -> list[Joint] | CannotJoin:
    """What joins the tubes at one place; `elbow` says why no bend has room there, if none has."""
    elements = tuple(dict.fromkeys(end.element for end in ends))
    if len(ends) == 1:
        return _tube_end(plan, network, water, at, ends[0], elbow)
    if len(ends) == 2:
        return _between(water, at, ends[0], ends[1], elements, elbow)
    if len(ends) == 3:
        return [_tee(water, at, ends, elements)]
    return CannotJoin(at, elements, f"{len(ends)} tubes meet at one place; a tee joins three. Move one along the line.")


def _between(water: Water, at: Point, a: TubeEnd, b: TubeEnd, elements: tuple[str, ...], elbow: str) -> list[Joint]:
    turn = angle(a, b)
    big, small = max(a.size, b.size), min(a.size, b.size)
    if big != small:
        kind = "tube_reducing_coupling" if turn <= KINK else "tube_reducing_elbow"
        return [Joint(kind, (big, small), water, at, elements, (big, small), None, "")]
    if turn <= KINK:
        return []
    if elbow:
        return [Joint("tube_elbow", (a.size,), water, at, elements, (a.size, a.size), None, elbow)]
    note = f"bent by hand, {tube(a.size).bend:g} in radius"
    return [Joint("tube_bend_support", (a.size,), water, at, elements, (), None, note)]


def _tee(water: Water, at: Point, ends: list[TubeEnd], elements: tuple[str, ...]) -> Joint:
    """Run, run, branch: the straight pair is the run, the larger end first; else the two nearest to a line."""
    pairs = [(ends[i], ends[j], ends[3 - i - j]) for i, j in ((0, 1), (0, 2), (1, 2))]
    a, b, branch = min(pairs, key=lambda trio: angle(trio[0], trio[1]))
    first, second = (a, b) if a.size >= b.size else (b, a)
    size = (first.size, second.size, branch.size)
    note = "" if angle(a, b) <= STRAIGHT else "the run bends at the tee: bend the tube beside it"
    return Joint("tube_tee", size, water, at, elements, size, None, note)


def _tube_end(plan: Plan, network: WaterNetwork, water: Water, at: Point, end: TubeEnd, elbow: str) -> list[Joint]:
    """What stands on a tube's free end: the main valve, a heater's adapter, or a stub-out for a fixture."""
    elements = (end.element,)
    if water == "cold" and any(inlet.at == at for inlet in plan.inlets):
        return [
            Joint("main_valve", (end.size,), water, at, elements, (end.size,), None, "full-open, at the inlet"),
        ]
    fixture = network.nearest_taker(water, at)
    if fixture is None:
        return [Joint("tube_plug", (end.size,), water, at, elements, (end.size,), None, "no fixture is near this end")]
    up = _turned_up(water, at, end, fixture.id, elbow)
    if fixture.kind == "water_heater":
        note = "cold feed with a full-open valve" if water == "cold" else "hot outlet"
        heater = Joint("tube_adapter", (end.size,), water, at, elements, (end.size,), fixture.id, note)
        if water == "cold":
            valve = Joint("heater_valve", (end.size,), water, at, elements, (end.size, end.size), fixture.id, "")
            return [up, heater, valve]
        return [up, heater]
    if fixture.kind in ("shower", "bathtub"):
        return [
            up,
            Joint("tube_adapter", (end.size,), water, at, elements, (end.size,), fixture.id, "at the valve body"),
        ]
    if fixture.kind == "hose_bibb":
        return [
            up,
            Joint("tube_adapter", (end.size,), water, at, elements, (end.size,), fixture.id, "at the hose bibb"),
        ]
    stub = Joint("tube_stub_elbow", (end.size,), water, at, elements, (end.size,), fixture.id, "out of the wall")
    if fixture.kind in QUICK_CLOSING:
        arrester = Joint("hammer_arrester", (), water, at, elements, (), fixture.id, "quick-closing valves")
        own = (
            []
            if fixture.kind == "washer_standpipe"
            else [Joint("stop_valve", (), water, at, elements, (), fixture.id, "")]
        )
        return [up, stub, arrester, *own]
    return [up, stub, Joint("stop_valve", (), water, at, elements, (), fixture.id, "")]


def _turned_up(water: Water, at: Point, end: TubeEnd, fixture: str, elbow: str) -> Joint:
    """What turns a tube up to its fixture: the tube's own bend, held, else an elbow."""
    if elbow:
        note = f"turns it up: {elbow}"
        return Joint("tube_elbow", (end.size,), water, at, (end.element,), (end.size, end.size), fixture, note)
    note = f"turns up here, bent by hand, {tube(end.size).bend:g} in radius"
    return Joint("tube_bend_support", (end.size,), water, at, (end.element,), (), fixture, note)
