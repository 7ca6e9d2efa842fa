"""Made-up cases of the usual kinds about what pipe does to joists: IRC 2021 R502.8.1 and R502.8.2; in the UPC the same numbers.

A joist d deep may be bored min(d/3, d - 4), notched d/6 deep and d/3 long in the outer thirds, d/4 over its end bearing. Dressed
depths 5.5, 7.25, 9.25, 11.25; outsides 1.660, 1.900, 2.375, 3.500, 4.500 and, of tube, 0.625, 0.875, 1.125.
"""

from __future__ import annotations

from typing import Any

import pytest

from engine.plan.records import DoubledJoist, Exit, JoistField, MeasuredJoist, Plan, Supply
from engine.takeoff.answers import check_answer
from tests.engine.asked.asked_plans import ask, floor, joists, leaving, run
from tests.engine.asked.made_up import Case, Said, asked_of, both, held

SECTION = "IRC R502.8.1"
FLAT = 0.0001
"""Slope of a run whose height is not to change, inches per foot."""
LEGAL: Said = {
    "bore-too-large": [],
    "bore-near-edge": [],
    "bore-tight-on-pipe": [],
    "bores-close-together": [],
    "bore-in-middle-third": [],
    "no-straight-bore": [],
    "shield-plate-needed": [],
    "no-height-fits": [],
}


def drained(lumber: str, size: str, down: float | None, y: float = 40.0, slope: float = FLAT, **given: Any) -> Plan:
    """A drain square through joists at x 8, 24 and 40, `y` from the rim's outside, its axis so far down at its lower end."""
    return floor(
        joists(8.0, 40.0, 144.0, lumber=lumber, **given),
        drains=(run((46.0, y), (2.0, y), size=size, slope=slope),),
        exits=leaving((2.0, y), down),
    )


def falling(lumber: str, size: str, count: int, spacing: float = 16.0) -> Plan:
    """A drain at 1/4 in per ft through so many joists, its height left to the program."""
    last = 8.0 + (count - 1) * spacing
    return floor(
        joists(8.0, last, 144.0, lumber=lumber, spacing=spacing),
        drains=(run((last + 5.0, 40.0), (3.0, 40.0), size=size),),
        exits=leaving((3.0, 40.0)),
    )


def tube(y: float, down: float | None = None, size: str = "1/2", id: str = "c", **given: Any) -> Supply:
    points = ((46.0, y), (2.0, y))
    return Supply(
        **{"id": id, "water": "cold", "points": points, "size": size, "down": down, "insulation": 0.0} | given
    )


def piped(*tubes: Supply, lumber: str = "2x10", **given: Any) -> Plan:
    """Water tube square through joists at x 8, 24 and 40 that span from y 3.5 to 140.5."""
    return floor(joists(8.0, 40.0, 144.0, lumber=lumber, **given), supplies=tubes)


def let_in(y: float, down: float, size: str = "1-1/2", lumber: str = "2x10", **given: Any) -> Plan:
    """A level drain in notches of the same joists, its axis so far down."""
    return floor(
        joists(8.0, 40.0, 144.0, lumber=lumber, **given),
        drains=(run((46.0, y), (2.0, y), size=size, slope=FLAT, passing="notched"),),
        exits=leaving((2.0, y), down),
    )


def too_wide(outside: float, depth: float, count: int = 3) -> Said:
    return {"bore-too-large": [(outside, min(depth / 3.0, depth - 4.0))] * count, "bore-near-edge": []}


