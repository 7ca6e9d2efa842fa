"""Made-up cases of the usual kinds about traps and their arms: IRC 2021 P3105, P3201; UPC 2021 1001.2, 1002, 1004.

Arms: 60, 72, 96 and 144 in by trap (IRC 2021 Table P3105.1), 30, 42, 60 and 72 in (UPC 2021 Table 1002.2); the fall of an arm is
no more than its trap's nominal size. A 1-1/2 in trap in the bay has its weir 5-1/4 in down its run, a 2 in one 6-15/16 in
(assumed by geometry).
"""

from __future__ import annotations

from engine.plan.records import Fixture, Plan, Riser
from tests.engine.asked.asked_plans import floor, leaving, run
from tests.engine.asked.made_up import Case, Said, asked_of, both, held
from tests.engine.checks.judged_plans import armed
from tests.engine.checks.vented_plans import column

FAR, FALLS = "trap-too-far-from-vent", "arm-falls-too-far"
GOOD: Said = {FAR: [], FALLS: [], "vent-at-the-crown": [], "s-trap": [], "trap-without-vent": []}
ARM = "Tables P3105.1, 1002.2"


def shower(arm: float, slope: float = 0.25) -> Plan:
    """A shower on a 2 in trap, its vent so far along from the weir."""
    vent = (200.0 - arm - 6.9375, 40.0)
    return floor(
        fixtures=(Fixture("sh", "shower", (200.0, 40.0)),),
        drains=(run((200.0, 40.0), vent, (20.0, 40.0), size="2", slope=slope),),
        risers=(Riser("r1", vent),),
        exits=leaving((20.0, 40.0)),
    )


def tub(arm: float, trap: str = "1-1/2") -> Plan:
    """A tub whose arm of its trap's size goes so far from the weir to its vent, and on in 2 in."""
    vent = (200.0 - arm - {"1-1/2": 5.25, "2": 6.9375}[trap], 40.0)
    return floor(
        fixtures=(Fixture("bt", "bathtub", (200.0, 40.0), trap_at=(200.0, 40.0), trap=trap),),  # type: ignore[arg-type]
        drains=(run((200.0, 40.0), vent, id="a", size=trap), run(vent, (20.0, 40.0), size="2")),
        risers=(Riser("r1", vent),),
        exits=leaving((20.0, 40.0)),
    )


def trap_aside(aside: float) -> Plan:
    """A tub whose trap hangs so far beside its outlet."""
    return floor(
        fixtures=(Fixture("bt", "bathtub", (24.0, 30.0), trap_at=(24.0, 30.0 + aside)),),
        drains=(run((24.0, 30.0 + aside), (24.0, 100.0), (24.0, 160.0), size="1-1/2"),),
        risers=(Riser("r1", (24.0, 100.0)),),
        exits=leaving((24.0, 160.0)),
    )


def closet(away: float) -> Plan:
    """A closet with its vent so far down the drain; by the UPC the drop from its flange counts in."""
    vent = (200.0 - away, 40.0)
    return floor(
        fixtures=(Fixture("wc", "water_closet", (200.0, 40.0)),),
        drains=(run((200.0, 40.0), vent, (20.0, 40.0), size="3"),),
        risers=(Riser("r1", vent),),
        exits=leaving((20.0, 40.0), 12.0),
    )


def washer(weir: float, top: float) -> Plan:
    """A standpipe with its trap and its top so high above the floor."""
    plan = column(("washer_standpipe", weir))
    at = plan.risers[0].at
    pipe = Fixture("ws", "washer_standpipe", at, turn=0.0, outlet_above_floor=weir, arm=8.0, rim_above_floor=top)
    return floor(fixtures=(pipe,), risers=plan.risers, drains=plan.drains, exits=plan.exits)


def beside_a_standpipe(apart: float) -> Plan:
    """A laundry tub that drains into a standpipe whose top is 42 in up."""
    plan = washer(8.0, 42.0)
    at = (plan.risers[0].at[0], plan.risers[0].at[1] + apart)
    tray = Fixture("lt", "laundry_tub", at, turn=0.0, through="ws")
    return floor(fixtures=(*plan.fixtures, tray), risers=plan.risers, drains=plan.drains, exits=plan.exits)


