"""The pieces that lie in one line under the floor, and the wood on that line.

Distances in a row run in plan along its line, in the direction in which it is built: away from what its first
piece is glued to.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from engine.checks.model import Model
from engine.crossings.records import Crossing
from engine.framing import shadow
from engine.framing.records import Joist
from engine.joinery.records import Piece, Space
from engine.piping.flow import is_under
from engine.plan.records import Point
from engine.takeoff.assembling.joints import Joints, dot, opposite
from engine.takeoff.assembling.tree import Placing
from engine.trade.pipe import drain


@dataclass(slots=True, frozen=True)
class Wood:
    """One joist on a row's line: where the line enters and leaves it, and whether the row is bored through it.

    `straight` is False where a pipe turns or ends inside the wood, so that no bore makes its hole.
    """

    enters: float
    leaves: float
    joist: str
    bored: bool
    straight: bool


@dataclass(slots=True, frozen=True)
class Laid:
    """One piece as it lies in its row: its sawn ends, and how far the hub that it enters reaches over it.

    `need` is how far past its place it must be pushed when it is threaded early, so that the hub's fitting can
    still be put on. `rooted` pieces are the first of all and enter no hub.
    """

    piece: Piece
    low: float
    high: float
    hub: float
    need: float
    rooted: bool


@dataclass(slots=True, frozen=True)
class Row:
    """Pieces in one line, in the order in which they are glued, and the wood on that line, near things first."""

    along: Point
    laid: tuple[Laid, ...]
    wood: tuple[Wood, ...]

    def passed(self, laid: Laid) -> list[Wood]:
        """The wood that a piece in its place stands in."""
        return [wood for wood in self.wood if stands_in((wood.enters, wood.leaves), laid)]


_TOUCH = 1e-6
_BESIDE = 1.0 / 64.0
"""A piece that reaches less far into wood stands beside it, inches: below what a tape can tell."""


def stands_in(stretch: Point, laid: Laid) -> bool:
    """Whether a piece in its place lies in a stretch of its line."""
    return stretch[1] > laid.low + _BESIDE and stretch[0] < laid.high - _BESIDE


def rows(model: Model, joints: Joints, placings: list[Placing]) -> Iterator[Row]:
    """Every row of level or rolled pieces under the floor that has bored wood on its line."""
    by_item = {placing.item: placing for placing in placings}
    crossed: dict[str, list[Crossing]] = {}
    for crossing in model.crossings:
        crossed.setdefault(crossing.pipe, []).append(crossing)
    strings: dict[str, list[Placing]] = {}
    for placing in placings:
        piece = joints.pieces.get(placing.item)
        if piece is None or not _lies_under(model, piece):
            continue
        before = _before(joints, by_item, placing)
        string = strings.get(before, []) if before is not None else []
        string.append(placing)
        strings[placing.item] = string
    for string in {id(string): string for string in strings.values()}.values():
        row = _row(model, joints, by_item, crossed, string)
        if any(wood.bored for wood in row.wood):
            yield row


def _lies_under(model: Model, piece: Piece) -> bool:
    pipes = [model.network.by_id[pipe] for pipe in piece.pipes if pipe in model.network.by_id]
    long = math.dist(piece.start[:2], piece.end[:2]) > _TOUCH and bend_in(model, piece) is None
    return long and any(pipe.run > 0.0 and is_under(pipe.start) and is_under(pipe.end) for pipe in pipes)


def bend_in(model: Model, piece: Piece) -> Point | None:
    """Where a piece turns, though no fitting makes the turn; None for a straight one."""
    pipes = [model.network.by_id[pipe] for pipe in piece.pipes if pipe in model.network.by_id]
    for before, after in pairwise(pipes):
        if (
            opposite((*before.heading, 0.0), (-after.heading[0], -after.heading[1], 0.0))
            or before.run == after.run == 0.0
        ):
            continue
        return before.end.x, before.end.y
    return None


def _before(joints: Joints, by_item: dict[str, Placing], placing: Placing) -> str | None:
    """The piece that this one goes on from in a straight line, through the one fitting between them."""
    if placing.onto is None or placing.joint is None:
        return None
    fitting = by_item[placing.onto]
    if fitting.joint is None or fitting.onto not in joints.pieces:
        return None
    here, back = joints.port(placing.joint, fitting.item), joints.port(fitting.joint, fitting.item)
    if here is None or back is None or not opposite(here.toward, back.toward):
        return None
    return fitting.onto


def _row(
    model: Model,
    joints: Joints,
    by_item: dict[str, Placing],
    crossed: dict[str, list[Crossing]],
    string: list[Placing],
) -> Row:
    first = joints.pieces[string[0].item]
    origin, far = _ends(joints, first, string[0])
    run = math.dist(origin[:2], far[:2])
    along = ((far[0] - origin[0]) / run, (far[1] - origin[1]) / run)
    laid = tuple(_laid(model, joints, by_item, origin, along, placing) for placing in string)
    there = [c for item in laid for pipe in item.piece.pipes for c in crossed.get(pipe, ())]
    climb = (far[2] - origin[2]) / run
    radius = drain(first.size).od / 2.0
    wood = []
    for joist in model.framing.joists:
        stretch = on_line(joist, origin, along)
        found = [crossing for crossing in there if crossing.joist == joist.id]
        if stretch is None or any(crossing.passing != "through" for crossing in found):
            continue
        z = origin[2] + climb * sum(stretch) / 2.0
        within = any(stands_in(stretch, item) for item in laid)
        if found or (z - radius < 0.0 and z + radius > -joist.depth):
            straight = bool(found) == within and all(crossing.straight for crossing in found)
            wood.append(Wood(*stretch, joist.id, bool(found) or within, straight))
    return Row(along, laid, tuple(sorted(wood, key=lambda one: one.enters)))


def _ends(joints: Joints, piece: Piece, placing: Placing) -> tuple[Space, Space]:
    """The two ends of a piece's axis, the one that is glued first before the other."""
    near = joints.end(placing.joint, piece.mark) if placing.joint is not None else _open_end(piece)
    return (piece.end, piece.start) if near == 1 else (piece.start, piece.end)