BORES = (
    both("1-1/2 in drain through a 2x6 floor", SECTION, drained("2x6", "1-1/2", 2.75), too_wide(1.900, 5.5)),
    both("2 in drain through a 2x6 floor", SECTION, drained("2x6", "2", 2.75), too_wide(2.375, 5.5)),
    both("3 in drain through a 2x8 floor", SECTION, drained("2x8", "3", 3.6), too_wide(3.500, 7.25)),
    # 7.5 / 3 = 2.5, and the bit for 2 in pipe is 2-9/16
    both("2 in drain through an old 2x8 that measures 7-1/2", SECTION, drained("2x8", "2", 3.75, depth=7.5), too_wide(2.5625, 7.5)),
    # 7.75 / 3 = 2.583
    both("2 in drain through one that measures 7-3/4", SECTION, drained("2x8", "2", 3.875, depth=7.75), LEGAL),
    both("3 in drain 4-1/2 in from the bearing", SECTION, drained("2x10", "3", 4.6, y=9.5), too_wide(3.500, 9.25)),
    both("3 in drain at midspan", SECTION, drained("2x10", "3", 4.6, y=72.0), too_wide(3.500, 9.25)),
    both("1-1/2 in drain 6 in from the joists' ends", SECTION, drained("2x10", "1-1/2", 4.6, y=7.5), LEGAL),
    both("1-1/2 in drain at midspan", SECTION, drained("2x10", "1-1/2", 4.6, y=72.0), LEGAL),
    both(
        "3 in drain through a doubled 2x10",
        SECTION,
        drained("2x10", "3", 4.6, doubled=(DoubledJoist(2),)),
        too_wide(3.500, 9.25),
    ),
    # top wood: 2.5625 / 2 = 1.28125 from 2.5 down leaves 1.21875; the doubled one and that of 9-3/4 are held to the same 2
    both(
        "2 in drain high in joists of which one is doubled and one deeper",
        SECTION,
        drained("2x10", "2", 2.5, doubled=(DoubledJoist(2),), measured=(MeasuredJoist(3, 9.75),)),
        {"bore-too-large": [], "bore-near-edge": [(1.21875, 2.0)] * 3},
    ),
    # 9.25 - 6.5 - 1.0625
    both("1-1/2 in drain low in a 2x10", SECTION, drained("2x10", "1-1/2", 6.5), {"bore-near-edge": [(1.6875, 2.0)] * 3}),
    both("4 in drain through a 2x12 floor", SECTION, drained("2x12", "4", 5.6), too_wide(4.500, 11.25)),
    # 1.125 outside, the 1-3/8 bit
    both("bare 1 in tube through a 2x6 floor", SECTION, piped(tube(20.0, size="1"), lumber="2x6"), LEGAL),
    # 0.875 + 2 x 0.5 = 1.875
    both(
        "3/4 in tube in its foam through a 2x6 floor",
        SECTION,
        piped(tube(20.0, size="3/4", insulation=0.5), lumber="2x6"),
        {"bore-too-large": [(1.875, 1.5)] * 3},
    ),
    # foam of 1/4: 1.125, the 1-3/8 bit
    both("1/2 in tube in thin foam through a 2x6 floor", SECTION, piped(tube(20.0, insulation=0.25), lumber="2x6"), LEGAL),
    # 1.5 - 0.4375
    both("1/2 in tube 1-1/2 in down", SECTION, piped(tube(20.0, 1.5)), {"bore-near-edge": [(1.0625, 2.0)] * 3, "bore-too-large": []}),
    # 3.5 - 4 is less than nothing
    both("1/2 in tube through a 2x4 floor", SECTION, piped(tube(20.0), lumber="2x4"), {"bore-too-large": [(0.625, 0.0)] * 3}),
    # 2.5 - 0.875
    both("tubes one over the other, 2-1/2 in apart", SECTION, piped(tube(20.0, 3.0), tube(20.0, 5.5, id="h"), lumber="2x12"), {"bores-close-together": [(1.625, 2.0)] * 3}),
    both("tubes one over the other, 3 in apart", SECTION, piped(tube(20.0, 3.0), tube(20.0, 6.0, id="h"), lumber="2x12"), LEGAL),
    # 2 in pipe 45 degrees from square: 2.5625 x 1.4142 on the face
    both(
        "2 in drain slantwise through 2x10s",
        "common practice, no source",
        floor(
            joists(8.0, 40.0, 144.0),
            drains=(run((46.0, 84.0), (2.0, 40.0), size="2", slope=FLAT),),
            exits=leaving((2.0, 40.0), 4.6),
        ),
        {"bore-too-large": [], "bore-long-at-an-angle": [(3.624, 9.25 / 3.0)] * 3},
    ),
    both(
        "1-1/2 in drain right along a joist",
        "common practice, no source",
        floor(joists(8.0, 40.0, 144.0), drains=(run((24.0, 100.0), (24.0, 40.0), size="1-1/2"),), exits=leaving((24.0, 40.0), 4.6)),
        {"no-straight-bore": [(None, None)], "lands-on-wood": [(0.95 + 0.75, 0.0)]},
    ),
    # 1.75 + 0.75 - 2
    both(
        "3 in drain along a bay, 2 in from a joist's middle",
        "common practice, no source",
        floor(joists(8.0, 40.0, 144.0), drains=(run((26.0, 100.0), (26.0, 40.0), size="3"),), exits=leaving((26.0, 40.0), 6.0)),
        {"pipe-side-in-wood": [(0.5, 0.0)]},
    ),
)  # fmt: skip

