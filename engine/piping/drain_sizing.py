"""How big each drain must be.

Which table holds: a pipe that counts as vertical goes by the column of stacks; the building drain and its branches by
their own table and the pipe's slope, where the book has one; every other level pipe by the column of branches. A branch
of the building drain is held to both, since officials differ on what a branch is: an automatic size takes the larger
answer. A table that the book lacks asks nothing. Besides the load there are the traps, the closets, what the book bars
from a size, the way of venting that the pipe is part of, and the pipes upstream: no drain gets smaller with the flow.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import takewhile

from engine.piping.drain_kinds import OF_THE_BUILDING, DrainKind, drain_kinds
from engine.piping.loads import Loads
from engine.piping.records import Trap, VentWay
from engine.piping.shared_sizes import shared_asks
from engine.piping.sizes import STOCKED, Ask, DrainSize, slope_column, sold, table
from engine.piping.sticks import Stick, Sticks
from engine.piping.venting.arms import steep
from engine.piping.web import Web
from engine.plan.records import Fixture, Plan
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade
from engine.trade.habits import CLOSET_HORN
from engine.trade.pipe import DRAIN_SIZES, label

_COUNTED = ("load.fixtures_most", "load.building_drain.fixtures_most", "load.building_drain.pumped_most")
"""Rows of a book by which a size takes a number of fixtures only: on any drain, on the building's, where one pumps."""

_Rows = tuple[tuple[str, float] | None, ...]
"""For one size, the key and number of each of those rows; None where the book has no such row."""


def _counted(book: RuleBook) -> dict[float, _Rows]:
    """The sizes that the book lets take a number of fixtures only, with their rows."""
    found: dict[float, _Rows] = {}
    for size in DRAIN_SIZES[:-1]:
        keys = [f"{rows}.{label(size)}" for rows in _COUNTED]
        if any(map(book.has, keys)):
            found[size] = tuple((key, book.number(key)) if book.has(key) else None for key in keys)
    return found


