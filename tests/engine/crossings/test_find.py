"""Where pipe meets wood. The floor: joists north-south, centres x 16, 32, ..., 1-1/2 thick, y 1.5 to 106.5.

Drain pipe outsides 1.900, 2.375 and 3.500 (Pipe Hole Saw Size Chart), tube 0.625 and 0.875 (SDR-9 design manual);
bits 2-1/8 (Drilling Holes for PVC Pipe Fittings) and 3-5/8 (from memory).
"""

import math
from collections.abc import Callable

import msgspec
import pytest

from engine.crossings.find import find
from engine.crossings.records import Crossing
from engine.framing.records import Framing
from engine.piping.records import Network, Pipe
from engine.plan.records import JoistShift, Plan, Supply
from engine.rulebooks import load

BOOK = load("irc-2021")

Run = Callable[..., list[Pipe]]
Net = Callable[..., Network]
Planned = Callable[..., Plan]
Floor = Callable[..., Framing]


@pytest.fixture
def cross(run: Run, net: Net, plan_of: Planned, floor: Floor) -> Callable[..., tuple[Crossing, ...]]:
    """The crossings of one drain run on the small floor."""

    def made(
        points: list[tuple[float, float]], size: float = 1.5, passing: str = "through", **given: object
    ) -> tuple[Crossing, ...]:
        return find(net(run("d", points, size, passing)), plan_of(), floor(**given), BOOK)

    return made


Cross = Callable[..., tuple[Crossing, ...]]


def test_square_across_one_joist(cross: Cross) -> None:
    (found,) = cross([(56.0, 69.0), (43.0, 69.0)])
    assert (found.id, found.joist, found.pipe, found.element, found.system) == ("d.0@F.3", "F.3", "d.0", "d", "waste")
    assert found.at == (48.0, 69.0)
    # the joist starts at y 1.5; the pipe runs west from x 56, faces at 48.75 and 47.25
    assert (found.along, found.position, found.enters, found.leaves) == (67.5, 8.0, 7.25, 8.75)
    assert (found.skew, found.straight, found.width) == (0.0, True, 1.9)
    assert found.run_along == pytest.approx(2.125)


def test_where_a_2x10_lets_a_1_1_2_bore_lie(cross: Cross) -> None:
    # IRC 2021 R502.8.1: min(9.25 / 3, 9.25 - 4) = 3.0833; bit 2-1/8; -(9.25 - 2) + 1.0625 and -2 - 1.0625
    (found,) = cross([(56.0, 69.0), (43.0, 69.0)])
    assert (found.bore, found.bit) == (2.125, "2-1/8")
    assert found.bore_limit == pytest.approx(9.25 / 3)
    assert (found.low, found.high) == (-6.1875, -3.0625)


@pytest.mark.parametrize(
    ("lumber", "limit"), [("2x4", 0.0), ("2x6", 1.5), ("2x8", 2.4167), ("2x10", 3.0833), ("2x12", 3.75)]
)
def test_the_widest_bore_of_each_joist(cross: Cross, lumber: str, limit: float) -> None:
    # IRC 2021 R502.8.1: the lesser of d/3 and d - 4
    (found,) = cross([(56.0, 69.0), (43.0, 69.0)], lumber=lumber)
    assert found.bore_limit == pytest.approx(limit, abs=5e-5)


@pytest.mark.parametrize(
    ("lumber", "size", "legal"),
    [
        ("2x6", 1.5, False),
        ("2x8", 1.5, True),
        ("2x8", 2.0, False),  # 2-9/16 > 2.4167, though the pipe's 2.375 would pass on paper
        ("2x10", 2.0, True),
        ("2x10", 3.0, False),
        ("2x12", 3.0, True),  # 3-5/8 <= 3.75
        ("2x12", 4.0, False),
    ],
)
def test_which_pipe_may_cross_which_joist_by_the_bit(cross: Cross, lumber: str, size: float, legal: bool) -> None:
    (found,) = cross([(56.0, 69.0), (43.0, 69.0)], size=size, lumber=lumber)
    assert (found.low is not None) is legal
    assert (found.high is not None) is legal


def test_a_measured_depth_counts(cross: Cross) -> None:
    (found,) = cross([(56.0, 69.0), (43.0, 69.0)], size=1.5, lumber="2x6", depth=6.375)
    # 6.375 / 3 = 2.125: exactly the bit
    assert found.bore_limit == pytest.approx(2.125)
    assert (found.low, found.high) == (pytest.approx(-3.3125), pytest.approx(-3.0625))


