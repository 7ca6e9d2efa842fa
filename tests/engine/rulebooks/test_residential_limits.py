"""The residential code's numbers against published limits, each with its source."""

import pytest

from engine.lengths import down, inches
from engine.rulebooks import load
from engine.trade.cutting import fall
from engine.trade.lumber import actual

BOOK = load("irc-2021")


@pytest.mark.parametrize(
    ("name", "bore", "shown"),
    [
        # IRC R502.8.1: the lesser of a third of the depth and the depth less 4 in. Read: 2x6 1-1/2 (How big of a hole can
        # I drill in a 2x6 floor joist), 2x8 2-3/8 (Q&A: Notches & Holes in Joists), 2x10 3.0833 (Can I drill 3-1/2" holes
        # through five joists?), 2x12 3-3/4 (several)
        ("2x6", 1.5, "1 1/2"),
        ("2x8", 7.25 / 3, "2 3/8"),
        ("2x10", 9.25 / 3, "3 1/16"),
        ("2x12", 3.75, "3 3/4"),
    ],
)
def test_the_largest_bore(name: str, bore: float, shown: str) -> None:
    depth = actual(name).depth
    most = min(depth * BOOK.number("joist.bore.fraction"), depth - 2 * BOOK.number("joist.bore.edge"))
    assert most == pytest.approx(bore, abs=1e-12)
    assert inches(down(most)) == shown


@pytest.mark.parametrize(
    ("name", "depth", "length", "end"),
    [
        # IRC R502.8.1: a sixth, a third, a quarter. Read: 2x6 7/8 x 1-13/16 (How big of a hole can I drill in a 2x6 floor
        # joist); 2x10 1-1/2, 3.08, 2.31 (Common Traps in Floor Construction); 2x12 end 2-13/16 (a copied floor-joist page)
        ("2x6", "7/8", "1 13/16", "1 3/8"),
        ("2x8", "1 3/16", "2 3/8", "1 13/16"),
        ("2x10", "1 1/2", "3 1/16", "2 5/16"),
        ("2x12", "1 7/8", "3 3/4", "2 13/16"),
    ],
)
def test_notches(name: str, depth: str, length: str, end: str) -> None:
    wood = actual(name).depth
    shown = [
        inches(down(wood * BOOK.number(f"joist.{key}")))
        for key in ("notch.depth_fraction", "notch.length_fraction", "end_notch.fraction")
    ]
    assert shown == [depth, length, end]


def test_where_cuts_may_lie() -> None:
    """IRC R502.8.1: 2 in to edges, other holes and notches; no notch in the middle third."""
    assert [BOOK.number(f"joist.{key}") for key in ("bore.edge", "bore.gap", "notch.gap")] == [2, 2, 2]
    assert BOOK.number("joist.notch.middle_from") == pytest.approx(1 / 3)
    assert BOOK.number("joist.notch.middle_to") == pytest.approx(2 / 3)
    assert BOOK.flag("joist.engineered.cuts_allowed") is False
    assert BOOK.cite("joist.engineered.cuts_allowed") == "IRC 2021 R502.8.2"


@pytest.mark.parametrize(
    ("key", "two_by_four", "two_by_six"),
    [
        # IRC R602.6, 2018 page: 25 and 40 % notched, 40 and 60 % bored
        ("stud.bearing.notch", 0.875, 1.375),
        ("stud.nonbearing.notch", 1.40, 2.20),
        ("stud.bearing.bore", 1.40, 2.20),
        ("stud.nonbearing.bore", 2.10, 3.30),
        ("stud.bearing.doubled_bore", 2.10, 3.30),
        # IRC R602.6.1: a top plate cut by more than half its width is tied
        ("plate.cut_most", 1.75, 2.75),
    ],
)
def test_studs_and_plates(key: str, two_by_four: float, two_by_six: float) -> None:
    assert actual("2x4").depth * BOOK.number(key) == pytest.approx(two_by_four)
    assert actual("2x6").depth * BOOK.number(key) == pytest.approx(two_by_six)


