"""How wide all vents of a building drain are together.

Each vent counts at its smallest section: what reaches the open air through a pipe is no more than the pipe's own area, and
no more than what comes into it. A valve opens to no air outdoors and does not count. Areas are of nominal sizes, sq in.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Mapping

from engine.piping.records import Node
from engine.piping.vent_lengths import D
from engine.plan.records import Plan, Point

COVERS = "vent.area_covers_sewer"


def area(size: float) -> float:
    """The area of a nominal size, sq in."""
    return math.pi * size * size / 4.0


def valves(plan: Plan) -> frozenset[Point]:
    """Where risers end in admittance valves."""
    return frozenset(riser.at for riser in plan.risers if riser.top == "valve")


def onward(pieces: Iterable[D], aired: Collection[Node]) -> dict[str, D | None]:
    """Each aired dry piece's next one toward the open air, by its id; None where it is the last."""
    leaving: dict[Node, D] = {}
    air = [piece for piece in pieces if piece.end in aired]
    for piece in air:
        leaving.setdefault(piece.start, piece)
    return {piece.id: leaving.get(piece.end) for piece in air}


def open_areas(
    pieces: Iterable[D],
    size: Callable[[D], float],
    aired: Collection[Node],
    exit_of: Mapping[Node, str],
    shut: Collection[Point] = (),
) -> dict[str, dict[str, float]]:
    """For each exit, the last pieces of its vents by id, each with the area that reaches the open air by it.

    `exit_of` gives the exit that each waste node drains to, `shut` the points where vents end in valves.
    """
    pieces = [piece for piece in pieces if piece.end in aired]
    following = onward(pieces, aired)
    waiting: dict[Node, int] = {}
    for piece in pieces:
        waiting[piece.end] = waiting.get(piece.end, 0) + 1
    ready = [piece for piece in pieces if piece.start not in waiting]
    leaving: dict[Node, list[D]] = {}
    for piece in pieces:
        leaving.setdefault(piece.start, []).append(piece)
    coming: dict[str, dict[str, float]] = {}
    found: dict[str, dict[str, float]] = {}
    for piece in ready:
        own = area(size(piece))
        here = coming.get(piece.id, {})
        if piece.start in exit_of:
            here = {**here, exit_of[piece.start]: own}
        above = following[piece.id]
        for exit_id, wide in here.items():
            passed = min(own, wide)
            if above is not None:
                into = coming.setdefault(above.id, {})
                into[exit_id] = into.get(exit_id, 0.0) + passed
            elif (piece.end.x, piece.end.y) not in shut:
                found.setdefault(exit_id, {})[piece.id] = passed
        waiting[piece.end] -= 1
        if not waiting[piece.end]:
            ready.extend(leaving.get(piece.end, ()))
    return found
