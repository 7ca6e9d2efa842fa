"""Every node of the ways of venting ends in parts that are sold, each hub filled, and all lists say the same.

Take-offs: sanitary tee 1-1/2 in 1.0625 / 1.75 / 1.75, long sweep 1-1/2 in 2.25, eighth bend 1-1/2 in 1.125, quarter bend
1-1/2 in 1.75, street eighth bend 1-1/2 in 1.8125 to its tip (from memory of ASTM D3311, or estimates from those). Assumed
by geometry: wye 2x2x1-1/2 branch 2.6875, wye 1-1/2 in 2.3125 / 0.4375 / 2.3125, reducer coupling 2x1-1/2 0.1875 a side
(cone (2.375 - 1.9) / 2 and stop 1/8, half of it), trap 1-1/2 in 5.25 from inlet to outlet. Sockets 11/16 and 3/4 in.
"""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from engine.plan.records import Plan
from engine.study import Study, study
from engine.takeoff.assembly import assembly
from tests.engine.checks.island_plans import island
from tests.engine.checks.vented_plans import column
from tests.engine.joinery.vent_nodes import NODES, arm_on
from tests.engine.joinery.vent_strategies import columns, island_vents, wide_arms
from tests.engine.joinery.whole import whole

GRADE = (1.0 + 1.0 / 48.0**2) ** 0.5
HALF = 0.5**0.5


def cuts(found: Study) -> dict[str, float]:
    return {piece.pipes[0]: piece.cut for piece in found.model.joinery.pieces}


def parts(found: Study) -> Counter[str]:
    return Counter(part.kind for part in found.model.joinery.parts)


@pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
@pytest.mark.parametrize("name", NODES)
def test_it_is_put_together_whole(name: str, book: str) -> None:
    whole(replace(NODES[name], rulebook=book))


def test_the_methods_that_these_nodes_make() -> None:
    """A strategy of drawings that made none of them would prove nothing."""
    methods = {trap.method for plan in NODES.values() for trap in study(plan).model.network.traps}
    assert methods >= {
        "individual vent",
        "common vent at one level",
        "common vent at two levels",
        "waste stack vent",
        "vertical wet vent",
        "circuit vent",
        "island vent",
    }


class TestDouble:
    """Two lavatories at one level on a 1-1/2 in drain."""

    def test_parts_and_joints(self) -> None:
        found = whole(column(("lavatory", 18.0), ("lavatory", 18.0), size="1-1/2", vent="1-1/2"))
        made = parts(found)
        assert (made["double_fixture_fitting"], made["trap_adapter_spigot"], made["sanitary_tee"]) == (1, 2, 0)
        (fitting,) = (part for part in found.model.joinery.parts if part.kind == "double_fixture_fitting")
        assert fitting.size == (1.5, 1.5, 1.5)
        # two adapters, the vent, the drain
        assert sum(fitting.id in (bond.part, bond.other) for bond in found.model.joinery.bonds) == 4
        # floor at 1, outlet 18 up: from 19 down to the foot, less the lower leg
        drop = next(
            piece for piece in found.model.joinery.pieces if piece.to_part is not None and "r1.0" in piece.pipes
        )
        assert drop.cut == pytest.approx(drop.axis - 1.75 - 2.25)

    def test_a_narrower_vent_takes_the_reducing_one(self) -> None:
        found = whole(column(("kitchen_sink", 18.0), ("kitchen_sink", 18.0), size="2", vent="1-1/2"))
        assert {part.size for part in found.model.joinery.parts if part.kind == "double_fixture_fitting"} == {
            (1.5, 2.0, 1.5)
        }

    def test_where_none_is_sold_it_is_a_double_tee(self) -> None:
        found = whole(column(("lavatory", 18.0), ("lavatory", 18.0), size="3"))
        assert parts(found)["double_sanitary_tee"] == 1


class TestSmallAdapters:
    def test_a_lavatory_on_four_inches(self) -> None:
        """No tee is sold 4x4x1-1/2 and no adapter 2x1-1/4: a 2 in branch, a bushing, and the 1-1/2 x 1-1/4 adapter in it."""
        found = whole(column(("lavatory", 18.0), size="4"))
        tee, bushing, adapter = (
            next(part for part in found.model.joinery.parts if part.kind == kind and part.size != (4.0, 1.5))
            for kind in ("sanitary_tee", "flush_bushing", "trap_adapter_spigot")
        )
        assert (tee.size[-1], bushing.size, adapter.size) == (2.0, (2.0, 1.5), (1.5, 1.25))
        glued = {(bond.part, bond.other) for bond in found.model.joinery.bonds}
        assert {(tee.id, bushing.id), (bushing.id, adapter.id)} <= glued

    def test_a_lavatory_in_an_inch_and_a_half(self) -> None:
        """The everyday one: a 1-1/4 in trap by its adapter in the tee's 1-1/2 in hub, and nothing between."""
        found = whole(column(("lavatory", 18.0), size="1-1/2"))
        assert parts(found)["flush_bushing"] == 0
        assert {part.size for part in found.model.joinery.parts if part.kind == "trap_adapter_spigot"} == {(1.5, 1.25)}


