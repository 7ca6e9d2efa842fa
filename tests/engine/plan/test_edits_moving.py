"""What goes along when something is moved or turned."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from engine.plan import edits
from engine.plan.edits import EditError
from engine.plan.points import points_of
from engine.plan.records import (
    KINDS,
    Cleanout,
    Drain,
    Exit,
    Fixture,
    Inlet,
    PinnedFitting,
    Plan,
    Point,
    Riser,
    Supply,
    Vent,
)
from engine.plan.start import new_floor
from engine.plan.walls import wall_at
from tests.engine.plan.drawn_plans import plans


@pytest.fixture
def plan() -> Plan:
    """A closet, a main to an exit, a lavatory in the north wall with its branch, an overhead vent, cold water."""
    return edits.add(
        new_floor(120, 240),
        Fixture("f1", "water_closet", (36.0, 92.0)),
        Fixture("f2", "lavatory", (70.0, 238.25)),
        Riser("r1", (70.0, 238.25), wall="w3"),
        Exit("x1", (36.0, 20.0)),
        Drain("d1", ((36.0, 92.0), (36.0, 62.0), (36.0, 20.0)), size="3"),
        Drain("d2", ((70.0, 238.25), (70.0, 96.0), (36.0, 62.0))),
        Vent("v1", ((70.0, 238.25), (20.0, 238.25)), above_floor=48.0),
        Riser("r2", (20.0, 238.25), wall="w3"),
        Inlet("i1", (10.0, 3.0)),
        Supply("s1", "cold", ((10.0, 3.0), (36.0, 92.0))),
        Supply("s2", "hot", ((10.0, 3.0), (70.0, 238.25))),
        PinnedFitting("p1", (36.0, 62.0), "wye"),
    )


def points(plan: Plan, name: str) -> tuple[Point, ...]:
    return points_of(edits.find(plan, name))


def test_a_fixture_takes_the_run_ends_welded_to_it(plan: Plan) -> None:
    moved = edits.move(plan, ["f1"], 2.0, -1.0)
    assert points(moved, "f1") == ((38.0, 91.0),)
    assert points(moved, "d1") == ((38.0, 91.0), (36.0, 62.0), (36.0, 20.0))
    assert points(moved, "s1") == ((10.0, 3.0), (38.0, 91.0))
    assert points(moved, "d2") == points(plan, "d2")
    assert moved.walls is plan.walls


def test_an_exit_takes_waste_only(plan: Plan) -> None:
    plan = edits.add_new(plan, Supply, water="cold", points=((36.0, 20.0), (50.0, 20.0)))
    moved = edits.move(plan, ["x1"], 0.0, 4.0)
    assert points(moved, "d1")[-1] == (36.0, 24.0)
    assert points(moved, "s3") == ((36.0, 20.0), (50.0, 20.0))


@pytest.mark.parametrize("name", ["f2", "r1"])
def test_a_riser_and_what_empties_into_it_go_together_at_every_level(plan: Plan, name: str) -> None:
    moved = edits.move(plan, [name], 5.0, 0.0)
    assert points(moved, "f2") == points(moved, "r1") == ((75.0, 238.25),)
    assert points(moved, "d2")[0] == (75.0, 238.25)
    assert points(moved, "v1")[0] == (75.0, 238.25)
    assert points(moved, "s2")[1] == (75.0, 238.25)
    assert moved.risers[0].wall == "w3"


def test_a_wall_takes_its_risers_and_all_that_hangs_on_them(plan: Plan) -> None:
    moved = edits.move(plan, ["w3"], 0.0, -10.0)
    assert points(moved, "r1") == points(moved, "f2") == ((70.0, 228.25),)
    assert points(moved, "v1") == ((70.0, 228.25), (20.0, 228.25))
    assert {riser.wall for riser in moved.risers} == {"w3"}


def test_a_riser_that_leaves_its_wall_takes_the_next_ones_name(plan: Plan) -> None:
    assert edits.move(plan, ["r1"], 0.0, -50.0).risers[0].wall is None
    east = edits.move(plan, ["r1"], 48.25, -50.0)
    assert east.risers[0].at == (118.25, 188.25)
    assert east.risers[0].wall == "w2"


def test_a_run_keeps_its_welds_and_stays_where_it_is_held(plan: Plan) -> None:
    moved = edits.move(plan, ["d1"], 4.0, 3.0)
    assert points(moved, "d1") == ((36.0, 92.0), (40.0, 65.0), (36.0, 20.0))
    assert points(moved, "d2") == ((70.0, 238.25), (70.0, 96.0), (40.0, 65.0))
    assert points(moved, "p1") == ((40.0, 65.0),)
    assert points(moved, "f1") == ((36.0, 92.0),)
    assert points(moved, "s1") == points(plan, "s1")


def test_a_run_held_at_every_point_says_so(plan: Plan) -> None:
    with pytest.raises(EditError, match="held at every point") as caught:
        edits.move(plan, ["v1"], 1.0, 0.0)
    assert caught.value.element == "v1"


@pytest.fixture
def opened(plan: Plan) -> Plan:
    """The plan with a cleanout at a free upper end, at the closet's and in a riser."""
    return edits.add(
        plan,
        Drain("d3", ((80.0, 62.0), (36.0, 62.0))),
        Cleanout("k1", (80.0, 62.0)),
        Cleanout("k2", (36.0, 92.0)),
        Cleanout("k3", (70.0, 238.25), above_floor=14.0, turn=270.0),
    )


