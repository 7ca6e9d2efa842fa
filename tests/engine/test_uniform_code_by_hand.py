"""The worked floor under the Uniform Plumbing Code, sum by sum (inches, z up from the joists' top).

No short bend stands under a closet there (UPC 706.4), so a long sweep does: 3 in, 4.0625 (from memory). The rest as in
the floor's other sums: flange stop 0.5 below the ring (assumed), socket 1-1/2 in (Modern Plumbing, DWV installation
chapter), 2 in P-trap from inlet axis to weir 6.9375 (assumed).
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.piping.records import UNDER, Node
from engine.plan.records import Amendment, Drain, Exit, Fixture, Floor, PinnedFitting, Plan, Riser
from engine.study import Study, study

HandFloor = Callable[..., Plan]


def under_upc(plan: Plan, *amendments: Amendment) -> Study:
    return study(replace(plan, rulebook="upc-2021", amendments=amendments))


def elements(found: Study, rule: str) -> list[tuple[str, ...]]:
    return [finding.elements for finding in found.findings if finding.rule == rule]


def test_a_long_sweep_stands_under_the_closet(hand_floor: HandFloor) -> None:
    found = under_upc(hand_floor(lavatory=False, pinned=-8.125))
    bends = {part.node[:2]: part.kind for part in found.model.joinery.parts if "bend" in part.kind}
    # at the exit level turns to plumb, where a short bend will do (706.2)
    assert bends == {(36.0, 92.0): "long_sweep_quarter_bend", (36.0, 20.0): "quarter_bend"}
    assert elements(found, "turn-in-wrong-fitting") == []


def test_the_window_moves_down_with_the_bend(hand_floor: HandFloor) -> None:
    # highest axis 0.5 - (1.5 + 1.5) - 4.0625 = -6.5625; less the fall of 72 / 48 = 1.5: -8.0625
    found = under_upc(hand_floor(lavatory=False, pinned=None))
    (window,) = found.model.windows
    assert window.low is None
    assert window.high == pytest.approx(-8.0625, abs=1e-9)
    assert window.others == (), "no street form of the short bend either"
    # with no low end: -8.0625 - 0.75 of pipe to show = -8.8125, a sixteenth already
    assert window.chosen == pytest.approx(-8.8125, abs=1e-9)
    assert found.model.heights[Node(36, 92, UNDER)] == pytest.approx(-8.8125 + 1.5, abs=1e-9)


def test_at_the_highest_the_hubs_touch_and_a_sixteenth_higher_there_is_no_room(hand_floor: HandFloor) -> None:
    assert elements(under_upc(hand_floor(lavatory=False, pinned=-8.0625)), "no-room") == []
    assert elements(under_upc(hand_floor(lavatory=False, pinned=-8.0)), "no-room") == [("wc1",)]


def test_closet_alone_pieces(hand_floor: HandFloor) -> None:
    found = under_upc(hand_floor(lavatory=False, pinned=-8.125))
    cuts = {piece.pipes: piece.cut for piece in found.model.joinery.pieces}
    # bend axis -8.125 + 1.5 = -6.625; flange stop to bend 0.5 + 6.625 - 4.0625
    assert cuts["wc1.drop",] == pytest.approx(3.0625, abs=1e-9)
    # along 1/4 in per ft: 72 x 1.000217 - 4.0625 - 3.0625
    assert cuts["d1.0",] == pytest.approx(72 * 1.000217 - 7.125, abs=1e-4)


def test_a_short_bend_chosen_under_the_closet_is_refused(hand_floor: HandFloor) -> None:
    chosen = PinnedFitting(id="f1", at=(36.0, 92.0), pattern="quarter_bend")
    plan = replace(hand_floor(lavatory=False), fittings=(chosen,))
    (finding,) = [f for f in under_upc(plan).findings if f.rule == "turn-in-wrong-fitting"]
    assert finding.cites == "UPC 2021 706.4"
    assert [f for f in study(plan).findings if f.rule == "turn-in-wrong-fitting"] == [], "the IRC's exception"


def test_a_closet_bend_chosen_there_holds(hand_floor: HandFloor) -> None:
    chosen = PinnedFitting(id="f1", at=(36.0, 92.0), pattern="closet_bend")
    plan = replace(hand_floor(lavatory=False), fittings=(chosen,))
    assert elements(under_upc(plan), "turn-in-wrong-fitting") == []


def test_with_the_lavatory_no_height_fits_ten_inch_joists(hand_floor: HandFloor) -> None:
    # joist 48's bottom wood holds the exit at -7.3729 or higher, the closet's sweep at -8.0625 or lower
    found = under_upc(hand_floor())
    (window,) = found.model.windows
    assert window.low == pytest.approx(-7.3729, abs=5e-5)
    assert window.high == pytest.approx(-8.0625, abs=1e-9)
    assert elements(under_upc(hand_floor(pinned=None)), "no-height-fits") == [("x1",)]


def test_the_closet_counts_from_its_flange(hand_floor: HandFloor) -> None:
    # wye 30 in from the bend; bend axis -8.125 + 1.5 = -6.625; flange on the finished floor at +1: 30 + 7.625
    found = under_upc(hand_floor(pinned=-8.125))
    (trap,) = [trap for trap in found.model.network.traps if trap.kind == "water_closet"]
    from engine.takeoff.answers import check_answer

    (row,) = [row for row in check_answer(found)["traps"] if row["fixture"] == "wc1"]
    assert (trap.length, row["distance"], row["limit"]) == (30.0, 37.625, 72.0)


@pytest.mark.parametrize(("vent", "far"), [(28.0, None), (28.0 - 1 / 16, 72.0625)])
def test_a_closet_s_arm_at_its_limit_and_a_sixteenth_past_it(
    hand_floor: HandFloor, vent: float, far: float | None
) -> None:
    # exit pinned at -8.5, so the bend's axis at -7 and the drop from the flange at +1 is 8; 92 - 28 = 64 more: 72
    plan = hand_floor(lavatory=False, pinned=-8.5)
    main = Drain(id="d1", points=((36.0, 92.0), (36.0, vent), (36.0, 20.0)), size="3")
    plan = replace(plan, drains=(main,), risers=(Riser(id="r9", at=(36.0, vent)),))
    found = [f for f in under_upc(plan).findings if f.rule == "trap-too-far-from-vent"]
    assert [(f.measured, f.limit, f.cites) for f in found] == (
        [] if far is None else [(far, 72.0, "UPC 2021 Table 1002.2, note")]
    )
    assert elements(study(plan), "trap-too-far-from-vent") == [], "a closet has no limit under the IRC"


@pytest.mark.parametrize(("vent", "holds"), [(20.0, True), (20.0 - 1 / 16, False)])
def test_where_the_official_counts_from_the_bend(hand_floor: HandFloor, vent: float, holds: bool) -> None:
    # 92 - 20 = 72 along the drain alone
    ruling = Amendment("trap_arm.closet_from_flange", False, "the county's official", "2026-03-01")
    main = Drain(id="d1", points=((36.0, 92.0), (36.0, vent), (36.0, 10.0)), size="3")
    plan = replace(
        hand_floor(lavatory=False),
        drains=(main,),
        exits=(Exit(id="x1", at=(36.0, 10.0)),),
        risers=(Riser(id="r9", at=(36.0, vent)),),
    )
    found = [f for f in under_upc(plan, ruling).findings if f.rule == "trap-too-far-from-vent"]
    assert [f.measured for f in found] == ([] if holds else [72.0625])


@pytest.mark.parametrize(("vent", "far"), [(23.0625, None), (23.0, 60.0625)])
def test_a_shower_s_arm_at_its_limit_and_a_sixteenth_past_it(vent: float, far: float | None) -> None:
    # inlet axis to weir 6.9375; 90 - 23.0625 - 6.9375 = 60
    plan = Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))),
        fixtures=(Fixture(id="sh1", kind="shower", at=(40.0, 90.0)),),
        drains=(Drain(id="d1", points=((40.0, 90.0), (40.0, vent), (40.0, 10.0))),),
        risers=(Riser(id="r1", at=(40.0, vent)),),
        exits=(Exit(id="x1", at=(40.0, 10.0)),),
    )
    found = [f for f in under_upc(plan).findings if f.rule == "trap-too-far-from-vent"]
    assert [(f.measured, f.limit) for f in found] == ([] if far is None else [(far, 60.0)])
    assert elements(study(plan), "trap-too-far-from-vent") == [], "the IRC has 96 in"


@pytest.mark.parametrize(("kind", "limit"), [("lavatory", 30.0), ("kitchen_sink", 42.0), ("washer_standpipe", 60.0)])
def test_an_arm_in_the_wall_at_its_limit_and_past_it(hand_floor: HandFloor, kind: str, limit: float) -> None:
    """UPC Table 1002.2 by trap: 1-1/4, 1-1/2 and 2 in."""
    for length, far in ((limit, []), (limit + 1 / 16, [limit + 1 / 16])):
        fixture = Fixture(id="w1", kind=kind, at=(70.25, 69.0), turn=180.0, arm=length)  # type: ignore[arg-type]
        plan = hand_floor()
        found = under_upc(replace(plan, fixtures=(plan.fixtures[0], fixture)))
        measured = [f.measured for f in found.findings if f.rule == "trap-too-far-from-vent" and "w1" in f.elements]
        assert measured == far
