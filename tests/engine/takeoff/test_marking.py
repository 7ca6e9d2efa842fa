"""Layout marks: centres by two edges and a diagonal, against sums worked by hand."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace

from engine.plan.records import Drain, Exit, Fixture, JoistField, JoistShift, Plan, Riser, Supply
from engine.study import work_out
from engine.takeoff.marking import Layout, Mark, layout
from engine.takeoff.marks.edges import edges, running_past
from tests.engine.takeoff.small_baths import small_baths

HandFloor = Callable[..., Plan]


def marks_of(plan: Plan) -> dict[str, Mark]:
    return {mark.element: mark for mark in layout(work_out(plan)).marks}


def test_the_closet_by_hand(hand_floor: HandFloor) -> None:
    mark = marks_of(hand_floor())["wc1"]
    # flange centre (36, 92) on a floor 108 north to south: 36 from the west, 92 from the south
    assert (mark.east_from, mark.east_edge) == (36.0, "outside face of the west end joist")
    assert (mark.north_from, mark.north_edge) == (92.0, "outside face of the south rim")
    # wall studs' face at 104.5: 12.5 off; half an inch of board leaves 12
    assert mark.walls.startswith("12 in from the finished wall w1 behind it = 12 1/2 in from its studs")
    (hole,) = mark.holes
    assert (hole.through, hole.diameter, hole.standing) == ("subfloor", 5.0, "assumed")
    assert mark.hole == 5.0


def test_the_lavatorys_riser_by_hand(hand_floor: HandFloor) -> None:
    mark = marks_of(hand_floor())["r1"]
    # from the same two faces as the closet, though the north rim is nearer
    assert (mark.east_from, mark.north_from) == (70.25, 69.0)
    assert (mark.east_edge, mark.north_edge) == ("outside face of the west end joist", "outside face of the south rim")
    # 1.9 in outside: the 2-1/8 bit (Drilling Holes for PVC Pipe Fittings), through subfloor, plates and roof
    assert [(hole.through, hole.diameter) for hole in mark.holes] == [
        ("subfloor", 2.125),
        ("sole plate", 2.125),
        ("top plates", 2.125),
        ("roof", 2.125),
    ]
    assert "1-1/2 in pipe, 1 29/32 in outside" in mark.holes[0].passes
    assert "2-1/8" in mark.holes[0].tool
    assert mark.walls.startswith("on the centre line of wall p1, 1 3/4 in from either stud face")


def test_the_exit_has_no_hole_in_the_floor(hand_floor: HandFloor) -> None:
    mark = marks_of(hand_floor())["x1"]
    assert (mark.east_from, mark.north_from, mark.holes, mark.hole) == (36.0, 20.0, (), None)


def test_the_check_diagonals_by_hand(hand_floor: HandFloor) -> None:
    marks = marks_of(hand_floor())
    # closet to riser: sqrt(34.25^2 + 23^2) = 41.256, printed 41 1/4; the exit lies square of the closet
    assert (marks["wc1"].diagonal, marks["wc1"].diagonal_to.split()[0]) == (41.25, "r1")
    assert (marks["r1"].diagonal, marks["r1"].diagonal_to.split()[0]) == (41.25, "wc1")
    # exit to riser: sqrt(34.25^2 + 49^2) = 59.783, printed 59 13/16
    assert (marks["x1"].diagonal, marks["x1"].diagonal_to.split()[0]) == (59.8125, "r1")


def test_a_lone_mark_is_checked_from_the_corner(hand_floor: HandFloor) -> None:
    plan = replace(hand_floor(lavatory=False), exits=())
    mark = marks_of(plan)["wc1"]
    # sqrt(36^2 + 92^2) = 98.793, printed 98 13/16
    assert (
        mark.diagonal_to == "the corner of the outside face of the west end joist and the outside face of the south rim"
    )
    assert mark.diagonal == 98.8125


def test_sixteenths_never_add_up(hand_floor: HandFloor) -> None:
    # 70.2802 and 84.9600 are printed 70 1/4 and 84 15/16, each from its own edge
    plan = hand_floor()
    at = (70.2802734375, 84.9599609375)
    plan = replace(
        plan,
        fixtures=(plan.fixtures[0], replace(plan.fixtures[1], at=at)),
        risers=(replace(plan.risers[0], at=at),),
        drains=(plan.drains[0], replace(plan.drains[1], points=(at, (43.0, at[1]), (36.0, 62.0)))),
    )
    mark = marks_of(plan)["r1"]
    assert (mark.east_from, mark.north_from) == (70.25, 84.9375)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(small_baths())
def test_every_mark_of_any_small_floor_is_where_it_is_drawn(plan: Plan) -> None:
    found = layout(work_out(plan))
    assert found.not_marked == ()
    width, length = plan.fields[0].size
    for mark in found.marks:
        x = mark.east_from if "west" in mark.east_edge else width - mark.east_from
        y = mark.north_from if "south" in mark.north_edge else length - mark.north_from
        assert (x, y) == (pytest.approx(mark.at[0], abs=1 / 32), pytest.approx(mark.at[1], abs=1 / 32))
        for hole in mark.holes:
            assert hole.diameter is not None
            assert hole.diameter > 1.9
    assert len({(mark.east_edge, mark.north_edge) for mark in found.marks}) == 1


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(small_baths())
def test_a_slip_of_half_an_inch_shows_in_the_diagonal(plan: Plan) -> None:
    found = layout(work_out(plan))
    width, length = plan.fields[0].size
    by_element = {mark.element: mark for mark in found.marks}
    for mark in found.marks:
        to = by_element.get(mark.diagonal_to.split()[0])
        corner = (0.0 if "west" in mark.east_edge else width, 0.0 if "south" in mark.north_edge else length)
        there = to.at if to is not None else corner
        assert mark.diagonal == pytest.approx(math.dist(mark.at, there), abs=1 / 32)
        if to is None:
            continue
        for slip in ((0.5, 0.0), (0.0, 0.5)):
            moved = math.dist((mark.at[0] + slip[0], mark.at[1] + slip[1]), there)
            assert abs(moved - math.dist(mark.at, there)) > 1 / 16


def test_a_floor_in_two_wings_is_measured_from_edges_that_exist(hand_floor: HandFloor) -> None:
    # a wing 60 x 48 against the east side of a floor 120 x 108, flush with its south; the riser stands in the wing
    plan = hand_floor()
    wing = JoistField(id="f2", corner=(120.0, 0.0), size=(60.0, 48.0), lumber="2x10", first=16.0)
    plan = replace(
        plan,
        fields=(*plan.fields, wing),
        fixtures=(plan.fixtures[0], replace(plan.fixtures[1], at=(150.0, 30.0))),
        risers=(Riser(id="r1", at=(150.0, 30.0)),),
        drains=(plan.drains[0], Drain(id="d2", points=((150.0, 30.0), (36.0, 30.0)), size="1-1/2")),
    )
    found = layout(work_out(plan))
    marks = {mark.element: mark for mark in found.marks}
    assert found.not_marked == ()
    # no face runs past both in either direction but the south rims (one line) and the first floor's west end joist
    # and the wing's east one; the main floor's east face is covered where the wing stands against it
    assert (marks["wc1"].east_edge, marks["wc1"].east_from) == ("outside face of the west end joist of f1", 36.0)
    assert (marks["r1"].east_edge, marks["r1"].east_from) == ("outside face of the west end joist of f1", 150.0)
    assert (marks["wc1"].north_edge, marks["wc1"].north_from) == ("outside face of the south rim of f1", 92.0)
    assert (marks["r1"].north_edge, marks["r1"].north_from) == ("outside face of the south rim of f2", 30.0)


def test_faces_that_another_wing_covers_are_not_hooked(hand_floor: HandFloor) -> None:
    # two floors side by side with a step between them: no west or east face runs past the closets of both
    plan = hand_floor(lavatory=False)
    north = JoistField(id="f2", corner=(60.0, 108.0), size=(120.0, 60.0), lumber="2x10")
    plan = replace(
        plan,
        fields=(*plan.fields, north),
        fixtures=(*plan.fixtures, Fixture(id="wc2", kind="water_closet", at=(100.0, 150.0))),
        drains=(*plan.drains, Drain(id="d9", points=((100.0, 150.0), (100.0, 120.0)), size="3")),
        exits=(*plan.exits, Exit(id="x2", at=(100.0, 120.0))),
    )
    marks = marks_of(plan)
    assert marks["wc1"].east_edge == "outside face of the west end joist of f1"
    # 100 - 60 = 40 from the upper floor's own west face, which stands free there
    assert (marks["wc2"].east_edge, marks["wc2"].east_from) == ("outside face of the west end joist of f2", 40.0)
    # the lower floor's south rim runs past all of them
    assert {(mark.north_edge, mark.north_from) for mark in marks.values()} == {
        ("outside face of the south rim of f1", y) for y in (92.0, 20.0, 150.0, 120.0)
    }
    # and its north rim is covered from x 60 on, free west of it
    model = work_out(plan)
    free, covered = (running_past(model, edges(model), (x, 92.0), 1) for x in (36.0, 100.0))
    assert [face.words for face in free] == [
        "outside face of the north rim of f1",
        "outside face of the south rim of f1",
    ]
    assert [face.words for face in covered] == [
        "outside face of the north rim of f2",
        "outside face of the south rim of f1",
    ]


def test_without_joists_nothing_is_marked_and_why_is_said(hand_floor: HandFloor) -> None:
    found = layout(work_out(replace(hand_floor(), fields=())))
    assert found.marks == ()
    assert {one.element for one in found.not_marked} == {"wc1", "r1", "x1"}
    assert {one.why for one in found.not_marked} == {"no joists are drawn, so there is no edge to measure from"}


def test_off_the_framing_it_is_not_marked(hand_floor: HandFloor) -> None:
    plan = hand_floor(lavatory=False)
    plan = replace(
        plan,
        fixtures=(replace(plan.fixtures[0], at=(36.0, 120.0)),),
        drains=(Drain(id="d1", points=((36.0, 120.0), (36.0, 20.0)), size="3"),),
    )
    found = layout(work_out(plan))
    (missing,) = found.not_marked
    assert (missing.element, missing.why) == (
        "wc1",
        "no outside face of rim or end joist can be hooked on its east-west line",
    )


def test_joists_that_run_the_other_way_name_their_edges(hand_floor: HandFloor) -> None:
    plan = hand_floor(lavatory=False)
    turned = replace(plan, fields=(replace(plan.fields[0], direction="east-west"),))
    mark = marks_of(turned)["wc1"]
    assert (mark.east_edge, mark.north_edge) == ("outside face of the west rim", "outside face of the south end joist")


def test_an_end_joist_that_was_shifted_is_measured_from_where_it_stands(hand_floor: HandFloor) -> None:
    plan = hand_floor(lavatory=False)
    field = replace(plan.fields[0], shifts=(JoistShift(number=0, by=2.0),))
    # its outside face moves to x = 2: 36 - 2 = 34
    assert marks_of(replace(plan, fields=(field,)))["wc1"].east_from == 34.0


def test_a_shower_and_a_tub(hand_floor: HandFloor) -> None:
    plan = hand_floor(lavatory=False)
    plan = replace(
        plan,
        fixtures=(
            *plan.fixtures,
            Fixture(id="sh1", kind="shower", at=(45.0, 38.0)),
            Fixture(id="bt1", kind="bathtub", at=(80.0, 38.0), trap_at=(86.0, 38.0)),
        ),
        drains=(
            *plan.drains,
            Drain(id="d3", points=((45.0, 38.0), (45.0, 30.0)), size="2"),
            Drain(id="d4", points=((86.0, 38.0), (86.0, 30.0)), size="1-1/2"),
        ),
    )
    marks = marks_of(plan)
    # a 2 in pipe, 2.375 outside, takes the 2-9/16 bit
    assert [(hole.through, hole.diameter) for hole in marks["sh1"].holes] == [("subfloor", 2.5625)]
    # 104.5 - 38 = 66.5 from the studs, half an inch less from the board
    assert marks["sh1"].walls.startswith("66 in from the finished wall w1 behind it = 66 1/2 in from its studs")
    # the tub's mark is its trap's, and how it is cut out only the tub's maker says
    assert marks["bt1"].at == (86.0, 38.0)
    assert marks["bt1"].hole is None
    assert marks["bt1"].holes[0].tool == "cut out by the maker's sheet"


def test_water_comes_up_inside_walls(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    tube = Supply(id="c1", water="cold", points=((4.0, 10.0), (64.0, 10.0), (64.0, 64.0), (70.25, 64.0)), down=3.0)
    mark = marks_of(replace(plan, supplies=(tube,)))["c1"]
    assert mark.words == "cold water for lavatory (lav1)"
    # tube 5/8 in outside takes the 7/8 bit
    assert [(hole.through, hole.diameter) for hole in mark.holes] == [("subfloor", 0.875), ("sole plate", 0.875)]
    assert (mark.east_from, mark.north_from) == (70.25, 64.0)
    loose = replace(tube, points=((4.0, 10.0), (64.0, 10.0), (64.0, 64.0)))
    stray = marks_of(replace(plan, supplies=(loose,)))["c1"]
    assert [hole.through for hole in stray.holes] == ["subfloor"]
    assert stray.walls == "comes up in no wall"


def test_a_closet_with_no_wall_behind_says_that_no_finish_is_allowed_for(hand_floor: HandFloor) -> None:
    mark = marks_of(replace(hand_floor(), walls=()))["wc1"]
    assert mark.walls == "no wall is drawn behind it: no finish is allowed for"


def test_a_riser_off_its_walls_middle(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    wall = replace(plan.walls[1], start=(70.0, 0.0), end=(70.0, 108.0))
    mark = marks_of(replace(plan, walls=(plan.walls[0], wall)))["r1"]
    # 1.75 - 0.25 = 1.5 to the nearer stud face
    assert mark.walls.startswith("in wall p1, 1 1/2 in from its nearer stud face")


def test_an_exit_through_the_rim_is_bored(hand_floor: HandFloor) -> None:
    plan = hand_floor(lavatory=False)
    out = replace(
        plan,
        drains=(Drain(id="d1", points=((36.0, 92.0), (36.0, 0.0)), size="3"),),
        exits=(Exit(id="x1", at=(36.0, 0.0), how="through-rim"),),
    )
    # 3.5 in outside takes the 3-5/8 bit (from memory)
    (hole,) = marks_of(out)["x1"].holes
    assert (hole.through, hole.diameter) == ("rim", 3.625)


def test_an_empty_floor_has_no_marks(hand_floor: HandFloor) -> None:
    plan = replace(hand_floor(), fixtures=(), drains=(), risers=(), exits=())
    assert layout(work_out(plan)) == Layout((), ())


def test_marks_that_the_west_face_does_not_serve_take_another_that_serves_all(hand_floor: HandFloor) -> None:
    """A wing stands west of the floor's north half: from there on its west face can't be hooked; the east one can."""
    plan = hand_floor(lavatory=False)
    wing = JoistField(id="f2", corner=(-48.0, 54.0), size=(48.0, 54.0), lumber="2x10")
    mark = marks_of(replace(plan, fields=(*plan.fields, wing)))["wc1"]
    # the floor is 120 in wide: 120 - 36 = 84
    assert (mark.east_edge, mark.east_from) == ("outside face of the east end joist of f1", 84.0)
