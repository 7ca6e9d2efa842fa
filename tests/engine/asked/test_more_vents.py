"""Made-up cases of the usual kinds about dry vents, their ends and their sizes: IRC 2021 P3102 to P3106, P3113, P3114; UPC
2021 901 to 906.

Areas are nominal: 1.767 sq in for 1-1/2, 3.142 for 2, 7.069 for 3. The floor's roof lies 126 in over it.
"""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from engine.plan.records import AirOpening, Fixture, Plan, Riser, Vent
from tests.engine.asked.asked_plans import floor, leaving, run
from tests.engine.asked.made_up import Case, Said, asked_of, both, held
from tests.engine.checks.judged_plans import armed

ACCEPTED, LOW, ALONE = "valve-not-accepted", "valve-too-low", "valve-without-open-vent"
FROST, ROOF, NEAR = "roof-end-may-freeze", "roof-end-too-low", "vent-near-opening"
DRAIN, CLOSET, SUM, MAIN = (
    "vent-too-small-for-drain",
    "closet-vent-too-small",
    "vents-too-small-together",
    "main-vent-too-small",
)
FLAT, JOINS, LONG, LEVEL = "vent-lies-flat", "vent-joins-too-low", "vent-too-long-for-size", "vent-level-too-far"


def valve(top: float, beside: bool = True) -> Plan:
    """A kitchen sink whose vent ends in a valve, its arm 16 in above the floor; a lavatory's vent beside it is open."""
    sink, lavatory = (200.0, 100.0), (160.0, 140.0)
    plan = floor(
        fixtures=(Fixture("ks", "kitchen_sink", sink, turn=0.0),),
        drains=(run(sink, (160.0, 100.0), (20.0, 100.0), size="2"),),
        risers=(Riser("r1", sink, top="valve", above_floor=top),),
        exits=leaving((20.0, 100.0)),
    )
    if not beside:
        return plan
    return replace(
        plan,
        fixtures=(*plan.fixtures, Fixture("lav", "lavatory", lavatory, turn=90.0)),
        drains=(*plan.drains, run(lavatory, (160.0, 100.0), id="d2", size="2")),
        risers=(*plan.risers, Riser("r2", lavatory)),
    )


def through_the_roof(
    size: str | None = None, top: float | None = None, opening: AirOpening | None = None, **roof: Any
) -> Plan:
    """A lavatory's vent, its riser's own roof height `top`; it ends 6 in higher."""
    plan = armed("lavatory", 20.0, "1-1/4")
    return replace(
        plan,
        floor=replace(plan.floor, **roof),
        risers=(replace(plan.risers[0], vent=size, above_floor=top),),
        air_openings=() if opening is None else (opening,),
    )


def window(away: float, top: float) -> AirOpening:
    """A window that begins so far east of the riser, its top so high above the floor."""
    return AirOpening("w1", (240.0 + away, 200.0), (240.0 + away, 280.0), top_above_floor=top)


def closet(vent: str) -> Plan:
    """A closet alone on its vent."""
    return floor(
        fixtures=(Fixture("wc", "water_closet", (200.0, 40.0)),),
        drains=(run((200.0, 40.0), (180.0, 40.0), (20.0, 40.0), size="3"),),
        risers=(Riser("r1", (180.0, 40.0), vent=vent),),  # type: ignore[arg-type]
        exits=leaving((20.0, 40.0)),
    )


def three_vents(*sizes: str) -> Plan:
    """A closet, a lavatory and a kitchen sink, each through the roof by a vent of its own."""
    closet_, lavatory, sink = (200.0, 40.0), (134.0, 94.0), (74.0, 94.0)
    return floor(
        fixtures=(
            Fixture("wc", "water_closet", closet_),
            Fixture("lav", "lavatory", lavatory, turn=90.0),
            Fixture("ks", "kitchen_sink", sink, turn=90.0),
        ),
        drains=(
            run(closet_, (180.0, 40.0), (120.0, 40.0), (60.0, 40.0), (20.0, 40.0), id="m", size="3"),
            run(lavatory, (134.0, 54.0), (120.0, 40.0), id="b", size="2"),
            run(sink, (74.0, 54.0), (60.0, 40.0), id="k", size="2"),
        ),
        risers=tuple(
            Riser(f"r{n}", at, vent=size)  # type: ignore[arg-type]
            for n, (at, size) in enumerate(zip(((180.0, 40.0), lavatory, sink), sizes, strict=True))
        ),
        exits=leaving((20.0, 40.0)),
    )


def joined(height: float) -> Plan:
    """A kitchen sink's vent (rim 36 in, from memory) that goes over to a lavatory's so high above the floor."""
    sink, lavatory = (200.0, 100.0), (120.0, 100.0)
    return floor(
        fixtures=(Fixture("ks", "kitchen_sink", sink, turn=90.0), Fixture("lav", "lavatory", lavatory, turn=90.0)),
        drains=(
            run(sink, (200.0, 60.0), (160.0, 20.0), (120.0, 20.0), (20.0, 20.0), id="m", size="2"),
            run(lavatory, (120.0, 20.0), id="b", size="2"),
        ),
        risers=(Riser("r1", sink, top="none"), Riser("r2", lavatory)),
        vents=(Vent("v1", (sink, lavatory), above_floor=height),),
        exits=leaving((20.0, 20.0)),
    )


