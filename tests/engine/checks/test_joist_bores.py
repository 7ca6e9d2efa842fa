"""Bores: how wide, how near an edge, how near each other.

Limits: IRC 2021 R502.8.1. Runs cross joist F.3 (x 48) of a floor 120 x 108 square, at a given height, unless told
otherwise. Pipe outsides 1.900, 2.375, 3.500 and bits 2-1/8, 2-9/16, 3-5/8 in.
"""

from __future__ import annotations

from typing import Any

import pytest

from engine.checks.joist_cuts import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.plan.records import Supply
from tests.engine.checks.joist_model import Run, amended, broken, kind, model_of, only, outcomes


class TestBoreTooLarge:
    """ "bore-too-large"."""

    @pytest.mark.parametrize(
        ("lumber", "size", "holds"),
        [
            ("2x6", 1.5, False),
            ("2x8", 1.5, True),
            ("2x8", 2.0, False),
            ("2x10", 2.0, True),
            ("2x10", 3.0, False),
            ("2x12", 3.0, True),
        ],
    )
    def test_by_the_bit(self, lumber: str, size: float, holds: bool) -> None:
        found = only("bore-too-large", Run(size=size, z=-3.6), lumber=lumber)
        assert kind(found) is (Holds if holds else Finding)

    @pytest.mark.parametrize(("depth", "expected"), [(6.375, Holds), (6.375 - 1 / 16, Finding)])
    def test_at_the_limit_and_a_sixteenth_past_it(self, depth: float, expected: type[Outcome]) -> None:
        # 6-3/8 / 3 = 2-1/8, the bit of 1-1/2 in pipe; d - 4 is 2-3/8
        assert kind(only("bore-too-large", Run(z=-3.2), lumber="2x6", depth=depth)) is expected

    def test_three_inch_drain_through_2x10s(self) -> None:
        found = broken("bore-too-large", Run(size=3.0))
        assert (found.weight, found.measured, found.unit) == ("stop", 3.5, "in")
        assert found.limit == pytest.approx(9.25 / 3)
        assert found.elements == ("d0", "F.3")
        assert found.at == (48.0, 20.0, -4.6)
        assert found.cites == "IRC 2021 R502.8.1"
        # 3.5 - 3.0833
        assert "over by 7/16 in before any play" in found.text
        assert "Another place along the span does not change that" in found.text
        assert "doubling the joist does not help" in found.text
        for way in ("in the bay", "below", "head the joist off", "2x12"):
            assert way in found.mend

    def test_pipe_that_fits_on_paper_is_judged_by_its_bit(self) -> None:
        # 2 in pipe, 2.375 outside, in a 2x8: 2.375 <= 2.4167, but the bit is 2-9/16
        found = broken("bore-too-large", Run(size=2.0, z=-3.6), lumber="2x8")
        assert found.measured == 2.5625
        assert found.limit == pytest.approx(7.25 / 3)
        assert "needs a 2-9/16 in bit" in found.text
        assert "before any play" not in found.text
        # limits are printed on the safe side: 2.4167 is 2 3/8
        assert "2 3/8 in wide at most" in found.text
        # 2.4167 - 2.375
        assert "would pass with 0.042 in of play, which is on paper only" in found.text

    def test_a_joist_that_takes_no_bore_says_so(self) -> None:
        found = broken("bore-too-large", Run(z=-1.75), lumber="2x4")
        assert found.limit == 0.0
        assert "may not be bored at all" in found.text

    def test_it_is_judged_where_no_height_is_known(self) -> None:
        assert kind(only("bore-too-large", Run(size=3.0, z=None))) is Finding
        assert kind(only("bore-too-large", Run(z=None))) is Holds

    @pytest.mark.parametrize(
        ("run", "given"),
        [
            (Run(size=3.0, passing="notched"), {}),
            (Run(size=3.0, passing="under"), {}),
            (Run(size=3.0, z=-20.0), {}),
            (Run(size=3.0), {"member": "engineered"}),
            (Run(size=3.0, points=((40.0, 20.0), (40.0, 0.0))), {}),
        ],
    )
    def test_it_does_not_apply(self, run: Run, given: dict[str, Any]) -> None:
        assert kind(only("bore-too-large", run, **given)) is DoesNotApply

    def test_a_pipe_wider_than_any_bit_where_it_would_pass_is_not_judged(self) -> None:
        # 4 in pipe wants 4-9/16 or more: the 4-5/8 bit; a 1 in tube in 2 in of foam, 5.125, has none; 18 / 3 = 6
        wrapped = Supply("c", "cold", ((56.0, 20.0), (43.0, 20.0)), "1", insulation=2.0)
        found = only("bore-too-large", supplies=(wrapped,), depth=18.0)
        assert isinstance(found, NotJudged)
        assert "5.125" in found.missing

    def test_an_amended_share(self) -> None:
        assert kind(only("bore-too-large", Run(), lumber="2x8", amend=amended("joist.bore.fraction", 0.25))) is Finding

    def test_water_says_that_its_insulation_counts(self) -> None:
        # 1/2 in tube with 1/2 in of foam: 1.625 > 1.5
        supply = Supply("h", "hot", ((56.0, 20.0), (43.0, 20.0)), "1/2")
        found = broken("bore-too-large", supplies=(supply,), lumber="2x6")
        assert found.measured == 1.625
        assert found.cites == "IRC 2021 R502.8.1"
        assert "with its insulation" in found.text
        assert "take thinner insulation or end it at the joist's faces" in found.mend

    @pytest.mark.parametrize(
        ("size", "insulation", "lumber", "told"),
        [
            # bare 1 in tube is 1.125 wide and wants the 1-3/8 bit
            ("1", 0.5, "2x6", "end it at the joist's faces"),
            # 3-1/2 in deep: no bore at all, so that nothing smaller helps
            ("1/2", 0.0, "2x4", ""),
            ("1/2", 0.5, "2x4", ""),
        ],
    )
    def test_of_water_only_what_helps_is_offered(self, size: Any, insulation: float, lumber: str, told: str) -> None:
        supply = Supply("h", "hot", ((56.0, 20.0), (43.0, 20.0)), size, insulation=insulation)
        found = broken("bore-too-large", supplies=(supply,), lumber=lumber)
        assert told in found.mend
        assert "smaller tube" not in found.mend and ("insulation" in found.mend) == bool(told)

    def test_at_the_floors_edge_pipe_turns_down_before_the_end_joist(self) -> None:
        found = broken("bore-too-large", Run(size=3.0, points=((8.0, 20.0), (-2.0, 20.0))))
        assert found.elements == ("d0", "F.0")
        assert found.mend.startswith("Turn it down before it, run it below")
        assert "head" not in found.mend


