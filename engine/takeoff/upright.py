"""Where plumb pipes are held: at their foot, at the floor or at a distance, and by a guide at mid-storey."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.holding import spacing_key
from engine.checks.model import Model
from engine.framing.studs import stand
from engine.framing.wood import Wood
from engine.piping.records import Node, Pipe, is_under
from engine.plan.records import Point, Riser
from engine.plan.walls import wall_at
from engine.takeoff.records import Support, SupportKind
from engine.takeoff.seating import Seating
from engine.takeoff.seats import seat, set_out
from engine.trade import fixtures as trade
from engine.trade.facts import table
from engine.trade.pipe import drain

_SLACK = 1e-6
_HAIR = 1.0 / 64.0

_FEET = {"closet": "carries the closet's bend", "wall": "carries its foot"}
"""What is said of the foot of a fixture's own plumb pipe, by its outlet; a trap under the floor hangs in its arm."""

_Place = tuple[float, SupportKind, str, str]


def upright(model: Model, wood: Wood, seating: Seating) -> Iterator[Support]:
    """Straps up every plumb pipe of the risers, the mid-storey guide of the thin ones, and what carries their foot.

    The foot of a fixture's own plumb pipe, a closet's bend before all, is carried in the same way.
    """
    for riser, at in columns(model):
        pipes = [
            pipe
            for pipe in model.network.pipes
            if pipe.element == riser.id and pipe.run == 0.0 and (pipe.start.x, pipe.start.y) == at
        ]
        if any(_z(model, node) is not None for pipe in pipes for node in (pipe.start, pipe.end)):
            yield from _column(model, wood, seating, riser, at, pipes)
    done = {at for _, at in columns(model)}
    outlets = {fixture.id: trade.fixture(fixture.kind).outlet for fixture in model.plan.fixtures}
    for pipe in model.network.pipes:
        reason = _FEET.get(outlets.get(pipe.element) or "")
        z = _z(model, pipe.end)
        if reason and pipe.shape == "plumb" and is_under(pipe.end) and z is not None:
            at = (pipe.end.x, pipe.end.y)
            if at not in done:
                done.add(at)
                yield _base(model, wood, seating, pipe.element, pipe, at, z, reason)


def columns(model: Model) -> list[tuple[Riser, Point]]:
    """The places of every riser's plumb pipes: its own, and where a loop comes down elsewhere."""
    found = [(riser, riser.at) for riser in model.plan.risers]
    found += [(riser, riser.returns) for riser in model.plan.risers if riser.returns not in (None, riser.at)]
    return found


def _column(
    model: Model, wood: Wood, seating: Seating, riser: Riser, at: Point, pipes: list[Pipe]
) -> Iterator[Support]:
    book, floor = model.book, model.plan.floor
    levels = [z for pipe in pipes for node in (pipe.start, pipe.end) if (z := _z(model, node)) is not None]
    foot, top = min(levels), max(levels)
    by_height = sorted(pipes, key=lambda pipe: max(_z(model, pipe.start) or 0.0, _z(model, pipe.end) or 0.0))
    limit, found = _straps(model, by_height[-1].size, foot, top)
    middle = floor.finished_z + floor.roof_above_floor / 2.0
    if top > middle and _at(by_height, middle, model).size <= book.number("support.guide_to"):
        found.append((middle, "guide", book.cite("support.guide_to"), "mid-storey"))
    if foot < 0.0:
        yield _base(model, wood, seating, riser.id, _at(by_height, foot, model), at, foot, "carries its foot")
    wall = wall_at(model.plan, at, riser.wall)
    named = "" if wall is None else wall.name or f"wall {wall.id}"
    plates = math.inf if wall is None else stand(wall, floor.subfloor).plates[1]
    for z, kind, cites, reason in sorted(found):
        pipe = _at(by_height, z, model)
        yield Support(
            element=riser.id,
            pipe=pipe.id,
            system=pipe.system,
            size=pipe.size,
            kind=kind,
            at=at,
            along=z - foot,
            down=-z,
            joist=None,
            limit=limit,
            cites=cites,
            reason=reason,
            hangs=""
            if wall is None
            else f"in {named}"
            if z <= plates
            else f"over {named}, to a brace in the roof space",
        )


def _base(
    model: Model, wood: Wood, seating: Seating, element: str, pipe: Pipe, at: Point, z: float, reason: str
) -> Support:
    """What carries the fitting at a plumb pipe's foot: a block or a strap under its hub."""
    foot = list(_at_foot(model, at, z))
    size = max((one.size for one in foot), default=pipe.size)
    place, radius = seat(model, wood, at, None), hub_radius(size)
    under = radius - z
    made = seating.foot(place, at, z, radius, {one.id for one in foot})
    bare = Support(
        element=element,
        pipe=pipe.id,
        system=pipe.system,
        size=size,
        kind="nothing" if made.kind == "nothing" else "base",
        at=at,
        along=0.0,
        down=under,
        joist=None,
        limit=model.book.number(spacing_key(model.plan.material, size, "horizontal")),
        cites=_base_cite(model),
        reason=reason,
    )
    if made.kind == "nothing":
        made = made._replace(remark=f"{made.remark}: hold the pipes that meet in the foot close beside it")
    return set_out(bare, place, made, under)


def _at_foot(model: Model, at: Point, z: float) -> Iterator[Pipe]:
    """The pipes that meet in the fitting at a foot."""
    for pipe in model.network.pipes:
        for node in (pipe.start, pipe.end):
            if (node.x, node.y) == at and (level := _z(model, node)) is not None and abs(level - z) < _HAIR:
                yield pipe


def _base_cite(model: Model) -> str:
    """Where it stands that a foot is carried: the book's word, else common practice."""
    if model.book.says("support.each_floor"):
        return model.book.cite("support.each_floor")
    return table("supports").fact("stack_base", "words").source


def _straps(model: Model, size: float, foot: float, top: float) -> tuple[float, list[_Place]]:
    """The greatest spacing of a plumb pipe's straps, and each strap's height.

    Where the book holds pipe at its base and at each floor, a foot that lies in the floor is held at the floor, and
    the spacing is the storey as drawn.
    """
    book = model.book
    if book.says("support.each_floor"):
        place: _Place = (max(foot, 0.0), "strap", book.cite("support.each_floor"), "at the floor")
        return model.plan.floor.roof_above_floor, [place]
    key = spacing_key(model.plan.material, size, "vertical")
    limit, cites = book.number(key), book.cite(key)
    count = math.ceil((top - foot) / limit - _SLACK)
    return limit, [(foot + n * limit, "strap", cites, "") for n in range(1, count)]


def _at(by_height: list[Pipe], z: float, model: Model) -> Pipe:
    """The plumb pipe that passes a height, the uppermost if none does."""
    return next(
        (pipe for pipe in by_height if z <= max(_z(model, pipe.start) or 0.0, _z(model, pipe.end) or 0.0)),
        by_height[-1],
    )


def _z(model: Model, node: Node) -> float | None:
    return model.heights.get(node)


def hub_radius(size: float) -> float:
    """From a fitting's axis to the underside of its hub, inches: the pipe's own, and a hub as thick as its wall."""
    pipe = drain(size)
    return pipe.od / 2.0 + pipe.wall
