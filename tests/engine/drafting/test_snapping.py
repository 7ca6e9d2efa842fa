"""What a pointer is drawn to, and what wins."""

from __future__ import annotations

import math
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.drafting.guides import Candidates, bay_lines
from engine.drafting.snapping import Snap, candidates, numeric, snap
from engine.framing.layout import lay_out
from engine.plan import edits
from engine.plan.axis import distance
from engine.plan.records import Drain, Exit, Fixture, Inlet, Plan, Point, Riser, Supply, Vent
from engine.plan.start import new_floor
from tests.engine.plan.drawn_plans import plans, points


def sample() -> Plan:
    return edits.add(
        new_floor(120, 240),
        Fixture("f1", "water_closet", (36.0, 92.0)),
        Fixture("f2", "bathtub", (90.0, 60.0), trap_at=(90.0, 66.0)),
        Fixture("f3", "lavatory", (70.0, 238.25)),
        Riser("r1", (20.0, 238.25), wall="w3"),
        Exit("x1", (36.0, 20.0)),
        Inlet("i1", (10.0, 3.0)),
        Drain("d1", ((36.0, 90.0), (36.0, 50.0), (60.0, 26.0))),
        Vent("v1", ((70.0, 200.0), (20.0, 200.0)), above_floor=48.0),
        Supply("s1", "cold", ((10.0, 10.0), (36.0, 10.0))),
    )


@pytest.fixture(scope="module")
def near() -> Candidates:
    plan = sample()
    return candidates(plan, lay_out(plan))


@pytest.mark.parametrize(
    ("point", "snapped", "reason", "element"),
    [
        ((36.9, 91.2), (36.0, 92.0), "outlet of water closet f1", "f1"),
        ((90.5, 65.0), (90.0, 66.0), "trap of bathtub f2", "f2"),
        ((65.6, 238.9), (66.0, 238.25), "hot for the lavatory", "f3"),
        ((69.0, 237.0), (70.0, 238.25), "outlet of lavatory f3", "f3"),
        ((21.0, 238.0), (20.0, 238.25), "riser r1", "r1"),
        ((35.0, 21.0), (36.0, 20.0), "exit x1", "x1"),
        ((11.0, 3.5), (10.0, 3.0), "water inlet i1", "i1"),
        ((59.5, 26.9), (60.0, 26.0), "end of drain d1", "d1"),
        ((36.5, 50.9), (36.0, 50.0), "point of drain d1", "d1"),
        ((36.3, 70.2), (36.0, 70.0), "on drain d1", "d1"),
        ((48.3, 38.2), (48.0, 38.0), "on drain d1", "d1"),
        ((100.2, 238.0), (100.0, 238.25), "the middle of north wall w3", "w3"),
        ((56.4, 150.3), (56.0, 150.0), "the middle of the joist bay", None),
        ((56.4, 237.5), (56.0, 238.25), "the middle of north wall w3 meets the middle of the joist bay", "w3"),
        ((48.3, 150.3), (48.0, 150.0), "whole inches", None),
        ((60.0, 241.5), (60.0, 240.0), "the floor's edge", None),
    ],
)
def test_each_draws_from_nearby(
    near: Candidates, point: Point, snapped: Point, reason: str, element: str | None
) -> None:
    assert snap(point, near, 1.75) == Snap(snapped, reason, element)


def test_with_nothing_near_the_pointer_stays(near: Candidates) -> None:
    found = snap((48.4, 150.4), near, 0.1)
    assert found == Snap((48.400390625, 150.400390625), "", None)


def test_outlets_win_over_nearer_ends_and_ends_over_runs(near: Candidates) -> None:
    assert snap((36.0, 90.1), near, 2.0).element == "f1"
    assert snap((36.0, 90.1), near, 1.0).reason == "end of drain d1"
    assert snap((36.0, 88.1), near, 1.0).reason == "on drain d1"


@pytest.mark.parametrize(
    ("toward", "snapped", "reason"),
    [
        ((60.6, 149.8), (61.0, 150.0), "straight east"),
        ((50.4, 159.7), (50.0, 160.0), "straight north-east"),
        ((39.8, 170.4), (40.0, 170.0), "the middle of the joist bay"),
        ((34.3, 155.6), (34.0, 156.0), "straight north-west"),
        ((27.4, 149.7), (27.0, 150.0), "straight west"),
        ((34.3, 144.6), (34.0, 144.0), "straight south-west"),
    ],
)
def test_headings_from_the_last_point(near: Candidates, toward: Point, snapped: Point, reason: str) -> None:
    assert snap(toward, near, 0.75, last=(40.0, 150.0)) == Snap(snapped, reason, None)


def test_a_heading_meets_a_run_on_its_axis(near: Candidates) -> None:
    found = snap((36.6, 65.4), near, 1.5, last=(56.0, 45.0))
    assert found == Snap((36.0, 65.0), "drain d1 meets straight north-west", "d1")


def test_inches_along_a_heading_count_from_its_beginning(near: Candidates) -> None:
    assert snap((60.6, 150.3), near, 0.75, last=(50.5, 150.25)).point == (60.5, 150.25)