class TestBoreNearEdge:
    @pytest.mark.parametrize(
        ("z", "expected"),
        [
            (-4.6, Holds),
            (-6.1875, Holds),
            (-6.1875 - 1 / 16, Finding),
            (-3.0625, Holds),
            (-3.0625 + 1 / 16, Finding),
        ],
    )
    def test_both_edges_to_the_sixteenth(self, z: float, expected: type[Outcome]) -> None:
        assert kind(only("bore-near-edge", Run(z=z))) is expected

    def test_too_low_says_how_far_to_raise_it_and_between_what(self) -> None:
        found = broken("bore-near-edge", Run(z=-6.5))
        # 9.25 - 6.5 - 1.0625
        assert (found.weight, found.measured, found.limit) == ("stop", pytest.approx(1.6875), 2.0)
        assert found.cites == "IRC 2021 R502.8.1"
        assert (
            found.mend
            == "Raise it 5/16 in here: the bore holds with its axis 3 1/16 to 6 3/16 in down from the joist's top."
        )

    def test_too_high(self) -> None:
        # a 2-9/16 bore whose top is 3/4 in below the joist's
        found = broken("bore-near-edge", Run(z=-0.75 - 2.5625 / 2, size=2.0))
        assert found.measured == pytest.approx(0.75)
        assert "0.750 in of wood above it" in found.text
        assert found.mend.startswith("Lower it 1 1/4 in here")

    def test_pipe_partly_under_the_joists_bottom_breaks_out_of_it(self) -> None:
        found = broken("bore-near-edge", Run(z=-9.0))
        # 9.25 - 9 - 1.0625
        assert found.measured == pytest.approx(-0.8125)
        assert (
            "breaks out 0.812 in below the joist" in found.text or "breaks out 0.813 in below the joist" in found.text
        )

    def test_not_asked_of_a_bore_that_is_too_wide_at_any_height(self) -> None:
        assert kind(only("bore-near-edge", Run(size=3.0, z=-8.0))) is DoesNotApply

    def test_not_judged_without_a_height(self) -> None:
        found = only("bore-near-edge", Run(z=None))
        assert isinstance(found, NotJudged)
        assert "height of d0" in found.missing

    def test_an_amended_edge(self) -> None:
        assert kind(only("bore-near-edge", Run(z=-6.5), amend=amended("joist.bore.edge", 1.5))) is Holds


