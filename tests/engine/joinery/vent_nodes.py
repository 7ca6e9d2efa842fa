"""A little floor for every node that the ways of venting make, each to be put together whole."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from engine.plan.records import Cleanout, Exit, Fixture, Plan, Riser, Vent
from tests.engine.checks.island_plans import island
from tests.engine.checks.judged_plans import bare, drain
from tests.engine.checks.test_double_fittings import dropping
from tests.engine.checks.vented_plans import column, level_branch


def out(x: float, y: float) -> tuple[Exit, ...]:
    return (Exit("x1", (x, y), how="through-rim"),)


def leaves_level(plan: Plan) -> Plan:
    return replace(plan, exits=tuple(replace(one, how="through-rim") for one in plan.exits))


def arm_on(kind: Any, size: str, trap: str | None = None) -> Plan:
    """A floor outlet whose arm, 36 in long and of a size of its own, ends at a dry riser on the drain."""
    at = (100.0, 50.0)
    return bare(
        fixtures=(
            Fixture(
                "f1",
                kind,
                at if kind != "bathtub" else (112.0, 50.0),
                trap=trap,
                trap_at=at if kind == "bathtub" else None,
            ),
        ),  # type: ignore[arg-type]
        risers=(Riser("r1", (64.0, 50.0)),),
        drains=(drain(at, (64.0, 50.0), (40.0, 50.0), size=size),),
        exits=out(40.0, 50.0),
    )


def closet(vent: str | None) -> Plan:
    """A closet's arm with a dry riser on it, 30 in from the closet."""
    return bare(
        fixtures=(Fixture("wc1", "water_closet", (150.0, 50.0)),),
        risers=(Riser("r1", (120.0, 50.0), vent=vent),),  # type: ignore[arg-type]
        drains=(drain((150.0, 50.0), (120.0, 50.0), (40.0, 50.0), size="3"),),
        exits=out(40.0, 50.0),
    )


def closet_that_drops() -> Plan:
    """A closet's arm comes to an upright drain with a vent above and drops onto a lavatory's main."""
    return bare(
        fixtures=(Fixture("wc1", "water_closet", (150.0, 50.0)), Fixture("lav1", "lavatory", (90.0, 20.0))),
        risers=(Riser("r1", (90.0, 20.0)), Riser("r2", (120.0, 50.0))),
        drains=(
            drain((150.0, 50.0), (120.0, 50.0), size="3", join="drop"),
            drain((90.0, 20.0), (120.0, 20.0), (120.0, 50.0), (120.0, 110.0), size="3", id="m"),
        ),
        exits=out(120.0, 110.0),
    )


def below_the_meeting() -> Plan:
    """Two showers whose drains meet in a wye, with one vent 30 in below."""
    return bare(
        fixtures=(Fixture("sh1", "shower", (100.0, 100.0)), Fixture("sh2", "shower", (100.0, 130.0))),
        risers=(Riser("r1", (40.0, 100.0)),),
        drains=(
            drain((100.0, 100.0), (70.0, 100.0), (40.0, 100.0), (10.0, 100.0), size="2"),
            drain((100.0, 130.0), (70.0, 100.0), size="2", id="d2"),
        ),
        exits=out(10.0, 100.0),
    )


def combination(second: bool) -> Plan:
    """A sink's drop into a level 3 in run: at its upper end, or on its way where a second sink stands above."""
    risers = (Riser("r1", (80.0, 50.0), size="2", top="none"), Riser("r3", (110.0, 50.0), size="2", top="none"))
    sinks = (Fixture("ks1", "kitchen_sink", (80.0, 50.0)), Fixture("ks2", "kitchen_sink", (110.0, 50.0)))
    run = ((110.0, 50.0), (80.0, 50.0), (40.0, 50.0)) if second else ((80.0, 50.0), (40.0, 50.0))
    return bare(
        fixtures=(*sinks[: 1 + second], Fixture("lav1", "lavatory", (40.0, 90.0))),
        risers=(*risers[: 1 + second], Riser("r2", (40.0, 90.0))),
        drains=(drain(*run, size="3"), drain((40.0, 90.0), (40.0, 50.0), (40.0, 10.0), size="3", id="m")),
        exits=out(40.0, 10.0),
    )


