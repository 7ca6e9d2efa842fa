"""What each drain carries: the fixtures above it, and what they give together where their pipes have joined."""

from __future__ import annotations

from engine.piping.fixture_units import Units, units_by_fixture
from engine.piping.groups import Grouping, Load
from engine.piping.records import Node
from engine.piping.sticks import Sticks
from engine.piping.web import Web
from engine.plan.records import Plan
from engine.rulebooks import RuleBook


class Loads:
    """The units of every fixture, and the load of every drain by its stick's id.

    `units` holds None for a fixture whose kind the book gives no units. `through` are the fixtures that drain through
    another's trap, by that other: they load its drain without being among what the drain carries.
    """

    def __init__(self, plan: Plan, book: RuleBook) -> None:
        self.units: dict[str, Units | None] = units_by_fixture(plan, book)
        self.through = _through(plan)
        self.of: dict[str, Load] = {}
        self._grouping = Grouping(book)
        self._known: dict[tuple[str, ...], Load] = {}

    def together(self, carried: tuple[str, ...]) -> Load:
        """What fixtures give a drain in which they have joined, with those that drain through their traps."""
        load = self._known.get(carried)
        if load is None:
            found = [(name, self.units.get(name)) for host in carried for name in self._with_guests(host)]
            members = [units for _, units in found if units is not None]
            load = self._grouping.load(members, [name for name, units in found if units is None])
            self._known[carried] = load
        return load

    def given_by(self, fixture: str) -> float | None:
        """What one trap gives its drain: its fixture and all that drains through it; None where the book has no units."""
        load = self.together((fixture,))
        return None if load.unknown else load.units

    def sum_of(self, fixture: str) -> float:
        """The plain sum of the known units that come by one trap, no group counted."""
        return sum(units.units for name in self._with_guests(fixture) if (units := self.units.get(name)) is not None)

    def _with_guests(self, host: str) -> tuple[str, ...]:
        return (host, *self.through.get(host, ()))


def spread_loads(plan: Plan, book: RuleBook, made: Sticks, web: Web) -> Loads:
    """Give every waste stick the fixtures it carries and their fixture units, upstream first."""
    loads = Loads(plan, book)
    guests = {guest for guests in loads.through.values() for guest in guests}
    sources: dict[Node, list[str]] = {}
    for fixture, node in made.outlets.items():
        if fixture not in guests:
            sources.setdefault(node, []).append(fixture)
    for stick in web.order:
        own = sources.get(stick.start, ())
        above = web.inflow.get(stick.start, ())
        if not own and len(above) == 1:
            stick.carries = above[0].carries
        else:
            stick.carries = tuple(dict.fromkeys([*own, *(name for other in above for name in other.carries)]))
        load = loads.of[stick.id] = loads.together(stick.carries)
        stick.load = load.units
    return loads


def _through(plan: Plan) -> dict[str, tuple[str, ...]]:
    """The fixtures that drain through another's trap, by the fixture whose trap it is in the end."""
    onto = {fixture.id: fixture.through for fixture in plan.fixtures if fixture.through is not None}
    known = {fixture.id for fixture in plan.fixtures}
    guests: dict[str, tuple[str, ...]] = {}
    for guest in onto:
        host, seen = onto[guest], {guest}
        while host in onto and host not in seen:
            seen.add(host)
            host = onto[host]
        if host in known and host not in seen:
            guests[host] = (*guests.get(host, ()), guest)
    return guests