class TestBoresCloseTogether:
    # two 2-1/8 bores at one height: 4-1/8 between centres leaves 2 in
    @pytest.mark.parametrize(("apart", "count"), [(4.125, 0), (4.125 - 1 / 16, 1), (2.0, 1), (50.0, 0)])
    def test_a_pair_is_told_once(self, apart: float, count: int) -> None:
        found = outcomes("bores-close-together", model_of(Run(y=20.0), Run(y=20.0 + apart)))
        assert len(found) == 2
        assert sum(isinstance(one, Finding) for one in found) == count
        assert any(isinstance(one, Holds) for one in found) is not bool(count)

    def test_drains_and_water_alike(self) -> None:
        # 2-1/8 and 1-7/8 bits at y 20 and 23: 3 - 1.0625 - 0.9375 = 1
        supply = Supply("c", "cold", ((56.0, 23.0), (43.0, 23.0)), "1/2", down=4.6)
        found = broken("bores-close-together", Run(), supplies=(supply,))
        assert found.measured == pytest.approx(1.0)
        assert (found.limit, found.elements) == (2.0, ("d0", "c", "F.3"))

    def test_bores_that_run_into_each_other(self) -> None:
        found = broken("bores-close-together", Run(), Run(y=21.0))
        assert found.measured == pytest.approx(1.0 - 2.125)
        assert found.text.startswith("No wood is left")

    def test_the_joist_beside_does_not_count(self) -> None:
        model = model_of(Run(), Run(y=21.0, points=((40.0, 21.0), (30.0, 21.0))))
        assert [kind(one) for one in outcomes("bores-close-together", model)] == [Holds, Holds]

    def test_not_judged_and_not_applied(self) -> None:
        assert kind(only("bores-close-together", Run(z=None))) is NotJudged
        assert kind(only("bores-close-together", Run(passing="notched", z=0.5))) is DoesNotApply

    def test_two_tubes_six_inches_apart_in_a_2x8(self) -> None:
        # 3/4 in tube, bit 1-1/8; at y 20 and 26: 6 - 1.125 = 4.875 of wood
        tubes = tuple(
            Supply(name, water, ((56.0, y), (43.0, y)), "3/4", down=3.6, insulation=0.0)  # type: ignore[arg-type]
            for name, water, y in (("c", "cold", 20.0), ("h", "hot", 26.0))
        )
        model = model_of(supplies=tubes, lumber="2x8")
        assert {cut.bit for cut in model.cuts} == {"1-1/8"}
        for rule in RULES:
            assert not [one for one in rule.judge(model) if isinstance(one, Finding)], rule.id