def square_from_both_sides() -> Plan:
    """Two showers' 2 in drains that come square into one 2 in main, opposite each other."""
    return bare(
        fixtures=(
            Fixture("sh1", "shower", (100.0, 90.0)),
            Fixture("sh2", "shower", (100.0, 10.0)),
            Fixture("sh3", "shower", (150.0, 50.0)),
        ),
        drains=(
            drain((150.0, 50.0), (100.0, 50.0), (40.0, 50.0), size="2"),
            drain((100.0, 90.0), (100.0, 50.0), size="2", id="d2"),
            drain((100.0, 10.0), (100.0, 50.0), size="2", id="d3"),
        ),
        exits=out(40.0, 50.0),
    )


def vents_that_cross() -> Plan:
    """The vents of three lavatories meet overhead in one riser, from both sides at one height."""
    at = ((60.0, 100.0), (100.0, 100.0), (140.0, 100.0))
    return bare(
        fixtures=tuple(Fixture(f"lav{n}", "lavatory", place, turn=270.0) for n, place in enumerate(at, 1)),
        risers=(Riser("r1", at[0], top="none"), Riser("r2", at[1]), Riser("r3", at[2], top="none")),
        vents=(Vent("v1", (at[1], at[2]), above_floor=50.0), Vent("v2", (at[1], at[0]), above_floor=50.0)),
        drains=(
            drain(at[1], (100.0, 30.0), (100.0, 5.0), size="2", id="m"),
            drain(at[2], (140.0, 70.0), (100.0, 30.0), size="2", id="d2"),
            drain(at[0], (60.0, 70.0), (100.0, 30.0), size="2", id="d3"),
        ),
        exits=out(100.0, 5.0),
    )


def opened_island(book: str) -> Plan:
    """An island with cleanouts in both uprights."""
    plan = island(book)
    return replace(plan, cleanouts=(*plan.cleanouts, Cleanout("c2", (112.0, 160.0), above_floor=12.0, turn=270.0)))


LAV, SINK, WASHER = ("lavatory", 18.0), ("kitchen_sink", 18.0), ("washer_standpipe", 18.0)
NODES: dict[str, Plan] = {
    "common vent at one level": column(LAV, LAV),
    "the same on 2 in": column(SINK, SINK, size="2"),
    "the same with unlike basins": column(LAV, SINK, size="2"),
    "the same with washers": column(WASHER, WASHER, size="2"),
    "the same with a washer and a lavatory": column(WASHER, LAV, size="2"),
    "the same on 3 in": column(LAV, LAV, size="3"),
    "the same on 4 in": column(LAV, LAV, size="4"),
    "one lavatory on 4 in": column(LAV, size="4"),
    "common vent at two levels": column(("lavatory", 24.0), ("lavatory", 14.0), size="2"),
    "two levels as near as hubs allow": column(("lavatory", 18.0), ("lavatory", 13.8125), size="1-1/2", vent="1-1/2"),
    "waste stack with a vent of its size": column(("lavatory", 34.0), ("kitchen_sink", 24.0), LAV, size="2", vent="2"),
    "vertical wet vent": column(("lavatory", 34.0), ("lavatory", 24.0), ("lavatory", 14.0), size="2"),
    "a pair among three levels": column(("lavatory", 34.0), ("lavatory", 24.0), ("lavatory", 24.0), LAV, size="2"),
    "circuit vent": leaves_level(level_branch("shower", "shower", "shower")),
    "circuit vent with closets": leaves_level(level_branch("water_closet", "water_closet", "shower", size="4")),
    "common vent below the meeting": below_the_meeting(),
    "combination at the upper end": combination(second=False),
    "combination on its way": combination(second=True),
    "square from both sides": square_from_both_sides(),
    "closets that drop at one place": dropping("water_closet", 40.0, 40.0),
    "showers that drop at one place": dropping("shower", 40.0, 40.0, sizes=("2", "2")),
    "closet with a vent of its own": closet(None),
    "closet with a 2 in vent": closet("2"),
    "closet with a 3 in vent": closet("3"),
    "closet that drops": closet_that_drops(),
    "vents that cross": vents_that_cross(),
    "tub on a 2 in arm": arm_on("bathtub", "2"),
    "1-1/2 in shower on a 2 in arm": arm_on("shower", "2", "1-1/2"),
    "2 in shower on a 3 in arm": arm_on("shower", "3", "2"),
    "island": opened_island("irc-2021"),
}
