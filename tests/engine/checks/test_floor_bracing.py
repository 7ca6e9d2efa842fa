"""Joists held upright between their ends (IRC 2021 R502.7, R502.7.1) and overhangs (R502.3.3, from memory)."""

from __future__ import annotations

from typing import Any

import pytest

from engine.checks.floor_bracing import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.plan.records import Beam, Floor, JoistField, Plan
from engine.study import work_out

JUDGES = {rule.id: rule.judge for rule in RULES}


def only(rule: str, seismic: str | None = None, beams: tuple[Beam, ...] = (), **given: Any) -> Outcome:
    field = JoistField(**({"id": "j1", "corner": (0.0, 0.0), "size": (120.0, 240.0)} | given))
    (x, y), outline = field.size, ((0.0, 0.0), field.size)
    outline = ((0.0, 0.0), (x, 0.0), (x, y), (0.0, y))
    plan = Plan(floor=Floor(outline=outline, seismic=seismic), fields=(field,), beams=beams)  # type: ignore[arg-type]
    (found,) = JUDGES[rule](work_out(plan))
    return found


class TestBetweenTheEnds:
    def test_over_a_bearing_it_takes_the_sites_category(self) -> None:
        found = only("joists-unbraced-between", bearings=(120.0,))
        assert isinstance(found, NotJudged)
        assert found.missing == "the site's seismic design category"

    @pytest.mark.parametrize(
        ("category", "expected"),
        [("A", DoesNotApply), ("C", DoesNotApply), ("D0", Finding), ("D1", Finding), ("D2", Finding)],
    )
    def test_in_the_d_classes_a_row_of_blocks_is_asked_for(self, category: str, expected: type[Outcome]) -> None:
        found = only("joists-unbraced-between", category, bearings=(120.0,))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.weight, found.cites) == ("look", "IRC 2021 R502.7")
            assert "10'-0\" from the south outside face" in found.text

    # the bearing is 3-1/2 in wide, a block 1-1/2: its middle may stand 1-3/4 + 3/4 = 2-1/2 in from the bearing's
    @pytest.mark.parametrize(("at", "expected"), [(120.0, Holds), (122.5, Holds), (122.5625, Finding)])
    def test_the_row_stands_over_the_bearing(self, at: float, expected: type[Outcome]) -> None:
        assert type(only("joists-unbraced-between", "D1", bearings=(120.0,), blocking=(at,))) is expected

    def test_each_bearing_wants_its_row(self) -> None:
        found = only("joists-unbraced-between", "D2", bearings=(80.0, 160.0), blocking=(80.0,))
        assert isinstance(found, Finding)
        assert "over a bearing 13'-4\" from" in found.text

    def test_a_beam_under_them_and_the_foot_of_an_overhang_are_bearings_between(self) -> None:
        under = Beam("b1", (0.0, 120.0), (120.0, 120.0))
        assert type(only("joists-unbraced-between", "D1", beams=(under,))) is Finding
        assert type(only("joists-unbraced-between", "D1", overhangs=(24.0, 0.0))) is Finding

    def test_where_joists_are_joined_is_one_too(self) -> None:
        assert type(only("joists-unbraced-between", "D1", bearings=(120.0,), laps=(120.0,), lap=3.5)) is Finding
        assert type(only("joists-unbraced-between", "D1", bearings=(120.0,), laps=(120.0,), blocking=(120.0,))) is Holds

    def test_a_beam_that_they_hang_on_is_none(self) -> None:
        flush = Beam("b1", (0.0, 120.0), (120.0, 120.0), top_z=0.0)
        assert type(only("joists-unbraced-between", beams=(flush,))) is DoesNotApply

    def test_joists_from_end_to_end_and_engineered_ones_do_not_apply(self) -> None:
        assert type(only("joists-unbraced-between", "D1")) is DoesNotApply
        assert type(only("joists-unbraced-between", bearings=(120.0,), member="engineered")) is DoesNotApply


class TestBridging:
    # past 2x12: a full-sawn 2x12 of 12 in is none
    @pytest.mark.parametrize(("depth", "expected"), [(12.0, DoesNotApply), (12.0625, Finding)])
    def test_joists_past_twelve_inches_are_bridged(self, depth: float, expected: type[Outcome]) -> None:
        assert type(only("joists-unbridged", lumber="2x12", depth=depth)) is expected

    # joists begin 1-1/2 in from outside: a row at 97-1/2 is 96 in from their ends; the field is 195 in long
    @pytest.mark.parametrize(("long", "expected"), [(195.0, Holds), (195.0625, Finding)])
    def test_every_eight_feet(self, long: float, expected: type[Outcome]) -> None:
        found = only("joists-unbridged", depth=14.0, size=(120.0, long), blocking=(97.5,))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.measured, found.limit, found.cites) == (96.0625, 96.0, "IRC 2021 R502.7.1")


class TestOverhangs:
    # 2x10 is 10 in by its name
    @pytest.mark.parametrize(("long", "expected"), [(10.0, Holds), (10.0625, Finding)])
    def test_the_floor_alone_stands_out_the_nominal_depth(self, long: float, expected: type[Outcome]) -> None:
        found = only("overhang-too-long", overhangs=(0.0, long), overhang_carries="floor")
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.weight, found.limit, found.cites) == ("look", 10.0, "IRC 2021 R502.3.3")

    def test_what_it_carries_must_be_told(self) -> None:
        found = only("overhang-too-long", overhangs=(6.0, 0.0))
        assert isinstance(found, NotJudged)
        assert found.missing == "what the overhang of j1 carries"

    @pytest.mark.parametrize("load", ["wall and roof", "balcony"])
    def test_tables_that_were_not_read_judge_nothing(self, load: str) -> None:
        assert type(only("overhang-too-long", overhangs=(6.0, 0.0), overhang_carries=load)) is NotJudged

    def test_without_one_and_for_engineered_joists_it_does_not_apply(self) -> None:
        assert type(only("overhang-too-long", overhang_carries="floor")) is DoesNotApply
        assert type(only("overhang-too-long", overhangs=(60.0, 0.0), member="engineered")) is DoesNotApply
