"""Dead ends: IRC 2021 P3005.1.5 and UPC 2021 chapter 2, definitions: 2 ft (both from memory)."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Cleanout, Drain, Fixture, Plan, Riser
from tests.engine.checks.cleaned_plans import SIXTEENTH, UPC, looked_at, straight
from tests.engine.checks.judged_plans import amended, broken, counts, drain, holds_for


class TestDeadEnds:
    RULE = "dead-end"

    def stub(self, length: float, *cleanouts: Cleanout, book: str = "irc-2021") -> Plan:
        """A shower's drain with a stub that goes on past where it comes in."""
        plan = straight(100.0 + length, *cleanouts, size="2", rulebook=book)
        run = drain((100.0 + length, 100.0), (100.0, 100.0), (0.0, 100.0), size="2")
        branch = Drain("d2", ((130.0, 130.0), (100.0, 100.0)), size="2")
        return replace(plan, drains=(run, branch), fixtures=(Fixture("f1", "shower", (130.0, 130.0)),))

    @pytest.mark.parametrize("book", ["irc-2021", UPC])
    def test_two_feet_hold_and_a_sixteenth_more_does_not(self, book: str) -> None:
        assert counts(self.RULE, self.stub(24.0, book=book)) == (1, 0, 0, 1)
        found = broken(self.RULE, self.stub(24.0 + SIXTEENTH, book=book))
        assert (found.weight, found.elements, found.measured, found.limit) == ("stop", ("d1",), 24.0625, 24.0)
        assert found.at[:2] == (124.0625, 100.0)

    def test_a_cleanouts_is_none(self) -> None:
        assert holds_for(self.RULE, self.stub(60.0, Cleanout("k1", (160.0, 100.0))), "d1")

    def test_one_under_a_vent_is_none(self) -> None:
        plan = self.stub(60.0)
        assert holds_for(self.RULE, replace(plan, risers=(Riser("r1", (160.0, 100.0)),)), "d1")

    def test_a_drain_that_begins_at_a_fixture_does_not_apply(self) -> None:
        plan = straight(100.0, fixtures=(Fixture("f1", "water_closet", (100.0, 100.0)),))
        assert counts(self.RULE, plan) == (0, 0, 0, 1)

    def test_a_place_that_allows_more(self) -> None:
        assert counts(self.RULE, amended(self.stub(30.0), "dead_end.most", 36.0)) == (1, 0, 0, 1)

    def test_not_judged_without_the_value(self) -> None:
        assert looked_at(self.RULE, self.stub(30.0), "dead_end.most")["not_judged"] == 1
