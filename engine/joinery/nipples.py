"""Traps smaller than their arms: a nipple of the trap's size, and the reducer that brings it up to the arm's pipe.

A cemented trap has hubs of its own size only. So a short piece stands in its outlet, and a reducer coupling on that;
the arm's pipe begins there.
"""

from __future__ import annotations

import msgspec

from engine.joinery.patterns import softer
from engine.joinery.pieces import along, midway, showing
from engine.joinery.records import Part, Piece, Port, Space
from engine.joinery.shop import Shop
from engine.lengths import inches
from engine.piping.records import Node
from engine.trade.habits import SAW, SHOWING
from engine.trade.pipe import drain, label

NIPPLE_TO = "brings the trap up to the arm's pipe"
"""What the list says of the reducer on a trap's nipple."""


def fit(shop: Shop, pieces: list[Piece]) -> list[Piece]:
    """The pieces with each arm that is wider than its trap begun by a nipple and a reducer."""
    outlets = {
        part.id: (index, number)
        for index, part in enumerate(shop.parts)
        if part.kind == "p_trap"
        for number, port in enumerate(part.ports)
        if port.role == "outlet"
    }
    done: list[Piece] = []
    for piece in pieces:
        seat = outlets.get(piece.from_part or "")
        if seat is None or shop.parts[seat[0]].ports[seat[1]].size >= piece.size:
            done.append(piece)
        else:
            done.extend(_begin(shop, piece, seat))
    return done


def _begin(shop: Shop, piece: Piece, seat: tuple[int, int]) -> list[Piece]:
    trap = shop.parts[seat[0]]
    port = trap.ports[seat[1]]
    small = shop.take_off("reducer_coupling", (piece.size, port.size), "run_out")
    large = shop.take_off("reducer_coupling", (piece.size, port.size), "run_in")
    sockets = drain(port.size).socket, drain(piece.size).socket
    long = 2.0 * sockets[0] + SHOWING
    taken = long + small.length + large.length
    least = piece.least - sockets[0] + sockets[1]
    left = piece.cut - taken
    if left < least:
        _no_room(shop, piece, trap, port, least - left)
        return [msgspec.structs.replace(piece, note="no room for this piece")]
    middle = port.takeoff.length + long + small.length
    centre = along(piece, middle)
    index = shop.add(
        "reducer_coupling",
        (piece.size, port.size),
        "waste",
        Node(centre[0], centre[1], centre[2]),
        (
            Port("run_in", piece.pipes[0], _back(port.toward), port.size, "hub", small, sockets[0]),
            Port("run_out", piece.pipes[0], port.toward, piece.size, "hub", large, sockets[1]),
        ),
        centre=centre,
        elements=trap.elements,
        note=NIPPLE_TO,
    )
    reducer = shop.parts[index].id
    nipple = msgspec.structs.replace(
        piece,
        size=port.size,
        pipes=piece.pipes[:1],
        end=centre,
        axis=middle,
        cut=long,
        tolerance=SAW,
        rests_on="derived",
        to_part=reducer,
        least=2.0 * sockets[0],
        note="",
    )
    rest = msgspec.structs.replace(
        piece,
        start=centre,
        axis=piece.axis - middle,
        cut=left,
        tolerance=piece.tolerance + SAW + small.tolerance + large.tolerance,
        rests_on=softer(softer(piece.rests_on, small.standing), large.standing),
        from_part=reducer,
        least=least,
        note=showing(left - least) if piece.to_part is not None else "",
    )
    return [nipple, rest]


def _no_room(shop: Shop, piece: Piece, trap: Part, port: Port, short: float) -> None:
    shop.fault(
        "no-room",
        trap.elements,
        midway(piece.start, piece.end),
        f"No room in the arm of {trap.elements[0]} to bring its {label(port.size)} in trap up to {label(piece.size)} in "
        f"pipe: nipple and reducer need {inches(short)} in more.",
        piece.axis,
        piece.axis + short,
        "in",
        f"Draw the arm longer, or make it {label(port.size)} in.",
    )


def _back(toward: Space) -> Space:
    return (-toward[0], -toward[1], -toward[2])
