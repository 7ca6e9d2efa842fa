"""Made-up cases of the usual kinds about vents that several traps share: IRC 2021 P3107, P3108, P3110, P3111; UPC 2021 905.6,
908, 910, 911.

Units: a lavatory 1, tub, shower and kitchen sink 2, a washer 2 (IRC) or 3 (UPC), a closet 3. A wet vent of 2 in takes 4.
"""

from __future__ import annotations

from msgspec.structs import replace

from engine.plan.records import Drain, Fixture, Plan, Riser
from tests.engine.asked.asked_plans import floor, leaving, run
from tests.engine.asked.made_up import Case, Said, asked_of, both, held
from tests.engine.checks.island_plans import island
from tests.engine.checks.vented_plans import by, column, island_sink, level_branch

BARE, WET, COMMON = "trap-without-vent", "wet-vent-too-small", "common-vent-too-small"
STEEP, SMALL, LEAVE = "combination-too-steep", "combination-too-small", "combination-without-leave"
VENTED: Said = {BARE: [], WET: [], COMMON: [], "s-trap": []}


def one(number: int = 1) -> Said:
    """So many traps without a vent."""
    return {BARE: [(None, None)] * number}


def wet(*kinds: str, starters: tuple[str, ...] = ("lavatory",), size: str = "2") -> Plan:
    """A drain going west from a vented fixture, where each of the others joins by a wye; from the first closet on 3 in."""
    x, points = 400.0, [(400.0, 100.0)]
    fixtures = [Fixture(f"s{n}", kind, points[0], turn=180.0 * n) for n, kind in enumerate(starters)]  # type: ignore[arg-type]
    drains: list[Drain] = []
    parts, wide = [], size
    for number, kind in enumerate(kinds):
        x -= 40.0
        joint, start = (x, 100.0), (x + 14.0, 114.0)
        own = "3" if kind == "water_closet" else "1-1/2" if kind == "bathtub" else "2"
        fixtures.append(Fixture(f"f{number}", kind, start, trap_at=start if kind == "bathtub" else None))  # type: ignore[arg-type]
        drains.append(run(start, joint, id=f"b{number}", size=own))
        points.append(joint)
        if kind == "water_closet" and wide == size:
            parts.append((tuple(points), size))
            points, wide = [joint], "3"
    parts.append(((*points, (20.0, 100.0)), wide))
    drains.extend(run(*some, id=f"m{n}", size=each) for n, (some, each) in enumerate(parts))
    return floor(
        fixtures=tuple(fixtures),
        drains=tuple(drains),
        risers=(Riser("r1", (400.0, 100.0)),),
        exits=leaving((20.0, 100.0)),
    )


def kitchen_below(plan: Plan) -> Plan:
    """The same, with a kitchen sink on a vent of its own that joins below all of it."""
    *rest, last = plan.drains
    last = replace(last, points=(*last.points[:-1], (60.0, 100.0), last.points[-1]))
    at = (120.0, 160.0)
    return replace(
        plan,
        fixtures=(*plan.fixtures, Fixture("ks", "kitchen_sink", at, turn=90.0)),
        risers=(*plan.risers, Riser("r9", at)),
        drains=(*rest, last, run(at, (60.0, 100.0), id="k", size="2")),
    )


def above_the_lavatory(*kinds: str) -> Plan:
    """A drain whose upper fixtures come before the vented lavatory's branch joins it, at (120, 100)."""
    places = ((180.0, 100.0), (164.0, 114.0))
    points = [places[0], *([(150.0, 100.0)] if len(kinds) > 1 else []), (120.0, 100.0), (20.0, 100.0)]
    extra = (run(places[1], (150.0, 100.0), id="b", size="2"),) if len(kinds) > 1 else ()
    return floor(
        fixtures=(
            Fixture("lav", "lavatory", (160.0, 160.0), turn=90.0),
            *(Fixture(f"f{n}", kind, at) for n, (kind, at) in enumerate(zip(kinds, places, strict=False))),  # type: ignore[arg-type]
        ),
        drains=(
            run(*points, id="m", size="3"),
            run((160.0, 160.0), (160.0, 140.0), (120.0, 100.0), id="w", size="2"),
            *extra,
        ),
        risers=(Riser("r1", (160.0, 160.0), vent="2"),),
        exits=leaving((20.0, 100.0)),
    )


def shower_first() -> Plan:
    """A shower on a vent of its own, and a closet that joins below it."""
    return floor(
        fixtures=(Fixture("sh", "shower", (200.0, 100.0)), Fixture("wc", "water_closet", (134.0, 114.0))),
        drains=(
            run((200.0, 100.0), (180.0, 100.0), (120.0, 100.0), id="m", size="2"),
            run((120.0, 100.0), (20.0, 100.0), id="n", size="3"),
            run((134.0, 114.0), (120.0, 100.0), id="b", size="3"),
        ),
        risers=(Riser("r1", (180.0, 100.0), vent="2"),),
        exits=leaving((20.0, 100.0)),
    )


