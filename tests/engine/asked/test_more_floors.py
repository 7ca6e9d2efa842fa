"""Made-up cases of the usual kinds about a floor's own wood and what stands or hangs in it.

What lands on joists, rims and steel (common practice, from the sizes of pipe and lumber; a flange's hole is taken to be 5 in), openings
(IRC 2021 R502.10), bearings and partitions (R502.6, R502.4), spans (Tables R502.3.1(1) and (2), No. 2 lumber), a trailer's
cross-members and its belly, the way to the ground (P2603.4, P2603.5; UPC 2021 312).
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from engine.plan.records import (
    Beam,
    DoubledJoist,
    Exit,
    Fixture,
    Floor,
    FloorOpening,
    JoistField,
    JoistShift,
    Plan,
    Riser,
    Supply,
    Wall,
)
from engine.takeoff.answers import parts_answer
from tests.engine.asked.asked_plans import ask, leaving, run, said
from tests.engine.asked.made_up import Case, Said, asked_of, both, held

LANDS = "common practice"
OPENINGS = "IRC R502.10"


def deck(wide: float = 192.0, long: float = 144.0, field: dict[str, Any] | None = None, **given: Any) -> Plan:
    """A floor of 2x10s at 16 in that run north-south, x and y from the outside of its framing; joists at 16, 32, 48 ..."""
    settings = {name: given.pop(name) for name in ("belly", "design_temp") if name in given}
    joists = JoistField(**({"id": "j", "corner": (0.0, 0.0), "size": (wide, long)} | (field or {})))
    outline = ((0.0, 0.0), (wide, 0.0), (wide, long), (0.0, long))
    return Plan(floor=Floor(outline=outline, **settings), fields=(joists,), **given)


def standing(kind: str, x: float, y: float = 60.0, **given: Any) -> Plan:
    trap_at = given.pop("trap_at", None)
    return deck(fixtures=(Fixture("f", kind, (x, y), trap_at=trap_at),), **given)  # type: ignore[arg-type]


def in_wall(lumber: str, y: float) -> Plan:
    """A basin's riser in the outside wall over the north rim, whose inside face is at y 142.5."""
    middle = 144.0 - (1.75 if lumber == "2x4" else 2.75)
    return deck(
        fixtures=(Fixture("f", "lavatory", (56.0, y), turn=270.0),),
        walls=(Wall("w", (0.0, middle), (192.0, middle), lumber=lumber, exterior=True),),  # type: ignore[arg-type]
        risers=(Riser("r", (56.0, y), "w"),),
        drains=(run((56.0, y), (56.0, 20.0), size="1-1/2"),),
        exits=leaving((56.0, 20.0)),
    )


def opened(width: float, south: float = 20.0, north: float = 34.0, long: float = 144.0, **plies: int) -> Plan:
    """An opening so wide clear between its trimmers, its clear way from `south` to `north`."""
    return deck(long=long, floor_openings=(FloorOpening("o", (34.0, south), (34.0 + width, north), **plies),))


def spanning(clear: float, lumber: str = "2x10", species: str | None = "spruce-pine-fir", **field: Any) -> Plan:
    """Joists that span so far clear between end bearings of 3-1/2 in."""
    return deck(long=clear + 7.0, field={"lumber": lumber, "species": species} | field)


def trailer(down: float, size: str = "3", belly: float | None = 4.0, top: float | None = None) -> Plan:
    """2x6 joists along a trailer over (or between) its steel, a drain along a bay over it with its axis so far down at the exit."""
    steel = Beam("s", (0.0, 120.0), (102.0, 120.0), width=3.0, depth=4.0, top_z=top, material="steel")
    return deck(
        102.0,
        240.0,
        {"lumber": "2x6", "spacing": 24.0},
        belly=belly,
        beams=(steel,),
        drains=(run((36.0, 168.0), (36.0, 72.0), size=size),),
        exits=leaving((36.0, 72.0), down),
    )


CLEAR: Said = {"lands-on-wood": [], "pipe-side-in-wood": []}

