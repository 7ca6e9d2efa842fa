"""Hangers at beams among the joists (IRC 2021 R502.6.2, from memory), and openings that such a beam would cross."""

from __future__ import annotations

import pytest

from engine.checks.flush_beams import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome
from engine.plan.records import Beam, Floor, FloorOpening, JoistField, Plan
from engine.study import work_out

JUDGES = {rule.id: rule.judge for rule in RULES}
FLUSH = Beam("b1", (1.5, 54.0), (118.5, 54.0), width=4.0, top_z=0.0)


def only(rule: str, beam: Beam | None = FLUSH, opening: FloorOpening | None = None) -> Outcome:
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    plan = Plan(
        floor=Floor(outline=outline),
        fields=(JoistField("j1", (0.0, 0.0), (120.0, 108.0)),),
        beams=() if beam is None else (beam,),
        floor_openings=() if opening is None else (opening,),
    )
    (found,) = JUDGES[rule](work_out(plan))
    return found


class TestHangers:
    def test_every_end_is_counted(self) -> None:
        # seven joists between the end joists, which the beam ends against: fourteen ends
        found = only("beam-wants-hangers")
        assert isinstance(found, Finding)
        assert (found.weight, found.elements, found.cites) == ("note", ("b1",), "IRC 2021 R502.6.2")
        assert "14 joist ends hang on beam b1: they want a hanger each, or a ledger of 2x2 at least" in found.text

    def test_to_steel_no_ledger_is_nailed(self) -> None:
        found = only("beam-wants-hangers", Beam("b1", (1.5, 54.0), (118.5, 54.0), top_z=0.0, material="steel"))
        assert isinstance(found, Finding)
        assert "ledger" not in found.text
        assert found.cites == "common practice"

    @pytest.mark.parametrize(
        "beam",
        [Beam("b1", (0.0, 54.0), (120.0, 54.0)), Beam("b1", (0.0, 54.0), (120.0, 54.0), top_z=0.0, bearing=False)],
    )
    def test_one_under_them_or_that_carries_nothing_wants_none(self, beam: Beam) -> None:
        assert type(only("beam-wants-hangers", beam)) is DoesNotApply


class TestFreeEnds:
    def test_ends_at_a_beam_that_carries_nothing_are_told(self) -> None:
        found = only("joist-end-hangs-free", Beam("b1", (1.5, 54.0), (118.5, 54.0), top_z=0.0, bearing=False))
        assert isinstance(found, Finding)
        assert (found.weight, found.elements) == ("look", ("b1",))
        assert found.text.startswith("14 joist ends stop at beam b1")

    def test_one_that_they_hang_on_holds_and_one_under_them_does_not_apply(self) -> None:
        assert type(only("joist-end-hangs-free")) is Holds
        under = Beam("b1", (0.0, 54.0), (120.0, 54.0), bearing=False)
        assert type(only("joist-end-hangs-free", under)) is DoesNotApply


class TestOpenings:
    # the beam's faces lie at y 52 and 56
    @pytest.mark.parametrize(("south", "expected"), [(56.0, Holds), (55.9375, Finding)])
    def test_an_opening_may_touch_it(self, south: float, expected: type[Outcome]) -> None:
        found = only("beam-crosses-opening", opening=FloorOpening("o1", (40.0, south), (60.0, 80.0)))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.weight, found.measured, found.elements) == ("stop", 0.0625, ("o1", "b1"))

    def test_without_such_a_beam_it_does_not_apply(self) -> None:
        assert type(only("beam-crosses-opening", None, FloorOpening("o1", (40.0, 40.0), (60.0, 80.0)))) is DoesNotApply
        under = Beam("b1", (0.0, 54.0), (120.0, 54.0))
        assert type(only("beam-crosses-opening", under, FloorOpening("o1", (40.0, 40.0), (60.0, 80.0)))) is DoesNotApply