class TestNipple:
    """A 1-1/2 in trap on a 2 in arm, 36 in from its inlet to the vent: a nipple that shows 3/4 in, a reducer, and the arm."""

    @pytest.mark.parametrize("kind", ["shower", "bathtub"])
    def test_lengths(self, kind: str) -> None:
        found = whole(arm_on(kind, "2", "1-1/2"))
        nipple, arm = sorted(
            (piece for piece in found.model.joinery.pieces if piece.pipes[0] == "d1.0"), key=lambda piece: piece.size
        )
        # two sockets of 11/16 and 3/4 showing
        assert (nipple.size, nipple.cut) == (1.5, pytest.approx(2.0 * 0.6875 + 0.75))
        # 36 along the grade, less trap 5.25, nipple 2.125, reducer 0.1875 twice, combination 2x2x1-1/2
        slant = HALF * (2.6875 + 1.8125)
        upstream = 2.5625 - slant
        assert arm.cut == pytest.approx(36.0 * GRADE - 5.25 - 2.125 - 0.375 - upstream)
        assert arm.size == 2.0

    def test_joints(self) -> None:
        found = whole(arm_on("shower", "2", "1-1/2"))
        (reducer,) = (part for part in found.model.joinery.parts if part.kind == "reducer_coupling")
        assert reducer.size == (2.0, 1.5)
        assert parts(found)["flush_bushing"] == 0
        joints = Counter(bond.size for bond in found.model.joinery.bonds)
        # 1-1/2 in: stub in the trap, nipple twice, vent in the combination; 2 in: arm twice, drain once
        assert joints == {1.5: 4, 2.0: 3}

    def test_no_room(self) -> None:
        plan = arm_on("shower", "2", "1-1/2")
        near = ((100.0, 50.0), (92.0, 50.0), (40.0, 50.0))
        short = replace(
            plan,
            drains=(replace(plan.drains[0], points=near),),
            risers=(replace(plan.risers[0], at=near[1]),),
        )
        faults = [fault for fault in study(short).model.joinery.faults if fault.rule == "no-room"]
        assert len(faults) == 1
        assert "nipple" in faults[0].text


class TestIsland:
    """Loop at 33 + 1 in; a 1-1/2 in vent; the foot vent rises 100/48 to the wall, where it stays below the subfloor."""

    def test_by_the_residential_code(self) -> None:
        """Two quarter bends; foot at -0.95 - 2.0833; drain under it by 4.3070 + 1.75 + 1.375 at least."""
        found = whole(island())
        foot = -0.95 - 100.0 / 48.0
        heights = {
            (node.x, node.y, node.level < -2.0e9): z for node, z in found.model.heights.items() if node.level < 0.0
        }
        assert heights[112.0, 60.0, False] == pytest.approx(foot)
        branch = HALF * (2.6875 + 1.8125) + 1.125
        # the exit 88/48 lower, 3/4 in below what the foot vent allows, down to a sixteenth
        exit_z = foot - (branch + 1.75 + 1.375) - 88.0 / 48.0 - 0.75
        exit_z = -round(0.5 - exit_z * 16.0 - 1e-9) / 16.0
        drain = exit_z + 88.0 / 48.0
        assert heights[112.0, 60.0, True] == pytest.approx(drain)
        made = cuts(found)
        assert made["r1.down0"] == pytest.approx(foot - drain - branch - 1.75)
        # 9 in up stands the cleanout's tee, half an outside up and down, to the next sixteenth
        assert made["r1.down1"] == pytest.approx(9.0 - foot - 1.0625 - 1.0)
        assert made["r1.down2"] == pytest.approx(34.0 - 9.0 - 1.0 - 1.75)
        assert made["r1.over0"] == pytest.approx(12.0 * GRADE - 1.75 - 1.75)
        assert made["r1.1"] == pytest.approx(34.0 - 17.0 - 1.0625 - 1.75)
        assert made["v1.0"] == pytest.approx(100.0 * GRADE - 1.75 - 2.25)
        assert parts(found)["quarter_bend"] == 2

    def test_by_the_uniform_code(self) -> None:
        """45, 90 and 45 degrees: each leg 12 / 2 / cos 45 long; the foot vent leaves by a combination."""
        plan = island("upc-2021")
        loop, up = plan.risers
        found = whole(
            replace(plan, vents=(replace(plan.vents[0], size="1-1/2"),), risers=(loop, replace(up, vent="1-1/2")))
        )
        made = cuts(found)
        assert made["r1.over0"] == made["r1.over1"] == pytest.approx(6.0 / HALF - 1.125 - 1.75)
        assert made["r1.1"] == pytest.approx(28.0 - 17.0 - 1.0625 - 1.125)
        # combination: wye 0.4375 and 2.9168 back, its branch's stop 2.9168 + 1.125 out
        back = HALF * (2.3125 + 1.8125)
        assert made["v1.0"] == pytest.approx(100.0 * GRADE - (back + 1.125) - 2.25)
        kinds = parts(found)
        assert (kinds["eighth_bend"], kinds["quarter_bend"], kinds["combo_wye_eighth_bend"]) == (2, 1, 2)

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_the_loop_goes_on_last_from_above(self, book: str) -> None:
        found = study(island(book))
        (last,) = (step for step in assembly(found.model) if step.kind == "close")
        assert len(last.parts) == (2 if book == "irc-2021" else 3)
        assert last.needs == ()
        assert "both at once" in last.text

    def test_no_part_is_a_vent_fitting(self) -> None:
        assert not any(kind.startswith("vent_quarter") for kind in parts(study(island())))


@given(st.one_of(columns(), island_vents(), wide_arms()))
@settings(deadline=None, max_examples=150, suppress_health_check=[HealthCheck.too_slow])
def test_any_such_node_is_put_together_whole(plan: Plan) -> None:
    """Save where it is too narrow for its fittings, which is then said of it."""
    faults = study(plan).model.joinery.faults
    if faults:
        assert {fault.rule for fault in faults} == {"no-room"}
        assert all(fault.measured is not None and fault.measured < (fault.limit or 0.0) for fault in faults)
    else:
        whole(plan)