LANDING = (
    # half the hole 2.5 and half the joist 0.75
    both("a closet 3-1/4 in from a joist's middle", LANDS, standing("water_closet", 51.25), CLEAR),
    both("a closet 3 in from it: the flange's hole", LANDS, standing("water_closet", 51.0), {"lands-on-wood": [(0.25, 0.0)]}),
    # 1.75 + 0.75 - 2
    both("a closet 2 in from it: the pipe", LANDS, standing("water_closet", 50.0), {"lands-on-wood": [(0.5, 0.0)]}),
    both("a closet right over a joist", LANDS, standing("water_closet", 48.0), {"lands-on-wood": [(2.5, 0.0)]}),
    both("the same over a joist that was moved 4 in", LANDS, standing("water_closet", 48.0, field={"shifts": (JoistShift(3, 4.0),)}), CLEAR),
    # joist laid out by the closet, 12 in from the board behind a 2x4 wall: 16 from the edge, the joist's middle at 12-1/2
    both("a closet 16 in from the edge, the joist at 12-1/2", LANDS, standing("water_closet", 16.0, field={"first": 12.5}), CLEAR),
    both("a closet over an I-joist", LANDS, standing("water_closet", 48.0, field={"member": "engineered", "depth": 11.875}), {"lands-on-wood": [(2.5, 0.0)], "engineered-member-cut": []}),
    # 2.375 / 2 + 0.75 - 0.5
    both("a shower's drain half an inch off a joist's middle", LANDS, standing("shower", 48.5), {"lands-on-wood": [(1.4375, 0.0)]}),
    both("a shower's drain in the middle of its bay", LANDS, standing("shower", 56.0), CLEAR),
    both("a tub's outlet over a joist, its trap 8 in aside in the bay", LANDS, standing("bathtub", 48.0, trap_at=(56.0, 60.0)), CLEAR | {"trap-too-far-aside": []}),
    # 0.95 + 0.75
    both("a tub's trap over a joist", LANDS, standing("bathtub", 56.0, trap_at=(48.0, 60.0)), {"lands-on-wood": [(1.7, 0.0)]}),
    # the middle of a 2x4 wall: 142.25 + 0.95 - 142.5
    both("a riser in the middle of an outside 2x4 wall", LANDS, in_wall("2x4", 142.25), {"lands-on-wood": [(0.7, 0.0)]}),
    # from 138.5 the studs: inside the rim stands 4 in of it
    both("a riser at the inside of an outside 2x6 wall", LANDS, in_wall("2x6", 140.0), CLEAR | {"riser-out-of-wall": []}),
    # 1.75 + 1.5 - 1
    both(
        "a closet over a trailer's cross-member",
        LANDS,
        deck(102.0, 240.0, {"lumber": "2x6", "spacing": 24.0}, fixtures=(Fixture("f", "water_closet", (36.0, 101.0)),), beams=(Beam("s", (0.0, 100.0), (102.0, 100.0), width=3.0, depth=4.0, material="steel"),)),
        {"lands-on-wood": [(2.25, 0.0)]},
    ),
)  # fmt: skip

FRAMED = (
    # 20 less 1-1/2 of header less the bearing's 3-1/2, and the north header's middle 34.75 less 3.5: under 36
    both("a single header 30 in wide near the bearing", OPENINGS, opened(30.0), {"header-too-light": [], "trimmer-too-light": [], "opening-wants-hangers": []}),
    both("a single header 4 ft wide", OPENINGS, opened(48.0), {"header-too-light": []}),
    both("a single header 4 ft 1/2 in wide", OPENINGS, opened(48.5), {"header-too-light": [(48.5, 48.0)] * 2, "trimmer-too-light": [(48.5, 48.0)] * 2}),
    both("doubled headers and trimmers 5 ft apart", OPENINGS, opened(60.0, headers=2, trimmers=2), {"header-too-light": [], "trimmer-too-light": [], "opening-wants-hangers": []}),
    both("doubled headers 6-1/2 ft wide", OPENINGS, opened(78.0, headers=2, trimmers=2), {"header-too-light": [], "opening-wants-hangers": [(78.0, 72.0)] * 2}),
    # 60.75 from the south edge: 57.25 from the bearing's face
    both("a single header far from the bearing", OPENINGS, opened(30.0, 46.0, 60.0), {"header-too-light": [], "trimmer-too-light": [(57.25, 36.0)] * 2}),
    # from the header at 35.5 to the rim at 238.5
    both("tail joists over 12 ft", OPENINGS, opened(30.0, long=240.0), {"opening-wants-hangers": [(203.0, 144.0)]}),
    both("joists on 1-1/2 in of plate", "IRC R502.6", deck(field={"end_bearing": 3.0}), {"bearing-too-short": []}),
    both("joists on 1 in of plate", "IRC R502.6", deck(field={"end_bearing": 2.5}), {"bearing-too-short": [(1.0, 1.5)]}),
    both("a bearing partition between joists", "IRC R502.4", deck(walls=(Wall("w", (56.0, 0.0), (56.0, 144.0), bearing=True),)), {"partition-on-one-joist": [(0.0, 2.0)]}),
    both("a bearing partition on one", "IRC R502.4", deck(walls=(Wall("w", (48.0, 0.0), (48.0, 144.0), bearing=True),)), {"partition-on-one-joist": [(1.0, 2.0)]}),
    both("a bearing partition on two", "IRC R502.4", deck(field={"doubled": (DoubledJoist(3),)}, walls=(Wall("w", (48.75, 0.0), (48.75, 144.0), bearing=True),)), {"partition-on-one-joist": []}),
    both("a partition that bears nothing", "IRC R502.4", deck(walls=(Wall("w", (56.0, 0.0), (56.0, 144.0)),)), {"partition-on-one-joist": []}),
)  # fmt: skip

