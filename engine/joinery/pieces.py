"""Cutting: every pipe between two fittings, from the axis distance less both take-offs."""

from __future__ import annotations

import math
from dataclasses import dataclass

import msgspec

from engine.joinery.patterns import softer
from engine.joinery.records import Bond, Piece, Port, Space
from engine.joinery.shop import Shop
from engine.piping.records import Node, Pipe
from engine.trade.habits import SAW, SHOWING
from engine.trade.pipe import drain

HAIR = 1.0 / 128.0
"""Lengths this close count as equal, inches: below what a tape can tell."""

Seat = tuple[int, int] | None


@dataclass(slots=True, frozen=True)
class Stub:
    """A pipe that stands at a plan's edge and is not in the graph: a standpipe, the tail below the exit."""

    system: str
    size: float
    start: Space
    end: Space
    start_seat: Seat
    end_seat: Seat
    id: str


def true_length(pipe: Pipe, heights: dict[Node, float]) -> float | None:
    """A pipe's axis length along its slope, inches; None when its height is not known."""
    if pipe.shape == "level":
        return pipe.run * math.hypot(1.0, pipe.slope / 12.0)
    a, b = heights.get(pipe.start), heights.get(pipe.end)
    if a is None or b is None:
        return None
    return math.hypot(pipe.run, a - b)


def cut(shop: Shop, stubs: list[Stub]) -> list[Piece]:
    """Every piece, in the order of the marks: waste from the exit upstream, then vents."""
    chains = _chains(shop)
    made: list[tuple[tuple[object, ...], Piece]] = []
    for chain in chains:
        piece = _from_chain(shop, chain)
        if piece is not None:
            made.append((_order(shop, chain[-1], piece), piece))
    for stub in stubs:
        length = math.dist(stub.start, stub.end)
        piece = _piece(shop, stub.system, stub.size, (stub.id,), stub.start, stub.end, length, stub.start_seat, stub.end_seat)
        made.append(((0, -math.inf if stub.id.endswith(".tail") else 0.0, stub.start[0], stub.start[1], stub.id), piece))
    made.sort(key=lambda pair: pair[0])  # type: ignore[arg-type,return-value]
    return [piece for _, piece in made]


def _order(shop: Shop, last: Pipe, piece: Piece) -> tuple[object, ...]:
    foot = shop.network.rise.get(last.end, 0.0 if last.system == "waste" else 1.0)
    return (0 if piece.system == "waste" else 1, foot if math.isfinite(foot) else 0.0, last.end.x, last.end.y, last.id)


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
        )

    chains: list[list[Pipe]] = []
    done: set[str] = set(shop.dead)
    for pipe in shop.network.pipes:
        if pipe.id in done:
            continue
        chain = [pipe]
        done.add(pipe.id)
        while len(before := into.get(chain[0].start, [])) == 1 and before[0].id not in done and passes(chain[0].start, before[0], chain[0]):
            chain.insert(0, before[0])
            done.add(before[0].id)
        while len(after := out.get(chain[-1].end, [])) == 1 and after[0].id not in done and passes(chain[-1].end, chain[-1], after[0]):
            chain.append(after[0])
            done.add(after[0].id)
        chains.append(chain)
    return chains


def _from_chain(shop: Shop, chain: list[Pipe]) -> Piece | None:
    lengths = [true_length(pipe, shop.heights) for pipe in chain]
    if any(length is None for length in lengths):
        return None
    first, last = chain[0], chain[-1]
    return _piece(
        shop, first.system, first.size, tuple(pipe.id for pipe in chain), shop.space(first.start), shop.space(last.end),
        sum(length for length in lengths if length is not None),
        shop.seat.get((first.id, True)), shop.seat.get((last.id, False)),
    )  # fmt: skip


def _piece(
    shop: Shop, system: str, size: float, pipes: tuple[str, ...], start: Space, end: Space, axis: float,
    start_seat: Seat, end_seat: Seat,
) -> Piece:  # fmt: skip
    length, tolerance, standing, least = axis, SAW, "measured", 0.0
    for seat in (start_seat, end_seat):
        if seat is None:
            continue
        port = port_at(shop, seat)
        length -= port.takeoff.length
        tolerance += port.takeoff.tolerance
        standing = softer(standing, port.takeoff.standing)
        least += port.depth
    if start_seat is None and end_seat is None:
        standing = "derived"
    names = [shop.parts[seat[0]].id if seat is not None else None for seat in (start_seat, end_seat)]
    note = ""
    if length < least - HAIR:
        elements = tuple(dict.fromkeys(shop.network.by_id[p].element for p in pipes if p in shop.network.by_id))
        have, need = axis, axis - length + least
        shop.fault(
            "no-room", elements, tuple((a + b) / 2.0 for a, b in zip(start, end, strict=True)),  # type: ignore[arg-type]
            f"No room: the two fittings of {', '.join(elements)} need {need:.2f} in centre to centre, there are {have:.2f} in.",
            have, need, "in", "Move them apart, or use a street fitting.",
        )  # fmt: skip
        note = "no room for this piece"
    elif start_seat is not None and end_seat is not None and length - least < SHOWING:
        note = f"only {max(length - least, 0.0):.2f} in shows between the hubs"
    return Piece(
        "", system, size, shop.plan.material, pipes, start, end, axis, length, tolerance,  # type: ignore[arg-type]
        standing, names[0], names[1], least, note,  # type: ignore[arg-type]
    )  # fmt: skip


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
    if shop.parts[part].kind == "coupling":
        return 1 - end
    pipe = piece.pipes[0] if end == 0 else piece.pipes[-1]
    for i, port in enumerate(shop.parts[part].ports):
        if port.pipe == pipe:
            return i
    return next((i for i, port in enumerate(shop.parts[part].ports) if port.pipe is None), end)