def test_only_what_a_run_can_join_draws_it(near: Candidates) -> None:
    assert snap((36.9, 91.2), near, 1.5, layer="under").reason == "outlet of water closet f1"
    assert snap((36.9, 91.2), near, 1.5, layer="cold").element is None
    assert snap((30.5, 106.9), near, 1.5, layer="cold") == Snap((30.0, 106.25), "cold for the water closet", "f1")
    assert snap((30.5, 106.9), near, 1.5, layer="under").element is None
    assert snap((73.6, 238.9), near, 1.0, layer="cold").reason == "cold for the lavatory"
    assert snap((73.6, 238.9), near, 1.0, layer="hot").element != "f3"
    assert snap((65.6, 238.9), near, 1.0, layer="hot").reason == "hot for the lavatory"
    assert snap((70.3, 238.0), near, 1.0, layer="hot").element != "f3"
    assert snap((36.9, 91.2), near, 1.5, layer="hot").element is None
    assert snap((50.2, 200.2), near, 0.5, layer="overhead").reason == "on vent v1"
    assert snap((50.2, 200.2), near, 0.5, layer="under").reason == "whole inches"
    assert snap((20.2, 238.2), near, 0.5, layer="overhead").element == "r1"
    assert snap((20.2, 10.2), near, 0.5, layer="cold").element == "s1"
    assert snap((20.2, 10.2), near, 0.5, layer="hot").element is None


def test_what_is_left_out_draws_nothing() -> None:
    plan = sample()
    found = snap((36.3, 70.2), candidates(plan, lay_out(plan), leave_out={"d1", "f1"}), 1.75)
    assert found.element is None


def test_bays_lie_between_the_faces_of_neighbours() -> None:
    # worked by hand: end joist 0 to 1.5, first common 15.25 to 16.75: middle 8.375; then 24, 40 ...; 112.75 to 118.5
    lines = bay_lines(lay_out(new_floor(120, 240)))
    assert [a[0] for a, _ in lines] == [8.375, 24.0, 40.0, 56.0, 72.0, 88.0, 104.0, 115.625]
    assert {(a[1], b[1]) for a, b in lines} == {(1.5, 238.5)}
    across = bay_lines(lay_out(new_floor(120, 240, direction="east-west")))
    assert {(a[0], b[0]) for a, b in across} == {(1.5, 118.5)}


@pytest.mark.parametrize(
    ("toward", "length", "end"),
    [((20.0, 10.0), 7.5, (17.5, 10.0)), ((10.0, 0.0), 12.0, (10.0, -2.0)), ((13.0, 14.0), 10.0, (16.0, 18.0))],
)
def test_a_typed_length_goes_along_the_heading(toward: Point, length: float, end: Point) -> None:
    assert numeric((10.0, 10.0), toward, length) == end


def test_a_typed_length_on_a_diagonal_keeps_its_legs_equal() -> None:
    x, y = numeric((0.0, 0.0), (3.0, 3.0), 10.0)
    assert x == y == pytest.approx(10 / math.sqrt(2), abs=1 / 2048)


def test_a_typed_length_needs_a_heading() -> None:
    with pytest.raises(ValueError, match="heading"):
        numeric((1.0, 1.0), (1.0, 1.0), 5.0)
    with pytest.raises(ValueError, match="finite"):
        numeric((1.0, 1.0), (2.0, 1.0), float("inf"))


spots = st.tuples(st.floats(-50, 300), st.floats(-50, 300))


@given(plans(), spots, st.floats(0, 40), st.none() | points)
@settings(deadline=None)
def test_a_snap_is_within_reach_and_on_the_grid(plan: Plan, point: Point, tolerance: float, last: Point | None) -> None:
    found = snap(point, candidates(plan, lay_out(plan)), tolerance, last)
    assert distance(found.point, point) <= tolerance + 1 / 1024
    assert all(value * 1024 == int(value * 1024) for value in found.point)
    assert bool(found.reason) or found.element is None


@given(plans(), spots)
@settings(deadline=None)
def test_the_nearest_outlet_is_never_missed(plan: Plan, point: Point) -> None:
    outlets = [thing.at for thing in (*plan.risers, *plan.exits, *plan.inlets)]
    within = [distance(at, point) for at in outlets if distance(at, point) <= 30.0]
    found = snap(point, candidates(plan, lay_out(plan)), 30.0)
    if within:
        assert distance(found.point, point) <= min(within)


def test_snapping_while_dragging_costs_well_under_a_millisecond() -> None:
    plan = new_floor(480, 480)
    runs = [
        Drain(f"d{n}", ((x, y), (x + 9.0, y), (x + 9.0, y + 5.0)))
        for n, (x, y) in enumerate((x * 12.0, y * 12.0) for x in range(40) for y in range(25))
    ]
    plan = edits.add(plan, *runs)
    ready = candidates(plan, lay_out(plan))
    spots = [(7.3 * n % 480, 11.9 * n % 300) for n in range(400)]
    best = math.inf
    for _ in range(5):
        began = time.perf_counter()
        for spot in spots:
            snap(spot, ready, 3.0, last=(100.0, 100.0))
        best = min(best, (time.perf_counter() - began) / len(spots))
    assert best < 0.001
