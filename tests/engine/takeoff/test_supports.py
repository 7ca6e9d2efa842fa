"""Where pipes are held. Spacings: IRC 2021 Table P2605.1 (PVC and ABS 4 ft, PEX to 1 in 32 in, vertical 10 ft)."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import msgspec
import pytest

from engine.plan.records import Drain, Plan, Riser, Supply
from engine.study import work_out
from engine.takeoff.records import Support
from engine.takeoff.supports import supports
from tests.engine.checks.island_plans import island

Floor = Callable[..., Plan]


def held(plan: Plan, element: str) -> list[Support]:
    return [support for support in supports(work_out(plan)) if support.element == element]


def test_a_main_in_its_bay_lies_on_blocks(hand_floor: Floor) -> None:
    # 72 in from the closet to the exit, a wye at 30: the closet's bend is carried itself, a block 6 in past the wye
    # and one before the exit, half its width clear of the hub, which reaches 4 9/16 in; gaps of 36 and 30 are under 48
    blocks = held(hand_floor(), "d1")
    assert [support.kind for support in blocks] == ["block"] * 2
    assert [support.along for support in blocks] == [36.0, 65.6875]
    # axis at 36 in: -5.6875 - 36/48 = -6.4375; underside 6.4375 + 3.5/2, and the joists are 9.25 deep
    assert blocks[0].down == pytest.approx(8.1875)
    assert blocks[0].below == pytest.approx(8.1875 - 9.25)
    (bend,) = held(hand_floor(), "wc1")
    # under the bend's hub: 5.6875 + 1.75, and a hub as thick as the pipe's wall of 0.216
    assert (bend.kind, bend.down) == ("base", pytest.approx(7.6535))


def test_a_block_is_set_out_from_the_framing(hand_floor: Floor) -> None:
    # x 36 in the bay of the joists at 32 and 48; y 56 is 50.5 from the north rim's inside face at 106.5
    block = held(hand_floor(), "d1")[0]
    assert (block.hangs, block.bay) == ("between joist 2 and joist 3", ("f1.2", "f1.3"))
    assert (block.end, block.from_end) == ("north", 50.5)
    assert (block.off_from, block.off) == ("joist 2", 36.0 - 32.75)
    assert (block.block, block.strap, block.remark) == (14.5, None, "its lower face stands 7/16 in under the joists")


def test_bored_joists_hold_a_branch(hand_floor: Floor) -> None:
    # joists at x 64 and 48 lie 6.25 and 22.25 in from the riser at 70.25
    branch = held(hand_floor(), "d2")
    assert [(support.kind, support.joist) for support in branch][:2] == [
        ("bored joist", "f1.4"),
        ("bored joist", "f1.3"),
    ]
    assert branch[-1].kind == "block"


def test_no_gap_is_longer_than_the_table_allows(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    places = [support.along for support in held(plan, "d1")]
    # the closet's bend is carried at 0
    assert max(b - a for a, b in pairwise([0.0, *places])) <= 48.0
    # the exit's hub and half a block's width take 6 5/16 in
    assert places[-1] == 72.0 - 6.3125


def test_a_plumb_vent_is_guided_at_mid_storey_and_strapped_every_ten_feet(hand_floor: Floor) -> None:
    # foot -5.5386, top 133: straps 120 in up; finished floor 1 + 126 / 2 = 64 for the guide (pipe to 2 in)
    plumb = {support.kind: support for support in held(hand_floor(), "r1")}
    assert plumb["guide"].down == pytest.approx(-64.0)
    assert plumb["strap"].along == pytest.approx(120.0)


def test_tube_is_hooked_every_32_inches_and_held_at_tight_turns(hand_floor: Floor) -> None:
    tube = Supply(id="c1", water="cold", points=((4.0, 10.0), (4.0, 90.0), (14.0, 90.0)), down=6.0)
    plan = msgspec.structs.replace(hand_floor(), supplies=(tube,))
    hooks = held(plan, "c1")
    assert {support.kind for support in hooks} == {"hook", "bend support"}
    places = [support.along for support in hooks]
    assert max(b - a for a, b in pairwise(places)) <= 32.0
    assert next(support.along for support in hooks if support.kind == "bend support") == 80.0
    assert hooks[0].down == 6.0
    # the tube's maker wants both sides of a bend held: within 6 in of it, and half of the last 10 in, which two bends of
    # 5 in radius take; at 90 it turns up to the lavatory
    assert [place for place in places if place > 70.0] == [74.0, 80.0, 85.0, 90.0]


def test_under_the_joists_pipe_hangs_in_straps_from_blocks(hand_floor: Floor) -> None:
    plan = hand_floor(pinned=-14.0)
    drains = (msgspec.structs.replace(plan.drains[0], passing="under"), *plan.drains[1:])
    straps = held(msgspec.structs.replace(plan, drains=drains), "d1")
    assert {support.kind for support in straps} == {"strap"}
    # at the exit the axis is 14 down, 6.3125 in before it 0.1315 higher: -13.8685, 4.6185 under the 2x10s
    last = straps[-1]
    assert (last.along, last.block) == (65.6875, 14.5)
    assert last.below == pytest.approx(4.75 - 6.3125 / 48 + 1.75)
    # two legs of 4.6185, half round 3.5, and 2 in lapped at each end
    assert last.strap == pytest.approx(2 * (4.75 - 6.3125 / 48) + math.pi * 1.75 + 4.0)


def under(hand_floor: Floor, slope: float = 0.25, size: str = "3", pinned: float = -14.0) -> Plan:
    """A closet at (6, 92) whose drain goes 100 in east under the joists at 16, 32, ... to an exit at (106, 92)."""
    plan = hand_floor(lavatory=False, pinned=pinned)
    east = Drain(id="d1", points=((6.0, 92.0), (106.0, 92.0)), size=size, slope=slope, passing="under")  # type: ignore[arg-type]
    fixture = msgspec.structs.replace(plan.fixtures[0], at=(6.0, 92.0))
    exits = (msgspec.structs.replace(plan.exits[0], at=(106.0, 92.0)),)
    return msgspec.structs.replace(plan, drains=(east,), fixtures=(fixture,), exits=exits)


def test_pipe_that_crosses_under_joists_hangs_from_them(hand_floor: Floor) -> None:
    # joists 10, 26, 42, 58, 74, 90 in along; the bend is carried, 42 and 90 are the furthest within 48 of the last,
    # and 90 is within 6 in of the exit's bend, whose hub reaches back over 4 in
    straps = held(under(hand_floor), "d1")
    assert [(support.along, support.joist) for support in straps] == [(42.0, "f1.3"), (90.0, "f1.6")]
    # 58 in before the exit the axis lies 14 - 58/48 = 12.7917 down, 3.5417 under the joist
    assert straps[0].below == pytest.approx(14 - 58 / 48 - 9.25 + 1.75)
    assert straps[0].strap == pytest.approx(2 * (14 - 58 / 48 - 9.25) + math.pi * 1.75 + 4.0)
    assert straps[0].block is None


def test_wide_pipe_is_braced_at_sharp_turns(hand_floor: Floor) -> None:
    """IRC 2021 P2605.1: pipe of 4 in and larger at turns sharper than 45 degrees; the UPC's table has no such word."""
    bent = {"points": ((6.0, 92.0), (60.0, 92.0), (60.0, 60.0), (80.0, 40.0)), "passing": "under"}

    def braces(size: str, book: str = "irc-2021") -> list[float]:
        plan = msgspec.structs.replace(under(hand_floor, pinned=-16.0), rulebook=book)
        drains = (Drain(id="d1", size=size, **bent),)  # type: ignore[arg-type]
        exits = (msgspec.structs.replace(plan.exits[0], at=(80.0, 40.0), how="through-rim"),)
        found = held(msgspec.structs.replace(plan, drains=drains, exits=exits), "d1")
        return [support.along for support in found if support.kind == "sway brace"]

    # where the closet comes down, and at the square corner; 45 degrees are not sharper than 45
    assert braces("4") == [0.0, 54.0]
    assert braces("3") == []
    assert braces("4", "upc-2021") == []


