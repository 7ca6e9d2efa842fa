"""Fixtures set down with all that belongs to them."""

from __future__ import annotations

from typing import get_args

import pytest

from engine.drafting.placing import place_fixture, trap_under
from engine.plan.edits import EditError
from engine.plan.file import dumps, loads
from engine.plan.records import FixtureKind
from engine.plan.start import new_floor
from engine.plan.welds import FLOOR_OUTLETS, WALL_OUTLETS
from engine.trade.fixtures import fixture


def test_where_fixtures_drain_agrees_with_the_trade() -> None:
    outlets = {kind: fixture(kind).outlet for kind in get_args(FixtureKind)}
    assert {kind for kind, outlet in outlets.items() if outlet in ("closet", "floor", "tub")} == FLOOR_OUTLETS
    assert {kind for kind, outlet in outlets.items() if outlet == "wall"} == WALL_OUTLETS
    assert [kind for kind, outlet in outlets.items() if outlet == "tub"] == ["bathtub"]


@pytest.mark.parametrize("kind", sorted(WALL_OUTLETS))
def test_what_empties_into_a_wall_gets_a_riser_there(kind: FixtureKind) -> None:
    plan = place_fixture(new_floor(120, 240), kind, (60, 238.25), 270)
    assert plan.fixtures[-1].at == plan.risers[-1].at == (60.0, 238.25)
    assert plan.risers[-1].wall == "w3"
    again = place_fixture(plan, kind, (60, 238.25), 90)
    assert len(again.risers) == 1
    assert [one.id for one in again.fixtures] == ["f1", "f2"]


def test_away_from_any_wall_the_riser_stands_free() -> None:
    plan = place_fixture(new_floor(120, 240), "lavatory", (60, 120))
    assert plan.risers[0].wall is None


@pytest.mark.parametrize("kind", sorted(set(get_args(FixtureKind)) - WALL_OUTLETS))
def test_the_others_get_none(kind: FixtureKind) -> None:
    plan = place_fixture(new_floor(120, 240), kind, (60.00001, 120))
    assert plan.risers == ()
    assert plan.fixtures[0].at == (60.0, 120.0)
    assert (plan.fixtures[0].trap_at is not None) == (kind == "bathtub")
    assert loads(dumps(plan)) == plan


@pytest.mark.parametrize(
    ("turn", "trap"), [(0, (60.0, 126.0)), (90, (54.0, 120.0)), (180, (60.0, 114.0)), (270, (66.0, 120.0))]
)
def test_a_tubs_trap_hangs_toward_its_end(turn: float, trap: tuple[float, float]) -> None:
    # the trade's table: drain shoe 8 in and overflow tee 2 in from the tub's end, so 6 in apart
    spec = fixture("bathtub")
    assert (spec.outlet_from_side, spec.trap_from_side) == (8.0, 2.0)
    assert place_fixture(new_floor(120, 240), "bathtub", (60, 120), turn).fixtures[0].trap_at == trap
    assert trap_under("bathtub", (60.0, 120.0), turn) == trap


def test_a_place_that_is_none_is_refused() -> None:
    with pytest.raises(EditError, match="finite"):
        place_fixture(new_floor(120, 240), "shower", (float("nan"), 0))
    with pytest.raises(EditError, match="f1: at: expected x"):
        place_fixture(new_floor(120, 240), "shower", (20000, 0))
    with pytest.raises(EditError, match="turn"):
        place_fixture(new_floor(120, 240), "shower", (0, 0), 999999)


def test_a_dishwasher_beside_a_sink_drains_through_it() -> None:
    """Common practice, no source: by a branch tailpiece over the sink's trap; a hose reaches some 4 ft (from memory)."""
    from engine.plan.records import Floor, Plan

    floor = Plan(floor=Floor(outline=((0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0))))
    plan = place_fixture(floor, "kitchen_sink", (100.0, 100.0))
    beside = place_fixture(plan, "dishwasher", (130.0, 100.0))
    assert beside.fixtures[-1].through == plan.fixtures[-1].id
    assert beside.risers == plan.risers
    alone = place_fixture(plan, "dishwasher", (149.0, 100.0))
    assert alone.fixtures[-1].through is None
    assert len(alone.risers) == len(plan.risers) + 1
