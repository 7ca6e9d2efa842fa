"""Couplings: where a piece outlasts a stick, or is too long to be slid into its bores.

A rigid pipe enters a bored joist lengthwise only, so each piece must first lie wholly in one clear stretch of
its own line, with a little play: a bay between two joists. Where it is longer, it is cut in a bay, clear of the wood, as seldom as
can be, and each cut gets one coupling.
"""

from __future__ import annotations

import itertools
import math
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass

import msgspec

from engine.crossings.records import Crossing
from engine.framing.records import Framing, Joist
from engine.framing.rows import rows as rows_of
from engine.joinery.patterns import softest
from engine.joinery.pieces import along, showing
from engine.joinery.records import Piece, Port, Space, TakeOff
from engine.joinery.shop import Shop
from engine.piping.records import Node
from engine.trade import fittings
from engine.trade.habits import LAID_IN, SAW
from engine.trade.pipe import drain
from engine.trade.stock import longest_drain


def couple(shop: Shop, pieces: list[Piece], crossings: tuple[Crossing, ...], framing: Framing) -> list[Piece]:
    """The pieces with every coupling put in that their bores and the longest stick ask for."""
    bored: dict[str, list[Crossing]] = {}
    for crossing in crossings:
        if crossing.passing == "through" and crossing.bore is not None and crossing.straight:
            bored.setdefault(crossing.pipe, []).append(crossing)
    joists = {joist.id: joist for joist in framing.members}
    rows = rows_of(framing) if bored else {}
    done: list[Piece] = []
    for piece in pieces:
        wood = _wood_along(shop, piece, bored)
        free = _free_line(shop, piece, wood, joists, rows) - LAID_IN if wood else math.inf
        longest = min(free, longest_drain(shop.plan.sticks, piece.size))
        if piece.cut <= longest or piece.note.startswith("no room"):
            done.append(piece)
            continue
        done.extend(_split(shop, piece, longest, wood))
    return done


def _wood_along(shop: Shop, piece: Piece, bored: dict[str, list[Crossing]]) -> list[tuple[float, float, Crossing]]:
    """The bored stretches of a piece as distances along its axis from its start, in order."""
    found: list[tuple[float, float, Crossing]] = []
    base = 0.0
    for pipe_id in piece.pipes:
        pipe = shop.network.by_id.get(pipe_id)
        if pipe is None:
            continue
        grade = math.hypot(1.0, pipe.slope / 12.0)
        found += [(base + c.enters * grade, base + c.leaves * grade, c) for c in bored.get(pipe_id, ())]
        base += pipe.run * grade
    found.sort(key=lambda stretch: stretch[0])
    return found


def _free_line(
    shop: Shop,
    piece: Piece,
    wood: list[tuple[float, float, Crossing]],
    joists: dict[str, Joist],
    rows: dict[str, list[Joist]],
) -> float:
    """The longest clear stretch on the piece's line: between its bores, or from the outer ones to the next joist."""
    gaps = [b[0] - a[1] for a, b in itertools.pairwise(wood)]
    by_pipe = shop.network.by_id
    for (_, _, crossing), other in (
        (wood[0], wood[1] if len(wood) > 1 else None),
        (wood[-1], wood[-2] if len(wood) > 1 else None),
    ):
        joist = joists[crossing.joist]
        pipe = by_pipe[crossing.pipe]
        across = abs(pipe.heading[0] * joist.along[1] - pipe.heading[1] * joist.along[0]) or 1.0
        taken = other[2].joist if other is not None else None
        for near in _beside(rows.get(joist.field, []), joist, crossing):
            if near.id == taken or any(near.id == c.joist for _, _, c in wood):
                continue
            clear = _clear(joist, near) / across
            gaps.append(clear)
    return max(gaps, default=math.inf)


def _across(joist: Joist) -> float:
    return joist.start[0] if joist.along[1] else joist.start[1]


def _beside(row: list[Joist], joist: Joist, crossing: Crossing) -> Iterator[Joist]:
    """The joists next to this one on both sides, where the pipe crosses it."""
    if not joist.runs:
        return
    axis = 1 if joist.along[1] else 0
    at = bisect_left(row, _across(joist), key=_across)
    for step, place in ((-1, at - 1), (1, at + 1)):
        while 0 <= place < len(row):
            other = row[place]
            if other.start[axis] <= crossing.at[axis] <= other.end[axis] and other.id != joist.id:
                yield other
                break
            place += step


def _clear(a: Joist, b: Joist) -> float:
    """Clear distance between two parallel joists' faces, inches."""
    dx, dy = b.start[0] - a.start[0], b.start[1] - a.start[1]
    return abs(dx * a.along[1] - dy * a.along[0]) - (a.thickness + b.thickness) / 2.0


def _split(shop: Shop, piece: Piece, longest: float, wood: list[tuple[float, float, Crossing]]) -> list[Piece]:
    """Cut a piece as seldom as can be, each cut clear of the wood and, where it can be, in the middle of its bay."""
    half = fittings.takeoff("coupling", (piece.size, piece.size), "run_in", shop.plan.takeoffs)
    line = _line(shop, piece, longest, half.length, wood)
    stops: list[float] = []
    while line.last - line.end_of(stops) > longest:
        place = line.clear(min(line.end_of(stops) + longest + half.length, line.last - line.room_at_end))
        if place < (stops[-1] + line.room_between if stops else line.first + line.room_at_start):
            shop.fault(
                "cannot-be-threaded",
                tuple(dict.fromkeys(shop.network.by_id[p].element for p in piece.pipes)),
                piece.start,
                f"No piece of {piece.pipes[0]} can be slid into its bores: the bays leave {longest:.2f} in.",
                piece.cut,
                longest,
                "in",
                "Turn the run so that it crosses the joists squarely, or run it in a bay.",
            )
            return [piece]
        stops.append(place)
    return _cut_at(shop, piece, line.centred(stops), half)


