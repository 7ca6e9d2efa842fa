"""The plan in words."""

from __future__ import annotations

from typing import get_args

from hypothesis import given, settings

from engine.plan import edits
from engine.plan.outline import GROUPS, PATTERNS, called, compass, describe, outline, tell
from engine.plan.records import (
    KINDS,
    Cleanout,
    Drain,
    Exit,
    Fixture,
    Inlet,
    Pattern,
    PinnedFitting,
    Plan,
    Riser,
    Supply,
    Vent,
)
from engine.plan.start import new_floor
from engine.trade.fittings import KINDS as KINDS_OF_FITTINGS
from tests.engine.plan.drawn_plans import plans


def sample() -> Plan:
    return edits.add(
        new_floor(120, 240),
        Fixture("f1", "water_closet", (36.0, 92.0)),
        Fixture("f2", "lavatory", (70.0, 238.25), turn=225.0, name="guests' basin"),
        Riser("r1", (70.0, 238.25), wall="w3", top="valve"),
        Riser("r2", (20.0, 100.0)),
        Exit("x1", (36.0, 20.0)),
        Drain("d1", ((36.0, 20.0), (36.0, 62.0), (36.0, 92.0)), size="3"),
        Drain("d2", ((70.0, 238.25), (70.0, 96.0), (36.0, 62.0))),
        Vent("v1", ((70.0, 238.25), (20.0, 238.25)), above_floor=48.0),
        Inlet("i1", (10.0, 3.0)),
        Supply("s1", "cold", ((10.0, 3.0), (36.0, 92.0))),
        PinnedFitting("p1", (36.0, 62.0), "combo_wye_eighth_bend"),
        Cleanout("k1", (36.0, 92.0)),
        Cleanout("k2", (70.0, 238.25), size="2", above_floor=14.0, turn=270.0),
        Cleanout("k3", (5.0, 6.0)),
        Cleanout("k4", (5.0, 6.0), above_floor=14.0),
        Cleanout("k5", (36.0, 62.0)),
    )


def test_everything_is_told() -> None:
    told = {group.title: [entry.text for entry in group.entries] for group in outline(sample())}
    assert told["Joists"] == ["Joists j1: 2x10 at 16 in, running north-south, 10'-0\" by 20'-0\""]
    assert told["Walls"][0] == "South wall w1: 2x4, 10'-0\", exterior"
    assert told["Fixtures"] == [
        "Water closet f1: 3'-0\" east and 7'-8\" north, facing south",
        "Guests' basin f2: 5'-10\" east and 19'-10 1/4\" north, facing south-west",
    ]
    assert told["Drains"] == [
        "Drain d1: 3 in, from water closet f1 to exit x1, 6'-0\"",
        "Drain d2: size by its load, from guests' basin f2 to drain d1, 15'-10 5/16\"",
    ]
    assert told["Vents"] == [
        "Vent v1: size by its load, 4'-0\" above the floor, from guests' basin f2 to an open end, 4'-2\""
    ]
    assert told["Risers"] == [
        "Riser r1: in north wall w3, to an air admittance valve",
        "Riser r2: in no wall, through the roof",
    ]
    assert told["Water runs"] == ["Cold water run s1: 1/2 in, from water inlet i1 to water closet f1, 7'-8 3/4\""]
    assert told["Exits"] == ["Exit x1: turns down inside the rim, 3'-0\" east and 1'-8\" north"]
    assert told["Water inlets"] == ['Water inlet i1: 3/4 in, 10" east and 3" north']
    assert told["Pinned fittings"] == [
        "Combination wye and eighth bend p1: under the floor, 3'-0\" east and 5'-2\" north"
    ]
    assert told["Cleanouts"] == [
        "Cleanout k1: size of its pipe, at the end of drain d1, 3'-0\" east and 7'-8\" north",
        "Cleanout k2: 2 in, in riser r1, 1'-2\" above the floor, opens south",
        'Cleanout k3: size of its pipe, at no drain, 5" east and 6" north',
        "Cleanout k4: size of its pipe, in no riser, 1'-2\" above the floor, opens east",
        "Cleanout k5: size of its pipe, at the end of drain d2, 3'-0\" east and 5'-2\" north",
    ]


def test_a_line_alone_is_the_line_in_the_outline() -> None:
    plan = sample()
    for group in outline(plan):
        for entry in group.entries:
            element = edits.find(plan, entry.element)
            assert tell(plan, element) == entry.text
            assert entry.text.startswith(describe(element) + ": ")
            assert describe(element).lower() == called(element).lower()


def test_fittings_have_the_trades_names() -> None:
    assert set(PATTERNS) == set(get_args(Pattern))
    assert {name: KINDS_OF_FITTINGS[name].words for name in PATTERNS} == PATTERNS


def test_headings_have_eight_names() -> None:
    assert [compass(45.0 * n) for n in range(-1, 9)] == [
        "south-east",
        "east",
        "north-east",
        "north",
        "north-west",
        "west",
        "south-west",
        "south",
        "south-east",
        "east",
    ]


@given(plans())
@settings(deadline=None)
def test_any_plan_is_told_whole(plan: Plan) -> None:
    assert set(GROUPS) == set(KINDS)
    told = [entry.element for group in outline(plan) for entry in group.entries]
    assert told == [element.id for kind in GROUPS for element in getattr(plan, kind)]


def test_what_drains_through_another_says_so() -> None:
    plan = edits.add(
        new_floor(120, 240),
        Fixture("f1", "kitchen_sink", (36.0, 92.0)),
        Fixture("f2", "dishwasher", (66.0, 92.0), through="f1"),
    )
    assert tell(plan, plan.fixtures[-1]).endswith("drains through f1")