NOTCHES = (
    # 9.25 / 6 = 1.5417, 9.25 / 3 = 3.0833
    both("1 in tube 1-1/16 in deep in the top, an outer third", SECTION, piped(tube(20.0, 0.5, "1", passing="notched")), {"notch-too-deep": [], "notch-too-long": [], "notch-in-middle-third": [], "bore-too-large": []}),
    # half way along a clear span of 137: 68.5 and half of 0.625, against 137 / 3
    both("1/2 in tube in the top at midspan", SECTION, piped(tube(72.0, 0.3125, passing="notched")), {"notch-too-deep": [], "notch-in-middle-third": [(68.8125, 137.0 / 3.0)] * 3}),
    both("the same in the bottom", SECTION, piped(tube(72.0, 9.25 - 0.3125, passing="notched")), {"notch-in-middle-third": [(68.8125, 137.0 / 3.0)] * 3}),
    both("1-1/2 in drain in the bottom", SECTION, let_in(20.0, 8.3), {"notch-too-deep": [(1.9, 9.25 / 6.0)] * 3, "notch-in-middle-third": []}),
    # half of it in the wood, 1.75 deep, and 3.5 long
    both("3 in drain in the bottom", SECTION, let_in(20.0, 9.25, size="3"), {"notch-too-deep": [(1.75, 9.25 / 6.0)] * 3, "notch-too-long": [(3.5, 9.25 / 3.0)] * 3}),
    # a bearing 5.5 wide, the notch from 1.8125 to 4.1875; 9.25 / 4 = 2.3125
    both("2 in drain in the bottom over a wide bearing, 2-1/4 in deep", SECTION, let_in(3.0, 9.25 - 2.25 + 1.1875, size="2", end_bearing=5.5), {"end-notch-too-deep": [], "notch-too-deep": []}),
    both("the same 2-5/8 in deep", SECTION, let_in(3.0, 9.25 - 2.625 + 1.1875, size="2", end_bearing=5.5), {"end-notch-too-deep": [(2.625, 9.25 / 4.0)] * 3, "notch-too-deep": []}),
    # between the two tubes' edges: 1 in over and 3 - 0.5625 - 0.875 down, on the slant
    both("a bore beside a notch", SECTION, piped(tube(20.0, 0.4375, "3/4", passing="notched"), tube(21.0, 3.0, "3/4", "h")), {"bore-close-to-notch": [(1.636, 2.0)] * 3}),
    # 0.875 twice; 7.25 / 6 = 1.2083
    both("a notch in each edge at one place", "common practice, no source", piped(tube(20.0, 0.4375, "3/4", passing="notched"), tube(20.0, 7.25 - 0.4375, "3/4", "h", passing="notched"), lumber="2x8"), {"notch-too-deep": [], "notches-together": [(1.75, 7.25 / 6.0)] * 3}),
    # 0.875 + 1 against 5.5 / 3
    both("hot and cold in notches 1 in apart", "common practice, no source", piped(tube(20.0, 0.4375, "3/4", passing="notched"), tube(21.0, 0.4375, "3/4", "h", passing="notched"), lumber="2x6"), {"notch-too-deep": [], "notch-too-long": [], "notches-together": [(1.875, 5.5 / 3.0)] * 3}),
    both("tube let into I-joists", "IRC R502.8.2", piped(tube(20.0, 0.3125, passing="notched"), lumber="2x12", member="engineered", depth=11.875), {"engineered-member-cut": [(None, None)] * 3, "notch-too-deep": []}),
)  # fmt: skip

REACH = tuple(
    both(
        f"{size} in drain at 1/4 in per ft through {count} {lumber} joists {spacing:g} in apart",
        SECTION,
        falling(lumber, size, count, spacing),
        {"bore-too-large": [], "bore-near-edge": [], "no-height-fits": []}
        if fits
        else {"bore-too-large": [], "no-height-fits": [((count - 1) * spacing / 48.0 - play, 0.0)]},
    )
    # what is left between the edges when the bit has had its part, d - 4 - bit, is the fall; a joist's spacing takes 1/48 of it
    for lumber, size, play, spacing, most in (
        ("2x8", "1-1/2", 1.125, 16.0, 4),
        ("2x8", "1-1/2", 1.125, 24.0, 3),
        ("2x10", "1-1/2", 3.125, 16.0, 10),
        ("2x10", "1-1/2", 3.125, 24.0, 7),
        ("2x10", "2", 2.6875, 16.0, 9),
        ("2x10", "2", 2.6875, 24.0, 6),
        ("2x12", "2", 4.6875, 16.0, 15),
        ("2x12", "3", 3.625, 16.0, 11),
        ("2x12", "3", 3.625, 24.0, 8),
    )
    for count, fits in ((most, True), (most + 1, False))
)


