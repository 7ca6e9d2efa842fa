"""Tube bent by hand and the elbows where it can't be: what a bend and a fitting take of the straight tube.

Least bend radius of 1/2 in tube 5 in, of 3/4 in tube 7 in (PEX Tubing Technical Specifications: 8 outside diameters). Half a
crimp fitting with its barb takes 1 1/8 in of 1/2 in tube (from memory). Sums by hand stand beside each case.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Fixture, Inlet, JoistField, Plan, Point, Supply
from engine.study import study
from engine.water.joints import joints
from engine.water.network import WaterNetwork
from tests.engine.checks.judged_plans import bare

SIXTEENTH = 1 / 16
LAVATORY = Fixture("lav1", "lavatory", (100.0, 100.0), turn=0.0)


def kinds(*lines: Supply, fixtures: tuple[Fixture, ...] = ()) -> dict[Point, str]:
    """What turns the tube at each place where it turns."""
    plan = drawn(*lines, fixtures=fixtures)
    made, faults = joints(plan, WaterNetwork(plan))
    assert not faults
    return {one.at: one.kind for one in made if one.kind in ("tube_bend_support", "tube_elbow")}


def drawn(*lines: Supply, fixtures: tuple[Fixture, ...] = ()) -> Plan:
    return replace(bare(), fixtures=fixtures, supplies=lines, inlets=(Inlet("w1", (0.0, 0.0)),))


def line(*points: Point, down: float | None = 6.0, size: str = "1/2", name: str = "c1") -> Supply:
    return Supply(name, "cold", points, size=size, down=down)  # type: ignore[arg-type]


@pytest.mark.parametrize(("size", "apart"), [("1/2", 10.0), ("3/4", 14.0)])
def test_two_bends_want_both_their_radii_between_them(size: str, apart: float) -> None:
    # a square bend takes its radius on each side: 5 + 5 and 7 + 7
    at, after = (40.0, 0.0), (40.0, apart)
    assert kinds(line((0.0, 0.0), at, after, (80.0, apart), size=size)) == {
        at: "tube_bend_support",
        after: "tube_bend_support",
    }
    near = (40.0, apart - SIXTEENTH)
    # a sixteenth short, one of the two is an elbow: the rest is then more than enough
    assert kinds(line((0.0, 0.0), at, near, (80.0, apart - SIXTEENTH), size=size)) == {
        at: "tube_bend_support",
        near: "tube_elbow",
    }


def test_a_half_turn_takes_less() -> None:
    # 45 degrees: 5 x tan 22.5 = 2.0711 on each side of the corner; the inlet's valve takes 1.125
    long = 5.0 * 0.414214 + 1.125
    for reach, fits in ((long + 0.001, True), (long - SIXTEENTH, False)):
        plan = drawn(line((0.0, 0.0), (reach, 0.0), (reach + 40.0, 40.0)))
        made, faults = joints(plan, WaterNetwork(plan))
        # no elbow is made for 45 degrees: a stretch too short is told, not bought
        assert [one.kind for one in made if one.at == (reach, 0.0)] == ["tube_bend_support"]
        assert bool(faults) is not fits


def test_a_bend_beside_a_tee_wants_its_radius_and_half_the_tee() -> None:
    # 5 + 1 1/8
    main = line((0.0, 0.0), (100.0, 0.0))
    for apart, kind in ((6.125, "tube_bend_support"), (6.0625, "tube_elbow")):
        branch = line((50.0, 0.0), (50.0, apart), (90.0, apart), name="c2")
        halves = (line((0.0, 0.0), (50.0, 0.0)), line((50.0, 0.0), (100.0, 0.0), name="c3"))
        assert kinds(*halves, branch) == {(50.0, apart): kind}
    assert kinds(main) == {}


def test_vertices_passed_straight_do_not_part_a_stretch() -> None:
    # 4 and 6 in make 10
    straight = line((0.0, 0.0), (40.0, 0.0), (40.0, 4.0), (40.0, 10.0), (80.0, 10.0))
    assert set(kinds(straight).values()) == {"tube_bend_support"}
    # in another run it is the same tube
    first, second = line((0.0, 0.0), (40.0, 0.0), (40.0, 4.0)), line((40.0, 4.0), (40.0, 10.0), (80.0, 10.0), name="c2")
    assert set(kinds(first, second).values()) == {"tube_bend_support"}


def test_of_three_bends_too_close_only_the_middle_one_is_an_elbow() -> None:
    # 8 in twice: bend and elbow take 5 + 1.125 = 6.125
    steps = line((0.0, 0.0), (40.0, 0.0), (40.0, 8.0), (48.0, 8.0), (48.0, 80.0))
    assert list(kinds(steps).values()) == ["tube_bend_support", "tube_elbow", "tube_bend_support"]


@pytest.mark.parametrize(("down", "kind"), [(5.0, "tube_bend_support"), (5.0 - SIXTEENTH, "tube_elbow")])
def test_a_tube_that_turns_up_is_plumb_before_it_enters_the_floor(down: float, kind: str) -> None:
    # the holes in floor and sole plate are straight: the bend's 5 in lie under the joists' top
    rise = line((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), down=down)
    assert kinds(rise, fixtures=(LAVATORY,))[(100.0, 100.0)] == kind


def test_in_the_middle_of_a_2x10_no_half_inch_tube_is_bent_up() -> None:
    # 9 1/4 / 2 = 4 5/8
    rise = line((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), down=None)
    plan = replace(drawn(rise, fixtures=(LAVATORY,)), fields=(JoistField("f1", (0.0, 0.0), (200.0, 200.0)),))
    made, _ = joints(plan, WaterNetwork(plan))
    assert next(one.kind for one in made if one.at == (100.0, 100.0)) == "tube_elbow"


def test_where_even_elbows_do_not_fit_it_is_found() -> None:
    # two halves of 1 1/8 in
    def found(apart: float) -> list[tuple[str, float | None, float | None]]:
        plan = drawn(line((0.0, 0.0), (40.0, 0.0), (40.0, apart), (80.0, apart)))
        return [(one.weight, one.measured, one.limit) for one in study(plan).findings if one.rule == "no-room"]

    assert found(2.25) == []
    assert found(2.25 - SIXTEENTH) == [("stop", 2.1875, 2.25)]


def test_an_elbow_too_near_under_the_floor_is_found() -> None:
    def found(down: float) -> list[tuple[float | None, float | None]]:
        plan = drawn(line((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), down=down), fixtures=(LAVATORY,))
        return [(one.measured, one.limit) for one in study(plan).findings if one.rule == "no-room"]

    assert found(1.125) == []
    assert found(1.0625) == [(1.0625, 1.125)]
