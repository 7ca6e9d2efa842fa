"""Where cold and hot water come up at each fixture, and that supply ends go along with them.

Hot on the left as one faces a fixture: IRC 2021 P2722.2, from memory. Offsets: common practice, from memory.
"""

from __future__ import annotations

import pytest

from engine.drafting.stubs import FEW, all_stubs, follow, stubs
from engine.plan import edits
from engine.plan.records import Fixture, FixtureKind, Floor, Plan, Supply, Wall
from engine.trade.fixtures import KINDS
from engine.trade.fixtures import fixture as spec_of


def of(kind: FixtureKind, turn: float, *walls: Wall, **more: object) -> dict[str, tuple[float, float]]:
    made = Fixture(id="f1", kind=kind, at=(100.0, 100.0), turn=turn, **more)  # type: ignore[arg-type]
    return {stub.water: stub.at for stub in stubs(made, walls)}


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_a_stub_for_each_water_that_it_takes_or_gives(kind: FixtureKind) -> None:
    spec = spec_of(kind)
    wanted = {water for water, is_so in (("cold", spec.cold), ("hot", spec.hot)) if is_so}
    assert set(of(kind, 270.0)) == wanted


@pytest.mark.parametrize("kind", ["lavatory", "kitchen_sink", "washer_standpipe"])
def test_beside_an_outlet_in_the_wall_hot_is_on_the_left_of_one_who_faces_it(kind: FixtureKind) -> None:
    """Its front looks south, so one who faces it looks north and has west at the left hand: 4 in to each side."""
    assert of(kind, 270.0) == {"cold": (104.0, 100.0), "hot": (96.0, 100.0)}
    assert of(kind, 180.0) == {"cold": (100.0, 96.0), "hot": (100.0, 104.0)}


def test_a_closets_cold_comes_up_in_the_wall_behind_to_the_left_of_the_bowl() -> None:
    """12 in to the finished wall, half an inch of board, half of 3-1/2 in of stud: 14-1/4 (worked by hand)."""
    assert of("water_closet", 270.0) == {"cold": (94.0, 114.25)}


def test_a_thicker_wall_is_met_on_its_own_centre_line() -> None:
    """A 2x6 wall with its finished face 12 in behind the outlet: 12 + 1/2 + 5-1/2 / 2 = 15-1/4 (worked by hand)."""
    wall = Wall(id="w1", start=(0.0, 115.25), end=(200.0, 115.25), lumber="2x6")
    assert of("water_closet", 270.0, wall) == {"cold": (94.0, 115.25)}


def test_a_showers_valve_is_in_the_wall_behind_and_a_tubs_over_its_drain() -> None:
    """Shower: 16 in to the back of the pan and 2-1/4 on. Tub: the shoe is 8 in from its end; its middle lies
    30 / 2 - 14 = 1 in before the shoe (worked by hand)."""
    assert of("shower", 270.0) == {"cold": (104.0, 118.25), "hot": (96.0, 118.25)}
    left = of("bathtub", 270.0, trap_at=(106.0, 100.0))
    assert left == {"cold": (110.25, 95.0), "hot": (110.25, 103.0)}
    right = of("bathtub", 270.0, trap_at=(94.0, 100.0))
    assert right == {"cold": (89.75, 103.0), "hot": (89.75, 95.0)}


def test_a_heater_has_cold_on_the_right_and_hot_on_the_left_of_its_top() -> None:
    """Its top's middle lies half of 20 in before the wall's face, which is 2-1/4 in off the centre line."""
    assert of("water_heater", 270.0) == {"cold": (104.0, 87.75), "hot": (96.0, 87.75)}


def plan(*supplies: Supply) -> Plan:
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (200.0, 0.0), (200.0, 200.0), (0.0, 200.0))),
        fixtures=(Fixture(id="f1", kind="lavatory", at=(100.0, 100.0)),),
        supplies=supplies,
    )


def test_supply_ends_go_where_their_stub_goes() -> None:
    before = plan(
        Supply(id="s1", water="cold", points=((104.0, 20.0), (104.0, 100.0))),
        Supply(id="s2", water="hot", points=((96.0, 20.0), (96.0, 100.0))),
        Supply(id="s3", water="cold", points=((96.0, 30.0), (96.0, 100.0))),
    )
    moved = follow(before, edits.move(before, ["f1"], 10.0, 5.0))
    assert moved.supplies[0].points == ((104.0, 20.0), (114.0, 105.0))
    assert moved.supplies[1].points == ((96.0, 20.0), (106.0, 105.0))
    assert moved.supplies[2] is before.supplies[2]
    turned = follow(before, edits.rotate_fixture(before, "f1", 180.0))
    assert turned.supplies[0].points[-1] == (100.0, 96.0)
    assert {stub.at for stub in all_stubs(turned)} == {(100.0, 96.0), (100.0, 104.0)}


def test_a_supply_that_moved_with_its_fixture_is_not_carried_twice() -> None:
    before = plan(Supply(id="s1", water="cold", points=((104.0, 20.0), (104.0, 100.0))))
    moved = edits.move(before, ["f1", "s1"], 0.0, 8.0)
    assert follow(before, moved) is moved
    assert follow(before, before) is before


def test_among_many_walls_the_stubs_are_the_same() -> None:
    """More walls than are looked through one by one, all far off but one: the 2x6 wall behind the closet."""
    far = tuple(Wall(id=f"w{k}", start=(0.0, 1000.0 + k), end=(200.0, 1000.0 + k)) for k in range(FEW + 1))
    behind = Wall(id="w", start=(0.0, 115.25), end=(200.0, 115.25), lumber="2x6")
    closet = Fixture(id="f1", kind="water_closet", at=(100.0, 100.0))
    crowded = Plan(floor=plan().floor, walls=(*far, behind), fixtures=(closet,))
    assert all_stubs(crowded) == stubs(closet, (behind,))
