"""Vertices and whole runs: inserting, deleting, splitting, merging, joining."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.plan import edits
from engine.plan.axis import distance, foot
from engine.plan.edits import EditError
from engine.plan.records import Drain, Exit, Fixture, PinnedFitting, Plan, Point, Riser, Supply, Vent
from engine.plan.start import new_floor
from tests.engine.plan.drawn_plans import points


def floor(*elements: object) -> Plan:
    return edits.add(new_floor(120, 240), *elements)  # type: ignore[arg-type]


def drains(plan: Plan) -> dict[str, tuple[Point, ...]]:
    return {drain.id: drain.points for drain in plan.drains}


MAIN = Drain("d1", ((36.0, 92.0), (36.0, 20.0)), size="3")


def test_a_vertex_is_put_in_moved_alone_and_taken_out() -> None:
    plan = floor(MAIN, Drain("d2", ((60.0, 50.0), (36.0, 50.0))))
    bent = edits.insert_point(plan, "d1", 0, (36.0, 50.0))
    assert drains(bent)["d1"] == ((36.0, 92.0), (36.0, 50.0), (36.0, 20.0))
    both = edits.move_point(bent, "d1", 1, (38.0, 52.0))
    assert drains(both)["d1"][1] == drains(both)["d2"][1] == (38.0, 52.0)
    one = edits.move_point(bent, "d2", -1, (38.0, 52.0), alone=True)
    assert drains(one)["d1"][1] == (36.0, 50.0)
    assert edits.delete_point(bent, "d1", 1) == plan


def test_a_vertex_leaves_what_stands_there_behind() -> None:
    plan = floor(MAIN, Fixture("f1", "water_closet", (36.0, 92.0)), Exit("x1", (36.0, 20.0)))
    pulled = edits.move_point(plan, "d1", 0, (40.0, 90.0))
    assert drains(pulled)["d1"][0] == (40.0, 90.0)
    assert pulled.fixtures is plan.fixtures


def test_walls_move_by_their_ends() -> None:
    plan = edits.move_point(floor(), "w1", 1, (100.0, 1.75))
    assert plan.walls[0].end == (100.0, 1.75)
    with pytest.raises(EditError, match="w1: end: expected another point"):
        edits.move_point(plan, "w1", 1, (0.0, 1.75))
    with pytest.raises(EditError, match="no point 2"):
        edits.move_point(plan, "w1", 2, (0.0, 1.75))


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        (lambda plan: edits.delete_point(plan, "d1", 0), "only two points"),
        (lambda plan: edits.insert_point(plan, "d1", 1, (0.0, 0.0)), "stretches 0 to 0"),
        (lambda plan: edits.insert_point(plan, "d1", 0, (36.0, 20.0)), "another point"),
        (lambda plan: edits.move_point(plan, "d1", 2, (0.0, 0.0)), "points 0 to 1"),
        (lambda plan: edits.move_point(plan, "d1", 0, (36.0, 20.0)), "another point"),
        (lambda plan: edits.split(plan, "d1", 0), "inner points"),
        (lambda plan: edits.reverse(plan, "w1"), "expected a drain, vent or supply"),
    ],
)
def test_what_a_run_can_not_bear_is_refused(edit: object, said: str) -> None:
    with pytest.raises(EditError, match=said):
        edit(floor(MAIN))  # type: ignore[operator]


def test_a_pinned_fitting_goes_with_the_vertex_under_it() -> None:
    plan = floor(Drain("d1", ((0.0, 0.0), (5.0, 5.0), (9.0, 0.0))), PinnedFitting("p1", (5.0, 5.0), "quarter_bend"))
    assert edits.move_point(plan, "d1", 1, (6.0, 6.0)).fittings[0].at == (6.0, 6.0)
    assert edits.delete_point(plan, "d1", 1).fittings == ()


def test_splitting_keeps_the_file_order_and_merging_undoes_it() -> None:
    bent = Drain("d1", ((0.0, 0.0), (5.0, 5.0), (9.0, 0.0)), size="2", join="drop", rise=3.0)
    plan = floor(bent, Drain("d2", ((50.0, 0.0), (50.0, 9.0))))
    cut = edits.split(plan, "d1", 1)
    assert list(drains(cut)) == ["d1", "d3", "d2"]
    assert cut.drains[0].join == "flat"
    assert (cut.drains[1].join, cut.drains[1].rise) == ("drop", 3.0)
    assert edits.merge(cut, "d1", "d3") == plan
    other = edits.split(plan, "d1", 1, lower="start")
    assert (other.drains[0].join, other.drains[1].join) == ("drop", "flat")
    assert edits.merge(other, "d1", "d3") == plan


@pytest.mark.parametrize(
    ("points", "merged"),
    [
        (((9.0, 0.0), (9.0, 9.0)), ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0))),
        (((9.0, 9.0), (9.0, 0.0)), ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0))),
        (((0.0, 9.0), (0.0, 0.0)), ((0.0, 9.0), (0.0, 0.0), (9.0, 0.0))),
        (((0.0, 0.0), (0.0, 9.0)), ((0.0, 9.0), (0.0, 0.0), (9.0, 0.0))),
    ],
)
def test_runs_merge_at_any_of_their_ends(points: tuple[Point, ...], merged: tuple[Point, ...]) -> None:
    plan = floor(Drain("d1", ((0.0, 0.0), (9.0, 0.0))), Drain("d2", points))
    assert drains(edits.merge(plan, "d1", "d2")) == {"d1": merged}


def test_runs_that_differ_are_not_merged() -> None:
    plan = floor(
        Drain("d1", ((0.0, 0.0), (9.0, 0.0)), size="2", join="drop"),
        Drain("d2", ((9.0, 0.0), (9.0, 9.0)), size="3"),
        Drain("d3", ((9.0, 0.0), (9.0, 9.0)), size="2", join="rolled"),
        Drain("d4", ((50.0, 0.0), (9.0, 9.0)), size="2"),
        Vent("v1", ((9.0, 0.0), (9.0, 9.0)), size="2"),
    )
    for other, said in (
        ("d2", "its size is 3, and that of d1 2"),
        ("d3", "must join flat"),
        ("d4", "an end of it on an end"),
        ("v1", "same kind"),
        ("d1", "another run"),
    ):
        with pytest.raises(EditError, match=said):
            edits.merge(plan, "d1", other)


def test_reversing_twice() -> None:
    plan = floor(MAIN)
    assert drains(edits.reverse(plan, "d1"))["d1"] == MAIN.points[::-1]
    assert edits.reverse(edits.reverse(plan, "d1"), "d1") == plan


def test_an_end_is_joined_on_the_mains_axis() -> None:
    plan = edits.join(floor(MAIN, Drain("d2", ((60.0, 50.0), (36.3, 50.1)))), "d2")
    assert drains(plan) == {
        "d1": ((36.0, 92.0), (36.0, 50.099609375), (36.0, 20.0)),
        "d2": ((60.0, 50.0), (36.0, 50.099609375)),
    }
    assert edits.join(plan, "d2") is plan


def test_joining_takes_the_mains_own_vertex_where_it_is_as_near() -> None:
    plan = edits.join(floor(MAIN, Drain("d2", ((36.2, 91.7), (60.0, 91.0)))), "d2", "start")
    assert drains(plan) == {"d1": MAIN.points, "d2": ((36.0, 92.0), (60.0, 91.0))}


def test_what_was_welded_to_the_end_comes_along() -> None:
    plan = floor(MAIN, Drain("d2", ((60.0, 50.0), (36.25, 50.0))), Drain("d3", ((36.25, 50.0), (50.0, 30.0))))
    joined = edits.join(plan, "d2", main="d1")
    assert drains(joined)["d3"][0] == drains(joined)["d2"][1] == drains(joined)["d1"][1] == (36.0, 50.0)


def test_a_main_comes_to_what_is_held() -> None:
    plan = floor(MAIN, Riser("r1", (36.4, 50.0)), Fixture("f1", "shower", (36.0, 40.0)))
    plan = edits.join(edits.join(plan, "r1"), "f1")
    assert drains(plan)["d1"] == ((36.0, 92.0), plan.risers[0].at, (36.0, 40.0), (36.0, 20.0))
    plan = floor(MAIN, Fixture("f1", "shower", (36.25, 40.0)), Drain("d2", ((80.0, 40.0), (36.25, 40.0))))
    assert drains(edits.join(plan, "d2"))["d1"] == ((36.0, 92.0), (36.25, 40.0), (36.0, 20.0))


def test_nothing_is_joined_across_systems_levels_or_gaps() -> None:
    plan = floor(
        MAIN,
        Supply("s1", "cold", ((60.0, 50.0), (36.0, 50.0))),
        Supply("s2", "hot", ((36.0, 40.0), (36.0, 60.0))),
        Vent("v1", ((60.0, 50.0), (36.0, 50.0)), above_floor=48.0),
        Vent("v2", ((36.0, 40.0), (36.0, 60.0)), above_floor=50.0),
        Drain("d2", ((60.0, 50.0), (36.75, 50.0))),
    )
    for name in ("s1", "v1", "d2"):
        with pytest.raises(EditError, match=r"within 0\.5 in"):
            edits.join(plan, name)
        assert edits.join_ends(plan, name) is plan
    assert drains(edits.join(plan, "d2", within=1.0))["d1"][1] == (36.0, 50.0)
    overhead = edits.set_field(plan, "v2", "above_floor", 48.0)
    assert edits.join(overhead, "v1").vents[1].points[1] == (36.0, 50.0)


def test_both_ends_are_joined_where_there_is_something_to_join() -> None:
    plan = floor(MAIN, Drain("d2", ((60.0, 92.0), (60.0, 20.0))), Drain("d3", ((36.0, 50.0), (60.0, 50.0))))
    joined = edits.join_ends(plan, "d3")
    assert drains(joined)["d1"][1] == (36.0, 50.0)
    assert drains(joined)["d2"][1] == (60.0, 50.0)


@given(points, points, points)
@settings(deadline=None)
def test_the_foot_lies_on_the_axis_and_is_the_nearest(a: Point, b: Point, p: Point) -> None:
    if a == b:
        return
    there = foot(a, b, p)
    assert all(value * 1024 == int(value * 1024) for value in there)
    off = abs((b[0] - a[0]) * (there[1] - a[1]) - (b[1] - a[1]) * (there[0] - a[0])) / distance(a, b)
    assert off <= 1 / 1024
    steps = [(a[0] + (b[0] - a[0]) * k / 50, a[1] + (b[1] - a[1]) * k / 50) for k in range(51)]
    assert distance(there, p) <= min(distance(step, p) for step in steps) + 1 / 1024


@given(points, st.integers(1, 300 * 1024), st.sampled_from([(1, 1), (1, -1), (-1, 1), (-1, -1)]), points)
def test_on_a_diagonal_the_foot_bends_nothing(a: Point, n: int, way: tuple[int, int], p: Point) -> None:
    b = (a[0] + way[0] * n / 1024, a[1] + way[1] * n / 1024)
    there = foot(a, b, p)
    assert abs(there[0] - a[0]) == abs(there[1] - a[1])
