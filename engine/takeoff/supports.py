"""Where every pipe is held: bored joists first, then blocks, straps and hooks at the rule book's spacing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Literal

from engine.checks.model import Model
from engine.framing.wood import Wood
from engine.piping.records import Node, Pipe
from engine.plan.records import Point
from engine.takeoff.records import Support
from engine.takeoff.runs import Run, runs
from engine.trade.pipe import tube
from engine.trade.sundries import hanger_near_branch

Kind = Literal["bored joist", "notched joist", "block", "strap", "hook", "bend support", "guide"]

_SLACK = 1e-6
_TIGHT = 89.0
"""Degrees: a right angle, less what drawing it may miss; a tube kinks round a tighter corner unless it is held."""


def supports(model: Model) -> tuple[Support, ...]:
    """Every place where a pipe is held, run by run from the upper end down, then the plumb pipes.

    No stretch between two places is longer than the rule book's spacing for the material, and one place lies
    within the advised reach of every end and corner. A joist that the pipe is bored or notched into holds it.
    """
    wood = Wood(model.framing)
    cut = {made.crossing: made.kind for made in model.cuts}
    found: list[Support] = []
    for run in runs(model):
        found.extend(_level(model, wood, cut, run))
    found.extend(_plumb(model))
    return tuple(found)


def spacing_key(material: str, size: float, way: Literal["horizontal", "vertical"]) -> str:
    """The rule book's key for the greatest spacing of a material's supports."""
    wide = material == "PEX" and size > 1.0
    return f"support.{way}.{material}{'_over_1' if wide else ''}"


def _level(model: Model, wood: Wood, cut: Mapping[str, str], run: Run) -> Iterator[Support]:
    key = spacing_key(run.material, run.size, "horizontal")
    limit, cites = model.book.number(key), model.book.cite(key)
    held = [(along, crossing) for along, crossing in run.crossings if crossing.id in cut]
    joist_at = {along: crossing.joist for along, crossing in run.crossings}
    half = max((model.joists[crossing.joist].thickness for _, crossing in held), default=0.0) / 2.0
    added = _between([along for along, _ in held], run.corners(), limit, half)
    kinds: list[tuple[float, Kind, str | None]] = [
        (along, "bored joist" if cut[crossing.id] == "bore" else "notched joist", crossing.joist)
        for along, crossing in held
    ]
    kinds += [(along, _kind(model, wood, run, along), joist_at.get(along)) for along in added]
    if run.material == "PEX":
        kinds += [(corner, "bend support", None) for corner in _sharp_corners(run)]
    for along, kind, joist in sorted(kinds, key=lambda entry: entry[0]):
        stretch = run.stretch(along)
        z = stretch.z(along)
        underside = None if z is None else -z + _outside(run) / 2.0
        axis = None if z is None else -z
        yield Support(
            element=run.element,
            pipe=stretch.pipe,
            system=run.system,
            size=run.size,
            kind=kind,
            at=stretch.at(along),
            along=along,
            down=underside if kind in ("block", "strap") else axis,
            joist=joist,
            limit=limit,
            cites=cites,
        )


def _between(held: list[float], corners: list[float], limit: float, half: float) -> list[float]:
    """Where to add supports so that each end and corner has one near, and no gap is over the limit.

    `half` is half of what a joist that holds the pipe is thick: its face counts, not its middle.
    """
    near = hanger_near_branch()
    places = sorted(held)
    first, last = corners[0], corners[-1]
    for corner in corners:
        if any(abs(place - corner) <= near + half + _SLACK for place in places):
            continue
        if corner == last:
            place = last - min(near, (last - first) / 2.0)
        else:
            following = min(other for other in corners if other > corner)
            place = corner + min(near, (following - corner) / 2.0)
        places.append(place)
        places.sort()
    added = [place for place in places if place not in held]
    for a, b in pairwise(places):
        more = math.ceil((b - a) / limit - _SLACK) - 1
        added += [a + (b - a) * (n + 1) / (more + 1) for n in range(more)]
    return sorted(added)


def _kind(model: Model, wood: Wood, run: Run, along: float) -> Kind:
    """A block in the bay where the pipe lies within the joists' depth; a strap below, above and overhead."""
    if run.material == "PEX":
        return "hook"
    stretch = run.stretch(along)
    z, (x, y) = stretch.z(along), stretch.at(along)
    depth = max((joist.depth for joist in model.framing.joists), default=0.0)
    within = z is not None and -depth <= z - run.od / 2.0 and z + run.od / 2.0 <= 0.0
    beside = any(joist.kind != "rim" for joist in wood.near((x, y), (x, y)))
    return "block" if within and not beside else "strap"


