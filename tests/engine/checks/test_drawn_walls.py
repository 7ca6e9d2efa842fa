"""Walls off the floor's edge, and fixtures in them. Common practice, no source."""

from __future__ import annotations

import pytest

from engine.checks.drawn_walls import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome
from engine.plan.records import Fixture, Floor, JoistField, Plan, Point, Wall
from engine.study import work_out

JUDGES = {rule.id: rule.judge for rule in RULES}
ELL: tuple[Point, ...] = ((0.0, 0.0), (240.0, 0.0), (240.0, 60.0), (120.0, 60.0), (120.0, 120.0), (0.0, 120.0))


def said(rule: str, *walls: Wall, fixtures: tuple[Fixture, ...] = ()) -> list[Outcome]:
    field = JoistField("j1", (0.0, 0.0), (240.0, 120.0), to_outline=True)
    return list(JUDGES[rule](work_out(Plan(floor=Floor(outline=ELL), fields=(field,), walls=walls, fixtures=fixtures))))


class TestOffTheFloor:
    # 3-1/2 in studs: flush where the centre line lies 1-3/4 in in
    @pytest.mark.parametrize(("y", "expected"), [(1.75, Holds), (1.5, Holds), (1.5 - 1 / 16, Finding), (0.0, Finding)])
    def test_studs_do_not_hang_over_the_edge(self, y: float, expected: type[Outcome]) -> None:
        (found,) = said("wall-off-the-floor", Wall("w1", (0.0, y), (240.0, y)))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.measured, found.limit) == (pytest.approx(1.75 - y), 0.25)

    # sheathing leaves up to an inch
    @pytest.mark.parametrize(("y", "expected"), [(2.75, Holds), (2.75 + 1 / 16, Finding)])
    def test_an_outside_wall_stands_at_the_edge(self, y: float, expected: type[Outcome]) -> None:
        (found,) = said("wall-off-the-floor", Wall("w1", (0.0, y), (240.0, y), exterior=True))
        assert type(found) is expected
        assert [type(one) for one in said("wall-off-the-floor", Wall("w1", (0.0, y), (240.0, y)))] == [Holds]

    def test_one_that_is_left_standing_where_the_floor_was_cut_back(self) -> None:
        (found,) = said(
            "wall-off-the-floor", Wall("w1", (0.0, 118.25), (240.0, 118.25), exterior=True, name="north wall")
        )
        assert isinstance(found, Finding)
        # its far corner, at (240, 120), is 60 in from the corner of the floor at (240, 60)
        assert found.measured == pytest.approx(60.0)
        assert found.text == "north wall stands 5'-0\" past the floor's edge: nothing carries it there."


class TestFixtureInWall:
    wall = Wall("w1", (0.0, 60.0), (120.0, 60.0))

    # a tub 30 in deep with its outlet in its middle; the studs' face at y 61-3/4
    @pytest.mark.parametrize(("y", "expected"), [(76.75, Holds), (76.75 - 1 / 16, Finding)])
    def test_a_body_may_stand_against_the_studs(self, y: float, expected: type[Outcome]) -> None:
        shower = Fixture("f1", "shower", (60.0, y), turn=90.0, width=36.0, depth=30.0)
        (found,) = said("fixture-in-wall", self.wall, fixtures=(shower,))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.measured, found.elements, found.weight) == (pytest.approx(1 / 16), ("f1", "w1"), "stop")

    def test_by_a_usual_size_it_is_to_look_at(self) -> None:
        (found,) = said("fixture-in-wall", self.wall, fixtures=(Fixture("f1", "shower", (60.0, 62.0), turn=90.0),))
        assert isinstance(found, Finding)
        assert found.weight == "look"
        assert "type in your own" in found.text

    def test_what_has_no_body_does_not_apply(self) -> None:
        drain = Fixture("f1", "floor_drain", (60.0, 60.0))
        assert [type(one) for one in said("fixture-in-wall", self.wall, fixtures=(drain,))] == [DoesNotApply]

    def test_a_lavatory_hangs_on_its_own_wall_and_not_in_the_next(self) -> None:
        lavatory = Fixture("f1", "lavatory", (12.0, 60.0), turn=90.0, width=20.0, depth=18.0)
        beside = Wall("w2", (1.75, 60.0), (1.75, 120.0))
        (found,) = said("fixture-in-wall", self.wall, beside, fixtures=(lavatory,))
        # its left half reaches 10 in from x 12, to 2; the studs end at 3-1/2
        assert isinstance(found, Finding)
        assert (found.elements, found.measured) == (("f1", "w2"), pytest.approx(1.5))
