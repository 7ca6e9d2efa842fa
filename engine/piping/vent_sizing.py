"""How big each dry vent must be.

A vent is held to a share of the largest drain that the book requires of what it serves, whatever was bought; where several
join, to what they serve together; and to its length. A vent that others join serves what they serve. A vent that serves no
trap goes by the drain that it stands on. Where all vents together must be as wide as the sewer, whether one shall be larger
or another be added is the owner's choice: a rule tells, and no size is chosen for it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from engine.piping.loads import Loads
from engine.piping.records import Node, Trap, VentWay
from engine.piping.sizes import LADDER, STOCKED, Ask, DrainSize, VentSize, sizes_up, sold, table
from engine.piping.sticks import Stick, Sticks
from engine.piping.vent_lengths import VentRuns, airway, measure
from engine.piping.web import Web
from engine.plan.records import Plan
from engine.rulebooks import RuleBook
from engine.trade.pipe import DRAIN_SIZES, label


class _Served:
    """What comes through one dry stick: the fixtures, the largest drain, and from which feet."""

    __slots__ = ("drain", "feet", "fixtures", "stack")

    def __init__(self) -> None:
        self.fixtures: dict[str, None] = {}
        self.drain: tuple[float, str] = (0.0, "")
        self.stack = 0.0
        self.feet: set[str] = set()


def size_vents(
    plan: Plan,
    book: RuleBook,
    web: Web,
    made: Sticks,
    traps: tuple[Trap, ...],
    ways: tuple[VentWay, ...],
    loads: Loads,
    drains: dict[str, DrainSize],
    exit_of: dict[Node, str],
) -> dict[str, VentSize]:
    """Settle every dry stick's size; returns each one's least size with what asks for it."""
    served = _serve(book, web, traps, ways, drains)
    runs = measure(plan, book, web)
    closets = {trap.fixture for trap in traps if trap.kind == "water_closet"}
    sizes: dict[str, VentSize] = {}
    for stick in made.all:
        if stick.system != "vent":
            continue
        here = served.get(stick.id) or _standing(web, stick, drains)
        run = runs.get(stick.id) or VentRuns(0.0, 0.0)
        fixtures = tuple(here.fixtures)
        load = loads.together(fixtures).units
        asks = list(_asks(book, here, load, closets))
        asks += vent_length_asks(book, asks, run.length, run.level)
        required = max((ask.size for ask in asks), default=DRAIN_SIZES[0])
        asks.append(Ask("stocked", STOCKED[0]))
        least = max(required, STOCKED[0])
        sizes[stick.id] = VentSize(
            stick.id, fixtures, load, here.drain[0], run.length, run.level, required, least, tuple(asks)
        )
        stick.final_size = least if stick.size is None else stick.size
    return sizes


def _asks(book: RuleBook, here: _Served, load: float, closets: set[str]) -> Iterator[Ask]:
    """What the book asks of a vent for what it serves."""
    share, least = "vent.fraction_of_drain", "vent.least"
    drain, of = here.drain
    if drain:
        listed = book.number(share) * drain
        yield Ask("drain served", sold(listed), share, drain, element=of)
    if here.stack and book.says("stack_vent.same_size"):
        yield Ask("stack served", here.stack, "stack_vent.same_size", here.stack)
    yield Ask("least vent", sold(book.number(least)), least)
    if book.speaks_of("vent.load") and here.fixtures:
        yield table(book, "vent.load").ask(load, "vented load")
    elif len(here.feet) > 1 and book.says("vent.branch_by_drain") and book.speaks_of("load.branch"):
        needed = table(book, "load.branch").needed(load)
        would = sold(LADDER[-1] if needed is None else needed)
        yield Ask("vented load", sold(book.number(share) * would), "vent.branch_by_drain", load, would)
    closet = next((fixture for fixture in here.fixtures if fixture in closets), None)
    if closet is not None and book.has("vent.closet_least"):
        yield Ask("vent of a closet", sold(book.number("vent.closet_least")), "vent.closet_least", element=closet)


def vent_length_asks(book: RuleBook, asks: Iterable[Ask], length: float, level: float) -> Iterator[Ask]:
    """What a vent's length adds to what it would be otherwise: a size for a long run, or the table's lengths by size.

    `asks` are the other demands; `length` and `level` are inches. A vent so many sizes larger than it need be is let off
    the limit on its level part, where the book says so.
    """
    need = max((ask.listed or ask.size for ask in asks), default=DRAIN_SIZES[0])
    long_run, up = "vent.long_run", "vent.long_run_sizes_up"
    if book.has(long_run) and book.has(up) and length > book.number(long_run):
        listed = sizes_up(need, int(book.number(up)))
        yield Ask("length", sold(listed), long_run, length, book.number(long_run), listed=_unsold(listed))
    lengths = table(book, "vent.length")
    if not lengths.rows:
        return
    listed = lengths.needed(length) or LADDER[-1]
    size = sold(listed)
    yield Ask("length", size, f"vent.length.{label(size)}", length, lengths.at(size), listed=_unsold(listed))
    share, waived = "vent.level_share", "vent.level_waived_sizes_up"
    if not level or not book.has(share):
        return
    freed = sizes_up(need, int(book.number(waived))) if book.has(waived) else float("inf")
    for size, most in lengths.rows:
        if size >= need and (level <= most * book.number(share) or size >= freed):
            yield Ask("level length", sold(size), share, level, most * book.number(share), listed=_unsold(size))
            return
    yield Ask("level length", DRAIN_SIZES[-1], share, level)


def _unsold(size: float) -> float | None:
    """A size that the book gives and that can't be drawn."""
    return None if sold(size) == size else size