def _sharp_corners(run: Run) -> list[float]:
    corners: list[float] = []
    for a, b in pairwise(run.stretches):
        turned = _heading(b.start, b.end) - _heading(a.start, a.end)
        if abs((turned + 180.0) % 360.0 - 180.0) >= _TIGHT:
            corners.append(b.begins)
    return corners


def _heading(start: Point, end: Point) -> float:
    return math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))


def _outside(run: Run) -> float:
    return tube(run.size).od if run.material == "PEX" else run.od


def _plumb(model: Model) -> Iterator[Support]:
    """Straps up every plumb pipe, and the mid-storey guide of the thin ones."""
    book, material = model.book, model.plan.material
    floor = model.plan.floor
    guide_to = book.number("support.guide_to")
    columns = [(riser, riser.at) for riser in model.plan.risers]
    columns += [(riser, riser.returns) for riser in model.plan.risers if riser.returns is not None]
    for riser, at in columns:
        pipes = [
            pipe
            for pipe in model.network.pipes
            if pipe.element == riser.id and pipe.run == 0.0 and (pipe.start.x, pipe.start.y) == at
        ]
        levels = [(z, pipe) for pipe in pipes for node in (pipe.start, pipe.end) if (z := _z(model, node)) is not None]
        if not levels:
            continue
        foot, top = min(z for z, _ in levels), max(z for z, _ in levels)
        by_height = sorted(pipes, key=lambda pipe: max(_z(model, pipe.start) or 0.0, _z(model, pipe.end) or 0.0))
        limit, heights = _straps(model, spacing_key(material, by_height[-1].size, "vertical"), foot, top)
        middle = floor.finished_z + floor.roof_above_floor / 2.0
        if top > middle and _at(by_height, middle, model).size <= guide_to:
            heights.append((middle, "guide", book.cite("support.guide_to")))
        for z, kind, cites in sorted(heights):
            pipe = _at(by_height, z, model)
            yield Support(riser.id, pipe.id, pipe.system, pipe.size, kind, at, z - foot, -z, None, limit, cites)


def _straps(model: Model, key: str, foot: float, top: float) -> tuple[float, list[tuple[float, Kind, str]]]:
    """The greatest spacing of a plumb pipe's straps, and each strap's height.

    Where the book holds pipe at its base and at each floor, a foot that lies in the floor is held at the floor, and
    the spacing is the storey as drawn.
    """
    book = model.book
    if book.says("support.each_floor"):
        return model.plan.floor.roof_above_floor, [(max(foot, 0.0), "strap", book.cite("support.each_floor"))]
    limit, cites = book.number(key), book.cite(key)
    return limit, [(foot + n * limit, "strap", cites) for n in range(1, math.ceil((top - foot) / limit - _SLACK))]


def _at(by_height: list[Pipe], z: float, model: Model) -> Pipe:
    """The plumb pipe that passes a height, the uppermost if none does."""
    return next(
        (pipe for pipe in by_height if z <= max(_z(model, pipe.start) or 0.0, _z(model, pipe.end) or 0.0)),
        by_height[-1],
    )


def _z(model: Model, node: Node) -> float | None:
    return model.heights.get(node)
