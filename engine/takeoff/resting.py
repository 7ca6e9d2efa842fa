"""What rests on which leg of which fitting: the cut pieces, the heights that fixtures allow, the spacings no pipe fills.

Read off the joinery's ports, so that it tells of the fittings of this job and of no others.
"""

from __future__ import annotations

from typing import NamedTuple

from engine.checks.model import Model
from engine.joinery.nipples import NIPPLE_TO
from engine.joinery.records import Joinery, Part, Port
from engine.joinery.shop import LEG_OF
from engine.piping.flow import is_under
from engine.plan.outline import listed
from engine.takeoff.partnames import named, size_words
from engine.trade import fixtures as trade
from engine.trade.fittings import KINDS, LegName, Size

BUSHING = "flush_bushing_addon"
"""The catalogue's name of what a flush bushing adds to its host."""


class LegOf(NamedTuple):
    """One leg of one fitting of the catalogue."""

    kind: str
    size: Size
    leg: LegName


class Resting:
    """The pieces and the heights that rest on each leg.

    `pieces` are marks, `order` all marks as the cut list has them; `holds` says in words what else
    hangs on a leg.
    """

    def __init__(self, model: Model) -> None:
        self.pieces: dict[LegOf, dict[str, None]] = {}
        self._holds: dict[LegOf, dict[str, dict[str, None]]] = {}
        self.order = tuple(piece.mark for piece in model.joinery.pieces)
        self._model = model
        self._by_id = {part.id: part for part in model.joinery.parts}
        self._hand_made = _hand_made(model.joinery, self._by_id)
        self._cuts()
        self._spacings()
        self._heights()

    def legs(self) -> set[LegOf]:
        """Every leg that something rests on."""
        return {*self.pieces, *self._holds}

    def holds(self, leg: LegOf) -> tuple[str, ...]:
        """What else hangs on a leg, in words: heights, weirs, spacings."""
        return tuple(f"{what} {listed(names)}" for what, names in self._holds.get(leg, {}).items())

    def _of(self, part: Part, port: Port) -> tuple[LegOf, ...]:
        """The legs that one opening's take-off is made of."""
        return (*own_legs(part, port), *self._hand_made.get(part.id, ()))

    def _cuts(self) -> None:
        """Every piece under the legs at its two ends; a nipple's legs count for the piece after it, its own length is set."""
        nipples = {
            piece.to_part: piece.mark
            for piece in self._model.joinery.pieces
            if piece.to_part is not None and self._by_id[piece.to_part].note == NIPPLE_TO
        }
        marks = {piece.mark for piece in self._model.joinery.pieces}
        ends: dict[str, list[tuple[Part, Port]]] = {}
        for bond in self._model.joinery.bonds:
            if bond.other in marks:
                part = self._by_id[bond.part]
                ends.setdefault(bond.other, []).append((part, part.ports[bond.port]))
        for piece in self._model.joinery.pieces:
            nipple = nipples.get(piece.from_part or "")
            if piece.mark in nipples.values():
                continue
            for part, port in (*ends.get(nipple or "", ()), *ends.get(piece.mark, ())):
                for leg in self._of(part, port):
                    self.pieces.setdefault(leg, {})[piece.mark] = None

    def _spacings(self) -> None:
        """Fittings glued one into the other: no pipe makes up what their legs are out by."""
        for bond in self._model.joinery.bonds:
            host, guest = self._by_id[bond.part], self._by_id.get(bond.other)
            if guest is None or not guest.ports or bond.port >= len(host.ports):
                continue
            hub, tip = host.ports[bond.port], guest.ports[bond.other_port]
            if tip.end != "spigot":
                continue
            legs = (*self._of(host, hub), *self._of(guest, tip))
            self._hold(legs, "the spacing, which no pipe makes up, between", f"{_named(host)} and {_named(guest)}")

    def _heights(self) -> None:
        """Closets, traps under the floor and the feet of risers bound the drain's height by their fittings' legs."""
        model = self._model
        fixtures = {fixture.id: fixture for fixture in model.plan.fixtures}
        openings: dict[str, list[tuple[Part, Port]]] = {}
        for part in model.joinery.parts:
            for port in part.ports:
                if port.pipe:
                    openings.setdefault(port.pipe, []).append((part, port))
        for pipe in model.network.pipes:
            if pipe.shape != "plumb" or is_under(pipe.start) or not is_under(pipe.end):
                continue
            fixture = fixtures.get(pipe.element)
            if fixture is not None and trade.fixture(fixture.kind).outlet != "closet":
                continue
            name = pipe.element if fixture is None else fixture.name or fixture.id
            for part, port in openings.get(pipe.id, ()):
                if fixture is None and port.toward[2] < 0.0 and not _usual_tee(part, pipe.size):
                    continue
                self._hold((*self._of(part, port), *self._plain_bend(part)), "how high the drain may lie under", name)
        self._foot_vents(openings)
        for trap in model.network.traps:
            fixture = fixtures[trap.fixture]
            for part, _ in openings.get(trap.arm[0], ()) if trap.weir and trap.arm else ():
                for port in part.ports if part.kind == "p_trap" else ():
                    if port.role == "outlet":
                        self._hold(
                            self._of(part, port), "the weir and the depth of the trap of", fixture.name or fixture.id
                        )

    def _foot_vents(self, openings: dict[str, list[tuple[Part, Port]]]) -> None:
        """An island's foot vent stands over its drain by the legs between them, and under the floor by the one above."""
        for pipe in self._model.network.pipes:
            if not pipe.island or pipe.shape != "plumb" or not (is_under(pipe.start) or is_under(pipe.end)):
                continue
            for part, port in openings.get(pipe.id, ()):
                if part.node[2] < 0.0:
                    self._hold(self._of(part, port), "how high the drain may lie under", pipe.island)

    def _plain_bend(self, part: Part) -> tuple[LegOf, ...]:
        """The bend that would stand in a street bend's place with pipe above it, where the job has one elsewhere."""
        plain = LegOf(KINDS[part.kind].street_of or "", part.size, "run_in")
        return (plain,) if any((other.kind, other.size) == plain[:2] for other in self._by_id.values()) else ()

    def _hold(self, legs: tuple[LegOf, ...], what: str, name: str) -> None:
        for leg in legs:
            self._holds.setdefault(leg, {}).setdefault(what, {})[name] = None


