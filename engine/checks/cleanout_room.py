"""What stands straight before a cleanout's opening, and how far off."""

from __future__ import annotations

import math
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import name, place
from engine.checks.rodding import WayIn
from engine.checks.sites import joist_words
from engine.checks.wall_sites import walls_by_place
from engine.crossings.in_walls import DEEPEST
from engine.drafting.bodies import body_of, face_of
from engine.drafting.cells import Cells, by_place
from engine.framing.records import Joist
from engine.joinery.cleanouts import plug_id
from engine.joinery.records import Port
from engine.piping.flow import is_under
from engine.piping.records import Pipe
from engine.plan.records import Cleanout, Fixture, Point, Wall
from engine.plan.walls import holds
from engine.trade.fittings import takeoff
from engine.trade.fixtures import fixture as spec_of
from engine.trade.fixtures import rim_of
from engine.trade.pipe import drain


class Room(NamedTuple):
    """How much is clear before an opening, inches, and the nearest thing that stands there."""

    clear: float
    element: str
    words: str


class Block(NamedTuple):
    """A rectangle in plan: its middle, the heading of its length as a unit vector, half its length and its width."""

    middle: Point
    along: tuple[float, float]
    length: float
    width: float


def room_before(model: Model, cleanout: Cleanout, way: WayIn, pipe: Pipe, reach: float) -> Room | str | None:
    """The nearest thing before an opening within `reach`; None where there is none, words where that isn't known."""
    if is_under(way.node):
        return _under(model, cleanout, way, pipe, reach)
    return _in_wall(model, cleanout, pipe, reach)


def _under(model: Model, cleanout: Cleanout, way: WayIn, pipe: Pipe, reach: float) -> Room | str | None:
    if not model.framing.joists:
        return "no joists are drawn to measure against"
    x, y, z = place(model, way.node)
    toward = (-pipe.heading[0], -pipe.heading[1])
    half = drain(pipe.size).od / 2.0
    out = _stands_out(model, cleanout, pipe.size)
    face = (x + out * toward[0], y + out * toward[1])
    found: list[Room] = []
    for joist in _joists(model).near(face, reach + _thickest(model)):
        if z - half < joist.top and z + half > joist.bottom:
            far = _hit(face, toward, _wood(joist), half)
            if far is not None and far < reach:
                found.append(Room(max(0.0, far), joist.id, joist_words(joist)))
    return min(found, default=None)


def _in_wall(model: Model, cleanout: Cleanout, pipe: Pipe, reach: float) -> Room | str | None:
    if not model.plan.walls:
        return "no wall is drawn to measure against"
    angle = math.radians(cleanout.turn)
    toward = (math.cos(angle), math.sin(angle))
    own = wall_of(model, cleanout)
    out = takeoff("test_tee", (pipe.size, pipe.size, pipe.size), "branch", model.plan.takeoffs).length
    if own is not None:
        leaves = _leaves(cleanout.at, toward, _boards(own))
        out = max(out, leaves)
    face = (cleanout.at[0] + out * toward[0], cleanout.at[1] + out * toward[1])
    half = drain(pipe.size).od / 2.0
    found: list[Room] = []
    for wall in walls_by_place(model).near(face, reach + DEEPEST):
        if wall is own:
            continue
        far = _hit(face, toward, _boards(wall), half)
        if far is not None and far < reach:
            found.append(Room(max(0.0, far), wall.id, wall.name or f"wall {wall.id}"))
    for fixture, block in _fixtures(model, face, reach):
        if _stands_as_high(fixture, cleanout.above_floor or 0.0):
            far = _hit(face, toward, block, half)
            if far is not None and far < reach:
                found.append(Room(max(0.0, far), fixture.id, name(model, fixture.id)))
    return min(found, default=None)


def wall_of(model: Model, cleanout: Cleanout) -> Wall | None:
    """The wall that a cleanout stands in: its riser's, else the first that holds its point."""
    found = [wall for wall in walls_by_place(model).near(cleanout.at, DEEPEST) if holds(wall, cleanout.at)]
    wanted = _walls_of_risers(model).get(cleanout.at)
    return next((wall for wall in found if wall.id == wanted), found[0] if found else None)


@once_a_model
def _walls_of_risers(model: Model) -> dict[Point, str | None]:
    return {riser.at: riser.wall for riser in model.plan.risers}


def _stands_as_high(fixture: Fixture, height: float) -> bool:
    """Whether a fixture fills its place at a height above the floor: one that hangs on a wall has room below it."""
    if spec_of(fixture.kind).outlet == "wall":
        return False
    rim = rim_of(fixture)
    return rim is None or rim > height


