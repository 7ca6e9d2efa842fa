"""A vent under the floor that rises at 45 degrees leans in truth: its fittings, its length, its crossing of the joists.

Worked by hand: 12 in sideways are 12 in up and 12 x 1.41421 = 16.9706 in along.
"""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace

from engine.piping.records import UNDER, Node
from engine.plan.records import Drain, Exit, Fixture, Floor, JoistField, Plan, Riser, Vent, Wall
from engine.study import study, work_out

FOOT, TOP = (60.0, 100.0), (60.0, 112.0)


def leaning(slope: float = 12.0, way: tuple[tuple[float, float], ...] = (FOOT, TOP)) -> Plan:
    """A 2 in vent from a level 3 in drain 14 in down to a riser in a wall 12 in off."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0))),
        walls=(Wall("w1", (0.0, 112.0), (240.0, 112.0)),),
        fixtures=(Fixture("wc1", "water_closet", (100.0, 100.0)),),
        drains=(Drain("d1", ((100.0, 100.0), FOOT, (20.0, 100.0)), size="3", slope=0.125),),
        vents=(Vent("v1", way, size="2", slope=slope),),
        risers=(Riser("r1", TOP, wall="w1", vent="2"),),
        exits=(Exit("x1", (20.0, 100.0), pinned_z=-14.0),),
    )


def test_it_leaves_the_drain_rolled_and_is_set_upright_by_an_eighth_bend() -> None:
    found = study(leaning())
    by_kind = {part.kind: part for part in found.model.joinery.parts}
    # looking upstream, east, the wall is to the left: the branch stands half way between level and up
    assert by_kind["combo_wye_eighth_bend"].clock == pytest.approx(315.0)
    assert by_kind["eighth_bend"].system == "vent"
    assert "vent_quarter_bend" not in by_kind
    about = {one.rule for one in found.findings if set(one.elements) & {"v1", "r1"}}
    assert about <= {"nails-reach-pipe", "gaps-round-pipes"}, "notes on its wall, and nothing on its way"


def test_a_flatter_one_is_laid_as_level_pipe() -> None:
    found = study(leaning(slope=11.9))
    assert "vent_quarter_bend" in {part.kind for part in found.model.joinery.parts}
    assert "vent-lies-flat" in {one.rule for one in found.findings}


def test_it_rises_as_far_as_it_goes_sideways_and_is_cut_to_its_own_length() -> None:
    model = work_out(leaning())
    low, high = (model.heights[Node(*point, UNDER)] for point in (FOOT, TOP))
    assert (low, high) == (pytest.approx(-14.0 + 40.0 * 0.125 / 12.0), pytest.approx(-2.0 + 40.0 * 0.125 / 12.0))
    (pipe,) = [pipe for pipe in model.network.pipes if pipe.element == "v1"]
    assert (pipe.shape, pipe.climb, pipe.run) == ("inclined", -45.0, 12.0)
    (piece,) = [piece for piece in model.joinery.pieces if piece.size == 2.0 and piece.end[2] < 0.0]
    assert math.dist(piece.start, piece.end) == pytest.approx(16.9706, abs=1e-3)


def test_which_way_it_is_drawn_does_not_matter() -> None:
    there, back = work_out(leaning()), work_out(leaning(way=(TOP, FOOT)))
    assert there.heights == back.heights
    assert [part.kind for part in there.joinery.parts] == [part.kind for part in back.joinery.parts]


def test_it_crosses_a_joist_at_the_height_it_has_there() -> None:
    """The joist's centre lies 6 in from the drain: the axis is 6 in higher than at the take-off."""
    plan = replace(
        leaning(),
        fields=(JoistField("j1", (0.0, 0.0), (240.0, 240.0), direction="east-west", spacing=16.0, first=10.0),),
    )
    (cut,) = [cut for cut in work_out(plan).cuts if cut.element == "v1"]
    assert cut.at == (60.0, 106.0)
    assert cut.down_from_top == pytest.approx(14.0 - 40.0 * 0.125 / 12.0 - 6.0)
