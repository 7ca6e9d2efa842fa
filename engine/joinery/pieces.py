"""Cutting: every pipe between two fittings, from the axis distance less both take-offs."""

from __future__ import annotations

import math
from dataclasses import dataclass

import msgspec

from engine.joinery import street
from engine.joinery.legs import straight_on
from engine.joinery.patterns import softer
from engine.joinery.records import Bond, Piece, Port, Space, Standing, System
from engine.joinery.shop import Shop
from engine.lengths import inches
from engine.piping.records import Node, Pipe
from engine.trade.habits import SAW, SHOWING

HAIR = 1.0 / 128.0
"""Lengths this close count as equal, inches: below what a tape can tell."""

EXACT = 1e-9
"""Room for binary fractions in a comparison of lengths, inches."""

Seat = tuple[int, int] | None


class Stub(msgspec.Struct, frozen=True, gc=False):
    """A pipe that stands at a plan's edge and is not in the graph: a standpipe, the tail below the exit."""

    system: System
    size: float
    start: Space
    end: Space
    start_seat: Seat
    end_seat: Seat
    id: str


@dataclass(slots=True, frozen=True)
class Stretch:
    """What lies between two places where pipe ends: the pipes in it, its axis length, the seats of its ends.

    `order` puts it in its place among the marks.
    """

    system: System
    size: float
    pipes: tuple[str, ...]
    start: Space
    end: Space
    axis: float
    seats: tuple[Seat, Seat]
    order: tuple[object, ...]


def true_length(pipe: Pipe, heights: dict[Node, float]) -> float | None:
    """A pipe's axis length along its slope, inches; None when its height is not known."""
    if pipe.shape == "level":
        return pipe.run * math.hypot(1.0, pipe.slope / 12.0)
    a, b = heights.get(pipe.start), heights.get(pipe.end)
    if a is None or b is None:
        return None
    if pipe.shape == "inclined":
        return abs(a - b) / abs(math.sin(math.radians(pipe.climb))) if pipe.climb else None
    return abs(a - b)


def cut(shop: Shop, stubs: list[Stub]) -> list[Piece]:
    """Every piece, in the order of the marks: waste from the exit upstream, then vents."""
    stretches = [found for chain in _chains(shop) if (found := _from_chain(shop, chain)) is not None]
    stretches += [_from_stub(stub) for stub in stubs]
    apart = [stretch for stretch in stretches if not _close_up(shop, stretch)]
    made = [(stretch.order, _piece(shop, stretch)) for stretch in apart]
    made.sort(key=lambda pair: pair[0])
    return [piece for _, piece in made]


def _close_up(shop: Shop, stretch: Stretch) -> bool:
    """Join the two ends of a stretch by a street fitting where pipe has no room and it makes the distance."""
    start, end = stretch.seats
    if start is None or end is None:
        return False
    length, least = _between(shop, stretch)
    return length < least - HAIR and street.join(shop, start, end, stretch.axis)


def _between(shop: Shop, stretch: Stretch) -> tuple[float, float]:
    """The cut length of a stretch, and the least at which pipe reaches both stops."""
    ports = [port_at(shop, seat) for seat in stretch.seats if seat is not None]
    return stretch.axis - sum(port.takeoff.length for port in ports), sum(port.depth for port in ports)


def _order(shop: Shop, last: Pipe) -> tuple[object, ...]:
    foot = shop.heights.get(last.end, math.inf)
    return (0 if last.system == "waste" else 1, foot, last.end.x, last.end.y, last.id)


def _chains(shop: Shop) -> list[list[Pipe]]:
    """Pipes strung together through the vertices that need no fitting."""
    out: dict[Node, list[Pipe]] = {}
    into: dict[Node, list[Pipe]] = {}
    for pipe in shop.network.pipes:
        out.setdefault(pipe.start, []).append(pipe)
        into.setdefault(pipe.end, []).append(pipe)

    def passes(node: Node, a: Pipe, b: Pipe) -> bool:
        return (
            len(out.get(node, ())) + len(into.get(node, ())) == 2
            and a.system == b.system
            and a.size == b.size
            and (a.id, False) not in shop.seat
            and (b.id, True) not in shop.seat
            and a.shape == b.shape
            and straight_on(a, b)
        )

    chains: list[list[Pipe]] = []
    done: set[str] = set(shop.dead)
    for pipe in shop.network.pipes:
        if pipe.id in done:
            continue
        chain = [pipe]
        done.add(pipe.id)
        while (
            len(before := into.get(chain[0].start, [])) == 1
            and before[0].id not in done
            and passes(chain[0].start, before[0], chain[0])
        ):
            chain.insert(0, before[0])
            done.add(before[0].id)
        while (
            len(after := out.get(chain[-1].end, [])) == 1
            and after[0].id not in done
            and passes(chain[-1].end, chain[-1], after[0])
        ):
            chain.append(after[0])
            done.add(after[0].id)
        chains.append(chain)
    return chains


def _from_chain(shop: Shop, chain: list[Pipe]) -> Stretch | None:
    lengths = [true_length(pipe, shop.heights) for pipe in chain]
    if any(length is None for length in lengths):
        return None
    first, last = chain[0], chain[-1]
    end = shop.space(last.end)
    if last.shape == "plumb" and last.end in shop.tails:
        below = min(end[2], shop.tails[last.end])
        lengths.append(end[2] - below)
        end = (end[0], end[1], below)
    lengths.append(-_taken_by_roll(shop, last))
    return Stretch(
        first.system,
        first.size,
        tuple(pipe.id for pipe in chain),
        shop.space(first.start),
        end,
        sum(length for length in lengths if length is not None),
        (shop.seat.get((first.id, True)), shop.seat.get((last.id, False))),
        _order(shop, last),
    )