@pytest.mark.parametrize("passing", ["notched", "under"])
def test_a_run_that_is_not_to_pass_through_bounds_no_height_and_asks_no_bore(cross: Cross, passing: str) -> None:
    (found,) = cross([(56.0, 69.0), (43.0, 69.0)], passing=passing)
    assert (found.low, found.high, found.bore, found.bit, found.passing) == (None, None, None, None, passing)
    assert found.run_along == pytest.approx(1.9)


def test_an_engineered_member_gives_no_number(cross: Cross) -> None:
    (found,) = cross([(56.0, 69.0), (43.0, 69.0)], member="engineered")
    assert (found.low, found.high, found.bore_limit, found.bore) == (None, None, 0.0, 2.125)


def test_a_rim_gives_no_number(cross: Cross) -> None:
    (found,) = cross([(40.0, 20.0), (40.0, 0.0)])
    assert (found.joist, found.low, found.high, found.bore_limit) == ("F.rim-south", None, None, 0.0)
    assert (found.at, found.along, found.straight) == ((40.0, 0.75), 40.0, True)


def test_at_an_angle_the_bore_is_longer_and_no_higher(cross: Cross) -> None:
    (found,) = cross([(40.0, 40.0), (56.0, 56.0)])
    assert found.at == (48.0, 48.0)
    assert found.skew == pytest.approx(45.0)
    assert found.bore == 2.125
    assert found.leaves - found.enters == pytest.approx(1.5 * math.sqrt(2.0))
    # 1-1/2 of joist at 45 degrees and 2-1/8 over its cosine
    assert found.run_along == pytest.approx(1.5 + 2.125 * math.sqrt(2.0))
    assert (found.low, found.high) == (-6.1875, -3.0625)


def test_pipe_lengthwise_in_a_joist_is_a_crossing_of_ninety_degrees(cross: Cross) -> None:
    (found,) = cross([(48.25, 30.0), (48.25, 60.0)])
    assert (found.joist, found.skew, found.straight) == ("F.3", 90.0, False)
    assert (found.enters, found.leaves, found.position, found.along) == (0.0, 30.0, 15.0, 43.5)
    assert (found.low, found.high) == (None, None)


def test_pipe_on_a_joists_face_is_in_its_wood_and_beside_it_is_not(cross: Cross) -> None:
    assert [c.joist for c in cross([(48.75, 30.0), (48.75, 60.0)])] == ["F.3"]
    assert cross([(48.75 + 1 / 1024, 30.0), (48.75 + 1 / 1024, 60.0)]) == ()


@pytest.mark.parametrize("end", [48.75, 49.0])
def test_pipe_that_ends_at_the_face_or_short_of_it_crosses_nothing(cross: Cross, end: float) -> None:
    assert cross([(56.0, 69.0), (end, 69.0)]) == ()


def test_pipe_that_ends_inside_the_wood_is_found_and_is_not_straight(cross: Cross) -> None:
    (found,) = cross([(56.0, 69.0), (48.5, 69.0)])
    assert (found.straight, found.low) == (False, None)
    assert (found.enters, found.leaves) == (7.25, 7.5)
    assert found.position == 7.375


def test_pipe_that_touches_a_corner_only_crosses_nothing(cross: Cross) -> None:
    # the floor's north-east corner is (120, 108); x + y = 228 touches it and nothing else
    assert cross([(110.0, 118.0), (130.0, 98.0)]) == ()
    # 1/4 in nearer it cuts the corner off the rim alone, and leaves by the rim's end, not its other face
    (found,) = cross([(110.0, 117.75), (130.0, 97.75)])
    assert (found.joist, found.straight) == ("F.rim-north", False)


def test_a_vertex_in_the_wood_makes_no_second_hole(cross: Cross) -> None:
    (found,) = cross([(56.0, 69.0), (48.25, 69.0), (43.0, 69.0)])
    # the second pipe, from 48.25 on, crosses the centre line: 1/4 in along it; the stretch began 1/2 in before it
    assert (found.pipe, found.straight, found.at) == ("d.1", True, (48.0, 69.0))
    assert (found.position, found.enters, found.leaves) == (0.25, -0.5, 1.0)
    assert (found.low, found.high) == (-6.1875, -3.0625)


def test_many_vertices_in_the_wood_make_no_more_holes(cross: Cross) -> None:
    found = cross([(56.0, 69.0), (48.5, 69.0), (48.25, 69.0), (47.5, 69.0), (43.0, 69.0)])
    assert len(found) == 1
    assert found[0].leaves - found[0].enters == pytest.approx(1.5)
    assert found[0].straight


def test_a_turn_in_the_wood_is_one_crossing_that_no_bore_makes(cross: Cross) -> None:
    (found,) = cross([(56.0, 69.0), (48.0, 69.0), (40.0, 61.0)])
    assert (found.straight, found.low, found.high) == (False, None, None)