@pytest.mark.parametrize(
    ("moved", "going"), [("d3", {"k1"}), ("f1", {"k2"}), ("r1", {"k3"}), ("f2", {"k3"}), ("w3", {"k3"}), ("v1", set())]
)
def test_a_cleanout_goes_with_the_end_or_riser_that_it_opens(opened: Plan, moved: str, going: set[str]) -> None:
    opened = edits.add_new(opened, Vent, points=((80.0, 62.0), (80.0, 100.0)), above_floor=48.0)
    ids = [moved] if moved != "v1" else ["v2"]
    after = edits.move(opened, ids, 2.0, -3.0)
    for name in ("k1", "k2", "k3"):
        (x, y), there = points(opened, name)[0], points(after, name)[0]
        assert there == ((x + 2.0, y - 3.0) if name in going else (x, y)), name


def test_a_cleanout_goes_with_its_vertex_but_not_out_of_a_riser(opened: Plan) -> None:
    assert points(edits.move_point(opened, "d3", 0, (90.0, 70.0)), "k1") == ((90.0, 70.0),)
    assert points(edits.move_point(opened, "d2", 0, (75.0, 230.0)), "k3") == ((70.0, 238.25),)
    overhead = edits.add_new(opened, Vent, points=((80.0, 62.0), (80.0, 100.0)), above_floor=48.0)
    assert points(edits.move_point(overhead, "v2", 0, (90.0, 70.0)), "k1") == ((80.0, 62.0),)


def test_a_riser_that_turns_turns_its_cleanout(opened: Plan) -> None:
    turned = edits.turn(opened, ["r1"], (70.0, 238.25))
    assert turned.cleanouts[2] == Cleanout("k3", (70.0, 238.25), above_floor=14.0, turn=0.0)
    alone = edits.turn(opened, ["k3"], (70.0, 238.25), 3)
    assert alone.cleanouts[2].turn == 180.0
    assert edits.turn(opened, ["k1"], (80.0, 62.0)) is opened


def test_a_selection_moves_as_one(plan: Plan) -> None:
    everything = [element.id for kind in KINDS for element in getattr(plan, kind)]
    moved = edits.move(plan, everything, 7.0, 11.0)
    floor = moved.floor
    assert edits.set_floor(moved, outline=tuple((x + 7.0, y + 11.0) for x, y in floor.outline)) == edits.shift(
        plan, 7.0, 11.0
    )


def test_overhead_and_under_floor_are_apart(plan: Plan) -> None:
    plan = edits.add(plan, Vent("v2", ((20.0, 238.25), (20.0, 100.0))), Vent("v3", ((5.0, 5.0), (36.0, 62.0)), 48.0))
    moved = edits.move_point(plan, "d1", 1, (36.0, 60.0))
    assert points(moved, "d2")[-1] == (36.0, 60.0)
    assert points(moved, "v3") == points(plan, "v3")


