"""Whose stub a supply's end is: the very point counts before nearness."""

from __future__ import annotations

from engine.plan.records import Fixture, Floor, Inlet, Plan, Supply, Wall
from engine.water.network import WaterNetwork
from engine.water.routes import routes


def back_to_back() -> Plan:
    """A shower whose valve stands in the wall that holds a lavatory's riser on its other side."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (200.0, 0.0), (200.0, 200.0), (0.0, 200.0))),
        walls=(Wall(id="w1", start=(0.0, 100.0), end=(200.0, 100.0)),),
        fixtures=(
            Fixture(id="sh", kind="shower", at=(96.0, 81.75)),
            Fixture(id="lav", kind="lavatory", at=(96.0, 100.0), turn=90.0),
        ),
        inlets=(Inlet(id="i1", at=(96.0, 10.0)),),
        supplies=(
            Supply(id="s1", water="cold", points=((96.0, 10.0), (100.0, 14.0), (100.0, 100.0))),
            Supply(id="s2", water="cold", points=((96.0, 10.0), (92.0, 14.0), (92.0, 100.0))),
        ),
    )


def test_an_end_on_a_stub_serves_that_fixture_though_another_is_nearer() -> None:
    """The shower's cold is 18-1/4 in from its drain and 4 in from the lavatory's riser (worked by hand)."""
    network = WaterNetwork(back_to_back())
    assert network.nearest_taker("cold", (100.0, 100.0)).id == "sh"  # type: ignore[union-attr]
    assert network.nearest_taker("cold", (92.0, 100.0)).id == "lav"  # type: ignore[union-attr]
    assert network.nearest_taker("cold", (96.0, 97.0)).id == "lav"  # type: ignore[union-attr]


def test_a_fixture_is_served_at_its_stub_though_another_run_passes_nearer() -> None:
    plan = back_to_back()
    cold = {route.fixture: route for route in routes(plan, WaterNetwork(plan)) if route.water == "cold"}
    assert cold["sh"].stub == (100.0, 100.0)
    assert cold["lav"].stub == (92.0, 100.0)
    assert cold["sh"].length is not None
