"""Made-up cases of the usual kinds about cleanouts, dead ends and floor drains: IRC 2021 P3005.1.5, P3005.2; UPC 2021 707."""

from __future__ import annotations

from msgspec.structs import replace

from engine.plan.records import Cleanout, Exit, Fixture, Floor, Hatch, Plan, Point, Riser
from tests.engine.asked.asked_plans import floor, leaving, run
from tests.engine.asked.made_up import Case, Said, asked_of, both, held

UPPER, SHARP, SUM, APART = (
    "upper-end-without-cleanout",
    "sharp-turn-without-cleanout",
    "turns-without-cleanout",
    "cleanouts-far-apart",
)
DEAD, HATCH, CRAWL, SMALL = "dead-end", "cleanout-far-from-hatch", "cleanout-in-low-crawl-space", "cleanout-too-small"


def short_run(kind: str) -> Plan:
    """A wall fixture over 4 ft of 2 in drain."""
    at = (68.0, 40.0)
    return floor(
        fixtures=(Fixture("f", kind, at, turn=90.0),),  # type: ignore[arg-type]
        drains=(run(at, (20.0, 40.0), size="2"),),
        risers=(Riser("r1", at),),
        exits=leaving((20.0, 40.0)),
    )


def closet(*points: Point, cleanouts: tuple[Cleanout, ...] = ()) -> Plan:
    """A closet's 3 in drain through these points, vented at the second, with a cleanout outside."""
    wide = Floor(outline=((0.0, 0.0), (2000.0, 0.0), (2000.0, 500.0), (0.0, 500.0)))
    plan = floor(
        fixtures=(Fixture("wc", "water_closet", points[0]),),
        drains=(run(*points, size="3"),),
        risers=(Riser("r1", points[1]),),
        exits=(Exit("x1", points[-1], cleanout_outside=True),),
        cleanouts=cleanouts,
    )
    return replace(plan, floor=wide)


def stub(length: float, cleanout: str | None = None, hatch: float | None = None, crawl: float | None = None) -> Plan:
    """A 3 in drain whose upper end takes nothing for so far; a hatch may be so far from the cleanout at that end."""
    end = (150.0 + length, 40.0)
    plan = floor(
        fixtures=(Fixture("sh", "shower", (150.0, 80.0)),),
        drains=(
            run(end, (150.0, 40.0), (20.0, 40.0), size="3"),
            run((150.0, 80.0), (150.0, 60.0), (150.0, 40.0), id="b", size="2"),
        ),
        risers=(Riser("r1", (150.0, 60.0)),),
        exits=leaving((20.0, 40.0)),
        cleanouts=(Cleanout("c1", end, size=cleanout),) if cleanout else (),  # type: ignore[arg-type]
        hatches=() if hatch is None else (Hatch("h1", (end[0] + hatch, 40.0), clear=30.0),),
    )
    return replace(plan, floor=replace(plan.floor, crawl=crawl))


CLEANOUTS = (
    Case("kitchen sink over 4 ft", "UPC 707.4 (1)", short_run("kitchen_sink"), None, {UPPER: [(48.0, None)]}),
    Case("lavatory over 4 ft", "UPC 707.4 (1)", short_run("lavatory"), None, {UPPER: []}),
    Case("one turn of 90", "IRC P3005.2.4, UPC 707.4", closet((20.0, 20.0), (40.0, 20.0), (200.0, 20.0), (200.0, 200.0)), {SHARP: [(90.0, 45.0)]}, {SHARP: [], SUM: []}),
    both("one turn of 45", "the same", closet((20.0, 20.0), (40.0, 20.0), (200.0, 20.0), (300.0, 120.0)), {SHARP: [], SUM: []}),
    # the second lies 20 ft below the first
    Case("two turns of 90", "the same", closet((20.0, 20.0), (40.0, 20.0), (200.0, 20.0), (200.0, 260.0), (400.0, 260.0)), {SHARP: [(90.0, 45.0)]}, {SUM: [(180.0, 135.0)]}),
    both("110 ft", "IRC P3005.2.1, UPC 707.4", closet((1360.0, 20.0), (1340.0, 20.0), (40.0, 20.0)), {APART: [(1320.0, 1200.0)]}),
    both("100 ft", "the same", closet((1240.0, 20.0), (1220.0, 20.0), (40.0, 20.0)), {APART: []}),
    both("a stub of 30 in", "IRC P3005.1.5, UPC chapter 2", stub(30.0), {DEAD: [(30.0, 24.0)]}),
    both("a stub of 24 in", "the same", stub(24.0), {DEAD: []}),
    both("a stub of 30 in with a cleanout", "the same", stub(30.0, "3"), {DEAD: []}),
    Case("8 ft from the hatch", "UPC 707.9", stub(30.0, "3", 96.0, 30.0), {HATCH: []}, {HATCH: [(96.0, 60.0)]}),
    both("5 ft from the hatch, crawl space of 30 in", "IRC P3005.2.10, UPC 707.9", stub(30.0, "3", 60.0, 30.0), {HATCH: [], CRAWL: [], SMALL: []}),
    Case("crawl space of 20 in", "the same", stub(30.0, "3", 40.0, 20.0), {CRAWL: [(20.0, 24.0)]}, {CRAWL: []}),
    Case("crawl space of 16 in", "the same", stub(30.0, "3", 40.0, 16.0), {CRAWL: [(16.0, 24.0)]}, {CRAWL: [(16.0, 18.0)]}),
    Case("2 in cleanout in 3 in pipe", "IRC P3005.2.5, UPC Table 707.1", stub(30.0, "2"), {SMALL: [(2.0, 3.0)]}, {SMALL: [(2.0, 2.5)]}),
)  # fmt: skip


@asked_of(CLEANOUTS)
def test_cleanouts(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(
    (
        both(
            "floor drain on a vent of its own",
            "IRC P3201.2.1, UPC 1007",
            floor(
                fixtures=(Fixture("fd", "floor_drain", (200.0, 40.0)),),
                drains=(run((200.0, 40.0), (150.0, 40.0), (20.0, 40.0), size="2"),),
                risers=(Riser("r1", (150.0, 40.0)),),
                exits=leaving((20.0, 40.0)),
            ),
            {"trap-without-vent": [], "trap-too-far-from-vent": [], "floor-drain-dries": [(None, None)]},
        ),
    )
)
def test_floor_drains(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)