def overhead(kind: str, level: float, size: str) -> Plan:
    """A fixture's vent that goes level for so far, 96 in above the floor, before it goes on through the roof."""
    foot, other = (200.0, 40.0), (200.0, 40.0 + level)
    return floor(
        fixtures=(Fixture("f", kind, foot, turn=0.0),),  # type: ignore[arg-type]
        drains=(run(foot, (20.0, 40.0), size="2"),),
        risers=(Riser("r1", foot, top="none", vent=size), Riser("r2", other, vent=size)),  # type: ignore[arg-type]
        vents=(Vent("v1", (foot, other), above_floor=96.0, size=size),),  # type: ignore[arg-type]
        exits=leaving((20.0, 40.0)),
    )


VALVES = (
    Case("valve 20 in over the arm, another vent open", "IRC P3114; not in the UPC", valve(36.0), {ACCEPTED: [], LOW: [], ALONE: [], "trap-without-vent": []}, {ACCEPTED: [(None, None)]}),
    Case("valve 4 in over the arm", "IRC P3114", valve(20.0), {LOW: []}, None),
    Case("valve 3 in over the arm", "IRC P3114", valve(19.0), {LOW: [(3.0, 4.0)]}, None),
    Case("a valve and no open vent", "IRC P3114", valve(36.0, beside=False), {ALONE: [(0, 1)], "no-vent-outdoors": [(None, None)]}, {ACCEPTED: [(None, None)], "no-vent-outdoors": [(None, None)]}),
    # what joins a vented drain might be its own vent, were the official asked: that is said once, and no size of it is
    Case("a valve where none is taken", "UPC 901, 910.2", valve(36.0), None, {"combination-without-leave": [(None, None)], "combination-too-small": [], "combination-drop-too-long": []}),
)  # fmt: skip

ENDS = (
    Case("-5 deg F, 1-1/2 in", "IRC P3103.2, UPC 906.7", through_the_roof("1-1/2", design_temp=-5.0), {FROST: [(1.5, 3.0)]}, {FROST: [(1.5, 2.0)], ROOF: [(6.0, 10.0)]}),
    Case("-5 deg F, 2 in", "the same", through_the_roof("2", design_temp=-5.0), {FROST: [(2.0, 3.0)]}, {FROST: []}),
    both("0 deg F, 3 in", "the same", through_the_roof("3", design_temp=0.0), {FROST: []}),
    both("10 deg F, 1-1/2 in", "the same", through_the_roof("1-1/2", design_temp=10.0), {FROST: [], ROOF: []}),
    both("60 in over a roof deck", "IRC P3103.1.2, UPC 906.3", through_the_roof(top=180.0, roof_deck=True), {ROOF: [(60.0, 84.0)]}),
    both("84 in over a roof deck", "the same", through_the_roof(top=204.0, roof_deck=True), {ROOF: []}),
    both("8 ft from a dormer, 12 in over its top", "IRC P3103.5, UPC 906.2", through_the_roof(top=126.0, opening=window(96.0, 120.0)), {NEAR: [(12.0, 36.0)]}),
    both("10 ft from it", "the same", through_the_roof(opening=window(120.0, 120.0)), {NEAR: []}),
    both("2 ft from it, 36 in over its top", "the same", through_the_roof(top=150.0, opening=window(24.0, 120.0)), {NEAR: []}),
    both("4 ft from a window in the wall below", "the same", through_the_roof(opening=window(48.0, 80.0)), {NEAR: []}),
)  # fmt: skip

SIZES = (
    Case("closet on 1-1/4", "IRC P3102.3, P3113.1; UPC 904.1", closet("1-1/4"), {DRAIN: [(1.25, 1.5)], MAIN: [(1.25, 1.5)]}, {CLOSET: [(1.25, 2.0)], DRAIN: [(1.25, 1.5)]}),
    Case("closet on 1-1/2", "the same", closet("1-1/2"), {DRAIN: [], MAIN: []}, {CLOSET: [(1.5, 2.0)], DRAIN: []}),
    Case("one 2 in vent for a house with a closet", "UPC 904.1", closet("2"), {SUM: [], DRAIN: [], MAIN: []}, {SUM: [(3.142, 7.069)], CLOSET: []}),
    both("one 3 in vent", "UPC 904.1", closet("3"), {SUM: [], CLOSET: [], DRAIN: []}),
    # 3.142 + 3.142 + 1.767 = 8.05
    both("vents of 2, 2 and 1-1/2", "UPC 904.1", three_vents("2", "2", "1-1/2"), {SUM: [], DRAIN: [], CLOSET: [], "trap-without-vent": []}),
    # 3.142 + 1.767 + 1.767 = 6.676
    Case("vents of 2, 1-1/2 and 1-1/2", "UPC 904.1", three_vents("2", "1-1/2", "1-1/2"), {SUM: []}, {SUM: [(6.676, 7.069)]}),
)  # fmt: skip

WAYS = (
    both("joined 42-1/2 in up", "IRC P3104.4, P3104.5; UPC 905.3", joined(42.5), {FLAT: [], JOINS: []}),
    both("joined 40 in up", "the same", joined(40.0), {FLAT: [(4.0, 6.0)], JOINS: [(4.0, 6.0)]}),
    both("15 ft level on 1-1/2", "IRC P3113.1; UPC 904.2", overhead("kitchen_sink", 180.0, "1-1/2"), {LONG: [], LEVEL: []}),
    # a third of 60 ft is 20: told at each piece of the vent, which is three drawn things
    Case("30 ft level on 1-1/2", "UPC 904.2", overhead("kitchen_sink", 360.0, "1-1/2"), {LONG: []}, {LEVEL: [(360.0, 240.0)] * 3}),
    Case("over 40 ft on 1-1/2", "IRC P3113.1", overhead("lavatory", 440.0, "1-1/2"), {LONG: []}, None),
)  # fmt: skip


@asked_of(VALVES)
def test_valves(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(ENDS)
def test_ends(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(SIZES)
def test_sizes(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(WAYS)
def test_ways(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)
