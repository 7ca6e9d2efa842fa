"""The long section of a line: everything that lies along the way from an exit to one thing, by distance and height.

Distances are measured along the pipes in plan, inches from the exit (a water line's first point). Heights are
inches from the joists' top, negative below it.
"""

from __future__ import annotations

import math
from typing import Literal

from engine.checks.model import Model
from engine.crossings.limits import allowance, judged_by_book
from engine.crossings.records import Crossing, JoistCut
from engine.framing.records import Joist
from engine.piping.records import Node, Pipe
from engine.plan.outline import called
from engine.plan.records import KINDS as COLLECTIONS
from engine.plan.records import Element, Fixture, Inlet, Passing, PinnedFitting, Point, Record, Supply
from engine.takeoff.fall_path import FallPath, Step, fall_path
from engine.takeoff.naming import joist_words
from engine.takeoff.records import System
from engine.takeoff.section_things import Thing, fittings_on
from engine.trade import pipe as trade


class Leg(Record, frozen=True, gc=False):
    """One straight stretch: its axis runs from `begins`, `z0` up to `ends`, `z1`. An upright pipe begins where it ends."""

    pipe: str
    element: str
    system: System
    shape: Literal["level", "plumb", "inclined"]
    size: float
    od: float
    passing: Passing
    begins: float
    ends: float
    z0: float
    z1: float
    start: Point
    end: Point

    def z(self, station: float) -> float:
        """The axis' height at a distance from the exit."""
        share = (station - self.begins) / (self.ends - self.begins) if self.ends > self.begins else 0.0
        return self.z0 + share * (self.z1 - self.z0)


class Wood(Record, frozen=True, gc=False):
    """One joist that the line cuts through: its width along the line, its edges, and what of it must stay.

    `keeps` are the parts, each from its top to its bottom, in which no hole may lie for the pipe to pass as it is
    drawn; the whole joist where no cut is allowed. `z` is the axis there; `cut` what the pipe takes, None where it
    passes clear.
    """

    crossing: str
    joist: str
    words: str
    station: float
    begins: float
    ends: float
    top: float
    bottom: float
    keeps: tuple[tuple[float, float], ...]
    z: float
    cut: JoistCut | None


class Bay(Record, frozen=True, gc=False):
    """A stretch of the line under one field of joists, and how deep they are."""

    begins: float
    ends: float
    depth: float


class LongSection(Record, frozen=True, gc=False):
    """A line from its exit up: `low_end` and `high_end` say what stands at its ends, `things` are its fittings.

    `stands` is the upright pipe through the floor at the upper end, `tail` the one that goes down from the exit.
    """

    element: str
    exit: str | None
    low_end: str
    high_end: str
    length: float
    legs: tuple[Leg, ...]
    stands: Leg | None
    tail: Leg | None
    woods: tuple[Wood, ...]
    things: tuple[Thing, ...]
    bays: tuple[Bay, ...]
    subfloor: float
    finished: float

    @property
    def fall(self) -> float:
        """How far the axis falls from the upper end to the exit, upright and rolled drops included, inches."""
        return self.legs[-1].z1 - self.legs[0].z0

    def leg_at(self, station: float) -> Leg:
        """The leg that lies so far from the exit; the sloping one where an upright one stands there too."""
        sloping = [leg for leg in self.legs if leg.ends > leg.begins]
        return next((leg for leg in sloping or self.legs if station <= leg.ends), (sloping or self.legs)[-1])


def long_section(model: Model, element: Element) -> LongSection | None:
    """The long section from the exit up to a drain, fixture, riser, cleanout, exit or vent under the floor.

    A water line is shown by itself. None where nothing leads from the element to an exit, or no height is known.
    """
    if isinstance(element, Supply):
        return _of_supply(model, element)
    path = fall_path(model, element)
    if path is None or any(node not in model.heights for step in path.steps for node in (step.lower, step.upper)):
        return None
    legs = _legs(model, path)
    top = path.steps[-1].upper
    stands = _upright(model, path.stands, legs[-1].ends) if path.stands is not None else None
    elements = _elements(model)
    high = path.stands.pipe.element if path.stands is not None else _closed_by(model, top)
    return LongSection(
        element=element.id,
        exit=path.exit,
        low_end=called(elements[path.exit]),
        high_end=called(elements[high]) if high in elements else _end_words(element, legs[-1]),
        length=path.length,
        legs=legs,
        stands=stands,
        tail=_tail(model, path.exit, legs[0]),
        woods=_woods(model, legs, path.steps),
        things=fittings_on(model, _places(legs, stands), {leg.pipe for leg in (*legs, *([stands] if stands else []))}),
        bays=_bays(model, legs),
        subfloor=model.plan.floor.subfloor,
        finished=model.plan.floor.finished_z,
    )