@asked_of(BORES)
def test_bores(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(NOTCHES)
def test_notches(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(REACH)
def test_how_many_joists_a_fall_may_pass(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
def test_each_cut_with_what_a_tape_needs(book: str) -> None:
    """A 1-1/2 in drain 40 in from the rim's outside at 1/4 in per ft, 5.125 down at x 2; joists from y 1.5 to 142.5.

    x 8, 24, 40: 6, 22 and 38 in above the lower end, so 0.125, 0.4583 and 0.7917 higher. Half of the 2-1/8 bit is 1.0625.
    """
    answer = check_answer(ask(drained("2x10", "1-1/2", 5.125, slope=0.25), book))
    rows = sorted(answer["joist_cuts"], key=lambda row: row["at"][0])
    assert len(rows) == 3
    for row, down in zip(rows, (5.0, 4.666667, 4.333333), strict=True):
        assert (row["kind"], row["bit"], row["diameter"], row["legal"], row["faults"]) == (
            "bore",
            "2-1/8",
            2.125,
            True,
            [],
        )
        assert (row["from_start"], row["from_end"]) == (38.5, 102.5)
        assert row["down_from_top"] == pytest.approx(down, abs=5e-4)
        assert row["up_from_bottom"] == pytest.approx(9.25 - down, abs=5e-4)
        assert row["wood_above"] == pytest.approx(down - 1.0625, abs=5e-4)
        assert row["limit"] == pytest.approx(9.25 / 3.0, abs=5e-6)


def test_a_notch_with_its_depth_its_length_and_its_limit() -> None:
    (row, *_) = check_answer(ask(piped(tube(20.0, 0.5, "1", passing="notched"))))["joist_cuts"]
    # 0.5 and half of 1.125; 9.25 / 6
    assert (row["kind"], row["bit"], row["depth"], row["length"]) == ("notch", None, 1.0625, 1.125)
    assert (row["from_start"], row["legal"]) == (18.5, True)
    assert row["limit"] == pytest.approx(9.25 / 6.0, abs=5e-6)


def test_a_bored_rim_is_looked_at_and_has_no_limit() -> None:
    """3 in through the rim at the south: no rule on joists covers it."""
    plan = floor(
        JoistField("j", (0.0, 0.0), (120.0, 144.0)),
        drains=(run((24.0, 80.0), (24.0, 0.0), size="3"),),
        exits=(Exit("x1", (24.0, 0.0), how="through-rim"),),
    )
    answer = check_answer(ask(plan))
    (row,) = answer["joist_cuts"]
    assert (row["joist"], row["legal"], row["limit"], row["faults"]) == ("j.rim-south", None, None, [])
    assert [found["weight"] for found in answer["findings"] if found["rule"] == "rim-cut"] == ["look"]


def test_where_no_bearing_is_drawn_the_place_of_a_notch_is_not_judged() -> None:
    """1.9 in is over d/6 and under d/4, so that it hangs on the bearing."""
    answer = check_answer(ask(let_in(20.0, 8.3, end_bearing=0.0)))
    assert {row["legal"] for row in answer["joist_cuts"]} == {None}
    missing = {case["missing"] for case in answer["not_judged"] if case["rule"] == "notch-in-middle-third"}
    assert len(missing) == 3 and all("bearing" in words for words in missing)


CASES: tuple[Case, ...] = (*BORES, *NOTCHES)


@pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
def test_what_is_told_wrongly_again_and_again_is_nowhere_said(book: str) -> None:
    """IRC 2021 R502.8.1: a third of the dressed depth, at any place along the span, where the edges allow it too.

    A third of the nominal depth would be 2 in of a 2x6 and 2-2/3 of a 2x8; by the edges alone a 2x8 would take 3-1/4, by the third
    alone a 2x6 1-13/16; 2-7/16 is past a 2x8's 2.4167. Printed is what lies under the limit on a tape.
    """
    printed = {0.0: "", 1.5: "1 1/2", 2.416667: "2 3/8", 2.5: "2 1/2", 3.083333: "3 1/16", 3.75: "3 3/4"}
    for case in CASES:
        for found in ask(case.plan, book).findings:
            words = f"{found.text} {found.mend}".lower()
            if found.rule == "bore-too-large" and found.limit:
                assert f"may be bored {printed[round(found.limit, 6)]} in wide at most" in words
            if found.rule.startswith("bore"):
                assert "third" not in words, (case.words, found.text)
            assert not any(repair in words for repair in ("sister", "plywood", "gusset", "reinforc")), found.text
