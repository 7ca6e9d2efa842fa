"""From the bay to the wall: a vent gains no more sideways under the floor than it rises (45 degrees). Worked by hand."""

from __future__ import annotations

import pytest

from engine.drafting.wall_reach import reach_from, sideways_gain
from engine.plan.records import Floor, Plan, Wall

FLOOR = Floor(outline=((0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0)))


def plan(*walls: Wall) -> Plan:
    return Plan(floor=FLOOR, walls=walls)


@pytest.mark.parametrize(("axis", "gain"), [(-4.125, 4.125), (-4.0, 4.0), (-9.25, 9.25), (0.0, 0.0), (3.0, 0.0)])
def test_it_gains_what_it_rises(axis: float, gain: float) -> None:
    assert sideways_gain(axis) == gain


def test_steeper_pipe_gains_less() -> None:
    assert sideways_gain(-6.0, 60.0) == pytest.approx(3.4641, abs=1e-4)


def test_a_wall_out_of_reach_is_told_with_its_distance() -> None:
    found = reach_from(plan(Wall("w1", (0.0, 111.0), (240.0, 111.0))), (100.0, 100.0), -4.125)
    assert (found.sideways, found.within, found.nearest, found.away) == (4.125, (), "w1", 11.0)


def test_the_stretch_of_a_wall_within_the_circle() -> None:
    """5 in deep, the wall 3 in off: the chord of 3, 4 and 5 reaches 4 in to either side."""
    found = reach_from(plan(Wall("w1", (0.0, 103.0), (240.0, 103.0))), (100.0, 100.0), -5.0)
    (stretch,) = found.within
    assert (stretch.wall, stretch.start, stretch.end) == ("w1", (96.0, 103.0), (104.0, 103.0))
    assert found.away == 3.0


def test_a_wall_that_ends_within_the_circle_gives_what_there_is_of_it() -> None:
    found = reach_from(plan(Wall("w1", (98.0, 103.0), (102.0, 103.0))), (100.0, 100.0), -5.0)
    assert found.within[0][1:] == ((98.0, 103.0), (102.0, 103.0))
    # one that ends before the circle begins, in line with it
    assert reach_from(plan(Wall("w1", (0.0, 100.0), (90.0, 100.0))), (100.0, 100.0), -5.0).within == ()


def test_a_drain_in_the_wall_s_own_line_and_the_nearest_of_two() -> None:
    walls = (Wall("w1", (0.0, 100.0), (240.0, 100.0)), Wall("w2", (100.0, 0.0), (100.0, 98.0)))
    found = reach_from(plan(*walls), (100.0, 100.0), -4.0)
    assert (found.nearest, found.away) == ("w1", 0.0)
    assert [one.wall for one in found.within] == ["w1", "w2"]


def test_no_wall_is_drawn() -> None:
    assert reach_from(plan(), (100.0, 100.0), -4.0) == (4.0, (), None, None)


def test_a_wall_just_at_the_end_of_the_reach_has_no_length_in_it() -> None:
    found = reach_from(plan(Wall("w1", (0.0, 104.0), (240.0, 104.0))), (100.0, 100.0), -4.0)
    assert found.within == ()
    assert found.away == found.sideways == 4.0
