"""Whole assemblies counted and cut by hand: every part, every piece with its sum, every glued joint.

Take-offs: quarter bend 3 in 3.0625; long sweep 2 in 3.0625, 3 in 4.0625; eighth bend 1-1/2 in 1.125; street eighth
bend 1-1/2 in 1.125 and 1.8125; sanitary tee 2 in 1.4375 / 2.3125 / 2.3125, 2x1-1/2 1.0625 / 1.75 / 1.9875 (from memory
of ASTM D3311, or estimates from those). Assumed by geometry: wye 3x3x2 3.4375 / 0.25 / 3.6875, reducer coupling 3x2
0.375 a side, traps from the short bend's radius R: 3R from the inlet's axis to the outlet's stop, inlet stop R below
the arm's axis (R 1.75 in 1-1/2 in, 2.3125 in 2 in). Sockets 11/16, 3/4 and 1-1/2 in. A cut is the distance between
two axes less both take-offs; along a slope of 1/4 in per ft an inch of plan is sqrt(1 + (1/48)^2) = 1.000217.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.plan.records import Drain, Exit, Fixture, Floor, Plan, Riser
from engine.study import Study, study

HandFloor = Callable[..., Plan]
GRADE = (1.0 + 1.0 / 48.0**2) ** 0.5
HALF = 0.5**0.5
AT = (100.0, 50.0)


def floor(fixtures: tuple[Fixture, ...], risers: tuple[Riser, ...], *drains: Drain) -> Plan:
    """A bare floor whose drain leaves by (40, 50), 6 in down, and ends there in a capped pipe."""
    return Plan(
        floor=Floor(((0.0, 0.0), (240.0, 0.0), (240.0, 120.0), (0.0, 120.0))),
        fixtures=fixtures,
        risers=risers,
        drains=drains,
        exits=(Exit("x1", drains[-1].points[-1], how="through-rim", pinned_z=-6.0),),
    )


def parts(found: Study) -> Counter[tuple[str, tuple[float, ...]]]:
    return Counter((part.kind, part.size) for part in found.model.joinery.parts)


def cuts(found: Study) -> dict[str, float]:
    """The cut lengths by the pipe that each was cut from."""
    pieces = found.model.joinery.pieces
    assert len({piece.pipes[0] for piece in pieces}) == len(pieces)
    return {piece.pipes[0]: piece.cut for piece in pieces}


def joints(found: Study) -> Counter[float]:
    return Counter(bond.size for bond in found.model.joinery.bonds)


class TestCloset:
    def test_with_a_stub(self, hand_floor: HandFloor) -> None:
        found = study(hand_floor(lavatory=False))
        assert parts(found) == {
            ("closet_flange_4x3", (4.0, 3.0)): 1,
            ("closet_bolts", ()): 1,
            ("flange_screws", ()): 1,
            ("closet_seal", ()): 1,
            ("quarter_bend", (3.0, 3.0)): 2,
            ("test_cap", (3.0,)): 2,
        }
        assert cuts(found) == pytest.approx(
            {
                # flange stop +0.5 to the bend's axis at -5.6875
                "wc1.drop": 0.5 + 5.6875 - 3.0625,
                "d1.0": 72.0 * GRADE - 3.0625 - 3.0625,
                "x1.tail": 24.0 - 7.1875 - 3.0625,
            }
        )
        # flange 1, bends 2 and 2
        assert joints(found) == {3.0: 5}

    def test_with_a_street_bend(self, hand_floor: HandFloor) -> None:
        """Its spigot stands in the flange: no stub, and one joint for two."""
        found = study(hand_floor(lavatory=False, pinned=-5.5625))
        assert parts(found)["street_quarter_bend", (3.0, 3.0)] == 1
        assert parts(found)["quarter_bend", (3.0, 3.0)] == 1
        assert cuts(found) == pytest.approx({"d1.0": 72.0 * GRADE - 3.0625 - 3.0625, "x1.tail": 24.0 - 5.5625 - 3.0625})
        # flange to bend 1, bend to main 1, exit bend 2
        assert joints(found) == {3.0: 4}
        flange, bend = (
            next(part for part in found.model.joinery.parts if part.kind == kind)
            for kind in ("closet_flange_4x3", "street_quarter_bend")
        )
        # centre to spigot tip 4.5625 (estimate): from the flange's stop at 0.5
        assert bend.centre[2] == pytest.approx(0.5 - 4.5625)
        assert (flange.id, bend.id) in {(bond.part, bond.other) for bond in found.model.joinery.bonds}

    def test_straight_over_a_turn_down_it_is_one_pipe_to_the_tail(self) -> None:
        """From the flange's stop, 0.5 under the floor at 1, to the capped end at -24: whatever the exit's height."""
        plan = Plan(
            floor=Floor(((0.0, 0.0), (120.0, 0.0), (120.0, 120.0), (0.0, 120.0))),
            fixtures=(Fixture("wc1", "water_closet", AT),),
            exits=(Exit("x1", AT),),
        )
        found = study(plan)
        assert cuts(found) == pytest.approx({"wc1.drop": 0.5 + 24.0})
        assert joints(found) == {3.0: 1}


class TestShower:
    """A trap in the bay at (45, 38), its arm straight at 45 degrees to a wye at (36, 29) on the hand floor's main."""

    @pytest.fixture
    def found(self, hand_floor: HandFloor) -> Study:
        plan = hand_floor()
        main = replace(plan.drains[0], points=((36.0, 92.0), (36.0, 62.0), (36.0, 29.0), (36.0, 20.0)))
        arm = Drain("d3", ((45.0, 38.0), (36.0, 29.0)), size="2")
        shower = Fixture("sh1", "shower", (45.0, 38.0))
        return study(replace(plan, fixtures=(*plan.fixtures, shower), drains=(main, plan.drains[1], arm)))

    def test_heights(self, found: Study) -> None:
        heights = {(node.x, node.y): z for node, z in found.model.heights.items() if node.level < 0.0}
        # 9 / 48 above the exit at -7.1875
        assert heights[36.0, 29.0] == pytest.approx(-7.0)
        trap = next(part for part in found.model.joinery.parts if part.kind == "p_trap")
        # the arm's axis at the trap's outlet stop: 9 x 1.414214 = 12.7279 less 6.9375, over 48
        assert trap.centre[2] == pytest.approx(-7.0 + (12.7279 - 6.9375) / 48.0, abs=1e-5)

    def test_pieces(self, found: Study) -> None:
        made = {piece.pipes[0]: piece.cut for piece in found.model.joinery.pieces}
        assert made["d3.0"] == pytest.approx(162.0**0.5 * GRADE - 6.9375 - 3.6875)
        # from the inlet's stop, 2.3125 below the axis at the outlet stop (-6.8794), to the pan's drain at +1.25
        assert made["sh1.drop"] == pytest.approx(1.25 + 6.8794 + 2.3125, abs=5e-5)
        assert made["d1.1"] == pytest.approx(33.0 * GRADE - 0.25 - 3.4375)
        assert made["d1.2"] == pytest.approx(9.0 * GRADE - 0.25 - 3.0625)

    def test_parts_and_joints(self, found: Study, hand_floor: HandFloor) -> None:
        assert parts(found) - parts(study(hand_floor())) == {
            ("wye", (3.0, 3.0, 2.0)): 1,
            ("p_trap", (2.0, 2.0)): 1,
            ("test_cap", (2.0,)): 1,
        }
        # trap in and out, the wye's branch; on the main the wye's run in and out
        assert joints(found)[2.0] == 3
        assert joints(found)[3.0] == joints(study(hand_floor()))[3.0] + 2

    def test_what_is_found(self, found: Study) -> None:
        """The belly hangs 5.8125 below -6.8794, so at -12.69; 0.6057 of the arm shows between its hubs (0.75 asked)."""
        seen = {one.rule: one for one in found.findings if "sh1" in one.elements or "d3" in one.elements}
        assert seen["trap-below-joists"].measured == pytest.approx(12.6919, abs=5e-5)
        assert seen["little-pipe-showing"].measured == pytest.approx(162.0**0.5 * GRADE - 10.625 - 1.5)
        assert {one.weight for one in seen.values() if one.rule != "gaps-round-pipes"} == {"look"}


