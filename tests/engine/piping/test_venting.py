"""Which trap is vented, by what, how far: the graph's reading of the arrangement."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest

from engine import rulebooks
from engine.piping import network
from engine.piping.records import Trap
from engine.plan.records import Drain, Fixture, Plan, Riser

Floor = Callable[..., Plan]


def traps(plan: Plan) -> dict[str, Trap]:
    return {trap.fixture: trap for trap in network.build(plan, rulebooks.load(plan.rulebook)).traps}


def with_shower(plan: Plan, points: tuple[tuple[float, float], ...]) -> Plan:
    """The hand floor with a shower whose drain joins the main at (36, 29)."""
    main = msgspec.structs.replace(plan.drains[0], points=((36.0, 92.0), (36.0, 62.0), (36.0, 29.0), (36.0, 20.0)))
    return msgspec.structs.replace(
        plan,
        drains=(main, *plan.drains[1:], Drain(id="d3", points=points, size="2")),
        fixtures=(*plan.fixtures, Fixture(id="sh1", kind="shower", at=points[0])),
    )


def test_shower_on_a_wet_vent_is_measured_from_its_weir(hand_floor: Floor) -> None:
    found = traps(with_shower(hand_floor(), ((45.0, 48.0), (45.0, 38.0), (36.0, 29.0))))["sh1"]
    assert (found.method, found.recognised) == ("horizontal wet vent", True)
    # inlet axis to weir: three times the 2 in short bend's 2.3125 (assumed) = 6.9375
    assert found.weir == pytest.approx(6.9375)
    assert found.length == pytest.approx(10.0 + 9.0 * 2**0.5 - 6.9375)
    assert found.fall == pytest.approx(found.length / 48.0)


def test_without_the_lavatorys_vent_nothing_is_vented(hand_floor: Floor) -> None:
    plan = hand_floor()
    bare = msgspec.structs.replace(plan, risers=(msgspec.structs.replace(plan.risers[0], top="none"),))
    found = traps(bare)
    assert found["wc1"].method is None and found["wc1"].recognised
    assert found["lav1"].method is None
    assert found["lav1"].drops


def test_a_tub_may_not_and_is_judged(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    tub = Fixture(id="bt1", kind="bathtub", at=(44.0, 60.0), trap_at=(44.0, 52.0))
    drain = Drain(id="d5", points=((44.0, 52.0), (44.0, 43.0), (36.0, 35.0)), size="1-1/2")
    main = msgspec.structs.replace(plan.drains[0], points=((36.0, 92.0), (36.0, 35.0), (36.0, 20.0)))
    found = traps(msgspec.structs.replace(plan, drains=(main, drain), fixtures=(*plan.fixtures, tub)))
    assert (found["bt1"].method, found["bt1"].recognised) == (None, True)


def test_a_riser_beside_the_closet_vents_it_alone(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    main = msgspec.structs.replace(plan.drains[0], points=((36.0, 92.0), (36.0, 80.0), (36.0, 20.0)))
    found = traps(msgspec.structs.replace(plan, drains=(main,), risers=(Riser(id="r9", at=(36.0, 80.0)),)))
    assert (found["wc1"].method, found["wc1"].vented_by) == ("individual vent", "r9")
