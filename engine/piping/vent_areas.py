"""How wide all vents of a building drain are together, and which are enlarged where that is too little.

Each vent counts at its smallest section: what reaches the open air through a pipe is no more than the pipe's own area, and
no more than what comes into it. A valve opens to no air outdoors and does not count. Areas are of nominal sizes, sq in.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping

from engine.piping.records import Node
from engine.piping.sizes import STOCKED, Ask, DrainSize, VentSize
from engine.piping.sticks import Stick, Sticks
from engine.piping.vent_lengths import D
from engine.piping.web import Web
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


def enlarge(
    plan: Plan,
    web: Web,
    made: Sticks,
    exit_of: Mapping[Node, str],
    sizes: dict[str, VentSize],
    drains: dict[str, DrainSize],
) -> None:
    """Enlarge vents whose sizes were left open until those of each exit are together as wide as its required drain.

    The narrowest goes first, a size at a time and its whole way to the open air, never past the drain's own size.
    """
    dry = [stick for stick in made.all if stick.system == "vent" and stick.end in web.aired]
    shut = valves(plan)
    found = open_areas(dry, _size, web.aired, exit_of, shut)
    ways: dict[str, list[Stick]] = {}
    for stick, last in _lasts(dry, onward(dry, web.aired)):
        ways.setdefault(last, []).append(stick)
    for exit_id, node in made.exits.items():
        sewer = max((drains[s.id].required for s in web.inflow.get(node, ()) if s.id in drains), default=0.0)
        areas = dict(found.get(exit_id, {}))
        left = set(areas)
        while left and sum(areas.values()) < area(sewer):
            top = min(left, key=lambda last: (areas[last], list(areas).index(last)))
            _grow(ways[top], sizes, sewer)
            now = open_areas(ways[top], _size, web.aired, exit_of, shut)[exit_id][top]
            if now <= areas[top]:
                left.remove(top)
            areas[top] = now


def _size(stick: Stick) -> float:
    return stick.final_size


def _lasts(dry: list[Stick], following: dict[str, Stick | None]) -> Iterator[tuple[Stick, str]]:
    """Each stick with the id of the last one on its way to the open air."""
    known: dict[str, str] = {}
    for stick in dry:
        way, last = {stick.id: None}, stick.id
        while last not in known and (above := following[last]) is not None and above.id not in way:
            last = above.id
            way[last] = None
        last = known.get(last, last)
        known.update(dict.fromkeys(way, last))
        yield stick, last


def _grow(way: list[Stick], sizes: dict[str, VentSize], sewer: float) -> None:
    """Make the narrowest of the sticks whose sizes were left open a size larger, and those with it that are as narrow."""
    free = [stick for stick in way if stick.size is None and stick.final_size < sewer]
    if not free:
        return
    narrow = min(stick.final_size for stick in free)
    larger = next((size for size in STOCKED if size > narrow), narrow)
    for stick in free:
        if stick.final_size == narrow:
            stick.final_size = larger
            was = sizes[stick.id]
            ask = Ask("all vents together", larger, COVERS, listed=None, most=sewer)
            kept = tuple(one for one in was.asks if one.by != "all vents together")
            sizes[stick.id] = VentSize(
                was.pipe, was.serves, was.load, was.drain, was.length, was.level, was.required, larger, (*kept, ask)
            )
