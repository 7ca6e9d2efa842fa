"""Where a tube turns up to its fixture the lists say what it turns up to: that stands over the floor, not at the tube's height."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from engine.plan.records import Plan, Supply
from engine.study import work_out
from engine.takeoff.heights import height_table
from engine.takeoff.supports import supports

Floor = Callable[..., Plan]


def last(hand_floor: Floor, down: float) -> tuple[str, str]:
    """What stands at the end of a tube under the lavatory, and what its last hook or bend support is there for."""
    tube = Supply("c1", "cold", ((56.0, 20.0), (56.0, 64.0), (70.0, 64.0)), down=down)
    model = work_out(replace(hand_floor(), supplies=(tube,)))
    row = [row for row in height_table(model) if row.element == "c1"][-1]
    reasons = [one.reason for one in supports(model) if one.element == "c1" and one.along >= 51.0]
    return row.what, reasons[-1]


def test_a_bent_tube_turns_up_to_the_stub_out(hand_floor: Floor) -> None:
    what, reason = last(hand_floor, 6.0)
    assert what == "turn up to the stub-out elbow, crimp 1/2, angle stop"
    assert reason == "turns up here, bent by hand, 5 in radius"


def test_an_elbow_lies_at_the_tubes_height_and_the_rest_over_the_floor(hand_floor: Floor) -> None:
    what, reason = last(hand_floor, 3.5)
    assert what == "elbow, crimp 1/2, turn up to the stub-out elbow, crimp 1/2, angle stop"
    assert reason.startswith("by the elbow, crimp 1/2, turn up to the stub-out elbow")


def test_hooks_are_told_at_the_tubes_middle_from_both_edges(hand_floor: Floor) -> None:
    # 2x10s are 9 1/4 deep: 6 in down is 3 1/4 up from their bottom edge
    tube = Supply("c1", "cold", ((56.0, 20.0), (56.0, 64.0)), down=6.0)
    found = [one for one in supports(work_out(replace(hand_floor(), supplies=(tube,)))) if one.element == "c1"]
    assert {(one.down, one.below) for one in found} == {(6.0, -3.25)}