class _Asking:
    """What the sizes of one plan's drains depend on, worked out once."""

    def __init__(
        self, plan: Plan, book: RuleBook, made: Sticks, web: Web, traps: tuple[Trap, ...], loads: Loads
    ) -> None:
        self.book, self.loads = book, loads
        self.pumped = _pumped(plan, book, loads)
        self.closets = {f.id for f in plan.fixtures if trade.fixture(f.kind).outlet == "closet"}
        self.least_closet = book.number("closet.least_drain")
        self.trap = {trap.fixture: trap.size for trap in traps}
        self.upright = book.number("slope.vertical_from")
        self.arms = _level_arms(web, traps, self.upright)
        self.kinds = drain_kinds(web, self.arms, made.exits.values(), self.upright)
        self.past_arm = {f.id: key for f in plan.fixtures if book.has(key := f"after_arm.least.{f.kind}")}
        self.arms_counted = not book.has("load.arms_counted") or book.flag("load.arms_counted")
        self.large = _large_fixtures(book, loads)
        self.sinks = {f.id for f in plan.fixtures if book.says(f"load.stack_sink.{f.kind}")}
        self.counted = _counted(book)

    def asks(self, stick: Stick) -> Iterator[Ask]:
        """What the book asks of a drain's size, for itself alone."""
        kind = self.kinds[stick.id]
        arm_of = self.arms.get(stick.id)
        yield from self._by_load(stick, kind)
        traps = [(self.trap.get(fixture, 0.0), fixture) for fixture in stick.carries]
        size, fixture = max(traps, key=lambda found: found[0], default=(0.0, ""))
        if size:
            yield Ask("trap", size, element=fixture)
        closets = [fixture for fixture in stick.carries if fixture in self.closets]
        if closets:
            yield Ask("closet", sold(self.least_closet), "closet.least_drain", element=closets[0])
            yield from self._closets(stick, kind, len(closets))
        for fixture in stick.carries:
            key = self.past_arm.get(fixture)
            if key is not None and fixture != arm_of:
                yield Ask("past the arm", sold(self.book.number(key)), key, element=fixture)
            if fixture in self.large:
                least = "load.large_fixture.least"
                units = self.loads.sum_of(fixture)
                yield Ask("large fixture", sold(self.book.number(least)), least, units, element=fixture)
            if fixture in self.sinks and kind == "vertical drain":
                yield from self._sink(fixture)

    def _by_load(self, stick: Stick, kind: DrainKind) -> Iterator[Ask]:
        book, load = self.book, stick.load
        if kind == "stub" or (kind == "trap arm" and not self.arms_counted):
            return
        if kind == "vertical drain":
            if book.speaks_of("load.stack"):
                yield table(book, "load.stack").ask(load)
        else:
            column = slope_column(stick.slope)
            own = f"load.building_drain.{column}"
            building = kind in OF_THE_BUILDING and book.speaks_of(own)
            if building:
                yield table(book, own).ask(load)
            if book.speaks_of("load.branch") and not (building and kind == "building drain"):
                share = partial(flat_share, book, stick.slope)
                yield table(book, "load.branch").ask(load, share=share, doubtful=building)
        yield from self._by_count(stick, kind)

    def _by_count(self, stick: Stick, kind: DrainKind) -> Iterator[Ask]:
        """Sizes that take a number of fixtures only, whatever their units."""
        for size, rows in self.counted.items():
            most = self._fixtures_most(stick.carries, kind, rows)
            if most is not None and len(stick.carries) > most[1]:
                larger = DRAIN_SIZES[DRAIN_SIZES.index(size) + 1]
                yield Ask("fixtures", larger, most[0], float(len(stick.carries)), most[1])

    def _fixtures_most(self, carried: tuple[str, ...], kind: DrainKind, rows: _Rows) -> tuple[str, float] | None:
        """The key and number of fixtures that a size takes at most, the strictest of the book's; None where it has none."""
        building = kind in OF_THE_BUILDING
        pumped = building and not self.pumped.isdisjoint(carried)
        found = [rows[0], rows[1] if building else None, rows[2] if pumped else None]
        return min((one for one in found if one is not None), key=lambda one: one[1], default=None)

    def _closets(self, stick: Stick, kind: DrainKind, count: int) -> Iterator[Ask]:
        key = f"load.closets_most.{'vertical' if kind == 'vertical drain' else 'horizontal'}"
        if self.book.has(key) and count > self.book.number(key):
            size = next((one for one in DRAIN_SIZES if one > self.least_closet), DRAIN_SIZES[-1])
            yield Ask("closets", size, key, float(count), self.book.number(key))

    def _sink(self, fixture: str) -> Iterator[Ask]:
        units = self.loads.units[fixture]
        for key in self.book.keys("load.stack_sink_units"):
            most = self.book.number(key)
            size = next(one for one in DRAIN_SIZES if label(one) == key.rsplit(".", 1)[-1])
            if units is not None and units.units > most and size != DRAIN_SIZES[-1]:
                yield Ask("sink", DRAIN_SIZES[DRAIN_SIZES.index(size) + 1], key, units.units, most, fixture)


def flat_share(book: RuleBook, slope: float, size: float) -> float:
    """What share of its column a level pipe of little fall may carry: all of it, unless the book takes some off.

    Pipe that falls less than the book lets its size fall at all is left to the rule on that.
    """
    if not book.has("load.flat_share") or not book.has("load.flat_under") or slope >= book.number("load.flat_under"):
        return 1.0
    least = f"slope.least.{label(size)}"
    return 1.0 if book.has(least) and slope < book.number(least) else book.number("load.flat_share")