def through_the_sink(kind: str) -> Plan:
    """A machine beside a kitchen sink that drains through its trap."""
    plan = armed("kitchen_sink", 8.0)
    at = (plan.fixtures[0].at[0], plan.fixtures[0].at[1] + 30.0)
    machine = Fixture("m", kind, at, turn=0.0, through="f1")  # type: ignore[arg-type]
    return floor(fixtures=(*plan.fixtures, machine), risers=plan.risers, drains=plan.drains, exits=plan.exits)


ARMS = (
    both("kitchen sink 42 in from its vent", ARM, armed("kitchen_sink", 42.0, "1-1/2"), GOOD),
    Case("kitchen sink 43 in", ARM, armed("kitchen_sink", 43.0, "1-1/2"), GOOD, {FAR: [(43.0, 42.0)]}),
    Case("lavatory 5 ft on 1-1/4", ARM, armed("lavatory", 60.0, "1-1/4"), GOOD, {FAR: [(60.0, 30.0)]}),
    # 64 in at 1/4 in per ft fall 1.333 in
    Case("lavatory 64 in on 1-1/4", ARM, armed("lavatory", 64.0, "1-1/4"), {FAR: [(64.0, 60.0)], FALLS: [(1.333, 1.25)]}, {FAR: [(64.0, 30.0)]}),
    Case("lavatory 6 ft on 1-1/2", ARM, armed("lavatory", 72.0, "1-1/2"), GOOD, {FAR: [(72.0, 42.0)]}),
    Case("washer 7 ft", ARM, armed("washer_standpipe", 84.0, "2"), GOOD, {FAR: [(84.0, 60.0)]}),
    Case("washer 8 ft", ARM, armed("washer_standpipe", 96.0, "2"), GOOD, {FAR: [(96.0, 60.0)]}),
    both("shower 5 ft", ARM, shower(60.0), GOOD),
    Case("shower 8 ft", ARM, shower(96.0), GOOD, {FAR: [(96.0, 60.0)]}),
    # 8 ft at 3/8 in per ft fall 3 in
    Case("shower 8 ft at 3/8", "IRC P3105.2", shower(96.0, 0.375), {FAR: [], FALLS: [(3.0, 2.0)]}, None),
    both("shower 4 ft at 1/2", "IRC P3105.2, UPC 905.5", shower(48.0, 0.5), GOOD),
    both("tub 42 in", ARM, tub(42.0), GOOD),
    Case("tub 6 ft", ARM, tub(72.0), GOOD, {FAR: [(72.0, 42.0)]}),
    both("tub 52 in with a 2 in trap", ARM, tub(52.0, "2"), GOOD),
    both("sink 2 in from its vent", "IRC P3105.3, UPC 1002.2", armed("kitchen_sink", 2.0, "1-1/2"), {"vent-at-the-crown": [(2.0, 3.0)]}),
    both("sink 3 in from its vent", "the same", armed("kitchen_sink", 3.0, "1-1/2"), GOOD),
    Case("bidet 20 in", ARM, armed("bidet", 20.0), GOOD, GOOD),
)  # fmt: skip

DROPS = (
    # a sink's outlet lies 28 in above the floor: a bowl 8 in deep under a 36 in rim, assumed
    both("sink's drain 2 in above the floor", "IRC P3201.6, UPC 1001.2", armed("kitchen_sink", 8.0, outlet_above_floor=2.0), {"weir-too-low": [(26.0, 24.0)]}),
    both("sink's drain 4 in above the floor", "the same", armed("kitchen_sink", 8.0, outlet_above_floor=4.0), {"weir-too-low": []}),
    both("sink's drain at 16 in", "the same", armed("kitchen_sink", 8.0), {"weir-too-low": [], "outlet-over-its-tailpiece": []}),
    Case("tub's trap 32 in aside", "IRC P3201.6", trap_aside(32.0), {"trap-too-far-aside": [(32.0, 30.0)]}, {"trap-too-far-aside": []}),
    both("tub's trap 30 in aside", "IRC P3201.6", trap_aside(30.0), {"trap-too-far-aside": []}),
    both(
        "kitchen sink straight down through the floor",
        "IRC P3201.5, UPC 1004.1",
        floor(
            fixtures=(Fixture("ks", "kitchen_sink", (100.0, 60.0), turn=0.0),),
            drains=(run((100.0, 60.0), (20.0, 60.0), size="2"),),
            exits=leaving((20.0, 60.0)),
        ),
        {"s-trap": [(None, None)], "trap-without-vent": [(None, None)]},
    ),
)  # fmt: skip

