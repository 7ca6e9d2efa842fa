"""The wood of a long section: the joists that a line cuts through, what of them must stay, and the bays along it."""

from __future__ import annotations

from engine.checks.model import Model
from engine.crossings.limits import allowance, judged_by_book
from engine.crossings.records import Crossing, JoistCut, by_crossing
from engine.crossings.stretches import EXACT
from engine.framing.records import Joist
from engine.piping.records import Node, Pipe
from engine.plan.records import Point, Record
from engine.takeoff.fall_path import Step
from engine.takeoff.naming import crossings_on, whole_words
from engine.takeoff.section_legs import Leg


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

    @property
    def middle(self) -> float:
        """The height of the hole's middle: the axis, unless the tube shares its hole with others."""
        return -self.cut.down_from_top if self.cut is not None and self.cut.tubes else self.z


class Bay(Record, frozen=True, gc=False):
    """A stretch of the line under one field of joists, and how deep they are."""

    begins: float
    ends: float
    depth: float


def woods_of(model: Model, legs: tuple[Leg, ...], steps: tuple[Step, ...]) -> tuple[Wood, ...]:
    """The joists that the legs pass through, by distance; a water line has no steps."""
    cuts = by_crossing(model.cuts)
    by_pipe = crossings_on(model)
    pipes = {step.pipe.id: step for step in steps}
    found: list[Wood] = []
    for leg in legs:
        step = pipes.get(leg.pipe)
        found.extend(_wood(model, leg, step, one, cuts.get(one.id)) for one in by_pipe.get(leg.pipe, ()))
    found += _shared(model, legs, found, cuts)
    return tuple(sorted(found, key=lambda wood: (wood.station, wood.joist)))


def _shared(model: Model, legs: tuple[Leg, ...], found: list[Wood], cuts: dict[str, JoistCut]) -> list[Wood]:
    """Wood whose one hole is told from the pipe of another line, which meets this one inside it."""
    ends = {line.id: (line.start[:2], line.end[:2]) for line in model.lines}
    shown = {wood.crossing for wood in found}
    more: dict[str, Wood] = {}
    for leg in legs:
        for name, crossings in model.crossings_of.items():
            joist = model.joists[name]
            inside = _in_joist(leg, joist)
            if inside is None or any(_covers(wood, joist, inside) for wood in found):
                continue
            mine = set(ends.get(leg.pipe, ()))
            meets = next((one for one in crossings if mine.intersection(ends[one.pipe])), None)
            if meets is None or meets.id in shown:
                continue
            begins, ends_at = inside
            before = more.get(meets.id)
            if before is not None:
                begins, ends_at = min(begins, before.begins), max(ends_at, before.ends)
            station = (begins + ends_at) / 2.0
            made = _made(model, meets, cuts.get(meets.id), (station, begins, ends_at), leg.z(station))
            more[meets.id] = made
    return list(more.values())


def _in_joist(leg: Leg, joist: Joist) -> tuple[float, float] | None:
    """Between which distances a leg's axis lies in a joist's wood; None where it does not."""
    length = leg.ends - leg.begins
    (sx, sy), (ux, uy) = joist.start, joist.along
    ends = [((x - sx) * ux + (y - sy) * uy, (x - sx) * uy - (y - sy) * ux) for x, y in (leg.start, leg.end)]
    half = joist.thickness / 2.0
    inside = within(ends[0], ends[1], (0.0, -half), (joist.length, 2.0 * half))
    if inside is None or (inside[1] - inside[0]) * length <= EXACT:
        return None
    return leg.begins + inside[0] * length, leg.begins + inside[1] * length


def _covers(wood: Wood, joist: Joist, inside: tuple[float, float]) -> bool:
    middle = (inside[0] + inside[1]) / 2.0
    return wood.joist == joist.id and wood.begins - EXACT <= middle <= wood.ends + EXACT


def _wood(model: Model, leg: Leg, step: Step | None, crossing: Crossing, cut: JoistCut | None) -> Wood:
    """A crossing on the line; its distances count from its pipe's start, which of waste is the upper end."""
    against = step is not None and step.pipe.start == step.upper
    places = (crossing.enters, crossing.leaves, crossing.position)
    if against:
        leaves, enters, station = (leg.ends - place for place in places)
    else:
        first = leg.ends - (step.pipe.run if step is not None else leg.ends - leg.begins)
        enters, leaves, station = (first + place for place in places)
    return _made(model, crossing, cut, (station, enters, leaves), _axis(model, step, crossing, leg))


def _made(model: Model, crossing: Crossing, cut: JoistCut | None, places: tuple[float, float, float], z: float) -> Wood:
    """The joist at a crossing, its place given by station, beginning and end."""
    joist = model.joists[crossing.joist]
    top = joist.top
    station, begins, ends = places
    return Wood(
        crossing=crossing.id,
        joist=joist.id,
        words=whole_words(model, joist),
        station=station,
        begins=begins,
        ends=ends,
        top=top,
        bottom=joist.bottom,
        keeps=_keeps(model, joist, crossing, cut, top),
        z=z,
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
    if crossing.passing == "under" or joist.kind == "beam":
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


def bays_of(model: Model, legs: tuple[Leg, ...]) -> tuple[Bay, ...]:
    """The stretches of a line that lie under each field of joists; stretches that touch are one."""
    depths: dict[str, float] = {}
    for joist in model.framing.joists:
        depths[joist.field] = max(depths.get(joist.field, 0.0), joist.depth)
    found: list[Bay] = []
    for leg in legs:
        for field in model.plan.fields:
            inside = within(leg.start, leg.end, field.corner, field.size)
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


def within(a: Point, b: Point, corner: Point, size: tuple[float, float]) -> tuple[float, float] | None:
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