SPANS = tuple(
    both(
        f"{species} {lumber} at {spacing:g} in under {rooms} rooms, {clear:g} in clear",
        "IRC Table R502.3.1",
        spanning(clear, lumber, species, spacing=spacing, rooms=rooms),
        {"joist-span-too-long": [] if clear == most else [(clear, most)]},
    )
    for species, lumber, spacing, rooms, most in (
        ("spruce-pine-fir", "2x10", 16.0, "living", 185.0),  # 15-5
        ("spruce-pine-fir", "2x8", 16.0, "living", 147.0),  # 12-3
        ("hem-fir", "2x8", 16.0, "living", 144.0),  # 12-0
        ("southern pine", "2x10", 16.0, "living", 168.0),  # 14-0
        ("southern pine", "2x10", 16.0, "sleeping", 188.0),  # 15-8
        ("douglas fir-larch", "2x12", 24.0, "living", 177.0),  # 14-9
        ("spruce-pine-fir", "2x6", 12.0, "sleeping", 135.0),  # 11-3
    )
    for clear in (most, most + 0.0625)
)

UNDER = (
    # steel from 5.5 down; the axis 1 in higher where the drain passes it, 48 in up the run
    both("3 in drain over a cross-member, 4-3/4 in down at the exit", LANDS, trailer(4.75), {"beam-in-the-way": [], "pipe-below-belly": []}),
    # 6 - 1 + 1.75 - 5.5
    both("the same 6 in down", LANDS, trailer(6.0), {"beam-in-the-way": [(1.25, 0.0)]}),
    # steel level with the joists' top: 4 deep, the axis at 3 there: 4 - 1.25 to pass under it
    both("a cross-member between the joists", LANDS, trailer(4.0, top=0.0), {"beam-in-the-way": [(4.0 - 1.25, 0.0)]}),
    # belly 5.5 + 1 = 6.5 down; 8 + 1.75
    both("3 in drain out of a belly of 1 in", LANDS, trailer(8.0, belly=1.0), {"pipe-below-belly": [(3.25, 0.0)]}),
    # no belly: out of the bay
    both("the same without a belly", LANDS, trailer(8.0, belly=None), {"pipe-below-belly": [], "pipe-leaves-bay": [(4.25, 0.0)]}),
    both("3 in drain kept in its bay", LANDS, trailer(3.75, belly=None), {"pipe-leaves-bay": []}),
)  # fmt: skip


def left(**given: Any) -> Plan:
    frost = {name: given.pop(name) for name in ("design_temp",) if name in given}
    return deck(
        drains=(run((56.0, 100.0), (56.0, 40.0), size="3"),),
        exits=(Exit("x1", (56.0, 40.0), **given),),
        **frost,
    )