def size_waste(
    plan: Plan,
    book: RuleBook,
    made: Sticks,
    web: Web,
    traps: tuple[Trap, ...],
    ways: tuple[VentWay, ...],
    loads: Loads,
) -> dict[str, DrainSize]:
    """Settle every waste stick's size, upstream first; returns each one's least size with what asks for it."""
    asking = _Asking(plan, book, made, web, traps, loads)
    shared = shared_asks(book, web, ways, loads)
    as_trap = book.says("trap_arm.as_trap")
    wall_arms = {trap.arm[0]: trap.fixture for trap in traps if trap.arm and trade.fixture(trap.kind).outlet == "wall"}
    over_trap = {
        f"{one.fixture}.drop": one.fixture for one in traps if trade.fixture(one.kind).outlet in ("floor", "tub")
    }
    horns = _horns(plan, asking.closets)
    sizes: dict[str, DrainSize] = {}
    for stick in web.order:
        arm_of = asking.arms.get(stick.id)
        in_wall = stick.fixture is not None and wall_arms.get(stick.id) == stick.fixture
        by_trap = arm_of if arm_of is not None else over_trap.get(stick.id)
        if in_wall or (as_trap and by_trap is not None and stick.carries == (by_trap,)):
            fixture = by_trap if by_trap is not None else wall_arms[stick.id]
            key = "trap_arm.as_trap" if as_trap else ""
            asks = [Ask("trap alone", asking.trap[fixture], key, element=fixture)]
            required = asking.trap[fixture]
        elif stick.id in horns:
            asks = [Ask("closet's bend", CLOSET_HORN, element=stick.carries[0] if stick.carries else "")]
            required = sold(asking.least_closet)
        else:
            asks = [*asking.asks(stick), *shared.get(stick.id, ())]
            required = max((ask.size for ask in asks), default=DRAIN_SIZES[0])
            for other in web.inflow.get(stick.start, ()):
                required = max(required, sizes[other.id].required if other.id in sizes else 0.0)
                drawn = sold(asking.least_closet) if other.id in horns else other.final_size
                asks.append(Ask("upstream", drawn, element=other.id))
        if not in_wall and stick.id not in horns:
            asks.append(Ask("stocked", STOCKED[0]))
        least = max(ask.size for ask in asks)
        sizes[stick.id] = DrainSize(stick.id, asking.kinds[stick.id], required, least, tuple(asks))
        pinned = stick.size if not in_wall and stick.id not in horns else None
        stick.final_size = least if pinned is None else pinned
    return sizes


def _horns(plan: Plan, closets: set[str]) -> set[str]:
    """The closet drops that are the wide upright end of a closet bend; it is no reduction of the drain below it."""
    bends = {pin.at for pin in plan.fittings if pin.pattern == "closet_bend" and pin.level == "under"}
    return {f"{f.id}.drop" for f in plan.fixtures if f.id in closets and f.at in bends}


def _level_arms(web: Web, traps: tuple[Trap, ...], upright: float) -> dict[str, str]:
    """The level sticks of each trap's arm, down to where it first drops, with the fixture; closets have no arm."""
    by_id = {stick.id: stick for stick in web.order}
    found: dict[str, str] = {}
    for trap in traps:
        if trap.size:
            level = takewhile(lambda stick: not steep(by_id[stick], upright), trap.arm)
            found.update(dict.fromkeys(level, trap.fixture))
    return found


def _pumped(plan: Plan, book: RuleBook, loads: Loads) -> set[str]:
    """The fixtures whose waste is pumped into their drain, or ground by a disposer."""
    fixtures = {fixture.id: fixture for fixture in plan.fixtures}

    def comes_pumped(fixture: Fixture) -> bool:
        guests = (fixtures[guest] for guest in loads.through.get(fixture.id, ()))
        return fixture.disposer or any(book.says(f"dfu.pumped.{one.kind}") for one in (fixture, *guests))

    return {fixture.id for fixture in plan.fixtures if comes_pumped(fixture)}


def _large_fixtures(book: RuleBook, loads: Loads) -> set[str]:
    """Fixtures of so many units that the book bars them from the smaller sizes."""
    key = "load.large_fixture.units"
    if not book.has(key) or not book.has("load.large_fixture.least"):
        return set()
    most = book.number(key)
    return {name for name, units in loads.units.items() if units is not None and units.units >= most}