def test_a_displacement_is_rounded_once_so_welds_hold(plan: Plan) -> None:
    moved = edits.move(plan, ["f1", "x1", "d2"], 0.33333, 0.1)
    assert points(moved, "d1")[0] == points(moved, "f1")[0]
    assert points(moved, "d1")[1] == points(moved, "d2")[2]
    assert (points(moved, "f1")[0][0] - 36.0) * 1024 == round(0.33333 * 1024)


def test_a_move_off_the_sheet_is_refused(plan: Plan) -> None:
    with pytest.raises(EditError, match="f1: at: expected x to be a number from -12000 to 12000"):
        edits.move(plan, ["f1"], 20000.0, 0.0)
    with pytest.raises(EditError, match=r"d1: points\[1\]: expected another point"):
        edits.move(plan, ["f1"], 0.0, -30.0)


def test_turning_goes_about_a_point_and_takes_headings_along(plan: Plan) -> None:
    turned = edits.turn(plan, ["f1"], (36.0, 62.0))
    assert points(turned, "f1") == ((6.0, 62.0),)
    assert turned.fixtures[0].turn == 0.0
    assert points(turned, "d1")[0] == (6.0, 62.0)
    field = edits.turn(plan, ["j1"], (0.0, 0.0)).fields[0]
    assert (field.corner, field.size, field.direction) == ((-240.0, 0.0), (240.0, 120.0), "east-west")


def test_a_tubs_trap_goes_round_with_it(plan: Plan) -> None:
    plan = edits.add(
        plan,
        Fixture("f3", "bathtub", (60.0, 60.0), turn=0.0, trap_at=(60.0, 66.0)),
        Drain("d3", ((60.0, 66.0), (36.0, 66.0))),
    )
    turned = edits.rotate_fixture(plan, "f3", 270.0)
    assert points(turned, "f3") == ((60.0, 60.0), (66.0, 60.0))
    assert points(turned, "d3") == ((66.0, 60.0), (36.0, 66.0))
    aslant = edits.rotate_fixture(plan, "f3", 45.0)
    assert points(aslant, "d3")[0] == points(aslant, "f3")[1]
    pulled = edits.move_point(plan, "f3", 1, (61.0, 68.0))
    assert points(pulled, "f3") == ((60.0, 60.0), (61.0, 68.0))
    assert points(pulled, "d3")[0] == (61.0, 68.0)


def test_only_fixtures_are_rotated(plan: Plan) -> None:
    with pytest.raises(EditError, match="expected a fixture"):
        edits.rotate_fixture(plan, "d1", 90.0)
    with pytest.raises(EditError, match="finite"):
        edits.rotate_fixture(plan, "f1", float("nan"))


def _settled(plan: Plan) -> bool:
    """Whether every riser names the wall that it stands in, as edits leave it."""
    return all(
        riser.wall == (wall.id if (wall := wall_at(plan, riser.at, riser.wall)) is not None else None)
        for riser in plan.risers
    )


@given(plans(), st.data())
@settings(deadline=None)
def test_moving_and_moving_back_changes_nothing(plan: Plan, data: st.DataObject) -> None:
    ids = [element.id for kind in KINDS for element in getattr(plan, kind)]
    assume(ids and _settled(plan))
    chosen = data.draw(st.lists(st.sampled_from(ids), min_size=1, unique=True))
    dx, dy = 3.0 + 1 / 1024, -7.0 - 1 / 1024
    try:
        moved = edits.move(plan, chosen, dx, dy)
        back = edits.move(moved, chosen, -dx, -dy)
    except EditError:
        return
    assume(_settled(moved) and not _newly_welded(plan, moved))
    assert back == plan


def _newly_welded(before: Plan, after: Plan) -> bool:
    def spots(plan: Plan) -> list[Point]:
        return [point for kind in KINDS for element in getattr(plan, kind) for point in points_of(element)]

    return len(set(spots(before))) > len(set(spots(after)))


@given(plans(), st.data())
@settings(deadline=None)
def test_four_quarter_turns_of_everything_change_nothing(plan: Plan, data: st.DataObject) -> None:
    ids = [element.id for kind in KINDS for element in getattr(plan, kind)]
    assume(ids and _settled(plan))
    turned = plan
    for _ in range(4):
        turned = edits.turn(turned, ids, (10.0, 20.0))
    assert edits.turn(plan, ids, (10.0, 20.0), 4) == plan
    assert turned == plan
