"""Where every pipe is held: bored joists first, then blocks, straps and hooks at the rule book's spacing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import count, pairwise

from msgspec.structs import replace

from engine.checks.holding import spacing_key
from engine.checks.model import Model
from engine.crossings.records import Crossing, JoistCut, by_crossing
from engine.framing.wood import wood_of
from engine.joinery.records import Part
from engine.lengths import inches, up
from engine.plan.records import Point
from engine.takeoff.places import places
from engine.takeoff.records import Support, SupportKind
from engine.takeoff.runs import Run, runs
from engine.takeoff.seating import Seating
from engine.takeoff.seats import Made, Seat, block_width, seat, set_out
from engine.takeoff.standing import SAME, called, corners, fittings_under, hubs, stands_at
from engine.takeoff.upright import hub_radius, upright
from engine.trade.pipe import tube
from engine.trade.sundries import hanger_near_branch
from engine.water.joints import STRAIGHT, joints

_RESTS: tuple[SupportKind, ...] = ("block", "strap")
_KINDS: dict[str, SupportKind] = {"block": "block", "strap": "strap", "hook": "hook", "nothing": "nothing"}
_HOLD_NOTHING: tuple[SupportKind, ...] = ("nothing", "bend support", "sway brace")


class _Floor:
    """What all runs of a model are looked at with."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self.wood = wood_of(model.framing)
        self.cuts: Mapping[str, JoistCut] = by_crossing(model.cuts)
        self.fittings: list[Part] = fittings_under(model)
        made, _ = joints(model.plan, model.water)
        bends = [joint for joint in made if joint.kind == "tube_bend_support"]
        self.bends: dict[tuple[str, Point], str] = {(joint.elements[0], joint.at): joint.note for joint in bends}
        self.seating = Seating(model, self.wood)
        self.upright = tuple(upright(model, self.wood, self.seating))
        self.based: dict[Point, float] = {
            one.at: hub_radius(one.size) - (one.down or 0.0) for one in self.upright if one.kind == "base"
        }
        self.plumb = {
            (node.x, node.y) for pipe in model.network.pipes if pipe.shape == "plumb" for node in (pipe.start, pipe.end)
        } | {exit_.at for exit_ in model.plan.exits if exit_.how == "turn-down"}


def supports(model: Model) -> tuple[Support, ...]:
    """Every place where a pipe is held, run by run from the upper end down, then the plumb pipes.

    No stretch between two places is longer than the rule book's spacing for the material, and one place lies
    within the advised reach of every end and corner. A joist that the pipe is bored or notched into from above holds
    it; pipe under the joists hangs from the joists that it crosses where they lie near enough. No support reaches into
    another pipe, other wood or another support; where none has room, that is told.
    """
    floor = _Floor(model)
    found: list[Support] = []
    for run in runs(model):
        found.extend(_level(floor, run))
    return _marked([*found, *floor.upright])


def _level(floor: _Floor, run: Run) -> Iterator[Support]:
    model = floor.model
    key = spacing_key(run.material, run.size, "horizontal")
    limit, cites = model.book.number(key), model.book.cite(key)
    held = [(along, crossing) for along, crossing in run.crossings if _carries(floor, crossing)]
    crossing_at = dict(run.crossings)
    hooks = [along for along, crossing in run.crossings if not _carries(floor, crossing)]
    half = max((model.joists[crossing.joist].thickness for _, crossing in held), default=0.0) / 2.0
    near = hanger_near_branch()
    bent = _bends(floor, run)
    feet = (
        [] if run.material == "PEX" else [along for along, point in corners(run) if _carried(floor, run, along, point)]
    )
    added = places(
        sorted([*feet, *(along for along, _ in held)]),
        hooks,
        _corners(floor, run),
        limit,
        near,
        half,
        hubs(floor.fittings, run),
        lambda corner: corner in bent,
        0.0 if run.material == "PEX" else block_width() / 2.0,
    )
    kinds: list[tuple[float, SupportKind | None, Crossing | None]] = [
        (along, "bored joist" if floor.cuts[crossing.id].kind == "bore" else "notched joist", crossing)
        for along, crossing in held
    ]
    kinds += [(along, None, crossing_at.get(along)) for along in added]
    kinds += [(corner, "bend support", None) for corner in bent]
    made = [
        _held(floor, run, along, kind, crossing, limit, cites, _reason(floor, run, along, near + half))
        for along, kind, crossing in kinds
    ]
    every = sorted([*made, *_braces(floor, run)], key=lambda one: one.along)
    holding = sorted([*feet, *(one.along for one in every if one.kind not in _HOLD_NOTHING)])
    for one in every:
        yield one if one.kind != "nothing" else replace(one, remark=_left_bare(one, run, holding))


def _left_bare(one: Support, run: Run, holding: list[float]) -> str:
    """What is said where nothing has room: how far the pipe then goes unheld, and how far it may."""
    before = max((place for place in holding if place < one.along), default=0.0)
    after = min((place for place in holding if place > one.along), default=run.length)
    free = inches(up(after - before))
    return f"{one.remark}: the pipe is held by nothing for {free} in. Move it or what stands beside it"


