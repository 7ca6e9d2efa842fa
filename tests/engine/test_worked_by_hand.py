"""A closet and a lavatory on one small floor, against sums worked by hand (IRC 2021; z up from the joists' top).

Take-offs used: quarter bend 3 in 3.0625 and eighth bend 1-1/2 in 1.125 (from memory of ASTM D3311), long sweep
1-1/2 in 2.25 and sanitary tee 1-1/2 in 1.0625 / 1.75 / 1.75 (from memory), wye 3x3x1-1/2 assumed by geometry
3.125 / 0.25 / 3.4375, street quarter bend 3 in 4.5625 to its tip (estimate), flange stop 0.5 below the ring
(assumed). Socket depths 11/16 in (from memory) and 1-1/2 in (Modern Plumbing, DWV installation chapter).
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from engine.piping.records import UNDER, Node
from engine.plan.records import Plan
from engine.study import Study, study

Floor = Callable[..., Plan]
GRADE = 1.000217
"""Length along a slope of 1/4 in per ft for each inch of plan: sqrt(1 + (1/48)^2)."""


def height(found: Study, x: float, y: float) -> float:
    return found.model.heights[Node(x, y, UNDER)]


def cuts_of(found: Study) -> dict[tuple[str, ...], list[float]]:
    lengths: dict[tuple[str, ...], list[float]] = {}
    for piece in found.model.joinery.pieces:
        lengths.setdefault(piece.pipes, []).append(piece.cut)
    return lengths


def test_closet_alone_heights(hand_floor: Floor) -> None:
    found = study(hand_floor(lavatory=False))
    # fall 72 / 48 = 1.5; bend axis -7.1875 + 1.5
    assert height(found, 36, 92) == pytest.approx(-5.6875, abs=1e-9)
    assert height(found, 36, 20) == pytest.approx(-7.1875, abs=1e-9)


def test_closet_alone_window_has_no_low_end(hand_floor: Floor) -> None:
    # flange stop +0.5; stub: 0.5 - (1.5 + 1.5) - 3.0625 = -5.5625, less the fall of 1.5
    window = study(hand_floor(lavatory=False)).model.windows[0]
    assert window.low is None
    assert window.high == pytest.approx(-7.0625, abs=1e-9)
    # street: 0.5 - 4.5625 - 1.5
    assert [z for z, _ in window.others] == [pytest.approx(-5.5625, abs=1e-9)]


def test_with_no_low_end_the_chosen_height_leaves_pipe_to_show(hand_floor: Floor) -> None:
    # -7.0625 - 0.75 = -7.8125, already a sixteenth
    assert study(hand_floor(lavatory=False, pinned=None)).model.windows[0].chosen == pytest.approx(-7.8125)


def test_closet_alone_pieces(hand_floor: Floor) -> None:
    found = cuts_of(study(hand_floor(lavatory=False)))
    assert found["wc1.drop",] == [pytest.approx(0.5 + 5.6875 - 3.0625, abs=1e-9)]
    assert found["d1.0",] == [pytest.approx(72 * GRADE - 2 * 3.0625, abs=1e-4)]
    assert found["x1.tail",] == [pytest.approx(24 - 7.1875 - 3.0625, abs=1e-9)]


def test_closet_alone_parts(hand_floor: Floor) -> None:
    found = study(hand_floor(lavatory=False))
    kinds = sorted(part.kind for part in found.model.joinery.parts)
    assert kinds == sorted(
        [
            "closet_flange_4x3",
            "closet_bolts",
            "flange_screws",
            "closet_seal",
            "quarter_bend",
            "quarter_bend",
            "test_cap",
            "test_cap",
        ]
    )
    assert len(found.model.joinery.bonds) == 5


def test_closet_alone_is_not_vented(hand_floor: Floor) -> None:
    found = study(hand_floor(lavatory=False))
    assert [f.elements for f in found.findings if f.rule == "trap-without-vent"] == [("wc1",)]
    assert [f.weight for f in found.findings if f.rule == "trap-without-vent"] == ["stop"]


def test_stub_with_an_eighth_between_its_hubs_is_looked_at(hand_floor: Floor) -> None:
    found = [f for f in study(hand_floor(lavatory=False)).findings if f.rule == "little-pipe-showing"]
    assert [(f.weight, f.measured, f.limit) for f in found] == [("look", pytest.approx(0.125), 0.75)]


def test_turned_across_the_joists_every_crossing_is_a_stop(hand_floor: Floor) -> None:
    # 3.500 outside against min(9.25 / 3, 9.25 - 4) = 3.0833, before any play: joists 48, 64, 80 and 96
    plan = hand_floor(lavatory=False)
    import msgspec

    across = msgspec.structs.replace(
        plan,
        drains=(msgspec.structs.replace(plan.drains[0], points=((36.0, 92.0), (108.0, 92.0))),),
        exits=(msgspec.structs.replace(plan.exits[0], at=(108.0, 92.0)),),
    )
    found = [f for f in study(across).findings if f.weight == "stop" and "bore" in f.rule]
    assert sorted(round(f.at[0]) for f in found) == [48, 64, 80, 96]
    for finding in found:
        assert finding.limit == pytest.approx(9.25 / 3)
    window = study(across).model.windows[0]
    assert window.low is None, "a crossing that cannot be bored bounds nothing"


def test_lavatory_heights(hand_floor: Floor) -> None:
    found = study(hand_floor())
    assert height(found, 36, 62) == pytest.approx(-6.3125, abs=1e-9)
    # 7 x 1.414214 / 48 = 0.2062
    assert height(found, 43, 69) == pytest.approx(-6.1063, abs=5e-5)
    # 27.25 / 48 = 0.5677
    assert height(found, 70.25, 69) == pytest.approx(-5.5386, abs=5e-5)


def test_lavatory_bores(hand_floor: Floor) -> None:
    cuts = {cut.at[0]: cut for cut in study(hand_floor()).model.cuts}
    assert sorted(cuts) == [48.0, 64.0]
    for x, axis, up, above, below in ((48.0, 6.0021, 3.2479, 4.9396, 2.1854), (64.0, 5.6688, 3.5812, 4.6063, 2.5187)):
        cut = cuts[x]
        assert (cut.kind, cut.bit, cut.diameter, cut.legal) == ("bore", "2-1/8", 2.125, True)
        assert cut.down_from_top == pytest.approx(axis, abs=5e-5)
        assert cut.up_from_bottom == pytest.approx(up, abs=5e-5)
        assert cut.wood_above == pytest.approx(above, abs=5e-5)
        assert cut.wood_below == pytest.approx(below, abs=5e-5)
        # joists run y 1.5 to 106.5
        assert (cut.from_start, cut.from_end) == (pytest.approx(67.5), pytest.approx(37.5))
        assert cut.limit == pytest.approx(3.0833, abs=5e-5)


def test_window_with_both_ends(hand_floor: Floor) -> None:
    # low: joist 48's bottom wood -6.1875 less 1.1854; high: the closet's stub
    window = study(hand_floor()).model.windows[0]
    assert window.low == pytest.approx(-7.3729, abs=5e-5)
    assert window.high == pytest.approx(-7.0625, abs=1e-9)
    assert "f1.3" in (window.low_set_by or "")
    assert "wc1" in (window.high_set_by or "")
    assert study(hand_floor(pinned=None)).model.windows[0].chosen == pytest.approx(-7.2177, abs=5e-5)


def test_lavatory_pieces(hand_floor: Floor) -> None:
    found = cuts_of(study(hand_floor()))
    assert found["d1.0",] == [pytest.approx(23.8190, abs=5e-5)]
    assert found["d1.1",] == [pytest.approx(38.6966, abs=5e-5)]
    assert found["d2.1",] == [pytest.approx(5.3391, abs=5e-5)]
    # one coupling in the middle of the bay between the two bores, at x 56
    assert found["d2.0",] == [pytest.approx(11.9406, abs=5e-5), pytest.approx(11.8153, abs=5e-5)]
    assert found["r1.0",] == [pytest.approx(20.5386, abs=5e-5)]
    assert found["r1.1",] == [pytest.approx(112.9375, abs=1e-9)]


def test_lavatory_parts_and_joints(hand_floor: Floor) -> None:
    model = study(hand_floor()).model
    added = sorted(
        (part.kind, part.size)
        for part in model.joinery.parts
        if part.kind not in ("closet_bolts", "flange_screws", "closet_seal")
    )
    assert added == sorted(
        [
            ("closet_flange_4x3", (4.0, 3.0)),
            ("quarter_bend", (3.0, 3.0)),
            ("quarter_bend", (3.0, 3.0)),
            ("test_cap", (3.0,)),
            ("test_cap", (3.0,)),
            ("wye", (3.0, 3.0, 1.5)),
            ("eighth_bend", (1.5, 1.5)),
            ("coupling", (1.5, 1.5)),
            ("long_sweep_quarter_bend", (1.5, 1.5)),
            ("sanitary_tee", (1.5, 1.5, 1.5)),
            ("trap_adapter_spigot", (1.5, 1.25)),
            ("tubular_trap", (1.25,)),
            ("vent_flashing", (1.5,)),
            ("test_plug", (1.5,)),
        ]
    )
    # wye 1, eighth 2, coupling 2, sweep 2, tee 3
    assert sum(1 for bond in model.joinery.bonds if bond.size == 1.5) == 10


def test_path_of_the_branch_adds_up(hand_floor: Floor) -> None:
    model = study(hand_floor()).model
    pieces = [p for p in model.joinery.pieces if p.pipes[0].startswith("d2.")]
    total = sum(piece.axis for piece in pieces)
    assert total == pytest.approx((9.899495 + 27.25) * GRADE, abs=1 / 64)
    assert sum(p.cut for p in pieces) + 3.4375 + 2 * 1.125 + 2 * 0.0625 + 2.25 == pytest.approx(total, abs=1e-9)


def test_venting(hand_floor: Floor) -> None:
    found = study(hand_floor())
    traps = {trap.fixture: trap for trap in found.model.network.traps}
    assert (traps["lav1"].method, traps["lav1"].length) == ("individual vent", 6.25)
    assert traps["lav1"].fall == pytest.approx(6.25 / 48)
    assert traps["wc1"].method == "horizontal wet vent"
    assert [f for f in found.findings if f.weight == "stop"] == []