def own_legs(part: Part, port: Port) -> tuple[LegOf, ...]:
    """The legs that make up one opening's take-off: the part's own, and a bushing's where the pipe is smaller."""
    if part.kind not in KINDS:
        return ()
    kind = KINDS[part.kind]
    leg = LEG_OF[port.role]
    if part.kind == "reducer_coupling":
        return (LegOf(part.kind, part.size, "run_in" if port.size == part.size[0] else "run_out"),)
    if kind.street_of is not None:
        leg = "run_out" if port.end == "spigot" else "run_in"
    if part.kind == "coupling":
        leg = "run_in"
    own = LegOf(part.kind, part.size, leg)
    hub = part.size[kind.legs.index(leg)]
    if port.end == "hub" and port.size < hub and kind.end(leg) == "hub":
        return (own, LegOf(BUSHING, (port.size, hub), "run_in"))
    return (own,)


def _usual_tee(part: Part, size: float) -> bool:
    """Whether this is the tee that a riser's least height is reckoned with: a sanitary tee of the riser's own size."""
    return part.kind == "sanitary_tee" and set(part.size) == {size}


def _hand_made(joinery: Joinery, by_id: dict[str, Part]) -> dict[str, tuple[LegOf, ...]]:
    """For the two parts of each combination made by hand, the legs that set the wye back from its corner."""
    found: dict[str, tuple[LegOf, ...]] = {}
    for bond in joinery.bonds:
        wye, bend = by_id[bond.part], by_id.get(bond.other)
        if wye.kind != "wye" or bend is None or bend.kind != "street_eighth_bend":
            continue
        if wye.ports[bond.port].pipe is not None or bend.ports[bond.other_port].pipe is not None:
            continue
        back = (LegOf("wye", wye.size, "branch"), LegOf(bend.kind, bend.size, "run_out"))
        found[wye.id] = found[bend.id] = back
    return found


def _named(part: Part) -> str:
    return named(part.kind, size_words(part.size))
