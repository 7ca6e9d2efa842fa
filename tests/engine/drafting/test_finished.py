"""Which finished floor counts where rooms have floorings of their own; common sense, no source."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.drafting.finished import at_outlet, at_riser, flooring_under, outlet_up, under_fixture
from engine.plan.flooring import covers, finished_at, flooring_at
from engine.plan.records import Fixture, Floor, FlooringArea, Plan

OUTLINE = ((0.0, 0.0), (120.0, 0.0), (120.0, 120.0), (0.0, 120.0))
BATH = FlooringArea("c1", (0.0, 60.0), (58.0, 120.0), 0.625, name="bath")
HALL = FlooringArea("c2", (62.0, 60.0), (120.0, 120.0), 0.375)


def plan(*fixtures: Fixture, areas: tuple[FlooringArea, ...] = (BATH, HALL)) -> Plan:
    """Subfloor 3/4 in, finish 1/4 in, a bath in the north-west with 5/8 in and a hall in the north-east with 3/8 in."""
    return Plan(floor=Floor(OUTLINE), flooring_areas=areas, fixtures=fixtures)


def test_a_point_has_the_flooring_that_lies_there() -> None:
    assert finished_at(plan(), (30.0, 90.0)) == 0.75 + 0.625
    assert finished_at(plan(), (90.0, 90.0)) == 0.75 + 0.375
    assert finished_at(plan(), (30.0, 30.0)) == 1.0
    assert flooring_at(plan(), (30.0, 30.0)) == plan().floor


@pytest.mark.parametrize("at", [(0.0, 60.0), (58.0, 120.0), (58.0, 90.0), (30.0, 60.0)])
def test_an_edge_belongs_to_its_area(at: tuple[float, float]) -> None:
    assert covers(BATH, at)
    assert not covers(BATH, (at[0], at[1] - 61.0))


def test_of_areas_over_each_other_the_last_counts() -> None:
    pan = FlooringArea("c3", (10.0, 70.0), (40.0, 100.0), 1.5)
    assert finished_at(plan(areas=(BATH, pan)), (30.0, 90.0)) == 2.25
    assert finished_at(plan(areas=(pan, BATH)), (30.0, 90.0)) == 1.375
    assert finished_at(plan(areas=(BATH, pan)), (50.0, 90.0)) == 1.375


def test_a_closet_goes_by_its_outlet() -> None:
    closet = Fixture("f1", "water_closet", (30.0, 61.0), turn=270.0)
    # its bowl looks south over the edge at y 60, the flange lies an inch north of it
    assert under_fixture(plan(closet), closet) == 1.375
    assert under_fixture(plan(closet), replace(closet, at=(30.0, 59.0))) == 1.0


def test_a_lavatory_goes_by_what_lies_before_its_wall() -> None:
    # in the wall between bath and hall at x 60, where neither reaches
    west, east = (Fixture(name, "lavatory", (60.0, 90.0), turn=turn) for name, turn in (("f1", 180.0), ("f2", 0.0)))
    both = plan(west, east)
    assert finished_at(both, (60.0, 90.0)) == 1.0
    assert (under_fixture(both, west), under_fixture(both, east)) == (1.375, 1.125)
    assert (flooring_under(both, west), flooring_under(both, east)) == (BATH, HALL)


def test_in_one_riser_all_count_from_the_highest() -> None:
    west, east = (Fixture(name, "lavatory", (60.0, 90.0), turn=turn) for name, turn in (("f1", 180.0), ("f2", 0.0)))
    both = plan(west, east)
    assert at_riser(both, (60.0, 90.0)) == at_outlet(both, west) == at_outlet(both, east) == 1.375
    # 18 in over the bath's floor is 18 1/4 over the hall's, which lies 5/8 - 3/8 lower
    assert (outlet_up(both, west), outlet_up(both, east)) == (18.0, 18.25)
    assert at_riser(plan(east), (60.0, 90.0)) == 1.125
    assert at_riser(plan(), (60.0, 90.0)) == 1.0, "what serves no fixture goes by its own point"
    assert at_riser(plan(), (58.0, 90.0)) == 1.375


def test_what_drains_through_another_lifts_no_riser() -> None:
    sink = Fixture("f1", "kitchen_sink", (60.0, 90.0), turn=0.0)
    washer = Fixture("f2", "dishwasher", (60.0, 90.0), turn=180.0, through="f1")
    assert at_riser(plan(sink, washer), (60.0, 90.0)) == 1.125


@pytest.mark.parametrize("kind", ["refrigerator", "hose_bibb", "water_heater", "dishwasher"])
def test_what_only_takes_water_goes_by_its_body(kind: str) -> None:
    thing = Fixture("f1", kind, (60.0, 90.0), turn=180.0)  # type: ignore[arg-type]
    assert under_fixture(plan(thing), thing) in (1.375, 1.0)
    assert under_fixture(plan(thing, areas=()), thing) == 1.0
