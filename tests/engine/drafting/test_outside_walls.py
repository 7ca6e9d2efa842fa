"""Outside walls laid along the floor's edge, and how they follow an outline drawn anew. Places worked by hand."""

from __future__ import annotations

import pytest

from engine.drafting.outside_walls import laid_on_edge, redrawn
from engine.framing.outside import off_the_outline
from engine.plan import edits
from engine.plan.records import AirOpening, Floor, Plan, Riser, Wall
from engine.plan.start import new_floor

ELL = ((0.0, 0.0), (120.0, 0.0), (120.0, 60.0), (64.0, 60.0), (64.0, 108.0), (0.0, 108.0))


@pytest.fixture
def plan() -> Plan:
    """10 ft by 9 ft; its four 2x4 walls lie 1-3/4 in inside the edge, north and south going through."""
    return new_floor(120.0, 108.0)


def places(plan: Plan) -> dict[str, tuple[tuple[float, float], tuple[float, float]]]:
    return {wall.id: (wall.start, wall.end) for wall in plan.walls}


def test_walls_are_cut_and_new_sides_get_their_own(plan: Plan) -> None:
    """The side toward north at y = 60 goes on 3-1/2 in past the inward corner at x = 64, so that the two walls meet."""
    made = redrawn(plan, ELL)
    assert (made.moved, made.new, made.gone, made.held) == (("w2", "w3"), ("w5", "w6"), (), ())
    assert places(made.plan) == {
        "w1": ((0.0, 1.75), (120.0, 1.75)),
        "w2": ((118.25, 3.5), (118.25, 56.5)),
        "w3": ((0.0, 106.25), (64.0, 106.25)),
        "w4": ((1.75, 3.5), (1.75, 104.5)),
        "w5": ((60.5, 58.25), (120.0, 58.25)),
        "w6": ((62.25, 60.0), (62.25, 104.5)),
    }
    assert all(wall.exterior and wall.lumber == "2x4" for wall in made.plan.walls)


def test_each_wall_follows_to_the_side_that_looks_its_way(plan: Plan) -> None:
    made = redrawn(plan, ((-12.0, -24.0), (144.0, -24.0), (144.0, 132.0), (-12.0, 132.0)))
    assert made.moved == ("w1", "w2", "w3", "w4")
    assert places(made.plan)["w1"] == ((-12.0, -22.25), (144.0, -22.25))
    assert places(made.plan)["w2"] == ((142.25, -20.5), (142.25, 128.5))
    assert all(off_the_outline(wall, made.plan.floor.outline) == (0.0, 0.0) for wall in made.plan.walls)


def test_either_way_round_gives_the_same(plan: Plan) -> None:
    assert places(redrawn(plan, ELL[::-1]).plan) == places(redrawn(plan, ELL).plan)


def test_back_to_the_rectangle_walls_without_a_side_go(plan: Plan) -> None:
    made = redrawn(redrawn(plan, ELL).plan, plan.floor.outline)
    assert made.gone == ("w5", "w6")
    assert places(made.plan) == places(plan)


def test_a_wall_stays_where_it_would_lose_a_riser(plan: Plan) -> None:
    plan = edits.add(plan, Riser("r1", (100.0, 106.25), wall="w3"))
    made = redrawn(plan, ELL)
    assert made.held == ("w3",)
    assert places(made.plan)["w3"] == places(plan)["w3"]


def test_a_wall_stays_where_it_would_lose_a_window(plan: Plan) -> None:
    plan = edits.add(plan, AirOpening("a1", (118.25, 70.0), (118.25, 90.0)))
    assert redrawn(plan, ELL).held == ("w2",)


def test_an_open_side_stays_open(plan: Plan) -> None:
    made = redrawn(edits.delete(plan, "w3"), ELL)
    assert len(made.new) == 2
    assert not [wall for wall in made.plan.walls if wall.start[1] == wall.end[1] == 106.25]


def test_a_floor_without_outside_walls_gets_none(plan: Plan) -> None:
    bare = edits.delete(plan, "w1", "w2", "w3", "w4")
    assert redrawn(bare, ELL).plan.walls == ()


def test_a_wall_inside_stays(plan: Plan) -> None:
    plan = edits.add(plan, Wall("w9", (3.5, 50.0), (60.0, 50.0)))
    assert places(redrawn(plan, ELL).plan)["w9"] == ((3.5, 50.0), (60.0, 50.0))


class TestLaidOnTheEdge:
    FLOOR = Plan(floor=Floor(((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))))

    @pytest.mark.parametrize("off", [0.0, 1.75])
    def test_its_outer_face_lies_on_the_edge(self, off: float) -> None:
        """Drawn on the edge or on the line of studs flush with it, from corner to corner or from face to face."""
        laid = laid_on_edge(self.FLOOR, Wall("w1", (off, off), (120.0 - off, off)))
        assert (laid.start, laid.end, laid.exterior) == ((0.0, 1.75), (120.0, 1.75), True)

    def test_it_keeps_its_heading_and_a_place_along_the_edge(self) -> None:
        laid = laid_on_edge(self.FLOOR, Wall("w1", (80.0, 0.0), (20.0, 0.0), lumber="2x6"))
        assert (laid.start, laid.end) == ((80.0, 2.75), (20.0, 2.75))

    def test_it_stops_at_a_wall_that_stands_at_the_corner(self) -> None:
        standing = edits.add(self.FLOOR, Wall("w1", (0.0, 1.75), (120.0, 1.75), exterior=True))
        laid = laid_on_edge(standing, Wall("w2", (120.0, 0.0), (120.0, 108.0)))
        assert (laid.start, laid.end) == ((118.25, 3.5), (118.25, 108.0))

    @pytest.mark.parametrize("wall", [Wall("w1", (0.0, 4.0), (120.0, 4.0)), Wall("w1", (40.0, 0.0), (40.0, 60.0))])
    def test_any_other_wall_stays_as_drawn(self, wall: Wall) -> None:
        assert laid_on_edge(self.FLOOR, wall) == wall