def test_a_run_that_goes_on_as_another_run_in_one_line_is_one_hole(
    run: Run, net: Net, plan_of: Planned, floor: Floor
) -> None:
    network = net(run("a", [(56.0, 69.0), (48.0, 69.0)]), run("b", [(48.0, 69.0), (43.0, 69.0)]))
    (found,) = find(network, plan_of(), floor(), BOOK)
    assert found.straight


def test_runs_of_two_sizes_that_meet_in_the_wood_are_two_crossings(
    run: Run, net: Net, plan_of: Planned, floor: Floor
) -> None:
    network = net(run("a", [(56.0, 69.0), (48.0, 69.0)]), run("b", [(48.0, 69.0), (43.0, 69.0)], size=2.0))
    found = find(network, plan_of(), floor(), BOOK)
    assert [(c.element, c.straight) for c in found] == [("a", False), ("b", False)]


def test_a_branch_that_ends_in_the_wood_leaves_the_main_whole(
    run: Run, net: Net, plan_of: Planned, floor: Floor
) -> None:
    main, branch = run("m", [(56.0, 69.0), (48.0, 69.0), (43.0, 69.0)]), run("s", [(40.0, 77.0), (48.0, 69.0)])
    found = find(net(main, branch), plan_of(), floor(), BOOK)
    assert [(c.element, c.straight) for c in found] == [("m", True), ("s", False)]


def test_a_run_that_comes_back_through_the_same_joist_crosses_twice(cross: Cross) -> None:
    found = cross([(56.0, 69.0), (40.0, 69.0), (40.0, 50.0), (56.0, 50.0)])
    assert [(c.pipe, c.joist, c.along) for c in found] == [("d.0", "F.3", 67.5), ("d.2", "F.3", 48.5)]


def test_a_doubled_joist_is_two_crossings(cross: Cross) -> None:
    # the third joist pushed 14-1/2 west stands against the second
    found = cross([(56.0, 69.0), (20.0, 69.0)], shifts=(JoistShift(3, -14.5),))
    assert [(c.joist, c.leaves - c.enters) for c in found] == [("F.3", 1.5), ("F.2", 1.5)]


def test_pipe_above_the_floor_and_plumb_pipe_cross_no_joist(run: Run, net: Net, plan_of: Planned, floor: Floor) -> None:
    (level,) = run("d", [(56.0, 69.0), (43.0, 69.0)])
    above = msgspec.structs.replace(level, start=level.start._replace(level=20.0), end=level.end._replace(level=20.0))
    plumb = msgspec.structs.replace(level, run=0.0, end=level.start, shape="plumb")
    assert find(net([above, plumb]), plan_of(), floor(), BOOK) == ()


def test_water_counts_with_its_insulation(net: Net, plan_of: Planned, floor: Floor) -> None:
    bare = Supply("c", "cold", ((40.0, 20.0), (56.0, 20.0)), "3/4", insulation=0.0)
    wrapped = Supply("h", "hot", ((40.0, 26.0), (56.0, 26.0)), "1/2")
    cold, hot = find(net(), plan_of(supplies=[bare, wrapped]), floor(), BOOK)
    assert (cold.id, cold.system, cold.width, cold.bit) == ("c.0@F.3", "cold", 0.875, "1-1/8")
    # 0.625 + 2 x 1/2 = 1.625; with 1/16 of play the next bit is 1-7/8
    assert (hot.system, hot.width, hot.bit) == ("hot", 1.625, "1-7/8")


def test_insulated_half_inch_tube_does_not_fit_a_2x6(net: Net, plan_of: Planned, floor: Floor) -> None:
    # IRC 2021 R502.8.1: a 2x6 takes 1-1/2 in; 1/2 in tube with 1/2 in of foam is 1.625
    supply = Supply("h", "hot", ((40.0, 26.0), (56.0, 26.0)), "1/2")
    (found,) = find(net(), plan_of(supplies=[supply]), floor("2x6"), BOOK)
    assert found.low is None


def test_without_joists_or_pipes_there_is_nothing(run: Run, net: Net, plan_of: Planned, floor: Floor) -> None:
    assert find(net(), plan_of(), floor(), BOOK) == ()
    assert find(net(run("d", [(56.0, 69.0), (43.0, 69.0)])), plan_of(), Framing(joists=()), BOOK) == ()


def test_crossings_come_pipe_by_pipe_and_along_each(cross: Cross) -> None:
    found = cross([(118.0, 69.0), (10.0, 69.0)])
    assert [c.joist for c in found] == ["F.7", "F.6", "F.5", "F.4", "F.3", "F.2", "F.1"]
    assert [c.position for c in found] == sorted(c.position for c in found)
