"""One more vent where a wall stands within the trap's reach, or the one there brought nearer (worked by hand).

By the UPC no shower is vented through a closet's drain (908.2), so the shower on the hand floor's main needs a vent of its
own; a 2 in trap's is at most 60 in away (Table 1002.2).
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.checks.records import Finding
from engine.mending import Mend, mends_for
from engine.mending.vent_spots import spots
from engine.plan.records import Drain, Fixture, Plan, Riser, Wall
from engine.study import Study, study
from tests.engine.mending.promises import held

Floor = Callable[..., Plan]


def shower(plan: Plan, *walls: Wall, at: float = 100.0, vertex: float | None = None) -> Plan:
    """A shower whose drain runs west on y 50 into the main; `vertex` is one more point on it."""
    between = ((vertex, 50.0),) if vertex is not None else ()
    partition = replace(plan.walls[1], start=(70.25, 62.0))
    return replace(
        plan,
        rulebook="upc-2021",
        fixtures=(*plan.fixtures, Fixture("sh1", "shower", (at, 50.0))),
        drains=(
            replace(plan.drains[0], points=((36.0, 92.0), (36.0, 62.0), (36.0, 43.0), (36.0, 20.0))),
            plan.drains[1],
            Drain("d3", ((at, 50.0), *between, (43.0, 50.0), (36.0, 43.0)), size="2"),
        ),
        walls=(plan.walls[0], partition, *walls),
    )


def mended(plan: Plan, rule: str) -> tuple[Study, Finding, tuple[Mend, ...]]:
    before = study(plan)
    finding = next(one for one in before.findings if one.rule == rule and "sh1" in one.elements)
    mends = mends_for(before, finding)
    for mend in mends:
        held(before, finding, mend)
    return before, finding, mends


def test_a_vent_rises_where_the_drain_passes_under_a_wall(hand_floor: Floor) -> None:
    wall = Wall("p2", (88.0, 40.0), (88.0, 60.0), name="shower's partition")
    _, _, mends = mended(shower(hand_floor(pinned=None, width=160.0), wall), "trap-without-vent")
    assert mends[0].words == "Stand a vent through the roof on d3 in shower's partition"
    after = study(mends[0].plan)
    riser = after.plan.risers[-1]
    assert (riser.at, riser.wall, riser.top) == ((88.0, 50.0), "p2", "roof")
    assert (88.0, 50.0) in after.plan.drains[2].points
    trap = next(trap for trap in after.model.network.traps if trap.fixture == "sh1")
    assert (trap.method, trap.vented_by) == ("individual vent", riser.id)


def test_a_vent_goes_up_to_a_wall_beside_at_45_degrees_as_far_as_it_rises(hand_floor: Floor) -> None:
    """The drain lies some 6 1/2 in down: a wall 6 in aside is within that, and leaves room for two bends and a stub."""
    wall = Wall("p2", (50.0, 56.0), (110.0, 56.0))
    before, _, mends = mended(shower(hand_floor(pinned=None, width=160.0), wall), "trap-without-vent")
    trap = next(trap for trap in before.model.network.traps if trap.fixture == "sh1")
    assert all(one.foot[1] - one.at[1] in (0.0, 6.0) for one in spots(before, trap))
    assert mends[0].words == "Take a vent off d3 and 6 in north up into wall p2"
    vent = mends[0].plan.vents[-1]
    assert vent.slope == 12.0
    assert vent.points[1] == mends[0].plan.risers[-1].at


def test_no_wall_in_reach_no_vent(hand_floor: Floor) -> None:
    wall = Wall("p2", (50.0, 70.0), (66.0, 70.0))
    before, finding, mends = mended(shower(hand_floor(pinned=None, width=160.0), wall), "trap-without-vent")
    assert finding.rule == "trap-without-vent"
    assert mends == ()
    trap = next(trap for trap in before.model.network.traps if trap.fixture == "sh1")
    assert list(spots(before, trap)) == []


@pytest.mark.parametrize("vent", [52.0])
def test_the_vent_is_brought_nearer_along_its_wall(hand_floor: Floor, vent: float) -> None:
    """From the weir it is some 71 in to the riser at 52; it must go 11 1/16 in east at least, and past joist f1.4 at 64."""
    wall = Wall("p2", (40.0, 50.0), (130.0, 50.0))
    plan = shower(hand_floor(pinned=None, width=160.0), wall, at=130.0, vertex=vent)
    plan = replace(plan, risers=(*plan.risers, Riser("r2", (vent, 50.0), wall="p2")))
    _, finding, mends = mended(plan, "trap-too-far-from-vent")
    assert finding.measured == pytest.approx(71.06, abs=0.01)
    moved = next(mend for mend in mends if mend.words.startswith("Move r2"))
    assert mends[0] is moved
    assert moved.plan.risers[-1].at[0] - vent >= 11.0625
    assert moved.plan.risers[-1].wall == "p2"