GROUND = (
    both("an open drop where winters reach 10 deg F", "IRC P2603.5, UPC 312.6", left(design_temp=10.0), {"drop-open-to-frost": [(10.0, 32.0)]}),
    both("the same in a box of foam", "the same", left(design_temp=10.0, frost_guard="box"), {"drop-open-to-frost": []}),
    both("an open drop where winters reach 40", "the same", left(design_temp=40.0), {"drop-open-to-frost": []}),
    both("3 in through a footing without a sleeve", "IRC P2603.4, UPC 312.10", left(meets="foundation"), {"no-sleeve": [(None, None)]}),
    # two sizes over 3 in: 4, then 5
    Case("a 4 in sleeve for 3 in", "IRC P2603.4", left(meets="foundation", sleeve="4"), {"no-sleeve": [(4.0, 5.0)]}, None),
    both("a 6 in sleeve for 3 in", "IRC P2603.4", left(meets="foundation", sleeve="6"), {"no-sleeve": []}),
)  # fmt: skip


@asked_of(LANDING)
def test_what_lands_on_wood(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(FRAMED)
def test_how_the_floor_is_framed(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(SPANS)
def test_how_far_joists_span(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(UNDER)
def test_what_hangs_in_a_trailers_floor(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(GROUND)
def test_the_way_to_the_ground(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@pytest.mark.parametrize(
    ("plan", "rule", "words"),
    [
        (spanning(180.0, species=None), "joist-span-too-long", "species"),
        (spanning(180.0, "2x4"), "joist-span-too-long", "2x4"),
        (spanning(180.0, overhangs=(24.0, 0.0)), "joist-span-too-long", "overhang"),
        (spanning(180.0, spacing=30.0), "joist-span-too-long", "30 in apart"),
        (left(), "drop-open-to-frost", "winter design temperature"),
        (left(), "no-sleeve", "not told"),
    ],
)
def test_what_cannot_be_judged_says_what_is_missing(plan: Plan, rule: str, words: str) -> None:
    answer = ask(plan)
    assert said(answer, rule) == []
    assert [case.missing for name, case in answer.not_judged if name == rule and words in case.missing]


def test_a_drain_in_an_outside_wall_is_told_of_the_wall_before_its_riser_is_drawn() -> None:
    """7/8 in south clears pipe and hub; the pipe then stands 1/8 in out of 2x4 studs. A rim is not headed off."""
    plan = deck(
        fixtures=(Fixture("ks", "kitchen_sink", (60.0, 142.25), turn=270.0),),
        walls=(Wall("n", (0.0, 142.25), (192.0, 142.25), exterior=True, name="north wall"),),
    )
    (found,) = said(ask(plan), "lands-on-wood")
    assert "It stands in north wall, an outside wall" in found.text
    assert found.mend.startswith("Move it 7/8 in south, 1/8 in out of the studs' inside face: fur north wall out")
    assert "head" not in found.mend


@pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
def test_how_often_pipe_is_held(book: str) -> None:
    """PVC every 48 in, tube to 1 in every 32 (IRC Table P2605.1; UPC Table 313.3): 120 in with one near each end."""
    plan = deck(
        long=180.0,
        drains=(run((56.0, 160.0), (56.0, 40.0), size="3"),),
        supplies=(Supply("c", "cold", ((72.0, 160.0), (72.0, 40.0)), insulation=0.0),),
        exits=leaving((56.0, 40.0), 7.5),
    )
    rows = parts_answer(ask(plan, book))["supports"]
    for element, most in (("d1", 48.0), ("c", 32.0)):
        mine = [row for row in rows if row["element"] == element]
        places = sorted(row["at"][1] for row in mine)
        assert {row["greatest_spacing"] for row in mine} == {most}
        assert max(b - a for a, b in pairwise(places)) <= most
        assert places[0] <= 52.0 and places[-1] >= 148.0
    # its axis is 160 - y over 48 lower than at the upper end, 5.0 down; half of 3.5 more to its underside
    for row in rows:
        if row["element"] == "d1":
            assert row["down_from_top"] == pytest.approx(5.0 + (160.0 - row["at"][1]) / 48.0 + 1.75)


def test_joists_that_are_bored_carry_the_drain() -> None:
    """Six joists 16 in apart: none farther than 48 in, so that nothing is bought."""
    plan = deck(drains=(run((100.0, 40.0), (8.0, 40.0), size="1-1/2"),), exits=leaving((8.0, 40.0)))
    rows = parts_answer(ask(plan))["supports"]
    assert {row["kind"] for row in rows} == {"bored joist"} and len(rows) == 6
