"""What each pipe carries, and how big it must be.

A pipe's load is the sum of the fixture units above it. An automatic size is the least that the book allows
and a store stocks: no smaller than any trap or pipe upstream, big enough by both the branch table and the
building-drain table (the stack table when plumb), a closet's least drain, the wet-vent table where the pipe brings
air to another trap, and what the book asks of a fixture's drain past its arm. A table that the book lacks asks
nothing. Where the book wants arms of their traps' size, they have it whatever they carry.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import takewhile

from engine.piping.records import Node, Trap
from engine.piping.sticks import Stick, Sticks
from engine.piping.venting import dry_at
from engine.piping.web import Web
from engine.plan.records import Plan
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade
from engine.trade.habits import CLOSET_HORN, LEAST_STOCKED_DRAIN
from engine.trade.pipe import DRAIN_SIZES, label

STOCKED = tuple(size for size in DRAIN_SIZES if size >= LEAST_STOCKED_DRAIN)

SLOPES = (("1/2", 0.5), ("1/4", 0.25), ("1/8", 0.0))
"""The building-drain table's columns, steepest first, each with the least slope that it is for, in per ft."""
TABLES = ("load.branch", "load.stack", "wet_vent.load", *(f"load.building_drain.{text}" for text, _ in SLOPES))
"""The tables of fixture units that a drain's size may have to satisfy."""


def spread_loads(plan: Plan, book: RuleBook, made: Sticks, web: Web) -> None:
    """Give every waste stick the fixtures it carries and their fixture units, upstream first."""
    units = {f.id: book.number(f"dfu.{f.kind}") for f in plan.fixtures if book.has(f"dfu.{f.kind}")}
    sources: dict[Node, list[str]] = {}
    for fixture, node in made.outlets.items():
        sources.setdefault(node, []).append(fixture)
    for stick in web.order:
        carried = list(sources.get(stick.start, ()))
        for above in web.inflow.get(stick.start, ()):
            carried.extend(above.carries)
        stick.carries = tuple(dict.fromkeys(carried))
        stick.load = sum(units.get(fixture, 0.0) for fixture in stick.carries)


def least_by_table(book: RuleBook, prefix: str, load: float, floor: float) -> float | None:
    """The smallest stocked size, at least `floor`, whose row of a table carries the load."""
    for size in STOCKED:
        if size < floor:
            continue
        key = f"{prefix}.{label(size)}"
        if book.has(key) and book.number(key) >= load:
            return size
    return None


def slope_column(slope: float) -> str:
    """The building-drain table's column for a slope: the steepest that it reaches, else the flattest."""
    return next((text for text, least in SLOPES if slope >= least), SLOPES[-1][0])


def size_waste(
    plan: Plan, book: RuleBook, made: Sticks, web: Web, traps: tuple[Trap, ...], air: dict[str, str]
) -> None:
    """Settle every waste stick's size, upstream first."""
    closets = {f.id for f in plan.fixtures if trade.fixture(f.kind).outlet == "closet"}
    trap_of = {trap.fixture: trap.size for trap in traps}
    arms = {trap.arm[0]: trap.fixture for trap in traps if trap.arm and trade.fixture(trap.kind).outlet == "wall"}
    level_arms = _level_arms(web, traps)
    as_trap = book.says("trap_arm.as_trap")
    past_arm = {f.id: book.number(key) for f in plan.fixtures if book.has(key := f"after_arm.least.{f.kind}")}
    tables = {row for row in TABLES if book.speaks_of(row)}
    wet = _wet_vents(web, traps)
    least_closet = book.number("closet.least_drain")
    horns = _horns(plan, closets)
    stocked = STOCKED[0]
    for stick in web.order:
        if stick.fixture is not None and arms.get(stick.id) == stick.fixture:
            stick.final_size = trap_of[stick.fixture]
            continue
        if stick.id in horns:
            stick.final_size = CLOSET_HORN
            continue
        if stick.size is not None:
            stick.final_size = stick.size
            continue
        arm_of = level_arms.get(stick.id)
        if as_trap and arm_of is not None:
            stick.final_size = max(stocked, trap_of[arm_of])
            continue
        least = stocked
        for above in web.inflow.get(stick.start, ()):
            least = max(least, above.final_size if above.id not in horns else least_closet)
        for fixture in stick.carries:
            least = max(least, trap_of.get(fixture, 0.0), least_closet if fixture in closets else 0.0)
            if fixture != arm_of:
                least = max(least, past_arm.get(fixture, 0.0))
        if stick.shape == "level":
            rows = ["load.branch", f"load.building_drain.{slope_column(stick.slope)}"]
        else:
            rows = ["load.stack"]
        if stick.id in wet:
            rows.append("wet_vent.load")
        for row in rows:
            if row not in tables:
                continue
            least = max(least, least_by_table(book, row, stick.load, least) or STOCKED[-1])
        stick.final_size = least


