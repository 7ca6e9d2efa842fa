"""Street fittings: a bend whose spigot goes straight into its neighbour's hub, where no pipe has room between.

Such a pair has one spacing only: the neighbour's take-off and the street bend's way from centre to tip.
"""

from __future__ import annotations

from dataclasses import dataclass

from engine.joinery.records import Bond, Port
from engine.joinery.shop import Shop
from engine.lengths import inches
from engine.trade import fittings
from engine.trade.kinds import KINDS

NEAR = 1.0 / 16.0
"""How far a spacing may be off the one that a street pair makes, inches: the tolerance of one laying length
(ASTM D3311, 3.1)."""

Seat = tuple[int, int]
STREETS = {kind.street_of: name for name, kind in KINDS.items() if kind.street_of is not None}
"""The street form of each bend that has one."""


@dataclass(slots=True, frozen=True)
class Pairing:
    """One way of joining two parts without pipe: the bend that becomes a street bend, and the spacing it makes."""

    bend: Seat
    host: Seat
    kind: str
    spacing: float


def pairings(shop: Shop, one: Seat, two: Seat) -> list[Pairing]:
    """The street pairs that two seated parts could make, closest spacing first."""
    found: list[Pairing] = []
    for bend, host in ((one, two), (two, one)):
        part, port = shop.parts[bend[0]], shop.parts[host[0]].ports[host[1]]
        kind = STREETS.get(part.kind)
        own = part.ports[bend[1]]
        if kind is None or port.end != "hub" or own.end != "hub" or own.size != port.size or max(part.size) != own.size:
            continue
        tip = fittings.takeoff(kind, part.size, "run_out", shop.plan.takeoffs)
        found.append(Pairing(bend, host, kind, port.takeoff.length + tip.length))
    return sorted(found, key=lambda pairing: pairing.spacing)


def join(shop: Shop, one: Seat, two: Seat, axis: float) -> bool:
    """Make the pair whose spacing is the one drawn. Returns whether there is one; the bench is changed if so."""
    for pairing in pairings(shop, one, two):
        if abs(pairing.spacing - axis) <= NEAR:
            _make(shop, pairing)
            return True
    return False


def _make(shop: Shop, pairing: Pairing) -> None:
    index, number = pairing.bend
    part, host = shop.parts[index], shop.parts[pairing.host[0]]
    ports = []
    for i, port in enumerate(part.ports):
        off = shop.take_off(pairing.kind, part.size, "run_out" if i == number else "run_in")
        end = "spigot" if i == number else "hub"
        ports.append(Port(port.role, port.pipe, port.toward, port.size, end, off, port.depth))  # type: ignore[arg-type]
    words = KINDS[host.kind].words if host.kind in KINDS else host.kind.replace("_", " ")
    shop.replace(index, kind=pairing.kind, ports=tuple(ports), note=f"its spigot goes into the {words}")
    shop.bonds.append(Bond(host.id, pairing.host[1], part.id, number, part.ports[number].size))


def words(shop: Shop, one: Seat, two: Seat) -> str:
    """What a street bend could do for two parts that are too close, as a mend."""
    found = pairings(shop, one, two)
    if not found:
        return "Move them apart."
    ways = " or ".join(f"{inches(p.spacing)} in apart for a {KINDS[p.kind].words}" for p in found)
    return f"Move them apart, or set them exactly {ways}."
