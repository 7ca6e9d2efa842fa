"""A riser that turns over: the edit that lets it, what its return holds, and what goes along."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan import edits
from engine.plan.edits import EditError
from engine.plan.file import dumps, loads
from engine.plan.outline import tell
from engine.plan.records import Cleanout, Drain, Exit, Fixture, Floor, Plan, Riser, Vent

SINK = (100.0, 60.0)


def plan(*points: tuple[float, float], riser: Riser | None = None) -> Plan:
    return Plan(
        floor=Floor(((0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0))),
        fixtures=(Fixture("ks1", "kitchen_sink", SINK),),
        risers=(riser or Riser("r1", SINK),),
        drains=(Drain("d1", points or (SINK, (160.0, 60.0))),),
        exits=(Exit("x1", (points or ((160.0, 60.0),))[-1]),),
    )


class TestTurningOver:
    def test_it_comes_down_a_foot_along_its_drain(self) -> None:
        made = edits.turn_over(plan(), "r1")
        assert (made.risers[0].top, made.risers[0].returns) == ("loop", (112.0, 60.0))
        assert made.drains[0].points == (SINK, (112.0, 60.0), (160.0, 60.0))

    def test_whichever_way_the_drain_was_drawn(self) -> None:
        made = edits.turn_over(plan((160.0, 60.0), SINK), "r1")
        assert made.drains[0].points == ((160.0, 60.0), (112.0, 60.0), SINK)

    def test_on_a_short_stretch_it_comes_down_in_the_middle(self) -> None:
        assert edits.turn_over(plan(SINK, (116.0, 60.0)), "r1").risers[0].returns == (108.0, 60.0)

    def test_a_point_that_is_there_already_is_taken(self) -> None:
        made = edits.turn_over(plan(SINK, (110.0, 60.0), (160.0, 60.0)), "r1")
        assert made.risers[0].returns == (110.0, 60.0)
        assert made.drains == plan(SINK, (110.0, 60.0), (160.0, 60.0)).drains

    def test_without_a_drain_it_comes_down_beside(self) -> None:
        bare = replace(plan(), drains=())
        assert edits.turn_over(bare, "r1").risers[0].returns == (112.0, 60.0)

    def test_where_it_came_down_before_it_comes_down_again(self) -> None:
        before = plan(riser=Riser("r1", SINK, top="roof", returns=(130.0, 60.0)))
        made = edits.turn_over(before, "r1")
        assert (made.risers[0].returns, made.drains) == ((130.0, 60.0), before.drains)

    def test_only_a_riser_turns_over(self) -> None:
        with pytest.raises(EditError, match="riser"):
            edits.turn_over(plan(), "d1")


class TestWhatGoesAlong:
    def island(self) -> Plan:
        made = edits.turn_over(plan(), "r1")
        return replace(
            made,
            vents=(Vent("v1", ((112.0, 60.0), (112.0, 200.0))),),
            cleanouts=(Cleanout("c1", (112.0, 60.0), above_floor=8.0),),
        )

    def test_the_riser_moves_with_its_return(self) -> None:
        moved = edits.move(self.island(), ["r1"], 0.0, 10.0)
        assert (moved.risers[0].at, moved.risers[0].returns) == ((100.0, 70.0), (112.0, 70.0))
        assert moved.drains[0].points[:2] == ((100.0, 70.0), (112.0, 70.0))
        assert moved.vents[0].points[0] == moved.cleanouts[0].at == (112.0, 70.0)

    def test_the_return_moves_with_its_pipes(self) -> None:
        moved = edits.move_point(self.island(), "r1", 1, (108.0, 60.0))
        assert (moved.risers[0].at, moved.risers[0].returns) == (SINK, (108.0, 60.0))
        assert moved.drains[0].points == (SINK, (108.0, 60.0), (160.0, 60.0))
        assert moved.vents[0].points[0] == moved.cleanouts[0].at == (108.0, 60.0)

    def test_or_alone(self) -> None:
        moved = edits.move_point(self.island(), "r1", 1, (108.0, 60.0), alone=True)
        assert moved.risers[0].returns == (108.0, 60.0)
        assert moved.drains == self.island().drains

    def test_a_quarter_turn_takes_it_round(self) -> None:
        turned = edits.turn(self.island(), ["r1", "d1", "v1", "ks1", "x1"], SINK)
        assert turned.risers[0].returns == (100.0, 72.0)

    def test_it_has_no_such_point_unless_it_turns_over(self) -> None:
        with pytest.raises(EditError, match="no point 1"):
            edits.move_point(plan(), "r1", 1, (0.0, 0.0))

    def test_a_cleanout_over_the_return_goes_with_the_riser(self) -> None:
        assert edits.delete(self.island(), "r1").cleanouts == ()


def test_it_is_told_and_kept() -> None:
    made = edits.turn_over(plan(), "r1")
    assert "turns over and comes down again" in tell(made, made.risers[0])
    assert loads(dumps(made)) == made