def test_a_joist_notched_from_below_does_not_carry(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False, pinned=-9.0)
    drain = Drain(id="d1", points=((36.0, 92.0), (100.0, 92.0)), size="1-1/2", passing="notched")
    exits = (msgspec.structs.replace(plan.exits[0], at=(100.0, 92.0)),)
    found = held(msgspec.structs.replace(plan, drains=(drain,), exits=exits), "d1")
    # joists 12, 28, 44 and 60 in along: the furthest within 48 of the closet's bend, and the one by the exit
    assert [(support.kind, support.joist, support.remark) for support in found] == [
        ("strap", "f1.5", "across the notch"),
        ("strap", "f1.6", "across the notch"),
    ]


def test_a_loop_that_comes_down_where_it_went_up_is_strapped_once(hand_floor: Floor) -> None:
    plan = hand_floor()
    loop = Riser(id="r1", at=(70.25, 69.0), top="loop", above_floor=160.0, returns=(70.25, 69.0))
    found = held(msgspec.structs.replace(plan, risers=(loop,)), "r1")
    assert found
    assert len({(support.kind, support.along, support.at) for support in found}) == len(found)


def test_a_loop_is_held_on_both_its_legs() -> None:
    feet = [support.at for support in held(island(), "r1") if support.kind == "base"]
    assert sorted(feet) == [(100.0, 60.0), (112.0, 60.0)]


