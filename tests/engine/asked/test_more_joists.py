"""Made-up cases of the usual kinds about bores, notches and slope: IRC 2021 R502.8.1, R502.8.2, P3005.3; UPC 2021 708.1.

The UPC has no numbers for joists, so the building code's stand in both books. Pipe is 1.660, 1.900, 2.375, 3.500 and 4.500 in
wide outside; bores go by the bit that is sold for the pipe.
"""

from __future__ import annotations

from typing import Any

from engine.plan.records import Exit, Fixture, Plan, Riser, Supply
from tests.engine.asked.asked_plans import ask, floor, joists, leaving, run
from tests.engine.asked.made_up import Case, Said, asked_of, both, held

SECTION = "IRC R502.8.1"


def through(lumber: str, size: str, down: float, slope: float = 0.25, **given: Any) -> Plan:
    """A drain square through three joists, its axis so far below their top at the lower end."""
    return floor(
        joists(8.0, 40.0, 120.0, lumber=lumber, **given),
        drains=(run((46.0, 40.0), (2.0, 40.0), size=size, slope=slope),),
        exits=leaving((2.0, 40.0), down),
    )


def side_by_side(apart: float) -> Plan:
    """Two 1-1/2 in drains through 2x10s, their axes so far apart."""
    ends = ((2.0, 40.0), (2.0, 40.0 + apart))
    return floor(
        joists(8.0, 40.0, 120.0),
        drains=tuple(run((46.0, y), (2.0, y), size="1-1/2", id=f"d{n}") for n, (_, y) in enumerate(ends)),
        exits=tuple(Exit(f"x{n}", end, pinned_z=-5.0) for n, end in enumerate(ends)),
    )


def tubes(apart: float) -> Plan:
    """Hot and cold 1/2 in tube through 2x10s at mid depth."""
    rows = (("cold", 40.0), ("hot", 40.0 + apart))
    return floor(
        joists(8.0, 40.0, 120.0),
        supplies=tuple(
            Supply(water, water, ((46.0, y), (2.0, y)), size="1/2", insulation=0.0)  # type: ignore[arg-type]
            for water, y in rows
        ),
    )


def tube_in_a_notch(along: float) -> Plan:
    """3/4 in tube let into the top of 2x8s that span 10 ft, so far from their end."""
    points = ((46.0, along), (2.0, along))
    tube = Supply("c", "cold", points, size="3/4", insulation=0.0, down=0.5, passing="notched")
    return floor(joists(8.0, 40.0, 123.5, lumber="2x8"), supplies=(tube,))


def closet_or_shower(size: str, slope: float) -> Plan:
    """A fixture vented 20 in down a drain that goes on 80 in to its exit."""
    kind = "water_closet" if size in ("3", "4") else "shower"
    return floor(
        fixtures=(Fixture("f", kind, (100.0, 40.0)),),  # type: ignore[arg-type]
        drains=(run((100.0, 40.0), (80.0, 40.0), (0.0, 40.0), size=size, slope=slope),),
        risers=(Riser("r1", (80.0, 40.0)),),
        exits=leaving((0.0, 40.0)),
    )


CLEAR: Said = {"bore-too-large": [], "bore-near-edge": [], "bore-tight-on-pipe": [], "bores-close-together": []}