@dataclass(slots=True, frozen=True)
class _Line:
    """A piece's axis from its first sawn end to its last, and what couplings on it must keep to.

    `half` is a coupling's centre to its stop. The rooms are the least that two hubs leave: from either end to
    a coupling's centre, and between two couplings. `keep_off` are the stretches where no coupling may stand.
    """

    first: float
    last: float
    longest: float
    half: float
    room_at_start: float
    room_at_end: float
    room_between: float
    keep_off: list[tuple[float, float]]

    def end_of(self, stops: list[float]) -> float:
        """Where the pipe begins that is not yet cut to length."""
        return stops[-1] + self.half if stops else self.first

    def clear(self, place: float) -> float:
        """The furthest place not past this one at which a coupling stands clear of every bore."""
        for a, b in reversed(self.keep_off):
            if a < place < b:
                place = a
        return place

    def centred(self, stops: list[float]) -> list[float]:
        """Each coupling moved toward the middle of its clear stretch as far as its neighbours' lengths allow."""
        moved = list(stops)
        for i in reversed(range(len(moved))):
            low = max((b for _, b in self.keep_off if b <= moved[i]), default=self.first)
            high = min((a for a, _ in self.keep_off if a >= moved[i]), default=self.last)
            final = i + 1 == len(moved)
            after = self.last if final else moved[i + 1] - self.half
            before = self.end_of(moved[:i])
            least = max(
                after - self.longest - self.half,
                moved[i - 1] + self.room_between if i else self.first + self.room_at_start,
            )
            most = min(
                before + self.longest + self.half,
                self.last - self.room_at_end if final else moved[i + 1] - self.room_between,
            )
            moved[i] = min(max((low + high) / 2.0, least), most)
        return moved


def _line(shop: Shop, piece: Piece, longest: float, half: float, wood: list[tuple[float, float, Crossing]]) -> _Line:
    socket = drain(piece.size).socket
    first, last = _ends(shop, piece)
    start = _port(shop, piece, 0).depth if piece.from_part is not None else 0.0
    end = _port(shop, piece, 1).depth if piece.to_part is not None else 0.0
    hub = half + socket
    return _Line(
        first=first,
        last=last,
        longest=longest,
        half=half,
        room_at_start=start + hub,
        room_at_end=end + hub,
        room_between=2.0 * hub,
        keep_off=[(a - hub, b + hub) for a, b, _ in wood],
    )


def _ends(shop: Shop, piece: Piece) -> tuple[float, float]:
    """The pipe's two sawn ends as distances along the axis from the first node."""
    off = _port(shop, piece, 0).takeoff.length if piece.from_part is not None else 0.0
    return off, off + piece.cut


def _port(shop: Shop, piece: Piece, end: int) -> Port:
    pipe = piece.pipes[0] if end == 0 else piece.pipes[-1]
    name = piece.from_part if end == 0 else piece.to_part
    part = shop.part(name)
    return next((p for p in part.ports if p.pipe == pipe), None) or next(p for p in part.ports if p.pipe is None)


def _cut_at(shop: Shop, piece: Piece, stops: list[float], half: fittings.Leg) -> list[Piece]:
    off = TakeOff(half.length, half.tolerance, half.standing, half.source)
    depth = drain(piece.size).socket
    first, last = _ends(shop, piece)
    marks = [first, *stops, last]
    made: list[Piece] = []
    previous = piece.from_part
    for i, (a, b) in enumerate(itertools.pairwise(marks)):
        final = i == len(stops)
        a_off = half.length if i else 0.0
        b_off = 0.0 if final else half.length
        start, end = along(piece, a), along(piece, b)
        name = piece.to_part
        if not final:
            toward: Space = tuple((q - p) / (piece.axis or 1.0) for p, q in zip(piece.start, piece.end, strict=True))  # type: ignore[assignment]
            back: Space = (-toward[0], -toward[1], -toward[2])
            ports = (
                Port("run_in", f"{piece.pipes[0]}~{i}", back, piece.size, "hub", off, depth),
                Port("run_out", f"{piece.pipes[-1]}~{i + 1}", toward, piece.size, "hub", off, depth),
            )
            part = shop.add(
                "coupling",
                (piece.size, piece.size),
                piece.system,
                Node(end[0], end[1], piece.end[2]),
                ports,
                centre=end,
                elements=tuple(
                    dict.fromkeys(shop.network.by_id[p].element for p in piece.pipes if p in shop.network.by_id)
                ),
            )
            name = shop.parts[part].id
        ends = [
            off if i else _port(shop, piece, 0).takeoff if previous is not None else None,
            off if not final else _port(shop, piece, 1).takeoff if name is not None else None,
        ]
        known = [end_off for end_off in ends if end_off is not None]
        cut = b - a - a_off - b_off
        least = depth * ((previous is not None) + (name is not None))
        made.append(
            msgspec.structs.replace(
                piece,
                start=start if i else piece.start,
                end=end if not final else piece.end,
                axis=(piece.axis if final else b) - (a if i else 0.0),
                cut=cut,
                tolerance=SAW + sum(end_off.tolerance for end_off in known),
                rests_on=softest(end_off.standing for end_off in known),
                from_part=previous,
                to_part=name,
                least=least,
                note=showing(cut - least) if len(known) == len(ends) else "",
            )
        )
        previous = name
    return made