def test_washer_with_its_standpipe() -> None:
    """Trap 12 above the floor, standpipe's top at 42: both 1 in higher above the joists. Dry vent 1-1/2 in."""
    found = study(
        floor(
            (Fixture("wm1", "washer_standpipe", AT, turn=0.0),),
            (Riser("r1", AT),),
            Drain("d1", (AT, (40.0, 50.0)), size="2"),
        )
    )
    foot = -6.0 + 60.0 / 48.0
    assert cuts(found) == pytest.approx(
        {
            "d1.0": 60.0 * GRADE - 3.0625,
            "r1.0": 13.0 - 2.3125 - (foot + 3.0625),
            # the arm is drawn from the trap's outlet stop
            "wm1.arm": 8.0 * GRADE - 2.3125,
            "wm1.standpipe": 43.0 - (13.0 - 2.3125),
            # the roof's covering at 127, and 6 above it (IRC 2021 P3103.1.1)
            "r1.1": 133.0 - 13.0 - 1.4375,
        }
    )
    assert parts(found) == {
        ("long_sweep_quarter_bend", (2.0, 2.0)): 1,
        ("sanitary_tee", (1.5, 2.0, 2.0)): 1,
        ("p_trap", (2.0, 2.0)): 1,
        ("test_cap", (2.0,)): 1,
        ("vent_flashing", (1.5,)): 1,
    }
    # sweep 2, tee 2, trap 2; and the vent in the tee
    assert joints(found) == {2.0: 6, 1.5: 1}