JOISTS = (
    both("1-1/2 in drain through 2x6: 2 in edges leave 1-1/2", SECTION, through("2x6", "1-1/2", 3.0), {"bore-too-large": [(1.9, 1.5)] * 3}),
    both("1-1/4 in drain through 2x6", SECTION, through("2x6", "1-1/4", 3.0), {"bore-too-large": [(1.66, 1.5)] * 3}),
    both("1-1/2 in drain through 2x8", SECTION, through("2x8", "1-1/2", 4.0), CLEAR),
    # a 2 in pipe is narrower than 7-1/4 / 3, and no bit that it slides through is
    both("2 in drain through 2x8", SECTION, through("2x8", "2", 3.9), {"bore-too-large": [(2.5625, 7.25 / 3.0)] * 3}),
    both("2 in drain through 2x10", SECTION, through("2x10", "2", 5.0), CLEAR),
    both("3 in drain through 2x10 of an old house, 9-3/4 in deep", SECTION, through("2x10", "3", 5.0, depth=9.75), {"bore-too-large": [(3.5, 3.25)] * 3}),
    both("3 in drain through 2x12", SECTION, through("2x12", "3", 6.2), CLEAR),
    both("4 in drain through 2x12", SECTION, through("2x12", "4", 6.2), {"bore-too-large": [(4.5, 3.75)] * 3}),
    # 9.25 less 7 less half of 2-9/16
    both("2 in drain low in 2x10", SECTION, through("2x10", "2", 7.0, 0.0001), {"bore-too-large": [], "bore-near-edge": [(0.969, 2.0)] * 3}),
    # 4 less the bit of 2-1/8
    both("two 1-1/2 in drains 4 in apart", SECTION, side_by_side(4.0), {"bores-close-together": [(1.875, 2.0)] * 3}),
    both("two 1-1/2 in drains 4-1/8 in apart", SECTION, side_by_side(4.125), CLEAR),
    both("hot and cold 3 in apart", SECTION, tubes(3.0), CLEAR),
    both("tube in a notch in the outer third", SECTION, tube_in_a_notch(20.0), {"notch-too-deep": [], "notch-too-long": [], "notch-in-middle-third": []}),
    both(
        "1-1/2 in drain let into the top of 2x10s",
        SECTION,
        floor(
            joists(8.0, 40.0, 123.5),
            drains=(run((46.0, 20.0), (2.0, 20.0), size="1-1/2", slope=0.0001, passing="notched"),),
            exits=leaving((2.0, 20.0), 0.95),
        ),
        {"notch-too-deep": [(1.9, 9.25 / 6.0)] * 3, "notch-in-middle-third": []},
    ),
    both("drain through I-joists", "IRC R502.8.2", through("2x10", "2", 5.0, member="engineered", depth=9.5), {"engineered-member-cut": [(None, None)] * 3, "bore-too-large": []}),
    both(
        "3 in drain along a bay of I-joists",
        "IRC R502.8.2",
        floor(joists(8.0, 40.0, 120.0, member="engineered", depth=9.5), drains=(run((16.0, 100.0), (16.0, 20.0), size="3"),), exits=leaving((16.0, 20.0), 5.0)),
        {"engineered-member-cut": [], "pipe-side-in-wood": []},
    ),
)  # fmt: skip

SLOPES = (
    both("2 in at 1/8", "IRC P3005.3, UPC 708.1", closet_or_shower("2", 0.125), {"slope-too-small": [(0.125, 0.25)]}),
    Case("3 in at 1/8", "the same", closet_or_shower("3", 0.125), {"slope-too-small": []}, {"slope-too-small": [(0.125, 0.25)]}),
    # from memory: 1/8 on 4 in is for the official to allow
    Case("4 in at 1/8", "the same", closet_or_shower("4", 0.125), {"slope-too-small": []}, {"slope-too-small": [(0.125, 0.25)]}),
    Case("3 in at 1/16", "the same", closet_or_shower("3", 0.0625), {"slope-too-small": [(0.0625, 0.125)]}, {"slope-too-small": [(0.0625, 0.25)]}),
    both("3 in at 1/2", "the same", closet_or_shower("3", 0.5), {"slope-too-small": [], "steep-drain": []}),
)  # fmt: skip


@asked_of(JOISTS)
def test_joists(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(SLOPES)
def test_slopes(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


def test_a_gap_too_small_between_tubes_and_a_notch_in_the_middle() -> None:
    """Which numbers they have goes by the bit; that each of three joists is named does not."""
    for plan, rule in (
        (tubes(2.5), "bores-close-together"),
        (tube_in_a_notch(60.0), "notch-in-middle-third"),
        (tube_in_a_notch(20.0), "shield-plate-needed"),
    ):
        assert len([found for found in ask(plan).findings if found.rule == rule]) == 3