COMMON_VENTS = (
    Case("lavatory over lavatory on 1-1/2", "IRC Table P3107.3", column(("lavatory", 24.0), ("lavatory", 16.0), size="1-1/2"), VENTED, None),
    Case("kitchen sink over laundry tub on 1-1/2", "IRC Table P3107.3", column(("kitchen_sink", 24.0), ("laundry_tub", 14.0), size="1-1/2"), {BARE: [], COMMON: [(2.0, 1.0)]}, None),
    Case("the same on 2 in", "IRC Table P3107.3", column(("kitchen_sink", 24.0), ("laundry_tub", 14.0), size="2"), VENTED, None),
    both("two kitchen sinks back to back", "IRC P3107.2, UPC 905.6", column(("kitchen_sink", 16.0), ("kitchen_sink", 16.0), size="2"), VENTED),
    both("lavatory over laundry tub on 2 in", "IRC P3107.3, UPC 908.1", column(("lavatory", 24.0), ("laundry_tub", 14.0), size="2"), VENTED),
    # a washer gives 3 units by the UPC, and what goes through an upright wet vent 1 or 2
    Case("lavatory over washer on 2 in", "IRC P3107.3, UPC 908.1", column(("lavatory", 24.0), ("washer_standpipe", 10.0), size="2"), VENTED, one()),
    both("two lavatories over a bidet on 2 in", "IRC P3108.4, UPC 908.1", column(("lavatory", 18.0), ("lavatory", 18.0), ("bidet", 6.0), size="2"), VENTED),
    Case("the same on 1-1/2", "IRC Table P3108.3, UPC 908.1", column(("lavatory", 18.0), ("lavatory", 18.0), ("bidet", 6.0), size="1-1/2"), {WET: [(2.0, 1.0)]}, {WET: [(1.5, 2.0)]}),
)  # fmt: skip

WET_VENTS = (
    both("lavatory, shower, closet", "IRC P3108.1, UPC 908.2", wet("shower", "water_closet"), VENTED),
    both("lavatory, tub, closet", "the same", wet("bathtub", "water_closet"), VENTED),
    both("two lavatories, shower, closet: 4 units", "the same", wet("shower", "water_closet", starters=("lavatory", "lavatory")), VENTED),
    Case("lavatory, closet, shower", "the same", wet("water_closet", "shower"), VENTED, one()),
    # 1 + 2 + 2 units flow into the 2 in part
    both("lavatory, tub, shower, closet on 2 in", "IRC Table P3108.3, UPC 908.2.2", wet("bathtub", "shower", "water_closet"), {BARE: [], WET: [(5.0, 4.0)]}),
    both("the same on 3 in", "the same", wet("bathtub", "shower", "water_closet", size="3"), VENTED),
    both("washer first", "IRC P3108.2.1, UPC 908.2.1", wet("shower", "water_closet", starters=("washer_standpipe",)), one(2)),
    both("kitchen sink first", "the same", wet("shower", "water_closet", starters=("kitchen_sink",)), one(2)),
    both("kitchen sink below all of it", "IRC P3108.1, UPC 908.2", kitchen_below(wet("shower", "water_closet")), VENTED),
    both("shower first", "IRC P3108.2.1, UPC 908.2.1", shower_first(), VENTED),
    both("closet above the lavatory", "the same", above_the_lavatory("water_closet"), {BARE: []}),
    both("closet and shower above the lavatory", "the same", above_the_lavatory("water_closet", "shower"), one(2)),
    # two groups by the IRC, one by the UPC
    Case("three closets", "IRC P3108.1, UPC 908.2", wet("water_closet", "water_closet", "water_closet"), one(1), one(2)),
)  # fmt: skip

OTHERS = (
    Case("bar sink on a wide level drain", "IRC P3111, UPC 910.2", island_sink("bar_sink"), {BARE: [], STEEP: [], SMALL: []}, {BARE: [], LEAVE: [(None, None)], SMALL: []}),
    Case("the same at 1/2", "IRC P3111.2", island_sink("bar_sink", slope=0.5), {BARE: [], STEEP: []}, None),
    Case("the same at 3/4", "IRC P3111.2", island_sink("bar_sink", slope=0.75), {STEEP: [(0.75, 0.5)]}, None),
    Case("kitchen island with a loop", "IRC P3112", island(), {BARE: [], "island-loop-too-low": [], "island-vent-no-cleanout": []}, None),
    Case("the same by the other book", "UPC 909.1", by("upc-2021", island()), None, {BARE: []}),
    both("four floor drains on one branch", "IRC P3110, UPC 911", level_branch(*["floor_drain"] * 4), {BARE: []}),
    Case("three showers on one branch", "IRC P3110", level_branch("shower", "shower", "shower"), {BARE: [], "circuit-branch-too-small": []}, None),
    Case("floor drains on a branch at 1-1/4", "IRC P3110", level_branch(*["floor_drain"] * 3, slope=1.25), {"circuit-branch-too-steep": [(1.25, 1.0)]}, None),
)  # fmt: skip


@asked_of(COMMON_VENTS)
def test_common_vents(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(WET_VENTS)
def test_wet_vents(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(OTHERS)
def test_other_ways(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)
