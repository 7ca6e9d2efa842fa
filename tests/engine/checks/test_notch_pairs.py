"""Two notches at one place: as one they would be held to d/6 deep and d/3 long (IRC 2021 R502.8.1); of two the code is silent."""

from __future__ import annotations

from typing import Any

import pytest

from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged
from engine.plan.records import Supply
from tests.engine.checks.joist_model import Run, broken, kind, model_of, outcomes

RULE = "notches-together"


def tube(along: float, down: float = 0.4375, name: str = "c", **given: Any) -> Supply:
    """Bare 3/4 in tube, 0.875 outside, square across one 2x10: its notch is 7/8 in deep where its axis is 7/16 in down."""
    return Supply(name, "cold", ((56.0, along), (43.0, along)), "3/4", down, 0.0, given.pop("passing", "notched"))


def findings(*supplies: Supply) -> list[Finding]:
    return [found for found in outcomes(RULE, model_of(supplies=supplies)) if isinstance(found, Finding)]


class TestSideBySide:
    @pytest.mark.parametrize(("apart", "found"), [(2.1875, False), (2.25, True), (2.8125, True), (2.875, False)])
    def test_by_the_length_of_both_with_the_wood_between(self, apart: float, found: bool) -> None:
        """0.875 + 2.1875 = 3.0625, under 9.25 / 3 = 3.083; from 2.875 apart on, 2 in of wood stand between them."""
        assert bool(findings(tube(20.0), tube(20.0 + apart, name="h"))) is found

    def test_touching(self) -> None:
        """Two of 7/8 in with no wood between: 1.75 in, as one may be."""
        assert findings(tube(20.0), tube(20.875, name="h")) == []

    def test_told_once_with_its_numbers(self) -> None:
        (found,) = findings(tube(20.0), tube(22.5, name="h"))
        assert (found.weight, found.measured, found.unit) == ("look", pytest.approx(3.375), "in")
        assert found.limit == pytest.approx(9.25 / 3.0)
        assert found.elements == ("c", "h", "F.3")
        assert "side by side and take 3.375 in of its top edge; one may be 3 1/16 in long at most" in found.text

    def test_in_a_shallow_joist(self) -> None:
        """Hot and cold 1 in apart: 1.875 against 5.5 / 3 = 1.833."""
        found = broken(RULE, supplies=(tube(20.0), tube(21.0, name="h")), lumber="2x6")
        assert (found.measured, found.limit) == (pytest.approx(1.875), pytest.approx(5.5 / 3.0))


class TestFacing:
    @pytest.mark.parametrize(("depth", "found"), [(0.625, False), (0.6875, True)])
    def test_by_the_depth_of_both(self, depth: float, found: bool) -> None:
        """0.875 + 0.625 = 1.5, under 9.25 / 6 = 1.542; 1/16 in deeper is over."""
        below = tube(20.0, 9.25 - depth + 0.4375, "h")
        assert bool(findings(tube(20.0), below)) is found

    def test_beside_each_other_too_while_little_wood_stands_between(self) -> None:
        assert findings(tube(20.0), tube(22.0, 8.8125, "h"))
        assert findings(tube(20.0), tube(22.875, 8.8125, "h")) == []

    def test_its_words(self) -> None:
        (found,) = findings(tube(20.0), tube(20.0, 8.8125, "h"))
        assert (found.measured, found.limit) == (pytest.approx(1.75), pytest.approx(9.25 / 6.0))
        assert "face each other and take 1.750 in of its depth; one may be 1 1/2 in deep at most" in found.text
        assert found.mend.startswith("Bore for one of them")


def test_what_is_no_notch_does_not_apply_and_one_alone_holds() -> None:
    assert [kind(one) for one in outcomes(RULE, model_of(Run()))] == [DoesNotApply]
    assert [kind(one) for one in outcomes(RULE, model_of(supplies=(tube(20.0),)))] == [Holds]


def test_not_judged_where_no_height_is_known() -> None:
    assert [kind(one) for one in outcomes(RULE, model_of(Run(z=None, passing="notched")))] == [NotJudged]
