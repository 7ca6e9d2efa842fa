"""Whose trap takes a fixture's waste, and the riser that comes and goes with its own drain: common practice, no source."""

from __future__ import annotations

import pytest

from engine.drafting.placing import place_fixture
from engine.drafting.sharing import drained_through, host_in_reach, hosts_for
from engine.plan import edits
from engine.plan.edits import EditError
from engine.plan.records import Drain, Fixture, Plan
from engine.plan.start import new_floor


def kitchen() -> Plan:
    """A sink f1, and a dishwasher f2 far from it on a drain of its own."""
    plan = place_fixture(new_floor(240, 240), "kitchen_sink", (40.0, 100.0))
    return place_fixture(plan, "dishwasher", (200.0, 100.0))


def of(plan: Plan, name: str) -> Fixture:
    found = edits.find(plan, name)
    assert isinstance(found, Fixture)
    return found


def test_its_riser_goes_and_comes_with_its_own_drain() -> None:
    plan = kitchen()
    through = drained_through(plan, "f2", "f1")
    assert of(through, "f2").through == "f1"
    assert [riser.at for riser in through.risers] == [(40.0, 100.0)]
    again = drained_through(through, "f2", None)
    assert of(again, "f2").through is None
    assert [riser.at for riser in again.risers] == [riser.at for riser in plan.risers]


def test_a_riser_that_is_met_by_something_else_stays() -> None:
    drained = edits.add(kitchen(), Drain("d9", ((200.0, 100.0), (200.0, 60.0))))
    assert drained_through(drained, "f2", "f1").risers == drained.risers
    shared = edits.add(kitchen(), Fixture("f9", "bar_sink", (200.0, 100.0), turn=90.0))
    assert drained_through(shared, "f2", "f1").risers == shared.risers


def test_who_may_take_it() -> None:
    plan = kitchen()
    assert [host.id for host in hosts_for(plan, of(plan, "f2"))] == ["f1"]
    assert hosts_for(plan, of(plan, "f1")) == ()
    plan = place_fixture(plan, "bar_sink", (190.0, 60.0))
    assert [host.id for host in hosts_for(plan, of(plan, "f2"))] == ["f3", "f1"]
    plan = place_fixture(place_fixture(plan, "washer_standpipe", (120.0, 20.0)), "laundry_tub", (150.0, 20.0))
    assert [host.id for host in hosts_for(plan, of(plan, "f4"))] == ["f5"]
    assert [host.id for host in hosts_for(plan, of(plan, "f5"))] == ["f4"]


def test_none_while_others_drain_through_it() -> None:
    plan = place_fixture(kitchen(), "kitchen_sink", (60.0, 100.0))
    plan = drained_through(plan, "f2", "f1")
    assert hosts_for(plan, of(plan, "f1")) == ()
    with pytest.raises(EditError, match="must keep its own drain"):
        drained_through(plan, "f1", "f3")


def test_only_what_has_a_hose_reaches() -> None:
    plan = place_fixture(new_floor(240, 240), "lavatory", (40.0, 100.0))
    plan = place_fixture(plan, "lavatory", (70.0, 100.0))
    assert of(plan, "f2").through is None
    assert host_in_reach(plan, of(plan, "f2")) is None
    assert [host.id for host in hosts_for(plan, of(plan, "f2"))] == ["f1"]


def test_what_drains_through_another_holds_no_drain() -> None:
    """A riser or another's drain at its point does not go along when it is moved."""
    plan = drained_through(edits.add(kitchen(), Drain("d9", ((200.0, 100.0), (200.0, 60.0)))), "f2", "f1")
    moved = edits.move(plan, ("f2",), 0.0, 12.0)
    assert of(moved, "f2").at == (200.0, 112.0)
    assert moved.risers == plan.risers
    assert moved.drains == plan.drains