def test_kitchen_sink_on_a_two_inch_riser() -> None:
    """Outlet 16 above the floor; a tubular trap's adapter fills the tee's 1-1/2 in hub, so the arm is no pipe to cut."""
    found = study(
        floor(
            (Fixture("ks1", "kitchen_sink", AT, turn=0.0),),
            (Riser("r1", AT, size="2"),),
            Drain("d1", (AT, (40.0, 50.0)), size="2"),
        )
    )
    foot = -6.0 + 60.0 / 48.0
    assert cuts(found) == pytest.approx(
        {
            "d1.0": 60.0 * GRADE - 3.0625,
            "r1.0": 17.0 - 1.75 - (foot + 3.0625),
            "r1.1": 133.0 - 17.0 - 1.0625,
        }
    )
    assert parts(found) == {
        ("long_sweep_quarter_bend", (2.0, 2.0)): 1,
        ("sanitary_tee", (1.5, 2.0, 1.5)): 1,
        ("trap_adapter_spigot", (1.5, 1.5)): 1,
        ("tubular_trap", (1.5,)): 1,
        ("test_plug", (1.5,)): 1,
        ("test_cap", (2.0,)): 1,
        ("vent_flashing", (1.5,)): 1,
    }
    # sweep 2, the tee's lower leg 1; adapter and vent in the tee
    assert joints(found) == {2.0: 3, 1.5: 2}


def test_tub_with_its_trap_beside_the_outlet() -> None:
    """The trap hangs under the overflow, 12 in from the shoe; its arm runs 36 to a dry riser on the drain.

    The dry riser stands in an upright combination: wye 2.3125 / 0.4375 / 2.3125, street eighth bend 1.8125, so its wye
    sits 4.125 x 0.7071 = 2.9168 downstream, and its branch's stop 2.9168 + 1.125 up.
    """
    vent = (64.0, 50.0)
    found = study(
        floor(
            (Fixture("bt1", "bathtub", (112.0, 50.0), trap_at=AT),),
            (Riser("r1", vent),),
            Drain("d1", (AT, vent, (40.0, 50.0)), size="1-1/2"),
        )
    )
    back = 4.125 * HALF
    assert cuts(found) == pytest.approx(
        {
            "d1.0": 36.0 * GRADE - 5.25 - (2.3125 - back),
            "d1.1": 24.0 * GRADE - (0.4375 + back),
            # from 24 / 48 above the exit to the roof
            "r1.0": 133.0 + 6.0 - 0.5 - (back + 1.125),
        }
    )
    assert parts(found) == {
        ("waste_and_overflow", (1.5,)): 1,
        ("trap_adapter_spigot", (1.5, 1.5)): 1,
        ("p_trap", (1.5, 1.5)): 1,
        ("combo_wye_eighth_bend", (1.5, 1.5, 1.5)): 1,
        ("test_plug", (1.5,)): 1,
        ("test_cap", (1.5,)): 1,
        ("vent_flashing", (1.5,)): 1,
    }
    # adapter in the trap, trap's outlet, combination 3
    assert joints(found) == {1.5: 5}


def test_a_straight_run_that_grows_takes_a_reducer() -> None:
    found = study(
        floor(
            (),
            (),
            Drain("d1", (AT, (70.0, 50.0)), size="2"),
            Drain("d2", ((70.0, 50.0), (40.0, 50.0), (40.0, 20.0)), size="3"),
        )
    )
    # cone (3.5 - 2.375) / 2 = 0.5625 and stop 1/8, half of it 0.34375, up to a sixteenth: 0.375 a side
    assert cuts(found) == pytest.approx(
        {
            "d1.0": 30.0 * GRADE - 0.375,
            "d2.0": 30.0 * GRADE - 0.375 - 4.0625,
            "d2.1": 30.0 * GRADE - 4.0625,
        }
    )
    assert parts(found) == {
        ("reducer_coupling", (3.0, 2.0)): 1,
        ("long_sweep_quarter_bend", (3.0, 3.0)): 1,
        ("test_cap", (3.0,)): 1,
    }
    assert joints(found) == {2.0: 1, 3.0: 3}


def test_a_corner_where_it_grows_takes_a_bushing() -> None:
    """The bend is as large as the larger pipe; a flush bushing takes 1.5 - 0.75 more of the smaller one."""
    found = study(
        floor((), (), Drain("d1", (AT, (40.0, 50.0)), size="2"), Drain("d2", ((40.0, 50.0), (40.0, 20.0)), size="3"))
    )
    assert cuts(found) == pytest.approx({"d1.0": 60.0 * GRADE - 4.0625 - 0.75, "d2.0": 30.0 * GRADE - 4.0625})
    assert parts(found) == {
        ("long_sweep_quarter_bend", (3.0, 3.0)): 1,
        ("flush_bushing", (3.0, 2.0)): 1,
        ("test_cap", (3.0,)): 1,
    }
    # the bushing in the bend's hub, the 2 in pipe in the bushing, the 3 in pipe in the bend
    assert joints(found) == {3.0: 2, 2.0: 1}