def _from_stub(stub: Stub) -> Stretch:
    order = (0, min(stub.start[2], stub.end[2]), stub.start[0], stub.start[1], stub.id)
    return Stretch(
        stub.system,
        stub.size,
        (stub.id,),
        stub.start,
        stub.end,
        math.dist(stub.start, stub.end),
        (stub.start_seat, stub.end_seat),
        order,
    )


def _taken_by_roll(shop: Shop, last: Pipe) -> float:
    """How much of a level run its rolled lower end takes: the plan length of the climb, along the slope."""
    for after in shop.network.graph.successors(last.end):
        pipe: Pipe = shop.network.graph.edges[last.end, after]["pipe"]
        if pipe.shape == "inclined" and pipe.run == 0.0 and pipe.element == last.element and last.shape == "level":
            a, b = shop.heights.get(pipe.start), shop.heights.get(pipe.end)
            if a is not None and b is not None and pipe.climb:
                return abs(a - b) / math.tan(math.radians(pipe.climb)) * math.hypot(1.0, last.slope / 12.0)
    return 0.0


def _piece(shop: Shop, stretch: Stretch) -> Piece:
    start_seat, end_seat = stretch.seats
    length, least = _between(shop, stretch)
    tolerance = SAW
    standing: Standing = "measured"
    for seat in stretch.seats:
        if seat is not None:
            takeoff = port_at(shop, seat).takeoff
            tolerance += takeoff.tolerance
            standing = softer(standing, takeoff.standing)
    if start_seat is None and end_seat is None:
        standing = "derived"
    note = ""
    if length < least - HAIR:
        _no_room(shop, stretch, stretch.axis - length + least)
        note = "no room for this piece"
    elif start_seat is not None and end_seat is not None:
        note = showing(length - least)
    names = [shop.parts[seat[0]].id if seat is not None else None for seat in stretch.seats]
    return Piece(
        "",
        stretch.system,
        stretch.size,
        shop.plan.material,
        stretch.pipes,
        stretch.start,
        stretch.end,
        stretch.axis,
        length,
        tolerance,
        standing,
        names[0],
        names[1],
        least,
        note,
    )


def showing(between: float) -> str:
    """The note on a piece that shows so much between two hubs; empty where that is enough to hold it by."""
    return f"only {max(between, 0.0):.2f} in shows between the hubs" if between < SHOWING - EXACT else ""


def _no_room(shop: Shop, stretch: Stretch, need: float) -> None:
    start, end = stretch.seats
    elements = [shop.network.by_id[pipe].element for pipe in stretch.pipes if pipe in shop.network.by_id]
    if not elements:
        elements = [one for seat in stretch.seats if seat is not None for one in shop.parts[seat[0]].elements]
    names = ", ".join(dict.fromkeys(elements))
    if start is not None and end is not None:
        what, mend = f"the two fittings of {names} need", street.words(shop, start, end)
        how = "centre to centre"
    else:
        what, mend = f"the fitting of {names} needs", "Draw it longer."
        how = "from its centre to the pipe's end"
    shop.fault(
        "no-room",
        tuple(dict.fromkeys(elements)),
        midway(stretch.start, stretch.end),
        f"{what[:1].upper()}{what[1:]} {inches(need)} in {how}; there are {inches(stretch.axis)} in.",
        stretch.axis,
        need,
        "in",
        mend,
    )


def along(piece: Piece, distance: float) -> Space:
    """The point so far along a piece from its start, inches."""
    share = distance / piece.axis if piece.axis else 0.0
    a, b = piece.start, piece.end
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share)


def midway(a: Space, b: Space) -> Space:
    """The point halfway between two."""
    return ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0, (a[2] + b[2]) / 2.0)


def port_at(shop: Shop, seat: tuple[int, int]) -> Port:
    """The port that a seat names."""
    return shop.parts[seat[0]].ports[seat[1]]


def mark_and_bond(shop: Shop, pieces: list[Piece]) -> list[Piece]:
    """Give every piece its mark, and bond its ends to the parts it enters."""
    counts = {"waste": 0, "vent": 0}
    letters = {"waste": "D", "vent": "V"}
    number = {part.id: i for i, part in enumerate(shop.parts)}
    marked: list[Piece] = []
    for piece in pieces:
        counts[piece.system] += 1
        mark = f"{letters[piece.system]}{counts[piece.system]}"
        marked.append(msgspec.structs.replace(piece, mark=mark))
        for end, part in enumerate((piece.from_part, piece.to_part)):
            if part is None:
                continue
            port = _port_of(shop, number[part], piece, end)
            shop.bonds.append(Bond(part, port, mark, end, piece.size))
    return marked


def _port_of(shop: Shop, part: int, piece: Piece, end: int) -> int:
    pipe = piece.pipes[0] if end == 0 else piece.pipes[-1]
    found = [i for i, port in enumerate(shop.parts[part].ports) if port.pipe == pipe]
    if shop.parts[part].kind == "coupling" or len(found) > 1:
        return 1 - end
    if found:
        return found[0]
    return next((i for i, port in enumerate(shop.parts[part].ports) if port.pipe is None), end)
