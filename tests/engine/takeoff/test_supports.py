"""Where pipes are held. Spacings: IRC 2021 Table P2605.1 (PVC and ABS 4 ft, PEX to 1 in 32 in, vertical 10 ft)."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import msgspec
import pytest

from engine.plan.records import Plan, Supply
from engine.study import work_out
from engine.takeoff.records import Support
from engine.takeoff.supports import supports

Floor = Callable[..., Plan]


def held(plan: Plan, element: str) -> list[Support]:
    return [support for support in supports(work_out(plan)) if support.element == element]


def test_a_main_in_its_bay_lies_on_blocks(hand_floor: Floor) -> None:
    # 72 in from the closet to the exit, a wye at 30: blocks 6 in past the bend, 6 in past the wye and 6 in before
    # the exit; gaps of 30 and 30 are under 48
    blocks = held(hand_floor(), "d1")
    assert [support.kind for support in blocks] == ["block"] * 3
    assert [support.along for support in blocks] == [6.0, 36.0, 66.0]
    # axis at 6 in: -5.6875 - 6/48 = -5.8125; underside 5.8125 + 3.5/2
    assert blocks[0].down == pytest.approx(7.5625)


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
    assert max(b - a for a, b in pairwise(places)) <= 48.0
    assert places[0] <= 6.0
    assert places[-1] >= 72.0 - 6.0


def test_a_plumb_vent_is_guided_at_mid_storey_and_strapped_every_ten_feet(hand_floor: Floor) -> None:
    # foot -5.5386, top 133: straps 120 in up; finished floor 1 + 126 / 2 = 64 for the guide (pipe to 2 in)
    plumb = {support.kind: support for support in held(hand_floor(), "r1")}
    assert plumb["guide"].down == pytest.approx(-64.0)
    assert plumb["strap"].along == pytest.approx(120.0)


def test_tube_is_hooked_every_32_inches_and_held_at_tight_turns(hand_floor: Floor) -> None:
    tube = Supply(id="c1", water="cold", points=((8.0, 10.0), (8.0, 90.0), (14.0, 90.0)), down=3.0)
    plan = msgspec.structs.replace(hand_floor(), supplies=(tube,))
    hooks = held(plan, "c1")
    assert {support.kind for support in hooks} == {"hook", "bend support"}
    places = [support.along for support in hooks]
    assert max(b - a for a, b in pairwise(places)) <= 32.0
    assert next(support.along for support in hooks if support.kind == "bend support") == 80.0
    assert hooks[0].down == 3.0


def test_under_the_joists_pipe_hangs_in_straps(hand_floor: Floor) -> None:
    plan = hand_floor(pinned=-14.0)
    drains = (msgspec.structs.replace(plan.drains[0], passing="under"), *plan.drains[1:])
    assert {support.kind for support in held(msgspec.structs.replace(plan, drains=drains), "d1")} == {"strap"}


def test_each_support_cites_its_table(hand_floor: Floor) -> None:
    cites = {support.cites for support in supports(work_out(hand_floor()))}
    assert cites == {"IRC 2021 Table P2605.1", "IRC 2021 Table P2605.1, note b"}
