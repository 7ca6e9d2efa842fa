"""Mends of tubes near each other in a joist: into one hole where that holds, apart where it does not, up and down as one.

A 1/2 in tube is 0.625 wide, its own bit 7/8; two side by side take 1-3/8, which a 2x6 (1-1/2 at most, IRC 2021 R502.8.1)
bears. Own holes want 2 in of wood: axes 2-7/8 apart.
"""

from __future__ import annotations

from typing import Any

import pytest

from engine.checks.records import Finding
from engine.mending import Mend, mends_for
from engine.mending.side_by_side import hole_of, into_one_hole, out_of_too_wide
from engine.plan.records import Drain, Exit, Floor, JoistField, Plan, Supply
from engine.study import Study, study
from tests.engine.mending.promises import held


def tube(name: str, y: float, water: str = "cold", **given: Any) -> Supply:
    return Supply(name, water, ((40.0, y), (56.0, y)), **({"insulation": 0.0} | given))  # type: ignore[arg-type]


def studied(*supplies: Supply, lumber: str = "2x6", book: str = "irc-2021", **given: Any) -> Study:
    field = JoistField("F", (0.0, 0.0), (120.0, 108.0), lumber=lumber)
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    return study(Plan(floor=Floor(outline=outline), fields=(field,), supplies=supplies, rulebook=book, **given))


def offered(before: Study, rule: str) -> tuple[Finding, tuple[Mend, ...]]:
    finding = next(one for one in before.findings if one.rule == rule)
    mends = mends_for(before, finding)
    for mend in mends:
        held(before, finding, mend)
    return finding, mends


@pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
def test_two_tubes_a_hand_apart_are_drawn_into_one_hole_or_parted(book: str) -> None:
    before = studied(tube("c1", 40.0), tube("h1", 41.0, "hot"), book=book)
    if not before.model.book.has("joist.bore.gap"):
        assert "bores-close-together" not in {one.rule for one in before.findings}
        return
    finding, mends = offered(before, "bores-close-together")
    # 1 in between axes, 5/8 when they touch
    assert mends[0].words == "Slide c1 3/8 in north, into one hole with h1"
    (made,) = study(mends[0].plan).model.cuts
    assert (made.bit, made.legal, made.elements) == ("1-3/8", True, ("c1", "h1"))
    # 2.875 - 1
    assert "Slide c1 1 7/8 in south" in [mend.words for mend in mends]
    assert "lay them side by side, 5/8 in from axis to axis: a 1-3/8 in bit then goes round both" in finding.mend


def test_a_hole_too_wide_is_made_narrower_by_an_eighth_or_parted() -> None:
    # 3/4 between axes takes a 1-7/8 bit; 5/8 a 1-3/8, and 2-7/8 two of 7/8
    finding, mends = offered(studied(tube("c1", 40.0), tube("h1", 40.75, "hot")), "bore-too-large")
    words = [mend.words for mend in mends]
    assert words[:2] == [
        "Slide c1 1/8 in north, into one hole with h1",
        "Slide c1 2 1/8 in south, to a hole of its own",
    ]
    assert [cut.legal for cut in study(mends[1].plan).model.cuts] == [True, True]
    assert finding.mend.startswith("Lay them side by side, 5/8 in from axis to axis")


def test_one_of_three_gets_a_hole_of_its_own() -> None:
    three = (tube("c1", 40.0), tube("h1", 40.625, "hot"), tube("c2", 41.25))
    _, mends = offered(studied(*three), "bore-too-large")
    # 2.875 - 0.625
    assert [mend.words for mend in mends[:2]] == [
        "Slide c1 2 1/4 in south, to a hole of its own",
        "Slide c2 2 1/4 in north, to a hole of its own",
    ]
    pairs = [sorted(cut.elements) for cut in study(mends[0].plan).model.cuts]
    assert sorted(pairs) == [["c1"], ["c2", "h1"]]


def test_tubes_that_touch_already_are_not_drawn_closer() -> None:
    # two of 1 in: 1.125 each, 2.25 with 1/16 of play: bit 2-9/16, over a 2x8's 2.4167; own bits 1-3/8
    pair = (tube("c1", 40.0, size="1"), tube("h1", 41.125, "hot", size="1"))
    finding, mends = offered(studied(*pair, lumber="2x8"), "bore-too-large")
    assert "side by side" not in finding.mend
    # 2 + 1.375 - 1.125 more
    assert "Slide h1 2 1/4 in north, to a hole of its own" in [mend.words for mend in mends]


def test_a_hole_near_an_edge_is_lowered_with_all_its_tubes() -> None:
    # axis 2 down, bit 1-3/8: 1.3125 of wood above, 11/16 short of 2
    before = studied(tube("c1", 40.0, down=2.0), tube("h1", 40.625, "hot", down=2.0), lumber="2x10")
    _, mends = offered(before, "bore-near-edge")
    assert mends[0].words == "Lower c1 and h1 11/16 in"
    assert {one.down for one in mends[0].plan.supplies} == {2.6875}


def test_a_tube_at_another_depth_is_brought_to_the_same() -> None:
    # 2 in along and 1 in up: bores 7/8 leave 1.361; slid 1-3/8 and hung at 4 they touch
    before = studied(tube("c1", 40.0, down=4.0), tube("h1", 42.0, "hot", down=5.0), lumber="2x10")
    finding = next(one for one in before.findings if one.rule == "bores-close-together")
    ideas = {idea.words: idea for idea in into_one_hole(before, finding)}
    idea = ideas["Slide h1 1 3/8 in south, into one hole with c1, and hang h1 4 in down"]
    (made,) = study(idea.make()).model.cuts
    assert (made.bit, made.down_from_top, made.legal) == ("1-3/8", 4.0, True)


def test_a_tube_is_never_brought_into_a_drains_hole() -> None:
    drain, out = Drain("d1", ((56.0, 42.0), (30.0, 42.0)), size="1-1/2"), Exit("x1", (30.0, 42.0), pinned_z=-4.0)
    before = studied(tube("c1", 40.0, down=4.0), lumber="2x10", drains=(drain,), exits=(out,))
    finding, mends = offered(before, "bores-close-together")
    assert "side by side" not in finding.mend
    assert not any("one hole" in mend.words for mend in mends)


def test_thinner_insulation_on_both_narrows_their_hole() -> None:
    # 0.625 + 2 x 0.5 = 1.625 each, axes 1-1/8 apart: 2.75, bit 3-5/8; with 1/4 in 2.25, bit 2-9/16 (a 2x10 takes 3.0833)
    pair = (tube("c1", 40.0, insulation=0.5), tube("h1", 41.125, "hot", insulation=0.5))
    before = studied(*pair, lumber="2x10")
    finding = next(one for one in before.findings if one.rule == "bore-too-large")
    hole = hole_of(before, finding)
    assert hole is not None
    ideas = {idea.words: idea for idea in out_of_too_wide(before, hole)}
    after = study(ideas["Give c1 and h1 1/4 in of insulation"].make())
    assert [(made.bit, made.legal) for made in after.model.cuts] == [("2-9/16", True)]
