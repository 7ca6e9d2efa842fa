"""What a fixture is until its maker's sheet says otherwise: outlet, heights, footprint, water."""

from __future__ import annotations

from functools import cache
from typing import Literal, cast, get_args

from engine.plan.records import Fixture, FixtureKind, Record
from engine.trade.facts import Fact, Table, table

Outlet = Literal["closet", "floor", "tub", "wall", "none"]
"""How waste leaves: a closet's horn, a drain in the floor, a tub's shoe, a trap in the wall, or not at all."""

ComesBy = Literal["tailpiece", "standpipe"]
"""How waste comes to a trap in the wall: from a bowl's tailpiece, or by a hose that hangs in an open pipe."""

SupplyPlace = Literal["outlet", "back", "end", "middle"]
"""Where water comes up: at the fixture's point, in the wall behind it, in the wall at a tub's drain end, or over it."""


class FixtureSpec(Record, frozen=True, gc=False):
    """One kind of fixture; inches, gallons a minute.

    `outlet_above_floor` is the height over the finished floor of the closet ring's underside, of the end of the
    pipe in a floor drain, of a tub's shoe, or of a wall outlet's trap arm. `tailpiece_above_floor` is the
    fixture's own waste outlet, from which the drop to the weir is counted. `arm` runs from the weir to the
    riser's axis. `width` lies along the wall, `depth` away from it; `outlet_from_back` and `outlet_from_side`
    place the outlet in that footprint (None: the middle), `trap_from_side` a tub's trap. `trap` is the usual
    trap's size; the rule book has the least. `flow` is what the outlet needs. `cold_left` and `hot_left` are how far
    each stub lies to the left of the middle of `supply_place` as one faces it, negative to the right; None: no stub.
    `comes_by` is how waste comes to a trap in the wall, `hosts` the kinds whose trap may take it instead, `hose_reach`
    how far off in plan a hose still brings it there.
    """

    kind: FixtureKind
    words: str
    letters: str
    outlet: Outlet
    cold: bool
    hot: bool
    group: bool
    width: float
    depth: float
    trap: float | None = None
    outlet_above_floor: float | None = None
    tailpiece_above_floor: float | None = None
    rim_above_floor: float | None = None
    arm: float | None = None
    outlet_from_back: float | None = None
    outlet_from_side: float | None = None
    trap_from_side: float | None = None
    supply_above_floor: float | None = None
    supply_size: float | None = None
    supply_place: SupplyPlace = "outlet"
    cold_left: float | None = None
    hot_left: float | None = None
    flow: float | None = None
    comes_by: ComesBy | None = None
    hosts: tuple[FixtureKind, ...] | None = None
    hose_reach: float | None = None

    def how_known(self, field: str) -> Fact | None:
        """The row that a field rests on, with standing and source; None where the field is empty."""
        facts = table("fixtures")
        rows = _ROWS.get(field, (field.replace("_", " "),))
        return next((facts.fact(self.kind, row) for row in rows if facts.has(self.kind, row)), None)


_ROWS = {
    "trap": ("usual trap",),
    "group": ("bathroom group",),
    "cold_left": ("cold left", "cold right"),
    "hot_left": ("hot left", "hot right"),
    "hosts": ("drains through",),
}

KINDS: tuple[FixtureKind, ...] = get_args(FixtureKind)
"""Every kind of fixture that a plan may hold."""


@cache
def fixture(kind: FixtureKind) -> FixtureSpec:
    """What is known of a kind of fixture. KeyError when the kind is not one of :data:`KINDS`."""
    facts = table("fixtures")
    return FixtureSpec(
        kind=kind,
        words=facts.text(kind, "words"),
        letters=facts.text(kind, "letters"),
        outlet=cast(Outlet, facts.text(kind, "outlet")),
        cold=facts.flag(kind, "cold"),
        hot=facts.flag(kind, "hot"),
        group=facts.flag(kind, "bathroom group"),
        width=facts.number(kind, "width"),
        depth=facts.number(kind, "depth"),
        trap=facts.maybe(kind, "usual trap"),
        outlet_above_floor=facts.maybe(kind, "outlet above floor"),
        tailpiece_above_floor=facts.maybe(kind, "tailpiece above floor"),
        rim_above_floor=facts.maybe(kind, "rim above floor"),
        arm=facts.maybe(kind, "arm"),
        outlet_from_back=facts.maybe(kind, "outlet from back"),
        outlet_from_side=facts.maybe(kind, "outlet from side"),
        trap_from_side=facts.maybe(kind, "trap from side"),
        supply_above_floor=facts.maybe(kind, "supply above floor"),
        supply_size=facts.maybe(kind, "supply size"),
        supply_place=cast(SupplyPlace, facts.text(kind, "supply place")),
        cold_left=_to_the_left(facts, kind, "cold"),
        hot_left=_to_the_left(facts, kind, "hot"),
        flow=facts.maybe(kind, "flow"),
        comes_by=cast(ComesBy, facts.text(kind, "comes by")) if facts.has(kind, "comes by") else None,
        hosts=_hosts(facts, kind),
        hose_reach=facts.maybe(kind, "hose reach"),
    )


def rim_of(placed: Fixture) -> float | None:
    """The height of a placed fixture's flood rim over the finished floor, its own or the usual; None where neither is known."""
    return fixture(placed.kind).rim_above_floor if placed.rim_above_floor is None else placed.rim_above_floor


def outlet_of(placed: Fixture) -> float | None:
    """The height of a placed fixture's outlet over the finished floor, its own or the usual; None where neither is known."""
    return fixture(placed.kind).outlet_above_floor if placed.outlet_above_floor is None else placed.outlet_above_floor


def tailpiece_end_of(placed: Fixture) -> float | None:
    """How high a placed fixture's own outlet ends over the finished floor: as far under its rim as usual; None if unknown."""
    spec = fixture(placed.kind)
    if spec.tailpiece_above_floor is None or spec.rim_above_floor is None or placed.rim_above_floor is None:
        return spec.tailpiece_above_floor
    return placed.rim_above_floor - (spec.rim_above_floor - spec.tailpiece_above_floor)


def may_take(host: Fixture, guest: Fixture) -> bool:
    """Whether one placed fixture's trap is of those through which another is commonly drained, whatever a code says."""
    return host.id != guest.id and host.through is None and host.kind in (fixture(guest.kind).hosts or ())


def _hosts(facts: Table, kind: FixtureKind) -> tuple[FixtureKind, ...] | None:
    if not facts.has(kind, "drains through"):
        return None
    return tuple(cast(FixtureKind, name) for name in facts.text(kind, "drains through").split())


def _to_the_left(facts: Table, kind: FixtureKind, water: str) -> float | None:
    """How far a water's stub lies to the left, from whichever side the table names."""
    right = facts.maybe(kind, f"{water} right")
    return facts.maybe(kind, f"{water} left") if right is None else -right
