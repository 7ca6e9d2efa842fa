"""The shopping list as one trip: grouped as a store is walked, with spares, less what is there, and what people forget."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain

from engine.checks.model import Model
from engine.plan.records import Plan
from engine.takeoff.records import Bought, ShoppingLine, Trip, TripLine, TripStop
from engine.trade import fixtures as trade
from engine.trade import stock
from engine.trade.facts import table
from engine.trade.fittings import KINDS
from engine.trade.forgotten import check_list
from engine.trade.pipe import label, nominal

PIPE = "Drain pipe"
DRAINS = "Drain fittings"
VENTS = "Vents and roof"
FIXTURES = "At the fixtures: closet, tub, shower, sinks"
WATER = "Water: tube, fittings, rings, valves"
CEMENT = "Cement and primer"
FASTENINGS = "Straps, blocks, plates, screws"
TO_THE_GROUND = "From the floor to the ground"
BORING = "Bits and saws for every hole"
INSULATION = "Insulation and tape"

_PLACES: dict[str, tuple[str, ...]] = {
    VENTS: ("vent_flashing", "aav_adapter", "admittance_valve", "vent_quarter_bend"),
    FIXTURES: (
        "closet_flange_4x3",
        "closet_flange_hub",
        "closet_bend",
        "closet_bolts",
        "flange_screws",
        "closet_seal",
        "waste_and_overflow",
        "shower_drain",
        "washer_box",
        "tubular_trap",
        "continuous_waste",
        "branch_tailpiece",
        "hose_clamp",
        "air_gap_fitting",
        "standpipe_tee",
        "slip_washer",
        "trap_adapter_spigot",
        "trap_adapter_hub",
    ),
    CEMENT: ("cement", "primer", "applicator"),
    FASTENINGS: (
        "block_lumber",
        "hung_strap",
        "drain_strap",
        "stack_guide",
        "sway_brace",
        "tube_hook",
        "tube_bend_support",
        "shield_plate",
        "plate_tie",
        "fireblock_sealant",
        "hanger_screws",
        "tie_nails",
    ),
    TO_THE_GROUND: ("wall_sleeve", "sleeve_sealant", "frost_box", "heat_cable"),
    INSULATION: ("sleeve", "seam_tape", "thread_tape"),
    BORING: ("boring_tool",),
}
_PLACE_OF = {kind: place for place, kinds in _PLACES.items() for kind in kinds}
_NO_SPARES = (
    "pipe",
    "tube",
    "cement",
    "primer",
    "applicator",
    "sleeve",
    "seam_tape",
    "thread_tape",
    "hung_strap",
    "block_lumber",
    "wall_sleeve",
    "sleeve_sealant",
    "fireblock_sealant",
    "frost_box",
    "heat_cable",
    "boring_tool",
)
"""Kinds that are bought by length or by the can: what they need beyond the sum is in their count."""

_SLACK = 1e-9


@dataclass(slots=True)
class _Sum:
    """Lines of one part and size, drawn together whatever system they are for."""

    first: ShoppingLine
    place: str
    need: int = 0
    systems: dict[str, None] = field(default_factory=dict)
    whys: dict[str, None] = field(default_factory=dict)
    price: float | None = None


def trip(model: Model, lines: Sequence[ShoppingLine], bought: Sequence[Bought]) -> Trip:
    """The list of a plan: `lines` besides pipe and tube, `bought` the sticks and coils."""
    plan, book = model.plan, model.book
    sums: dict[tuple[str, str], _Sum] = {}
    for line, place, price in chain(_pipes(model, bought), _others(lines)):
        made = sums.setdefault((line.part, line.size), _Sum(line, place))
        made.need += line.count
        made.systems[line.system] = None
        made.price = price
        if line.why:
            made.whys[line.why] = None
    there = {(thing.part, thing.size): thing.count for thing in plan.on_hand}
    stops: dict[str, list[TripLine]] = {}
    for key, made in sums.items():
        stops.setdefault(made.place, []).append(_line(plan, made, there.get(key, 0)))
    unknown = tuple(f"{part} {size}".rstrip() for part, size in there if (part, size) not in sums)
    return Trip(
        f"Made under {book.title} ({book.short}). Another rule book asks for other fittings and sizes: with it this list "
        "changes too.",
        tuple(TripStop(title, tuple(_walked(stops[title]))) for title in sorted(stops, key=_order)),
        tuple(line.words for line in check_list(_job(model))),
        unknown,
    )


def spares_of(plan: Plan, kind: str, need: int) -> int:
    """How many of a kind to buy beyond what is needed: the plan's share, rounded up; none of pipe or of dear parts."""
    dear = table("allowances").text("spares", "none of").split()
    if kind in _NO_SPARES or kind in dear:
        return 0
    return math.ceil(plan.spares * need - _SLACK)