SHORT, HEIGHT, TAKES = "standpipe-too-short", "standpipe-trap-height", "trap-takes-another"
STANDPIPE = "IRC P2706.1.2, UPC 804.1"
LAUNDRY = (
    both("standpipe 16 in over its trap", STANDPIPE, washer(8.0, 24.0), {SHORT: [(16.0, 18.0)], HEIGHT: []}),
    both("standpipe 18 in", STANDPIPE, washer(8.0, 26.0), {SHORT: [], HEIGHT: []}),
    Case("standpipe 36 in", STANDPIPE, washer(8.0, 44.0), {SHORT: []}, {SHORT: [(36.0, 30.0)]}),
    Case("standpipe 45 in", STANDPIPE, washer(8.0, 53.0), {SHORT: [(45.0, 42.0)]}, {SHORT: [(45.0, 30.0)]}),
    Case("trap 4 in above the floor", STANDPIPE, washer(4.0, 30.0), {SHORT: [], HEIGHT: []}, {SHORT: [], HEIGHT: [(4.0, 6.0)]}),
    Case("trap 20 in above the floor", STANDPIPE, washer(20.0, 44.0), {SHORT: [], HEIGHT: []}, {SHORT: [], HEIGHT: [(20.0, 18.0)]}),
    both("standpipe on a 1-1/2 in trap", "Tables P3201.7, 702.1", armed("washer_standpipe", 8.0, "1-1/2"), {"trap-too-small": [(1.5, 2.0)]}),
    Case("laundry tub 24 in from the standpipe", "IRC P2706.1.2.1, UPC 1001.2", beside_a_standpipe(24.0), {"laundry-tub-too-far": [], TAKES: []}, {TAKES: [(None, None)]}),
    Case("laundry tub 36 in from it", "IRC P2706.1.2.1", beside_a_standpipe(36.0), {"laundry-tub-too-far": [(36.0, 30.0)]}, None),
    both("dishwasher through the sink", "IRC P3201.6, UPC 1001.2", through_the_sink("dishwasher"), {TAKES: [], "hose-too-short": [], "fixture-not-drained": []}),
    both("washer through the sink", "the same", through_the_sink("washer_standpipe"), {TAKES: [(None, None)]}),
    both("three bowls, outlets 30 in apart", "the same", armed("kitchen_sink", 8.0, bowls=3, bowls_apart=30.0), {"trap-shared-by-too-many": []}),
    both("two bowls, outlets 32 in apart", "the same", armed("kitchen_sink", 8.0, bowls=2, bowls_apart=32.0), {"trap-shared-by-too-many": [(32.0, 30.0)]}),
)  # fmt: skip


@asked_of(ARMS)
def test_arms(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(DROPS)
def test_drops(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(LAUNDRY)
def test_laundry_and_shared_traps(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(
    (
        Case("closet 55 in from its vent", "UPC Table 1002.2, note", closet(55.0), {FAR: []}, {FAR: []}),
        # the exit lies 12 in down, the closet's end of the drain 3.75 higher, the flange 1 in up: 80 + 9.25
        Case("closet 80 in from its vent", "UPC Table 1002.2, note", closet(80.0), GOOD, {FAR: [(89.25, 72.0)]}),
        Case("closet 10 ft from its vent", "IRC P3105.1, exception", closet(120.0), GOOD, None),
    )
)
def test_closets(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)