def _open_end(piece: Piece) -> int:
    return 1 if piece.to_part is None else 0


def _laid(
    model: Model, joints: Joints, by_item: dict[str, Placing], origin: Space, along: Point, placing: Placing
) -> Laid:
    piece = joints.pieces[placing.item]
    upper, lower = sawn_ends(model, joints, piece)
    low, high = sorted((end[0] - origin[0]) * along[0] + (end[1] - origin[1]) * along[1] for end in (upper, lower))
    port = joints.port(placing.joint, placing.joint.other(piece.mark)) if placing.joint is not None else None
    if port is None:
        return Laid(piece, low, high, 0.0, 0.0, True)
    return Laid(piece, low, high, port.depth, port.depth + _put_on(joints, by_item, along, placing), False)


def sawn_ends(model: Model, joints: Joints, piece: Piece) -> tuple[Point, Point]:
    """Where a level piece's two sawn ends lie in plan, counted from its start, where no roll takes any of its length."""
    run = math.dist(piece.start[:2], piece.end[:2])
    east, north = (piece.end[0] - piece.start[0]) / run, (piece.end[1] - piece.start[1]) / run
    held = next((joint for joint in joints.of.get(piece.mark, ()) if joints.end(joint, piece.mark) == 0), None)
    port = joints.port(held, held.other(piece.mark)) if held is not None else None
    level = _level_share(model, piece)
    first = port.takeoff.length * level if port is not None else 0.0
    last = first + piece.cut * level
    return (
        (piece.start[0] + east * first, piece.start[1] + north * first),
        (piece.start[0] + east * last, piece.start[1] + north * last),
    )


def _level_share(model: Model, piece: Piece) -> float:
    """How much plan an inch of a piece covers."""
    pipes = [model.network.by_id[pipe] for pipe in piece.pipes if pipe in model.network.by_id]
    if all(pipe.shape == "level" for pipe in pipes):
        return sum(p.run for p in pipes) / sum(p.run * math.hypot(1.0, p.slope / 12.0) for p in pipes)
    return math.dist(piece.start[:2], piece.end[:2]) / math.dist(piece.start, piece.end)


def _put_on(joints: Joints, by_item: dict[str, Placing], along: Point, placing: Placing) -> float:
    """How far the fitting of the hub moves along the row when it is put on itself: one depth, or not at all."""
    fitting = by_item[placing.onto] if placing.onto is not None else None
    port = joints.port(fitting.joint, fitting.item) if fitting is not None and fitting.joint is not None else None
    if port is None:
        return 0.0
    return port.depth if abs(dot(port.toward, (*along, 0.0))) > _SQUARE else 0.0


_SQUARE = 0.5
"""Above this share of its move along the row, a fitting is taken to need the whole of it there."""


def on_line(joist: Joist, origin: Space | Point, along: Point) -> Point | None:
    """Where an endless line in plan enters and leaves a joist's wood, as distances along it; None where it misses."""
    u, v = shadow.in_frame(joist, (origin[0], origin[1]))
    ahead = shadow.in_frame(joist, (origin[0] + along[0], origin[1] + along[1]))
    first, last = -math.inf, math.inf
    half = joist.thickness / 2.0
    for place, step, low, high in ((u, ahead[0] - u, 0.0, joist.length), (v, ahead[1] - v, -half, half)):
        if abs(step) < _TOUCH:
            if not low + _TOUCH < place < high - _TOUCH:
                return None
            continue
        one, other = sorted(((low - place) / step, (high - place) / step))
        first, last = max(first, one), min(last, other)
    return (first, last) if last - first > _TOUCH else None