@pytest.mark.parametrize(
    ("size", "slope"), [("1-1/4", 0.25), ("1-1/2", 0.25), ("2", 0.25), ("2-1/2", 0.25), ("3", 0.125), ("4", 0.125)]
)
def test_least_slope(size: str, slope: float) -> None:
    """IRC P3005.3: 1/4 in/ft to 2-1/2 in, 1/8 from 3 in."""
    assert BOOK.number(f"slope.least.{size}") == slope
    assert BOOK.cite(f"slope.least.{size}") == "IRC 2021 P3005.3"


TRAP_ARMS = [("1-1/4", 1.25, 5), ("1-1/2", 1.5, 6), ("2", 2.0, 8), ("3", 3.0, 12), ("4", 4.0, 16)]


@pytest.mark.parametrize(("size", "nominal", "feet"), TRAP_ARMS)
def test_trap_arm_table(size: str, nominal: float, feet: float) -> None:
    """IRC Table P3105.1; at the table's slope no arm falls more than one diameter (P3105.2)."""
    length = BOOK.number(f"trap_arm.length.{size}")
    assert length == feet * 12
    most = BOOK.number("trap_arm.fall_diameters") * nominal
    assert fall(length, BOOK.number(f"trap_arm.slope.{size}")) <= most


@pytest.mark.parametrize(
    ("size", "slope", "feet", "fallen", "holds"),
    [
        # What is the minimum and maximum slope of the trap arm of a plumbing drain?; Maximum Length for Fixture Drains;
        # Q&A: slope for trap arm
        (2.0, 1 / 4, 8, 2.00, True),
        (2.0, 3 / 8, 8, 3.00, False),
        (2.0, 1 / 2, 4, 2.00, True),
        (3.0, 1 / 8, 12, 1.50, True),
        (3.0, 1 / 4, 12, 3.00, True),
        (1.5, 1 / 4, 7, 1.75, False),
    ],
)
def test_trap_arm_falls(size: float, slope: float, feet: float, fallen: float, holds: bool) -> None:
    label = {1.5: "1-1/2", 2.0: "2", 3.0: "3"}[size]
    table, most = BOOK.number(f"trap_arm.length.{label}"), BOOK.number("trap_arm.fall_diameters") * size
    assert fall(feet * 12, slope) == pytest.approx(fallen)
    assert (feet * 12 <= table and fall(feet * 12, slope) <= most) == holds


def test_a_steep_arm_is_bound_by_its_fall() -> None:
    """Maximum Length for Fixture Drains: 2 in at 3/8 in/ft may be 5.33 ft, a third shorter than the table."""
    by_fall = BOOK.number("trap_arm.fall_diameters") * 2.0 / 0.375
    assert by_fall == pytest.approx(5.33, abs=0.005)
    assert 1 - by_fall * 12 / BOOK.number("trap_arm.length.2") == pytest.approx(0.333, abs=0.001)


def test_traps() -> None:
    """IRC P3201.6 and Table P3201.7, P3105.3, P3201.2, P2706.1.2."""
    assert BOOK.number("outlet_to_weir.most") == 24
    assert BOOK.number("outlet_to_trap.sideways_most") == 30
    assert BOOK.number("trap_arm.crown_diameters") == 2
    assert BOOK.flag("trap_arm.closet_limited") is False
    assert [BOOK.number(f"trap.seal.{end}") for end in ("least", "most")] == [2, 4]
    assert [BOOK.number(f"standpipe.above_weir_{end}") for end in ("least", "most")] == [18, 42]
    least = {
        "lavatory": 1.25,
        "bathtub": 1.5,
        "kitchen_sink": 1.5,
        "shower": 1.5,
        "washer_standpipe": 2,
        "floor_drain": 2,
    }
    assert {kind: BOOK.number(f"trap.least.{kind}") for kind in least} == least
    assert not BOOK.has("trap.least.water_closet")
    assert [BOOK.number(key) for key in BOOK.keys("trap.shower_flow")] == [5.7, 12.3, 25.8, 55.6]


def test_a_shower_with_six_heads() -> None:
    """Q&A: shower with six heads: 12 units are too much for a 2 in branch, not for a 3 in one."""
    load_ = 6 * BOOK.number("dfu.shower")
    assert BOOK.number("load.branch.2") < load_ <= BOOK.number("load.branch.3")


