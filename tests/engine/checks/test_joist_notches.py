"""Notches: how deep, how long, where along the span, and the plates that shield them (P2603.2.1).

Limits: IRC 2021 R502.8.1. Runs cross joist F.3 (x 48) of a floor 120 x 108 square, at a given height, unless told
otherwise. Pipe outsides 1.900, 2.375, 3.500 and bits 2-1/8, 2-9/16, 3-5/8 in.
"""

from __future__ import annotations

import math

import pytest

from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from tests.engine.checks.joist_model import Run, amended, broken, kind, only


class TestNotchTooDeep:
    # 1-1/2 in pipe notched from the top: depth = 0.95 - z; 2x10: d/6 = 1.5417
    @pytest.mark.parametrize(("depth", "expected"), [(1.0, Holds), (9.25 / 6, Holds), (9.25 / 6 + 1 / 16, Finding)])
    def test_to_the_sixteenth(self, depth: float, expected: type[Outcome]) -> None:
        assert kind(only("notch-too-deep", Run(z=0.95 - depth, passing="notched"))) is expected

    def test_a_notch_in_the_bottom_of_a_2x8_for_a_drain(self) -> None:
        # joists with bearings 4 in wide at both ends, clear span 120 from y 0 to 120 of the joist's own; notch at 48:
        # floor 131 long, joist 128, bearings 4: clear y 5.5 to 125.5, so 48 from the face is y 53.5
        run = Run(y=53.5, z=-7.25 + 0.95, passing="notched")
        given = {"lumber": "2x8", "size": (120.0, 131.0), "end_bearing": 5.5}
        deep = broken("notch-too-deep", run, **given)
        assert (deep.measured, deep.limit) == (pytest.approx(1.9), pytest.approx(1.2083, abs=5e-5))
        # 7-1/4 deep takes a 2-1/8 bore with its centre 3-1/16 to 4-3/16 down: from 6.3 raise it 2-1/8
        assert "Bore it instead with a 2-1/8 in bit. Raise it 2 1/8 in here" in deep.mend
        assert "3 1/16 to 4 3/16 in down" in deep.mend
        place = broken("notch-in-middle-third", run, **given)
        # 48 + 0.95 from the face, middle third from 40 to 80 of 120
        assert (place.measured, place.limit) == (pytest.approx(48.95), pytest.approx(40.0))
        assert kind(only("notch-too-long", run, **given)) is Holds

    def test_without_a_bearing_it_is_judged_as_far_as_it_can_be(self) -> None:
        assert kind(only("notch-too-deep", Run(z=-0.4, passing="notched"), end_bearing=0.0)) is Holds
        found = only("notch-too-deep", Run(z=-1.0, passing="notched"), end_bearing=0.0)
        assert isinstance(found, NotJudged)
        assert found.missing == "the bearing of joist F.3 is not drawn"
        assert kind(only("notch-too-deep", Run(z=-1.5, passing="notched"), end_bearing=0.0)) is Finding

    def test_not_applied_and_not_judged(self) -> None:
        assert kind(only("notch-too-deep", Run())) is DoesNotApply
        assert kind(only("notch-too-deep", Run(z=None, passing="notched"))) is NotJudged
        assert kind(only("notch-too-deep", Run(y=3.0, z=-1.0, passing="notched"), end_bearing=5.5)) is DoesNotApply

    def test_an_amended_share(self) -> None:
        amend = amended("joist.notch.depth_fraction", 0.125)
        assert kind(only("notch-too-deep", Run(z=-0.4, passing="notched"), amend=amend)) is Finding


class TestEndNotchTooDeep:
    # bearing 5-1/2 from outside leaves y 1.5 to 5.5; the notch at y 3 lies y 2.05 to 3.95; 2x10: d/4 = 2.3125
    @pytest.mark.parametrize(("depth", "expected"), [(2.0, Holds), (2.3125, Holds), (2.375, Finding)])
    def test_to_the_sixteenth(self, depth: float, expected: type[Outcome]) -> None:
        found = only("end-notch-too-deep", Run(y=3.0, z=0.95 - depth, passing="notched"), end_bearing=5.5)
        assert kind(found) is expected
        if isinstance(found, Finding):
            assert (found.measured, found.limit) == (pytest.approx(2.375), pytest.approx(2.3125))

    def test_it_does_not_apply_away_from_the_bearing(self) -> None:
        assert kind(only("end-notch-too-deep", Run(y=5.0, z=-1.5, passing="notched"), end_bearing=5.5)) is DoesNotApply

    def test_not_judged_without_a_height(self) -> None:
        assert kind(only("end-notch-too-deep", Run(y=3.0, z=None, passing="notched"))) is NotJudged