class TestBoreCloseToNotch:
    # a 3 in pipe notched 3.85 deep at y 20 reaches y 21.75; the 2-1/8 bore level with it ends 1.0625 before its centre
    @pytest.mark.parametrize(("y", "broken_"), [(20 + 1.75 + 2.0 + 1.0625, False), (20 + 1.75 + 2.0 + 1.0, True)])
    def test_to_the_sixteenth(self, y: float, broken_: bool) -> None:
        found = outcomes(
            "bore-close-to-notch", model_of(Run(y=20.0, z=-2.1, size=3.0, passing="notched"), Run(y=y, z=-3.3))
        )
        assert any(isinstance(one, Finding) for one in found) is broken_
        assert len(found) == 2

    def test_a_bore_under_a_notch(self) -> None:
        # the notch 1.2 deep; the bore's top 1.8 down at the same place: 0.6 between
        below = Run(z=-1.8 - 1.0625, points=((55.0, 20.0), (44.0, 20.0)))
        found = broken("bore-close-to-notch", Run(z=-0.25, passing="notched"), below)
        assert (found.measured, found.limit) == (pytest.approx(0.6), 2.0)
        assert found.elements == ("d0", "d1", "F.3")
        assert found.cites == "IRC 2021 R502.8.1"

    def test_two_notches_hold(self) -> None:
        model = model_of(Run(z=0.2, passing="notched"), Run(y=22.0, z=0.2, passing="notched"))
        assert [kind(one) for one in outcomes("bore-close-to-notch", model)] == [Holds, Holds]

    def test_not_judged_and_not_applied(self) -> None:
        assert kind(only("bore-close-to-notch", Run(z=None))) is NotJudged
        assert kind(only("bore-close-to-notch", Run(), member="engineered")) is DoesNotApply


class TestBoreTightOnPipe:
    @pytest.mark.parametrize(("foam", "expected"), [(0.0, Holds), (0.5625, Holds), (0.5925, Finding)])
    def test_play_of_an_eighth(self, foam: float, expected: type[Outcome]) -> None:
        # 1/2 in tube: 0.625 + 2 x 0.5625 = 1.75 in a 1-7/8 bore plays 1/8; 1.81 plays 0.065
        supply = Supply("c", "cold", ((56.0, 20.0), (43.0, 20.0)), "1/2", insulation=foam)
        found = only("bore-tight-on-pipe", supplies=(supply,))
        assert kind(found) is expected
        if isinstance(found, Finding):
            assert (found.weight, found.measured, found.limit) == ("look", pytest.approx(0.065), 0.125)

    def test_it_does_not_apply_to_a_bore_that_is_too_wide_or_to_a_notch(self) -> None:
        assert kind(only("bore-tight-on-pipe", Run(size=3.0))) is DoesNotApply
        assert kind(only("bore-tight-on-pipe", Run(passing="notched"))) is DoesNotApply


class TestBoreLongAtAnAngle:
    @pytest.mark.parametrize(("size", "expected"), [(1.5, Holds), (2.0, Finding)])
    def test_forty_five_degrees(self, size: float, expected: type[Outcome]) -> None:
        # 2.125 x 1.41421 = 3.0052 and 2.5625 x 1.41421 = 3.6239 against 3.0833
        found = only("bore-long-at-an-angle", Run(size=size, points=((40.0, 40.0), (56.0, 56.0))))
        assert kind(found) is expected
        if isinstance(found, Finding):
            assert (found.weight, found.measured) == ("look", pytest.approx(3.6239, abs=5e-5))
            assert "45 degrees from square" in found.text

    def test_it_does_not_apply_where_no_bore_is_lawful(self) -> None:
        assert kind(only("bore-long-at-an-angle", Run(size=3.0))) is DoesNotApply
