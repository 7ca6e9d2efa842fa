"""What each pipe carries, and how big it must be.

A pipe's load is the sum of the fixture units above it. An automatic size is the least that the book allows
and a store stocks: no smaller than any trap or pipe upstream, big enough by both the branch table and the
building-drain table (the stack table when plumb), a closet's least drain, and the wet-vent table where the
pipe brings air to another trap.
"""

from __future__ import annotations

from engine.piping.records import Node, Trap
from engine.piping.sticks import Stick, Sticks
from engine.piping.web import Web
from engine.plan.records import Plan
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade
from engine.trade.habits import LEAST_STOCKED_DRAIN
from engine.trade.pipe import DRAIN_SIZES, label

STOCKED = tuple(size for size in DRAIN_SIZES if size >= LEAST_STOCKED_DRAIN)


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
    for text, least in (("1/2", 0.5), ("1/4", 0.25)):
        if slope >= least:
            return text
    return "1/8"


def size_waste(
    plan: Plan, book: RuleBook, made: Sticks, web: Web, traps: tuple[Trap, ...], air: dict[str, str]
) -> None:
    """Settle every waste stick's size, upstream first."""
    closets = {f.id for f in plan.fixtures if trade.fixture(f.kind).outlet == "closet"}
    trap_of = {trap.fixture: trap.size for trap in traps}
    arms = {trap.arm[0]: trap.fixture for trap in traps if trap.arm and trade.fixture(trap.kind).outlet == "wall"}
    wet = _wet_vents(web, traps)
    least_closet = book.number("closet.least_drain")
    stocked = STOCKED[0]
    for stick in web.order:
        if stick.fixture is not None and arms.get(stick.id) == stick.fixture:
            stick.final_size = trap_of[stick.fixture]
            continue
        if stick.size is not None:
            stick.final_size = stick.size
            continue
        least = stocked
        for above in web.inflow.get(stick.start, ()):
            least = max(least, above.final_size)
        for fixture in stick.carries:
            least = max(least, trap_of.get(fixture, 0.0), least_closet if fixture in closets else 0.0)
        if stick.shape == "level":
            rows = ["load.branch", f"load.building_drain.{slope_column(stick.slope)}"]
        else:
            rows = ["load.stack"]
        if stick.id in wet:
            rows.append("wet_vent.load")
        for row in rows:
            least = max(least, least_by_table(book, row, stick.load, least) or STOCKED[-1])
        stick.final_size = least


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


def size_vents(book: RuleBook, web: Web, made: Sticks, traps: tuple[Trap, ...]) -> None:
    """Settle every dry stick's size: half the drain it serves, never under the book's least nor the store's."""
    fraction, least = book.number("vent.fraction_of_drain"), book.number("vent.least")
    drain_at: dict[Node, float] = {}
    for node in web.dry:
        sizes = [stick.final_size for stick in web.inflow.get(node, ())]
        if node in web.outflow:
            sizes.append(web.outflow[node].final_size)
        if sizes:
            drain_at[node] = max(sizes)
    served: dict[str, float] = {}
    by_id = {stick.id: stick for stick in web.order}
    for trap in traps:
        if trap.vented_by is not None and trap.arm:
            served[trap.vented_by] = max(served.get(trap.vented_by, 0.0), by_id[trap.arm[-1]].final_size)
    for stick in made.all:
        if stick.system != "vent":
            continue
        if stick.size is not None:
            stick.final_size = stick.size
            continue
        drain = max(drain_at.get(stick.start, 0.0), served.get(stick.element, 0.0))
        want = max(drain * fraction, least)
        stick.final_size = next((s for s in STOCKED if s >= want), STOCKED[-1])