def test_fixture_units() -> None:
    """IRC Table P3004.1: a full-bath group is 5, which is one less than its members' sum."""
    assert BOOK.number("dfu.group.full_bath") == 5
    members = sum(BOOK.number(f"dfu.{kind}") for kind in ("water_closet", "lavatory", "bathtub"))
    assert members == 6
    assert BOOK.number("dfu.group.kitchen") == 2
    assert BOOK.number("dfu.group.baths_3_half") == 11
    # Plumbing exam flashcards: 5 + 2 + a laundry tub's 2 is 9, within 36 on a 3 in building drain at 1/8 in/ft
    tally = BOOK.number("dfu.group.full_bath") + BOOK.number("dfu.group.kitchen") + BOOK.number("dfu.laundry_tub")
    assert tally == 9 <= BOOK.number("load.building_drain.1/8.3")


def test_loads() -> None:
    """Q&A: Drain pipe sizes and maximum drainage fixture units: 28 units on 3 in, by building drain, branch and stack."""
    assert BOOK.number("load.branch.3") < 28 <= BOOK.number("load.building_drain.1/4.3")
    assert BOOK.number("load.stack.3") >= 28
    # Q&A: DWV sizing: 45 units need 1/2 in/ft on 3 in, or 4 in
    assert [BOOK.number(f"load.building_drain.{slope}.3") for slope in ("1/8", "1/4", "1/2")] == [36, 42, 50]
    assert BOOK.number("load.building_drain.1/8.4") == 180
    # Plumber exam drainage questions: 24 units on a branch need 4 in
    assert BOOK.number("load.branch.3") < 24 <= BOOK.number("load.branch.4")


@pytest.mark.parametrize(
    "key", ["load.branch", "load.stack", "load.building_drain.1/4", "wet_vent.load", "common_vent.load"]
)
def test_larger_pipe_never_carries_less(key: str) -> None:
    loads = [BOOK.number(name) for name in BOOK.keys(key)]
    assert loads == sorted(loads)
    assert len(loads) >= 4


def test_vents() -> None:
    """IRC P3113.1: half the drain, 1-1/4 at least, larger past 40 ft; P3104.4, P3104.5, P3103.1.1: 6 in."""
    half, least = BOOK.number("vent.fraction_of_drain"), BOOK.number("vent.least")
    assert {drain: max(least, drain * half) for drain in (1.5, 2, 3, 4)} == {1.5: 1.25, 2: 1.25, 3: 1.5, 4: 2}
    assert BOOK.number("vent.long_run") == 40 * 12
    assert [BOOK.number(f"vent.{key}") for key in ("above_rim", "join_above_rim", "roof_above")] == [6, 6, 6]
    assert BOOK.cite("vent.above_rim") == "IRC 2021 P3104.4"
    assert BOOK.cite("vent.takeoff_least") == "common practice"


def test_wet_vents() -> None:
    """Table P3108.3: 2 in carries 4; a lavatory and a shower are 3, with a bathtub 5 (Wet Vent Rules)."""
    assert BOOK.number("wet_vent.load.2") == 4
    pair = BOOK.number("dfu.lavatory") + BOOK.number("dfu.shower")
    assert pair <= BOOK.number("wet_vent.load.2") < pair + BOOK.number("dfu.bathtub") <= BOOK.number("wet_vent.load.3")
    assert [BOOK.number(key) for key in BOOK.keys("wet_vent.load")] == [1, 4, 6, 12, 32]


def test_supports_shields_and_room() -> None:
    """IRC Table P2605.1, P2603.2.1, P2705.1, P2708.1, P3005.2."""
    assert {pipe: BOOK.number(f"support.horizontal.{pipe}") for pipe in ("PVC", "ABS", "PEX")} == {
        "PVC": 48,
        "ABS": 48,
        "PEX": 32,
    }
    assert {BOOK.number(key) for key in BOOK.keys("support.vertical")} == {120}
    assert (BOOK.number("shield.edge"), BOOK.number("shield.thickness")) == (1.25, 0.0575)
    assert [BOOK.number(f"clearance.{key}") for key in ("side", "front", "between")] == [15, 21, 30]
    assert (BOOK.number("clearance.shower.side"), BOOK.number("clearance.shower.area")) == (30, 900)
    assert [
        BOOK.number(f"cleanout.{key}") for key in ("spacing_most", "sewer_junction_within", "turn_over", "clear.3")
    ] == [
        1200,
        120,
        45,
        18,
    ]
