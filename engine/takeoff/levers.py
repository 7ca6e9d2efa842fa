"""What sets the height of a pipe: an exit's pinned height, the climb of a drop, a water line's depth; and its limits."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Literal

from engine.checks.model import Model
from engine.crossings import find, windows
from engine.crossings.records import Bound, SharedHole, Window
from engine.framing.telling import noun
from engine.lengths import down, nearest, up
from engine.piping import network as piping
from engine.piping.records import Network, Node, Pipe, is_under
from engine.plan import edits
from engine.plan.records import Drain, Plan, Record
from engine.takeoff.long_section import Leg, LongSection

HANGS = "An island's foot vent hangs as high as the floor allows: its height follows from the floor."
_HAIR = 1.0 / 256.0
"""Heights nearer to each other than this are one, inches."""

_NEAR = 1.0 / 16.0
"""A tape's finest mark, inches."""


class Lever(Record, frozen=True, gc=False):
    """One height that a person may set: a field of `elements` (runs that share a drop have it in common).

    `z` is the axis' height at `station` as it is now, `zero` the height that the field counts from, `sign` which way
    (1 up, -1 down). `pipes` are the legs of the section that move with it. `low` and `high` are the lowest and highest axis there that suit everything, with what sets
    them; None where nothing does. `others` are single heights that suit too, each with what makes it possible.
    """

    field: Literal["pinned_z", "rise", "down"]
    elements: tuple[str, ...]
    words: str
    pinned: bool
    pipes: tuple[str, ...]
    station: float
    z: float
    zero: float
    sign: float
    low: float | None
    high: float | None
    low_by: str
    high_by: str
    others: tuple[tuple[float, str], ...] = ()

    @property
    def empty(self) -> bool:
        """Whether its two limits exclude each other."""
        return self.low is not None and self.high is not None and self.low > self.high + _HAIR

    @property
    def by_other(self) -> str:
        """What makes the height possible where it is one of the single ones that suit besides; empty where it is not."""
        return next((words for z, words in self.others if abs(self.z - z) <= _HAIR), "")

    @property
    def past(self) -> float:
        """How far the height lies over the highest (more than nothing) or under the lowest (less), inches."""
        if self.by_other:
            return 0.0
        if self.high is not None and self.z > self.high + _HAIR:
            return self.z - self.high
        if self.low is not None and self.z < self.low - _HAIR:
            return self.z - self.low
        return 0.0

    def value(self, z: float) -> float:
        """What the field says where the axis lies at `z`."""
        return self.sign * (z - self.zero)

    def z_of(self, value: float) -> float:
        """The axis' height where the field says `value`."""
        return self.zero + self.sign * value

    def on_tape(self, z: float) -> float:
        """The nearest height whose value is a mark of the tape, a sixteenth."""
        return self.z_of(nearest(self.value(z)))

    @property
    def stops(self) -> tuple[float | None, float | None]:
        """The lowest and highest height that can be built: the limits rounded inward to the tape's marks.

        Where no mark lies between the limits they stand as they are, so that a single height can be met.
        """
        low, high = self._inward(self.low, up), self._inward(self.high, down)
        if low is not None and high is not None and low > high:
            return self.low, self.high
        return low, high

    def _inward(self, end: float | None, way: Callable[[float], float]) -> float | None:
        """A limit moved to the next tape mark toward the room between the limits."""
        if end is None:
            return end
        rounds = way if self.sign > 0.0 else (down if way is up else up)
        return self.z_of(rounds(self.value(end)))


def lever(model: Model, section: LongSection, leg: Leg) -> Lever | str:
    """What sets the height of one leg of a long section; a sentence where nobody can set it."""
    if section.exit is None:
        return _depth(model, section)
    network = model.network
    own = network.by_id.get(leg.pipe)
    if own is not None and _hung(network, own):
        return HANGS
    runs = {run.id for run in model.plan.drains}
    drops = [n for n, one in enumerate(section.legs) if _is_drop(runs, network.by_id[one.pipe])]
    place = _place(section, leg)
    foot = max((n for n in drops if n <= place), default=None)
    after = min((n for n in drops if n > place), default=len(section.legs))
    pipes = tuple(one.pipe for one in section.legs[0 if foot is None else foot + 1 : after])
    if foot is None:
        return _exit(model, section, pipes)
    return _climb(model, section, section.legs[foot], pipes)


