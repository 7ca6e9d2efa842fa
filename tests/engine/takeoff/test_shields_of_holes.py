"""Each hole in a wall is given its own shields: by its place, not by its pipe's name alone. IRC P2603.2.1."""

from __future__ import annotations

from engine.plan.records import Floor, JoistField, Plan, Vent, Wall
from engine.study import work_out
from engine.takeoff.wall_holes import shield_count, wall_holes


def test_a_pipe_through_both_end_studs_gets_two_shields_at_each() -> None:
    """1.900 in pipe leaves 0.80 in at each face of a 2x4 stud, where 1-1/4 in is asked."""
    plan = Plan(
        floor=Floor(outline=((0.0, 0.0), (96.0, 0.0), (96.0, 100.0), (0.0, 100.0))),
        fields=(JoistField("j1", (0.0, 0.0), (96.0, 100.0), direction="east-west"),),
        walls=(Wall("w1", (20.0, 50.0), (60.0, 50.0), name="back wall"),),
        vents=(Vent("v1", ((10.0, 50.0), (80.0, 50.0)), above_floor=60.0, size="1-1/2"),),
    )
    model = work_out(plan)
    rows = wall_holes(model)
    assert [row.stud for row in rows] == [0, 1, 2, 3]
    assert [row.shields for row in rows] == [2, 2, 2, 2]
    assert sum(row.shields for row in rows) == shield_count(model)


def test_a_vent_twice_through_one_wall_gets_each_hole_its_own() -> None:
    """Two holes of one pipe in one plate or stud: no shield is counted for both."""
    plan = Plan(
        floor=Floor(outline=((0.0, 0.0), (96.0, 0.0), (96.0, 100.0), (0.0, 100.0))),
        fields=(JoistField("j1", (0.0, 0.0), (96.0, 100.0), direction="east-west"),),
        walls=(Wall("w1", (0.0, 50.0), (96.0, 50.0)),),
        vents=tuple(Vent(f"v{z}", ((10.0, 50.0), (80.0, 50.0)), above_floor=float(z), size="1-1/2") for z in (40, 60)),
    )
    model = work_out(plan)
    rows = wall_holes(model)
    assert {row.shields for row in rows} == {2}
    assert sum(row.shields for row in rows) == shield_count(model)
