"""Runs that drop or roll onto a main: reaches with heights of their own."""

from __future__ import annotations

import math
from collections.abc import Callable

import msgspec
import pytest

from engine import rulebooks
from engine.crossings import windows
from engine.framing.layout import lay_out
from engine.joinery.build import build as join
from engine.joinery.records import Joinery
from engine.piping import network
from engine.piping.records import UNDER, Network, Node
from engine.plan.records import Drain, Plan
from engine.water.network import WaterNetwork

Floor = Callable[..., Plan]


def with_branch(plan: Plan, **how: object) -> Plan:
    """The lavatory's branch square to the main, joining it by a drop or a roll."""
    branch = Drain(id="d2", points=((70.25, 62.0), (36.0, 62.0)), size="1-1/2", **how)  # type: ignore[arg-type]
    return msgspec.structs.replace(
        plan,
        drains=(plan.drains[0], branch),
        fixtures=(plan.fixtures[0], msgspec.structs.replace(plan.fixtures[1], at=(70.25, 62.0))),
        risers=(msgspec.structs.replace(plan.risers[0], at=(70.25, 62.0)),),
    )


def worked(plan: Plan) -> tuple[Network, dict[Node, float], Joinery]:
    book = rulebooks.load(plan.rulebook)
    found = network.build(plan, book)
    framing = lay_out(plan)
    settled = windows.windows(plan, book, found, framing, ())
    heights = windows.heights(found, settled)
    return found, heights, join(plan, book, found, heights, (), framing, WaterNetwork(plan))


def test_flat_branch_is_of_the_exits_reach(hand_floor: Floor) -> None:
    found, _, _ = worked(with_branch(hand_floor()))
    assert len(found.reaches) == 1


def test_pinned_drop_lifts_the_branch_by_its_rise(hand_floor: Floor) -> None:
    _, flat, _ = worked(with_branch(hand_floor()))
    found, dropped, _ = worked(with_branch(hand_floor(), join="drop", rise=4.0))
    riser = Node(70.25, 62.0, UNDER)
    assert len(found.reaches) == 1
    assert dropped[riser] == pytest.approx(flat[riser] + 4.0)


def test_open_drop_has_a_window_above_the_room_its_fittings_need(hand_floor: Floor) -> None:
    found, heights, _ = worked(with_branch(hand_floor(pinned=None), join="drop"))
    assert [reach.parent for reach in found.reaches] == [None, 0]
    upper = found.reaches[1]
    assert heights[upper.foot] - heights[Node(36.0, 62.0, UNDER)] >= upper.least_rise - 1e-9


def test_drop_gets_a_bend_and_an_upright_combination(hand_floor: Floor) -> None:
    _, _, joinery = worked(with_branch(hand_floor(), join="drop", rise=12.0))
    made = {(part.kind, part.change) for part in joinery.parts if "d2" in part.elements}
    assert ("combo_wye_eighth_bend", "vertical_to_horizontal") in made
    assert ("quarter_bend", "horizontal_to_vertical") in made
    assert joinery.faults == ()


def test_roll_at_45_gets_a_rolled_combination_and_an_eighth_bend(hand_floor: Floor) -> None:
    rise = 6.0
    _, _, joinery = worked(with_branch(hand_floor(), join="rolled", roll=45.0, rise=rise))
    made = {part.kind: part for part in joinery.parts if "d2" in part.elements}
    assert made["combo_wye_eighth_bend"].clock == pytest.approx(45.0)
    assert "eighth_bend" in made
    assert joinery.faults == ()
    climb = next(piece for piece in joinery.pieces if piece.pipes == ("d2.roll",))
    # 6 in up at 45 degrees is 6 x 1.41421 along the pipe (Elements of Plumbing: 1.41)
    assert climb.axis == pytest.approx(rise * 1.414214, abs=1e-4)
    level = [piece for piece in joinery.pieces if piece.pipes == ("d2.0",)]
    # and takes 6 in of the plan length from the level run
    assert sum(piece.axis for piece in level) == pytest.approx((34.25 - rise) * 1.000217, abs=1e-3)


def test_roll_at_an_angle_that_no_bend_makes_is_a_fault(hand_floor: Floor) -> None:
    _, _, joinery = worked(with_branch(hand_floor(), join="rolled", roll=30.0, rise=6.0))
    assert {fault.rule for fault in joinery.faults} == {"no-fitting-turns-so"}


def rolled_wye(plan: Plan, **how: object) -> Plan:
    """The lavatory's branch into the main by a wye rolled 45 degrees: 35.26 degrees to it in plan, then parallel to it."""
    # over 6 in of easting the branch runs 6 / tan(35.2644) = 8.4853 in along the main
    along = 8.485281374238571
    points = ((42.0, 90.0), (42.0, 62.0 + along), (36.0, 62.0))
    branch = Drain(id="d2", points=points, size="1-1/2", join="rolled", roll=45.0, **how)  # type: ignore[arg-type]
    return msgspec.structs.replace(
        plan,
        drains=(plan.drains[0], branch),
        fixtures=(plan.fixtures[0], msgspec.structs.replace(plan.fixtures[1], at=(42.0, 90.0))),
        risers=(msgspec.structs.replace(plan.risers[0], at=(42.0, 90.0)),),
    )


def test_a_wye_rolled_at_45_lifts_its_branch_by_thirty_degrees(hand_floor: Floor) -> None:
    _, heights, joinery = worked(rolled_wye(hand_floor()))
    # plan length sqrt(6^2 + 8.4853^2) = 10.3923; asin(sin 45 sin 45) = 30 degrees; 10.3923 tan 30 = 6.0
    assert heights[Node(42.0, 62.0 + 8.485281374238571, UNDER)] - heights[Node(36.0, 62.0, UNDER)] == pytest.approx(6.0)
    made = {part.kind: part for part in joinery.parts if "d2" in part.elements}
    assert made["wye"].clock == pytest.approx(45.0, abs=0.1)
    assert made["wye"].turn == pytest.approx(45.0, abs=0.1)
    # and an eighth bend brings it level and parallel to the main
    assert made["eighth_bend"].turn == pytest.approx(45.0, abs=0.1)
    assert joinery.faults == ()
    branch = next(piece for piece in joinery.pieces if piece.pipes == ("d2.1",))
    assert branch.axis == pytest.approx(10.3923 / math.cos(math.radians(30.0)), abs=1e-3)


def test_a_rolled_wye_cannot_climb_otherwise_than_drawn(hand_floor: Floor) -> None:
    found, _, _ = worked(rolled_wye(hand_floor(), rise=9.0))
    (fault,) = (fault for fault in found.faults if fault.rule == "no-fitting-turns-so")
    assert (fault.measured, fault.limit) == (pytest.approx(6.0), 9.0)


def test_a_run_does_not_fall_over_what_its_rolled_end_takes(hand_floor: Floor) -> None:
    """34-1/4 in of run less the 6 in that the climb takes at 45 degrees: 28-1/4 in at 1/4 in per ft, and 6 in of climb."""
    _, heights, _ = worked(with_branch(hand_floor(), join="rolled", roll=45.0, rise=6.0))
    upper, main = Node(70.25, 62.0, UNDER), Node(36.0, 62.0, UNDER)
    assert heights[upper] - heights[main] == pytest.approx(6.0 + 28.25 * 0.25 / 12.0)