def test_by_the_uniform_code_a_stack_is_held_at_its_foot_and_at_the_floor(hand_floor: Floor) -> None:
    """UPC 2021 Table 313.3: plumb plastic at its base and at each floor, with a guide at mid-storey."""
    found = held(msgspec.structs.replace(hand_floor(), rulebook="upc-2021"), "r1")
    assert [support.kind for support in found] == ["base", "strap", "guide"]
    assert {support.cites for support in found if support.kind != "guide"} == {"UPC 2021 Table 313.3"}
    assert next(support.down for support in found if support.kind == "strap") == 0.0


def test_each_support_cites_its_table(hand_floor: Floor) -> None:
    cites = {support.cites for support in supports(work_out(hand_floor()))}
    assert {text for text in cites if not text.startswith("common practice")} == {
        "IRC 2021 Table P2605.1",
        "IRC 2021 Table P2605.1, note b",
    }


def test_a_hook_far_from_every_joist_takes_a_strip_across_the_bay(hand_floor: Floor) -> None:
    """Common practice, no source: a hook is nailed within 2 in of the face that the tube lies along."""

    def strips(x: float) -> set[tuple[float | None, str]]:
        tube = Supply(id="c1", water="cold", points=((x, 10.0), (x, 60.0)), down=3.0)
        plan = msgspec.structs.replace(hand_floor(), supplies=(tube,))
        return {(one.block, one.remark) for one in held(plan, "c1") if one.kind == "hook"}

    # the joist at 16 ends at 16.75: 2 in from its face, and a sixteenth more
    assert strips(18.75) == {(None, "")}
    assert strips(18.8125) == {(14.5, "strip across the bay, flat under the tube, its top 3 13/16 in down")}


def test_plumb_pipe_says_in_which_wall_it_is_held(hand_floor: Floor) -> None:
    # the plates' top lies 3/4 + 97-1/8 = 97-7/8 over the joists' top: the strap at 114-1/2 is past it
    told = {one.kind: one.hangs for one in held(hand_floor(), "r1") if one.kind != "base"}
    assert told == {"guide": "in wall p1", "strap": "over wall p1, to a brace in the roof space"}


def test_a_fixtures_own_pipe_in_the_wall_is_carried_at_its_foot(hand_floor: Floor) -> None:
    (foot,) = held(msgspec.structs.replace(hand_floor(), risers=()), "lav1")
    assert (foot.kind, foot.at, foot.block) == ("base", (70.25, 69.0), 14.5)
    # with a riser there it is the riser's
    assert held(hand_floor(), "lav1") == []