def _place(section: LongSection, leg: Leg) -> int:
    """Which of the legs a leg is: the pipe through the floor goes with the last, the exit's tail with the first."""
    if leg == section.stands:
        return len(section.legs) - 1
    return next((n for n, one in enumerate(section.legs) if one.pipe == leg.pipe), 0)


def put(plan: Plan, held: Lever, z: float) -> Plan:
    """The plan with a lever's height set to an axis at `z`. EditError where the field takes no such value."""
    for element in held.elements:
        plan = edits.set_field(plan, element, held.field, held.value(z) + 0.0)
    return plan


def let_go(plan: Plan, held: Lever) -> Plan:
    """The plan with a lever's height left to the program."""
    for element in held.elements:
        plan = edits.set_field(plan, element, held.field, None)
    return plan


def _hung(network: Network, pipe: Pipe) -> bool:
    """Whether a pipe's upper end, or its lower one where it goes on through the floor, hangs under the floor."""
    ends = (pipe.start, pipe.end) if pipe.system == "waste" else (pipe.end, pipe.start)
    number = next((network.reach[node] for node in ends if node in network.reach), None)
    return any(reach.number == number and reach.hung for reach in network.reaches)


def _is_drop(runs: set[str], pipe: Pipe) -> bool:
    """Whether a pipe is the drop or roll that closes a drain's end onto a main."""
    return pipe.element in runs and pipe.run == 0.0 and is_under(pipe.start) and is_under(pipe.end)


def _exit(model: Model, section: LongSection, pipes: tuple[str, ...]) -> Lever:
    window = next(one for one in model.windows if one.exit == section.exit)
    return Lever(
        field="pinned_z",
        elements=(section.exit or "",),
        words=f"exit {section.exit}",
        pinned=window.pinned,
        pipes=pipes,
        station=0.0,
        z=window.chosen,
        zero=0.0,
        sign=1.0,
        low=window.low,
        high=window.high,
        low_by=window.low_set_by or "",
        high_by=window.high_set_by or "",
        others=window.others,
    )


def _climb(model: Model, section: LongSection, leg: Leg, pipes: tuple[str, ...]) -> Lever:
    """The drop's climb; its limits are those of a window that it would have if it were open, the exit held as it is."""
    plan, pipe = model.plan, model.network.by_id[leg.pipe]
    runs = {run.id: run for run in plan.drains}
    mine: list[Drain] = [
        runs[name]
        for name in dict.fromkeys(
            (pipe.element, *(one.element for one in model.network.pipes if one.end == pipe.start and one.run > 0.0))
        )
        if name in runs and runs[name].join == runs[pipe.element].join and runs[name].rise == runs[pipe.element].rise
    ]
    pinned = mine[0].rise is not None
    window = (
        _open_window(model, section, mine, pipe) if pinned else _reach_window(model.network, model.windows, pipe.start)
    )
    low, low_by = (window.low, window.low_set_by) if window is not None else (None, None)
    high, high_by = (window.high, window.high_set_by) if window is not None else (None, None)
    return Lever(
        field="rise",
        elements=tuple(run.id for run in mine),
        words=f"{mine[0].id} over its main",
        pinned=pinned,
        pipes=pipes,
        station=leg.ends,
        z=leg.z1,
        zero=leg.z0,
        sign=1.0,
        low=low,
        high=high,
        low_by=low_by or "",
        high_by=high_by or "",
    )


def _reach_window(network: Network, found: tuple[Window, ...], foot: Node) -> Window | None:
    number = next((reach.number for reach in network.reaches if reach.foot == foot), None)
    return next((window for window in found if window.reach == number), None)