def _stands_out(model: Model, cleanout: Cleanout, size: float) -> float:
    """From the drain's own point to the opening's face, inches."""
    port = _ports(model).get(plug_id(cleanout))
    if port is None:
        return takeoff("cleanout_adapter_hub_fpt", (size, size), "run_out", model.plan.takeoffs).length
    beyond = takeoff("cleanout_adapter_spigot_fpt", (size, size), "run_out", model.plan.takeoffs).length
    return port.takeoff.length + beyond


@once_a_model
def _ports(model: Model) -> dict[str, Port]:
    """The parts' ports by the pipe that each takes."""
    return {port.pipe: port for part in model.joinery.parts for port in part.ports if port.pipe is not None}


@once_a_model
def _thickest(model: Model) -> float:
    """Half of the thickest joist, inches: its face reaches so far past the middle line that it is found by."""
    return max((joist.thickness for joist in model.framing.members), default=0.0) / 2.0


@once_a_model
def _joists(model: Model) -> Cells[Joist]:
    return by_place(model.framing.members)


def _fixtures(model: Model, at: Point, reach: float) -> list[tuple[Fixture, Block]]:
    """The fixtures that may reach to within so far of a place, with the ground that each covers."""
    cells, widest = _blocks(model)
    return cells.near(at, reach + widest)


@once_a_model
def _blocks(model: Model) -> tuple[Cells[tuple[Fixture, Block]], float]:
    """The fixtures with the ground that each covers, by the grounds' middles, and the widest ground's diagonal, inches."""
    cells: Cells[tuple[Fixture, Block]] = Cells()
    widest = 0.0
    for fixture in model.plan.fixtures:
        block = _ground(model, fixture)
        cells.put((fixture, block), block.middle)
        widest = max(widest, math.hypot(block.length, block.width))
    return cells, widest


def _ground(model: Model, fixture: Fixture) -> Block:
    body = body_of(fixture, walls_by_place(model).near(fixture.at, DEEPEST))
    angle = math.radians(fixture.turn)
    ahead = (math.cos(angle), math.sin(angle))
    forward, left = body.centre
    x = fixture.at[0] + forward * ahead[0] - left * ahead[1]
    y = fixture.at[1] + forward * ahead[1] + left * ahead[0]
    return Block((x, y), ahead, body.depth / 2.0, body.width / 2.0)


def _wood(joist: Joist) -> Block:
    middle = ((joist.start[0] + joist.end[0]) / 2.0, (joist.start[1] + joist.end[1]) / 2.0)
    return Block(middle, joist.along, joist.length / 2.0, joist.thickness / 2.0)


def _boards(wall: Wall) -> Block:
    """A wall with its boards."""
    (ax, ay), (bx, by) = wall.start, wall.end
    length = math.dist(wall.start, wall.end)
    return Block(
        ((ax + bx) / 2.0, (ay + by) / 2.0), ((bx - ax) / length, (by - ay) / length), length / 2.0, face_of(wall)
    )


def _hit(face: Point, toward: tuple[float, float], block: Block, half: float) -> float | None:
    """How far from a face an opening's width first strikes a rectangle; None where it passes it or has it behind."""
    span = _crossed(face, toward, block, half)
    return span[0] if span is not None and span[1] > 0.0 else None


def _leaves(at: Point, toward: tuple[float, float], block: Block) -> float:
    """How far from a place inside a rectangle a straight way leaves it; nothing where it lies outside."""
    span = _crossed(at, toward, block, 0.0)
    return span[1] if span is not None and span[0] <= 0.0 <= span[1] else 0.0


def _crossed(at: Point, toward: tuple[float, float], block: Block, half: float) -> tuple[float, float] | None:
    """Between which distances along a way a rectangle is met by anything within `half` of the way."""
    (ux, uy), dx, dy = block.along, at[0] - block.middle[0], at[1] - block.middle[1]
    along, across = toward[0] * ux + toward[1] * uy, toward[1] * ux - toward[0] * uy
    near, far = -math.inf, math.inf
    for start, way, size in (
        (dx * ux + dy * uy, along, block.length + half * abs(across)),
        (dy * ux - dx * uy, across, block.width + half * abs(along)),
    ):
        if abs(way) < 1e-9:
            if abs(start) >= size:
                return None
            continue
        first, last = sorted(((-size - start) / way, (size - start) / way))
        near, far = max(near, first), min(far, last)
    return (near, far) if near < far else None