def _legs(model: Model, path: FallPath) -> tuple[Leg, ...]:
    """The pipes strung together; a roll takes its share of the run that ends in it."""
    legs: list[Leg] = []
    base = taken = 0.0
    for step in path.steps:
        z0, z1 = model.heights[step.lower], model.heights[step.upper]
        pipe = step.pipe
        if pipe.shape == "inclined" and pipe.run == 0.0:
            taken = abs(z1 - z0) / math.tan(math.radians(abs(pipe.climb))) if pipe.climb else 0.0
            following = next((s.pipe.run for s in path.steps if s.lower == step.upper), 0.0)
            taken = min(taken, following)
            legs.append(_leg(step, base, base + taken, z0, z1))
            continue
        legs.append(_leg(step, base + taken, base + pipe.run, z0, z1))
        base += pipe.run
        taken = 0.0
    return tuple(legs)


def _leg(step: Step, begins: float, ends: float, z0: float, z1: float) -> Leg:
    pipe = step.pipe
    return Leg(
        pipe=pipe.id,
        element=pipe.element,
        system=pipe.system,
        shape=pipe.shape,
        size=pipe.size,
        od=trade.drain(pipe.size).od,
        passing=pipe.passing,
        begins=begins,
        ends=ends,
        z0=z0,
        z1=z1,
        start=(step.lower.x, step.lower.y),
        end=(step.upper.x, step.upper.y),
    )


def _upright(model: Model, step: Step, station: float) -> Leg:
    return _leg(step, station, station, model.heights.get(step.lower, 0.0), step.upper.level)


def _tail(model: Model, name: str, first: Leg) -> Leg | None:
    """The pipe that goes plumb from an exit to its tail; none where it goes out through the rim."""
    exit_ = next(one for one in model.plan.exits if one.id == name)
    if exit_.how != "turn-down":
        return None
    return Leg(
        pipe=f"{name}.tail",
        element=name,
        system=first.system,
        shape="plumb",
        size=first.size,
        od=first.od,
        passing="through",
        begins=0.0,
        ends=0.0,
        z0=exit_.tail_z,
        z1=first.z0,
        start=exit_.at,
        end=exit_.at,
    )


def _of_supply(model: Model, supply: Supply) -> LongSection | None:
    size = trade.nominal(supply.size)
    od = trade.tube(size).od + 2.0 * supply.insulation
    middle = -min((joist.depth for joist in model.framing.joists), default=0.0) / 2.0
    if supply.down is None and not model.framing.joists:
        return None
    z = middle if supply.down is None else -supply.down
    legs: list[Leg] = []
    for line in model.lines:
        if line.element == supply.id:
            start, end = (line.start.x, line.start.y), (line.end.x, line.end.y)
            begins = legs[-1].ends if legs else 0.0
            far = begins + math.dist(start, end)
            legs.append(
                Leg(line.id, supply.id, supply.water, "level", size, od, line.passing, begins, far, z, z, start, end)
            )
    if not legs:
        return None
    made = tuple(legs)
    things = fittings_on(model, _places(made, None), {supply.id})
    return LongSection(
        element=supply.id,
        exit=None,
        low_end=_water_end(model, things, 0.0, f"first point of {supply.id}"),
        high_end=_water_end(model, things, made[-1].ends, f"last point of {supply.id}"),
        length=made[-1].ends,
        legs=made,
        stands=None,
        tail=None,
        woods=_woods(model, made, ()),
        things=things,
        bays=_bays(model, made),
        subfloor=model.plan.floor.subfloor,
        finished=model.plan.floor.finished_z,
    )


def _water_end(model: Model, things: tuple[Thing, ...], station: float, otherwise: str) -> str:
    """What a water line serves or comes from where it ends: the fixture or the inlet there."""
    ends: tuple[Fixture | Inlet, ...] = (*model.plan.fixtures, *model.plan.inlets)
    served = {one.id: one for one in ends}
    at = (name for thing in things if thing.station == station for name in thing.elements if name in served)
    return next((called(served[name]) for name in at), otherwise)


def _woods(model: Model, legs: tuple[Leg, ...], steps: tuple[Step, ...]) -> tuple[Wood, ...]:
    cuts = {made.crossing: made for made in model.cuts}
    by_pipe: dict[str, list[Crossing]] = {}
    for crossing in model.crossings:
        by_pipe.setdefault(crossing.pipe, []).append(crossing)
    pipes = {step.pipe.id: step for step in steps}
    found: list[Wood] = []
    for leg in legs:
        step = pipes.get(leg.pipe)
        found.extend(_wood(model, leg, step, one, cuts.get(one.id)) for one in by_pipe.get(leg.pipe, ()))
    return tuple(sorted(found, key=lambda wood: (wood.station, wood.joist)))