def _marked(found: list[Support]) -> tuple[Support, ...]:
    """The supports with a mark on each that has to be made."""
    marks = count(1)
    return tuple(
        one if one.kind in ("bored joist", "notched joist", "nothing") else replace(one, mark=f"S{next(marks)}")
        for one in found
    )


def _corners(floor: _Floor, run: Run) -> list[float]:
    """The run's ends, and its vertices where it turns or another pipe comes in."""
    inner = [
        b.begins
        for a, b in pairwise(run.stretches)
        if _turned(a.start, a.end, b.end) > STRAIGHT
        or any(part.kind != "coupling" for part in stands_at(floor.fittings, run, b.start))
    ]
    return [0.0, *inner, run.length]


def _carried(floor: _Floor, run: Run, along: float, point: Point) -> bool:
    """Whether a plumb pipe's foot, carried by itself, stands at this end or corner and in this run."""
    foot, z = floor.based.get(point), run.stretch(along).z(along)
    return foot is not None and z is not None and abs(foot - z) <= SAME


def _carries(floor: _Floor, crossing: Crossing) -> bool:
    """Whether the joist bears the pipe: a bore does, and a notch in its top edge; one in its bottom edge is open."""
    made = floor.cuts.get(crossing.id)
    return made is not None and made.edge != "bottom"


def _bends(floor: _Floor, run: Run) -> list[float]:
    """How far along a tube the places lie where it is bent by hand."""
    if run.material != "PEX":
        return []
    return [along for along, point in corners(run) if (run.element, point) in floor.bends]


def _held(
    floor: _Floor,
    run: Run,
    along: float,
    kind: SupportKind | None,
    crossing: Crossing | None,
    limit: float,
    cites: str,
    reason: str,
) -> Support:
    """The support at one place; without a `kind` the place itself says whether a block or a strap does it."""
    stretch = run.stretch(along)
    z, at = stretch.z(along), stretch.at(along)
    outside = tube(run.size).od if run.material == "PEX" else run.od
    place = seat(floor.model, floor.wood, at, crossing)
    made = Made("")
    if kind is None and run.material == "PEX":
        made = floor.seating.tube(place, at, z, run.od / 2.0, (stretch.pipe,))
    elif kind is None:
        made = floor.seating.pipe(place, at, z, outside, (stretch.pipe,))
    kind = kind or _KINDS[made.kind]
    overhead = z is not None and z - outside / 2.0 >= 0.0
    axis = None if z is None else -z
    under = None if z is None else -z + outside / 2.0
    bare = Support(
        element=run.element,
        pipe=stretch.pipe,
        system=run.system,
        size=run.size,
        kind=kind,
        at=at,
        along=along,
        down=under if kind in _RESTS else axis,
        joist=None,
        limit=limit,
        cites=cites,
        reason=reason,
    )
    return set_out(bare, Seat() if overhead else place, made, under if bare.kind in _RESTS else axis)


def _reason(floor: _Floor, run: Run, along: float, reach: float) -> str:
    """What a place is near to, else nothing: it is then there for the spacing."""
    at, point = min(corners(run), key=lambda corner: abs(corner[0] - along))
    parts = stands_at(floor.fittings, run, point)
    room = max((port.takeoff.length + port.depth for part in parts for port in part.ports), default=0.0)
    if abs(at - along) > reach + room + SAME:
        return ""
    words = floor.bends.get((run.element, point), "") if abs(at - along) <= SAME else ""
    if words:
        return words
    words = called(run, at, parts)
    whose = next((fixture.id for fixture in floor.model.plan.fixtures if fixture.at == point), "")
    riser = next((riser.id for riser in floor.model.plan.risers if point in (riser.at, riser.returns)), "")
    leaves = next((exit_.id for exit_ in floor.model.plan.exits if exit_.at == point), "")
    where = whose or riser or leaves
    return f"{'at' if abs(at - along) <= SAME else 'by'} the {words}{f' of {where}' if where else ''}"


def _braces(floor: _Floor, run: Run) -> Iterator[Support]:
    """A sway brace at each sharp turn of wide pipe, where the book asks for one."""
    book = floor.model.book
    if run.material == "PEX" or not (book.has("support.brace_from") and book.has("support.brace_over")):
        return
    if run.size < book.number("support.brace_from"):
        return
    over, cites = book.number("support.brace_over"), book.cite("support.brace_from")
    ends = [(0.0, run.stretches[0].start), (run.length, run.stretches[-1].end)]
    sharp = [along for along, point in ends if point in floor.plumb]
    sharp += [b.begins for a, b in pairwise(run.stretches) if _turned(a.start, a.end, b.end) > over]
    key = spacing_key(run.material, run.size, "horizontal")
    for along in sorted(sharp):
        words = f"turn sharper than {inches(over)} degrees"
        yield _held(floor, run, along, "sway brace", None, book.number(key), cites, words)


def _turned(before: Point, at: Point, after: Point) -> float:
    """By how many degrees a run turns at a vertex."""
    first = math.atan2(at[1] - before[1], at[0] - before[0])
    second = math.atan2(after[1] - at[1], after[0] - at[0])
    turn = math.degrees(second - first)
    return abs((turn + 180.0) % 360.0 - 180.0)