def _line(plan: Plan, made: _Sum, on_hand: int) -> TripLine:
    first = made.first
    spares = spares_of(plan, first.kind, made.need)
    left = max(0, made.need + spares - on_hand)
    return TripLine(
        part=first.part,
        size=first.size,
        unit=first.unit,
        need=made.need,
        spares=spares,
        on_hand=on_hand,
        systems=tuple(made.systems),
        why="; ".join(made.whys),
        source=first.source,
        kind=first.kind,
        price=None if made.price is None else made.price * left,
    )


def _pipes(model: Model, bought: Sequence[Bought]) -> Iterator[tuple[ShoppingLine, str, float | None]]:
    """Sticks and coils, each length of a size a line, with the price of one."""
    coils = {entry.length for entry in stock.lengths("tube", "coil")}
    for entry in bought:
        prices = {stick.length: stick.price for stick in model.plan.sticks if nominal(stick.size) == entry.size}
        is_tube = entry.material == "PEX"
        for length, count in entry.plan.counts:
            form = "coil" if is_tube and length in coils else "stick"
            name = f"{entry.material} {'tube' if is_tube else 'pipe'}, {length / 12.0:g} ft {form}"
            proof = "" if entry.plan.cheapest_proven else "; that no other choice is cheaper is not proven"
            why = f"cut as the sheet of sticks shows{proof}"
            kind, system = ("tube", "cold") if is_tube else ("pipe", "waste")
            line = ShoppingLine(name, label(entry.size), count, form, system, why, "", kind)
            yield line, WATER if is_tube else PIPE, None if is_tube else prices.get(length)


def _others(lines: Sequence[ShoppingLine]) -> Iterator[tuple[ShoppingLine, str, float | None]]:
    return ((line, _place(line), None) for line in lines)


def _place(line: ShoppingLine) -> str:
    """Where in the store a line is found; drain fittings hang by their largest hub."""
    if line.kind in _PLACE_OF:
        return _PLACE_OF[line.kind]
    if line.system in ("cold", "hot"):
        return WATER
    if line.system == "vent":
        return VENTS
    if not line.size:
        return DRAINS
    return f"{DRAINS}, {label(max(nominal(part) for part in line.size.split('x')))} in"


def _order(title: str) -> tuple[int, float, str]:
    """Pipe, drain fittings from the largest down, then the other stops as they are walked."""
    after = (VENTS, FIXTURES, WATER, CEMENT, FASTENINGS, TO_THE_GROUND, INSULATION, BORING)
    if title == PIPE:
        return (0, 0.0, "")
    if title in after:
        return (2 + after.index(title), 0.0, "")
    size = title.removeprefix(DRAINS).strip(", ").removesuffix(" in")
    return (1, -nominal(size) if size else 0.0, title)


def _walked(lines: Iterable[TripLine]) -> list[TripLine]:
    """Pipe and tube first, then fittings by name, then what is no fitting."""
    return sorted(
        lines,
        key=lambda line: (
            line.kind not in ("pipe", "tube"),
            line.kind not in KINDS and not line.kind.startswith("tube_"),
            line.part if line.kind not in ("pipe", "tube") else "",
        ),
    )


def _job(model: Model) -> set[str]:
    """What kinds of things the job has, as the check list names them."""
    plan = model.plan
    job = {fixture.kind.split("_")[-1] for fixture in plan.fixtures}
    if any(piece.system == "waste" for piece in model.joinery.pieces):
        job |= {"drains", plan.material}
    if any(part.kind == "vent_flashing" for part in model.joinery.parts):
        job.add("roof")
    if any(trade.fixture(fixture.kind).outlet == "wall" for fixture in plan.fixtures):
        job.add("sinks")
    job |= {fixture.kind for fixture in plan.fixtures}
    if any(fixture.kind == "washer_standpipe" and fixture.through is None for fixture in plan.fixtures):
        job.add("washer")
    if any(fixture.disposer for fixture in plan.fixtures):
        job.add("disposer")
    if plan.supplies:
        job.add("water")
    if any(made.bit for made in model.cuts):
        job.add("bores")
    return job
