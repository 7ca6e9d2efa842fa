"""The sticks of drain pipe and the lengths of tube that a plan's pieces are cut from."""

from __future__ import annotations

import math

from msgspec.structs import replace

from engine.checks.model import Model
from engine.crossings.windows import mid_depth, supply_axis
from engine.drafting.finished import under_fixture
from engine.plan.records import Supply
from engine.takeoff.records import Bought, Cutting, StockLength
from engine.takeoff.sticks import sticks
from engine.takeoff.trimming import trims
from engine.trade import stock
from engine.trade.facts import table
from engine.trade.fixtures import fixture
from engine.trade.pipe import nominal


def buy(model: Model) -> tuple[Bought, ...]:
    """What to buy for every material and size: drain pipe in sticks, tube in coils or sticks.

    Sticks are those that the plan says the store sells, else the usual ones. Stubs and vents are bought as long as
    they are first sawn. A piece that two fittings leave no pipe for takes none. Offcuts are named as they come.
    """
    kerf, damaged = table("allowances").number("cutting", "kerf"), table("allowances").number("cutting", "damaged end")
    bought: list[Bought] = []
    pieces, longer = model.joinery.pieces, trims(model)
    for material, size in sorted({(piece.material, piece.size) for piece in pieces}):
        cuts = [
            Cutting(piece.mark, piece.cut + (longer[piece.mark].extra if piece.mark in longer else 0.0))
            for piece in pieces
            if (piece.material, piece.size) == (material, size) and piece.cut > 0.0
        ]
        lengths = [StockLength(*entry) for entry in stock.drain_sticks(model.plan.sticks, size)]
        bought.append(Bought(material, size, sticks(cuts, lengths, kerf, damaged), kerf, damaged))
    for size in sorted({nominal(supply.size) for supply in model.plan.supplies}):
        tubes = [supply for supply in model.plan.supplies if nominal(supply.size) == size]
        cuts = [Cutting(supply.id, tube_needed(model, supply)) for supply in tubes]
        lengths = [StockLength(entry.length) for form in ("stick", "coil") for entry in _tube(form)]
        bought.append(Bought("PEX", size, sticks(cuts, lengths, 0.0, 0.0)))
    return _named(bought)


def _named(bought: list[Bought]) -> tuple[Bought, ...]:
    """Every offcut worth keeping with a name of its own: R1, R2 and so on, over all sizes."""
    least = table("allowances").number("offcut", "worth keeping")
    number = 0
    named = []
    for entry in bought:
        made = []
        for stick in entry.plan.sticks:
            if stick.left >= least:
                number += 1
                stick = replace(stick, offcut=f"R{number}")
            made.append(stick)
        named.append(replace(entry, plan=replace(entry.plan, sticks=tuple(made))))
    return tuple(named)


def tube_needed(model: Model, supply: Supply) -> float:
    """Tube for one supply run, inches: its drawn length and rises to fixtures, with slack, and its two ends' trim."""
    facts = table("allowances")
    routed = routed_length(supply) + sum(rise for _, rise in rises(model, supply))
    return routed * (1.0 + facts.number("tube", "slack")) + 2.0 * facts.number("tube", "connection")


def routed_length(supply: Supply) -> float:
    """A supply run's drawn length in plan, inches."""
    return sum(math.dist(a, b) for a, b in zip(supply.points, supply.points[1:], strict=False))


def rises(model: Model, supply: Supply) -> list[tuple[str, float]]:
    """The fixtures that a supply run's ends come up to, and how far each end rises, inches.

    An end comes up to a fixture that takes this water and whose body it ends under or beside; other ends join
    another run or the inlet, and rise nowhere.
    """
    found: list[tuple[str, float]] = []
    down = -supply_axis(supply, mid_depth(model.framing))
    others = {point for other in model.plan.supplies if other.id != supply.id for point in other.points} | {
        inlet.at for inlet in model.plan.inlets
    }
    for end in (supply.points[0], supply.points[-1]):
        if end in others:
            continue
        near: list[tuple[float, str, float]] = []
        for placed in model.plan.fixtures:
            spec = fixture(placed.kind)
            takes = spec.cold if supply.water == "cold" else spec.hot or placed.kind == "water_heater"
            reach = max(placed.width or spec.width, placed.depth or spec.depth)
            if takes and spec.supply_above_floor is not None and math.dist(end, placed.at) <= reach:
                rise = down + under_fixture(model.plan, placed) + spec.supply_above_floor
                near.append((math.dist(end, placed.at), placed.id, rise))
        if near:
            _, name, rise = min(near)
            found.append((name, rise))
    return found


def _tube(form: str) -> tuple[stock.StockLength, ...]:
    return stock.lengths("tube", "coil" if form == "coil" else "stick")