def _wood(model: Model, leg: Leg, step: Step | None, crossing: Crossing, cut: JoistCut | None) -> Wood:
    """A crossing on the line; its distances count from its pipe's start, which of waste is the upper end."""
    joist = model.joists[crossing.joist]
    against = step is not None and step.pipe.start == step.upper
    places = (crossing.enters, crossing.leaves, crossing.position)
    if against:
        leaves, enters, station = (leg.ends - place for place in places)
    else:
        first = leg.ends - (step.pipe.run if step is not None else leg.ends - leg.begins)
        enters, leaves, station = (first + place for place in places)
    top = 0.0
    return Wood(
        crossing=crossing.id,
        joist=joist.id,
        words=joist_words(model, joist),
        station=station,
        begins=enters,
        ends=leaves,
        top=top,
        bottom=top - joist.depth,
        keeps=_keeps(model, joist, crossing, cut, top),
        z=_axis(model, step, crossing, leg),
        cut=cut,
    )


def _axis(model: Model, step: Step | None, crossing: Crossing, leg: Leg) -> float:
    """The axis at a crossing, as the cut is laid out: along the pipe's own slope from its start."""
    if step is None:
        return leg.z0
    pipe: Pipe = step.pipe
    fall = pipe.slope * crossing.position / 12.0
    start: Node = pipe.start
    return model.heights[start] - fall if pipe.system == "waste" else model.heights[start] + fall


def _keeps(
    model: Model, joist: Joist, crossing: Crossing, cut: JoistCut | None, top: float
) -> tuple[tuple[float, float], ...]:
    bottom = top - joist.depth
    whole = ((top, bottom),)
    if crossing.passing == "under":
        return whole
    if joist.member == "engineered":
        return () if model.book.says("joist.engineered.cuts_allowed") else whole
    if not judged_by_book(joist):
        return ()
    if not crossing.straight:
        return whole
    most = allowance(joist.depth, model.book)
    if crossing.passing == "through":
        return ((top, top - most.edge), (bottom + most.edge, bottom))
    if cut is None:
        return ((top - most.notch_depth, bottom + most.notch_depth),)
    return ((top - cut.limit, bottom),) if cut.edge == "top" else ((top, bottom + cut.limit),)


def _places(legs: tuple[Leg, ...], stands: Leg | None) -> list[tuple[Point, Point, float, float]]:
    """The legs as plan lines, with the distances at which they begin and end."""
    return [(leg.start, leg.end, leg.begins, leg.ends) for leg in (*legs, *([stands] if stands else []))]


def _bays(model: Model, legs: tuple[Leg, ...]) -> tuple[Bay, ...]:
    """The stretches of a line that lie under each field of joists; stretches that touch are one."""
    depths: dict[str, float] = {}
    for joist in model.framing.joists:
        depths[joist.field] = max(depths.get(joist.field, 0.0), joist.depth)
    found: list[Bay] = []
    for leg in legs:
        for field in model.plan.fields:
            inside = _inside(leg.start, leg.end, field.corner, field.size)
            if inside is None or field.id not in depths:
                continue
            length = leg.ends - leg.begins
            begins, ends = (leg.begins + share * length for share in inside)
            before = found[-1] if found else None
            if before is not None and before.depth == depths[field.id] and begins - before.ends < 1.0 / 64.0:
                found[-1] = Bay(before.begins, max(before.ends, ends), before.depth)
            else:
                found.append(Bay(begins, ends, depths[field.id]))
    return tuple(found)


def _inside(a: Point, b: Point, corner: Point, size: tuple[float, float]) -> tuple[float, float] | None:
    """Between which shares of the line a-b it lies inside a rectangle; None where nowhere."""
    low, high = 0.0, 1.0
    for axis in (0, 1):
        step = b[axis] - a[axis]
        first, last = corner[axis] - a[axis], corner[axis] + size[axis] - a[axis]
        if step == 0.0:
            if first > 0.0 or last < 0.0:
                return None
            continue
        one, other = sorted((first / step, last / step))
        low, high = max(low, one), min(high, other)
    return (low, high) if low < high or a == b else None


def _end_words(element: Element, last: Leg) -> str:
    return called(element) if isinstance(element, PinnedFitting) else f"upper end of {last.element}"


def _closed_by(model: Model, node: Node) -> str:
    """The cleanout that closes a run's upper end, by its id."""
    at = (node.x, node.y)
    return next((one.id for one in model.plan.cleanouts if one.at == at and one.above_floor is None), "")


def _elements(model: Model) -> dict[str, Element]:
    return {element.id: element for kind in COLLECTIONS for element in getattr(model.plan, kind)}