class TestNotchTooLong:
    @pytest.mark.parametrize(("depth", "expected"), [(5.7, Holds), (5.7 - 3 / 16, Finding)])
    def test_to_the_sixteenth(self, depth: float, expected: type[Outcome]) -> None:
        # 1.9 in long: a joist 5.7 deep allows 1.9, one 3/16 shallower a sixteenth less
        found = only("notch-too-long", Run(z=0.5, passing="notched"), lumber="2x6", depth=depth)
        assert kind(found) is expected

    def test_at_an_angle_it_is_longer(self) -> None:
        # 1-1/2 + 1.9 x 1.41421 = 4.187 > 3.0833
        found = broken("notch-too-long", Run(z=0.5, passing="notched", points=((40.0, 12.0), (56.0, 28.0))))
        assert found.measured == pytest.approx(1.5 + 1.9 * math.sqrt(2.0))
        assert "Square across it would be shorter" in found.text

    def test_not_applied_and_not_judged(self) -> None:
        assert kind(only("notch-too-long", Run())) is DoesNotApply
        assert kind(only("notch-too-long", Run(z=None, passing="notched"))) is NotJudged


class TestMiddleThird:
    # clear span 101 from y 3.5 to 104.5; a third is 33.6667; notches are 1.9 long
    @pytest.mark.parametrize(
        ("y", "expected"),
        [(3.5 + 101 / 3 - 0.95, Holds), (3.5 + 101 / 3 - 0.95 + 1 / 16, Finding), (54.0, Finding), (80.0, Holds)],
    )
    def test_notch_to_the_sixteenth(self, y: float, expected: type[Outcome]) -> None:
        assert kind(only("notch-in-middle-third", Run(y=y, z=0.5, passing="notched"))) is expected

    def test_measured_from_the_nearer_support(self) -> None:
        found = broken("notch-in-middle-third", Run(y=68.0, z=0.5, passing="notched"))
        # 104.5 - (68 - 0.95)
        assert (found.measured, found.limit) == (pytest.approx(37.45), pytest.approx(101 / 3))
        assert "at its north end" in found.text

    def test_not_judged_without_two_bearings(self) -> None:
        run = Run(z=0.5, passing="notched")
        none = only("notch-in-middle-third", run, end_bearing=0.0)
        one = only("notch-in-middle-third", run, end_bearing=0.0, bearings=(54.0,))
        overhang = only("notch-in-middle-third", run, end_bearing=0.0, bearings=(40.0, 80.0))
        assert isinstance(none, NotJudged)
        assert isinstance(one, NotJudged)
        assert isinstance(overhang, NotJudged)
        assert "not drawn" in none.missing
        assert "second bearing" in one.missing
        assert "overhang" in overhang.missing

    def test_bores_may_lie_there_unless_refused(self) -> None:
        assert kind(only("bore-in-middle-third", Run(y=54.0))) is DoesNotApply
        refused = amended("joist.bore.middle_allowed", False)
        found = broken("bore-in-middle-third", Run(y=54.0), amend=refused)
        # the middle third of a deeper joist is its middle third as well
        assert "run it in the bay" in found.mend and "frame with" not in found.mend
        assert found.cites == "IRC 2021 R502.8.1, amended"
        assert kind(only("bore-in-middle-third", Run(y=20.0), amend=refused)) is Holds
        assert kind(only("bore-in-middle-third", Run(y=54.0), amend=refused, end_bearing=0.0)) is NotJudged


class TestShieldPlate:
    def test_a_lawful_notch_wants_one(self) -> None:
        found = broken("shield-plate-needed", Run(z=0.5, passing="notched"))
        assert (found.weight, found.measured, found.limit) == ("note", 0.0, 1.25)
        assert found.cites == "IRC 2021 P2603.2.1"

    def test_a_lawful_bore_never_does(self) -> None:
        assert kind(only("shield-plate-needed", Run(z=-6.1875))) is Holds

    @pytest.mark.parametrize(("wood", "expected"), [(1.25, Holds), (1.25 - 1 / 16, Finding)])
    def test_a_bore_nearer_by_local_leave(self, wood: float, expected: type[Outcome]) -> None:
        run = Run(z=-wood - 1.0625)
        assert kind(only("shield-plate-needed", run, amend=amended("joist.bore.edge", 1.0))) is expected

    def test_it_does_not_apply_to_a_cut_that_has_to_go(self) -> None:
        assert kind(only("shield-plate-needed", Run(z=-0.9))) is DoesNotApply

    def test_not_judged_without_a_height(self) -> None:
        assert kind(only("shield-plate-needed", Run(z=None))) is NotJudged
