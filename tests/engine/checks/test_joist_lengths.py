"""Joists longer than lumber is sold (common practice, no source), laps (IRC 2021 R502.6.1) and what they rest on (R502.6)."""

from __future__ import annotations

from typing import Any

import pytest

from engine.checks.joist_lengths import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome
from engine.plan.records import Beam, Floor, JoistField, Plan
from engine.study import work_out

JUDGES = {rule.id: rule.judge for rule in RULES}


def only(rule: str, long: float = 300.0, beams: tuple[Beam, ...] = (), **given: Any) -> Outcome:
    field = JoistField(**({"id": "j1", "corner": (0.0, 0.0), "size": (120.0, long)} | given))
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, long), (0.0, long))
    (found,) = JUDGES[rule](work_out(Plan(floor=Floor(outline=outline), fields=(field,), beams=beams)))
    return found


class TestLengths:
    # joists are 3 in shorter than the floor; 20 ft = 240 in
    @pytest.mark.parametrize(("long", "expected"), [(243.0, Holds), (243.0625, Finding)])
    def test_twenty_feet_is_the_longest_that_is_usually_sold(self, long: float, expected: type[Outcome]) -> None:
        found = only("joist-longer-than-sold", long)
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.weight, found.measured, found.limit, found.cites) == (
                "look",
                240.0625,
                240.0,
                "common practice",
            )
            assert "in some yards up to 24'-0\"" in found.text
            assert "no bearing between its ends" in found.text

    def test_past_what_any_yard_has_none_is_named(self) -> None:
        found = only("joist-longer-than-sold", 291.0625)
        assert isinstance(found, Finding)
        assert "some yards" not in found.text

    def test_the_bearing_to_join_them_over_is_named(self) -> None:
        # centre 140 in from outside, 138-1/2 from the joist's end
        found = only("joist-longer-than-sold", bearings=(140.0,))
        assert isinstance(found, Finding)
        assert "over the bearing 11'-6 1/2\" from its south end" in found.text

    def test_laps_and_beams_at_their_level_make_shorter_ones(self) -> None:
        assert type(only("joist-longer-than-sold", bearings=(140.0,), laps=(140.0,))) is Holds
        assert (
            type(only("joist-longer-than-sold", beams=(Beam("b1", (0.0, 150.0), (120.0, 150.0), top_z=0.0),))) is Holds
        )

    def test_engineered_joists_do_not_apply(self) -> None:
        assert type(only("joist-longer-than-sold", member="engineered")) is DoesNotApply


class TestLaps:
    @pytest.mark.parametrize(("lap", "expected"), [(3.0, Holds), (2.9375, Finding)])
    def test_three_inches_at_least(self, lap: float, expected: type[Outcome]) -> None:
        found = only("lap-too-short", bearings=(140.0,), laps=(140.0,), lap=lap)
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.weight, found.limit, found.cites) == ("stop", 3.0, "IRC 2021 R502.6.1")
            assert "nailed face to face with 3 10d nails" in found.text

    def test_without_laps_nothing_applies(self) -> None:
        assert type(only("lap-too-short")) is DoesNotApply
        assert type(only("joined-off-its-bearing")) is DoesNotApply

    # a lap of 3 in about 140 + off: the south joist ends at 141-1/2 + off, the bearing lies from 138-1/4 to 141-3/4;
    # the north one begins at 138-1/2 + off. Butted end joists end at 140 + off: north of there 1-3/4 - off rests
    @pytest.mark.parametrize(
        ("off", "expected"), [(0.25, Holds), (0.3125, Finding), (-0.25, Holds), (-0.3125, Finding)]
    )
    def test_each_end_rests_an_inch_and_a_half(self, off: float, expected: type[Outcome]) -> None:
        found = only("joined-off-its-bearing", bearings=(140.0,), laps=(140.0 + off,), lap=3.0)
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.measured, found.limit, found.cites) == (1.4375, 1.5, "IRC 2021 R502.6")

    def test_joined_where_no_bearing_is(self) -> None:
        found = only("joined-off-its-bearing", bearings=(140.0,), laps=(100.0,))
        assert isinstance(found, Finding)
        assert (found.measured, found.weight) == (0.0, "stop")
        assert "rests on no bearing" in found.text

    def test_over_a_beam_under_them_it_holds(self) -> None:
        under = Beam("b1", (0.0, 150.0), (120.0, 150.0))
        assert type(only("joined-off-its-bearing", beams=(under,), laps=(150.0,))) is Holds