def _standing(web: Web, stick: Stick, drains: dict[str, DrainSize]) -> _Served:
    """What a vent goes by that serves no trap: the largest drain at its foot."""
    here = _Served()
    pipes = [*web.inflow.get(stick.start, ())]
    if stick.start in web.outflow:
        pipes.append(web.outflow[stick.start])
    for pipe in pipes:
        if pipe.id in drains:
            here.drain = max(here.drain, (drains[pipe.id].required, pipe.id))
    return here


def _serve(
    book: RuleBook, web: Web, traps: tuple[Trap, ...], ways: tuple[VentWay, ...], drains: dict[str, DrainSize]
) -> dict[str, _Served]:
    """What each dry stick serves, from every arrangement's foot up to the open air."""
    feet = _feet(web)
    trap_of = {trap.fixture: trap for trap in traps}
    sizes = {stick.id: stick.final_size for stick in web.order}
    served: dict[str, _Served] = {}
    for way in ways:
        foot = _foot(web, feet, way)
        if foot is None:
            continue
        largest = max(((drains[pipe].required, pipe) for pipe in _drains_of(way, trap_of)), default=(0.0, ""))
        stack = max((sizes[pipe] for pipe in way.pipes), default=0.0) if way.method == "waste stack vent" else 0.0
        names = dict.fromkeys((*([way.starter] if way.starter else []), *way.members))
        for stick in airway(foot, web.dry, web.aired):
            here = served.setdefault(stick.id, _Served())
            here.fixtures.update(names)
            here.drain = max(here.drain, largest)
            here.stack = max(here.stack, stack)
            here.feet.add(foot.id)
    return served


def _drains_of(way: VentWay, traps: dict[str, Trap]) -> Iterator[str]:
    """The drains that a vent serves by one arrangement: the wet part of a wet vent, else the fixtures' own, to the vent."""
    yield from way.pipes
    own = way.members if way.method not in ("horizontal wet vent", "vertical wet vent") else (way.starter,)
    for fixture in own:
        trap = traps.get(fixture)
        if trap is not None:
            yield from trap.beyond or trap.arm[-1:]


def _feet(web: Web) -> dict[str, Stick]:
    """The first dry stick that leaves the waste and leads to air, by the element it belongs to."""
    feet: dict[str, Stick] = {}
    for node, dry in web.dry.items():
        if node in web.inflow or node in web.outflow:
            for stick in dry:
                if stick.end in web.aired:
                    feet.setdefault(stick.element, stick)
    return feet


def _foot(web: Web, feet: dict[str, Stick], way: VentWay) -> Stick | None:
    if way.dry is not None:
        here = [stick for stick in web.dry.get(way.dry, ()) if stick.end in web.aired]
        found = next((stick for stick in here if stick.element == way.source), here[0] if here else None)
        if found is not None:
            return found
    return feet.get(way.source) if way.source is not None else None