def _open_window(model: Model, section: LongSection, mine: list[Drain], pipe: Pipe) -> Window | None:
    plan = edits.set_field(model.plan, section.exit or "", "pinned_z", min(0.0, section.legs[0].z0))
    for run in mine:
        plan = edits.set_field(plan, run.id, "rise", None)
    network = piping.build(plan, model.book)
    crossed = find.find(network, plan, model.framing, model.book)
    found = windows.windows(plan, model.book, network, model.framing, crossed)
    foot = next(
        (
            reach.foot
            for reach in network.reaches
            if reach.element in {run.id for run in mine} and reach.foot[:2] == pipe.start[:2]
        ),
        None,
    )
    return _reach_window(network, found, foot) if foot is not None else None


def _depth(model: Model, section: LongSection) -> Lever:
    """A water line's depth; each bore that it asks for holds it between two heights, pipe below the joists under one."""
    supply = next(one for one in model.plan.supplies if one.id == section.element)
    held: list[Bound] = []
    holes = {tube.crossing: hole for hole in model.shared for tube in hole.tubes}
    for crossing in model.crossings:
        if crossing.element != supply.id:
            continue
        if crossing.id in holes:
            held += _by_shared_hole(model, holes[crossing.id], section.legs[0].z0)
            continue
        wood = model.joists[crossing.joist]
        words = f"{noun(wood)} {wood.id}"
        if crossing.passing == "under":
            z = wood.bottom - crossing.width / 2.0
            held.append(Bound("high", z, f"{words}: pipe clear below it", crossing.joist, crossing.at))
        elif wood.kind == "beam":
            if wood.top < 0.0:
                z = wood.top + crossing.width / 2.0
                held.append(Bound("low", z, f"{words}: pipe clear over it", crossing.joist, crossing.at))
        elif crossing.low is not None and crossing.high is not None:
            held.append(Bound("low", crossing.low, f"{words}: wood below the bore", crossing.joist, crossing.at))
            held.append(Bound("high", crossing.high, f"{words}: wood above the bore", crossing.joist, crossing.at))
    low = max((one for one in held if one.side == "low"), key=lambda one: one.z, default=None)
    high = min((one for one in held if one.side == "high"), key=lambda one: one.z, default=None)
    return Lever(
        field="down",
        elements=(supply.id,),
        words=f"water line {supply.id}",
        pinned=supply.down is not None,
        pipes=tuple(leg.pipe for leg in section.legs),
        station=0.0,
        z=section.legs[0].z0,
        zero=0.0,
        sign=-1.0,
        low=low.z if low is not None else None,
        high=high.z if high is not None else None,
        low_by=low.by if low is not None else "",
        high_by=high.by if high is not None else "",
    )


def _by_shared_hole(model: Model, hole: SharedHole, z: float) -> Iterator[Bound]:
    """The heights of a tube at `z` between which the hole that it shares keeps its wood, the others moved with it."""
    crossing, wood = hole.crossing, model.joists[hole.crossing.joist]
    sides: tuple[tuple[Literal["low", "high"], float | None, str], ...] = (
        ("low", crossing.low, "below"),
        ("high", crossing.high, "above"),
    )
    for side, end, where in sides:
        if end is not None:
            words = f"{noun(wood)} {wood.id}: wood {where} the hole that it shares"
            yield Bound(side, end + z - hole.z, words, crossing.joist, crossing.at)


def sticking(held: Lever, z: float, within: float) -> float:
    """Where a hand that pulls the pipe to `z` leaves it: on a sixteenth, but held at a limit until pulled on by `within`.

    Between limits with no sixteenth between them it rests on the nearer; near a single height that suits, on that.
    """
    single = min((other for other, _ in held.others), key=lambda other: abs(other - z), default=math.inf)
    if abs(single - z) <= within / 2.0:
        return single
    low, high = held.stops
    if held.empty:
        return held.on_tape(z)
    if low is not None and high is not None and high - low < _NEAR and low - within <= z <= high + within:
        return min((low, high), key=lambda end: abs(end - z))
    if high is not None and high < z <= high + within:
        return high
    if low is not None and low - within <= z < low:
        return low
    return held.on_tape(z)