def _horns(plan: Plan, closets: set[str]) -> set[str]:
    """The closet drops that are the wide upright end of a closet bend; it is no reduction of the drain below it."""
    bends = {pin.at for pin in plan.fittings if pin.pattern == "closet_bend" and pin.level == "under"}
    return {f"{f.id}.drop" for f in plan.fixtures if f.id in closets and f.at in bends}


def _level_arms(web: Web, traps: tuple[Trap, ...]) -> dict[str, str]:
    """The level sticks of each trap's arm, down to where it first drops, with the fixture; closets have no arm."""
    by_id = {stick.id: stick for stick in web.order}
    found: dict[str, str] = {}
    for trap in traps:
        if trap.size:
            level = takewhile(lambda stick: by_id[stick].shape == "level", trap.arm)
            found.update(dict.fromkeys(level, trap.fixture))
    return found


def _wet_vents(web: Web, traps: tuple[Trap, ...]) -> set[str]:
    """The sticks that bring air to a wet-vented trap: from its arm's end up to the dry vent's connection."""
    wet: set[str] = set()
    ends = {trap.ends for trap in traps if trap.method is not None and trap.ends is not None}
    arms = {stick for trap in traps for stick in trap.arm}
    for trap in traps:
        if trap.method is None or trap.ends is None or trap.ends in web.dry:
            continue
        queue: list[Stick] = [s for s in web.inflow.get(trap.ends, ()) if s.id not in trap.arm]
        while queue:
            stick = queue.pop()
            if stick.id in wet or (stick.id in arms and stick.start not in ends):
                continue
            wet.add(stick.id)
            if stick.start not in web.dry:
                queue.extend(web.inflow.get(stick.start, ()))
    return wet


def size_vents(book: RuleBook, web: Web, made: Sticks, traps: tuple[Trap, ...], air: dict[str, str]) -> None:
    """Settle every dry stick's size, never under the book's least nor the store's.

    It is half the drain that it serves, and where the book asks for such a thing enough for the fixture units and
    the closets that it serves. A vent that others join serves what they serve.
    """
    fraction, least = book.number("vent.fraction_of_drain"), book.number("vent.least")
    drain_at: dict[Node, float] = {}
    for node in web.dry:
        sizes = [stick.final_size for stick in web.inflow.get(node, ())]
        if node in web.outflow:
            sizes.append(web.outflow[node].final_size)
        if sizes:
            drain_at[node] = max(sizes)
    by_id = {stick.id: stick for stick in web.order}
    feet: dict[str, Stick] = {}
    for stick in (stick for node in drain_at for stick in web.dry[node] if stick.end in web.aired):
        feet.setdefault(stick.element, stick)
    served: dict[str, list[Trap]] = {}
    for trap in traps:
        for stick in _airway(web, feet.get(_source(web, air, trap) or "")):
            served.setdefault(stick.id, []).append(trap)
    for stick in made.all:
        if stick.system != "vent":
            continue
        if stick.size is not None:
            stick.final_size = stick.size
            continue
        here = served.get(stick.id, [])
        drain = max([drain_at.get(stick.start, 0.0), *(by_id[trap.arm[-1]].final_size for trap in here if trap.arm)])
        want = max(drain * fraction, least, _asked_of_vent(book, here))
        stick.final_size = next((s for s in STOCKED if s >= want), STOCKED[-1])


def _source(web: Web, air: dict[str, str], trap: Trap) -> str | None:
    """The dry element from which air comes to the end of a trap's arm; None where none does."""
    if trap.ends is None:
        return None
    wet = (air[stick.id] for stick in web.inflow.get(trap.ends, ()) if stick.id in air)
    return dry_at(web, trap.ends) or next(wet, None)


def _airway(web: Web, foot: Stick | None) -> Iterator[Stick]:
    """The dry sticks from a vent's foot to the open air, in that order."""
    stick = foot
    while stick is not None:
        yield stick
        stick = next((onward for onward in web.dry.get(stick.end, ()) if onward.end in web.aired), None)


def _asked_of_vent(book: RuleBook, served: list[Trap]) -> float:
    """The least size that the book asks of a vent for what it serves, beyond half the drain; 0 where nothing."""
    least = 0.0
    if book.has("vent.closet_least") and any(trap.kind == "water_closet" for trap in served):
        least = book.number("vent.closet_least")
    if not book.speaks_of("vent.load"):
        return least
    units = sum(book.number(key) for trap in served if book.has(key := f"dfu.{trap.kind}"))
    return least_by_table(book, "vent.load", units, least) or STOCKED[-1]
