"""Straight parts of runs slid sideways: no pipe turns, ends slide along what they join (geometry, worked by hand)."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.mending.sliding import carried, slid, straights
from engine.plan.edits import EditError
from engine.plan.records import Drain, Plan

Floor = Callable[..., Plan]


def run(plan: Plan, name: str) -> Drain:
    return next(one for one in plan.drains if one.id == name)


def test_points_in_one_line_are_one_part(hand_floor: Floor) -> None:
    main, branch = hand_floor().drains
    assert [(part.first, part.last) for part in straights(main)] == [(0, 2)]
    assert [(part.first, part.last) for part in straights(branch)] == [(0, 1), (1, 2)]


def test_a_corner_slides_along_the_wyes_branch(hand_floor: Floor) -> None:
    """The branch's level part on y 69 runs west; 2 in north of it its corner lies 2 in further out on the 45 degrees."""
    plan = hand_floor()
    lifted = replace(
        plan,
        fixtures=plan.fixtures[:1],
        risers=(),
        drains=(plan.drains[0], replace(plan.drains[1], points=((70.25, 69.0), (43.0, 69.0), (36.0, 62.0)))),
    )
    part = straights(run(lifted, "d2"))[0]
    assert part.heading == (-1.0, 0.0)
    moved = slid(lifted, "d2", part, -2.0)
    assert run(moved, "d2").points == ((70.25, 71.0), (45.0, 71.0), (36.0, 62.0))


def test_what_stands_on_it_holds_it_or_goes_along(hand_floor: Floor) -> None:
    plan = hand_floor()
    part = straights(run(plan, "d2"))[0]
    with pytest.raises(EditError, match="holds it there"):
        slid(plan, "d2", part, -2.0)
    moved = slid(plan, "d2", part, -2.0, carrying=True)
    assert run(moved, "d2").points == ((70.25, 71.0), (45.0, 71.0), (36.0, 62.0))
    assert moved.risers[0].at == moved.fixtures[1].at == (70.25, 71.0)
    assert moved.risers[0].wall == "p1"


def test_the_main_slides_under_its_branch(hand_floor: Floor) -> None:
    """2 in east the wye's joint lies 2 in further up the branch's 45 degrees; closet and exit go with the main."""
    plan = hand_floor()
    part = straights(run(plan, "d1"))[0]
    assert part.heading == (0.0, -1.0)
    moved = slid(plan, "d1", part, 2.0, carrying=True)
    assert run(moved, "d1").points == ((38.0, 92.0), (38.0, 64.0), (38.0, 20.0))
    assert run(moved, "d2").points == ((70.25, 69.0), (43.0, 69.0), (38.0, 64.0))
    assert moved.exits[0].at == (38.0, 20.0)


def test_it_does_not_slide_past_a_corner(hand_floor: Floor) -> None:
    """8 in east the joint would lie past the branch's corner, 7 in off, and the branch would turn round."""
    plan = hand_floor()
    with pytest.raises(EditError, match="turn another way"):
        slid(plan, "d1", straights(run(plan, "d1"))[0], 8.0, carrying=True)


def test_a_thing_is_moved_with_its_run_kept_straight(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    beside = carried(plan, "wc1", 1.25, 0.0)
    assert run(beside, "d1").points == ((37.25, 92.0), (37.25, 20.0))
    assert beside.exits[0].at == (37.25, 20.0)
    along = carried(plan, "wc1", 0.0, 3.0)
    assert run(along, "d1").points == ((36.0, 95.0), (36.0, 20.0))
