"""Nothing gets smaller with the flow: IRC 2021 P3005.1.7, P3201.7; UPC 2021 310.5.

That a closet bend of 4 x 3 is no reduction was read ("What is a 4x3 closet bend"; a city's ordinance on the UPC).
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.checks.records import DoesNotApply
from engine.plan.records import PinnedFitting, Plan
from tests.engine.checks.judged_plans import amended, broken, counts, drain, findings, outcomes
from tests.engine.checks.sized_plans import by, in_wall, single

BOTH = ("irc-2021", "upc-2021")
CITES = {"irc-2021": "IRC 2021 P3005.1.7", "upc-2021": "UPC 2021 310.5"}


def parted(first: str | None, second: str | None, kind: str = "shower") -> Plan:
    """A drain whose two stretches past the vent are `d` and `e`, each of its size."""
    plan = single(kind)
    runs = (
        drain((210.0, 100.0), (160.0, 100.0), id="d", size=first),
        drain((160.0, 100.0), (110.0, 100.0), id="e", size=second),
    )
    return replace(plan, drains=(plan.drains[0], *runs))


class TestAlongTheFlow:
    rule = "drain-gets-smaller"

    @pytest.mark.parametrize("book", BOTH)
    def test_three_inches_into_two(self, book: str) -> None:
        found = broken(self.rule, by(book, parted("3", "2")))
        assert (found.elements, found.measured, found.limit, found.unit) == (("e", "d"), 2, 3, "in")
        assert found.cites == CITES[book]
        assert found.mend == "Make e 3 in."

    @pytest.mark.parametrize("book", BOTH)
    @pytest.mark.parametrize("second", ["3", "4", None])
    def test_the_same_or_larger(self, book: str, second: str | None) -> None:
        assert findings(self.rule, by(book, parted("3", second))) == []

    @pytest.mark.parametrize("book", BOTH)
    def test_a_closet_bend_of_four_by_three(self, book: str) -> None:
        plan = by(book, single("water_closet", size="3"))
        bend = PinnedFitting("fit1", (240.0, 100.0), "closet_bend")
        assert findings(self.rule, replace(plan, fittings=(bend,))) == []

    def test_a_shower_s_drain_made_smaller_past_a_wide_stretch(self) -> None:
        """2 in never goes on as 1-1/2 (a public thread on a shower on an old drain): the trap's rule says it."""
        plan = parted("2", "1-1/2")
        assert findings(self.rule, plan) == []
        assert [one.elements for one in findings("trap-larger-than-drain", plan)] == [("e", "f1")]

    def test_told_once(self) -> None:
        """A drawn size that is too small for what it carries has its own rule; what is above it was sized for that."""
        plan = in_wall("kitchen_sink", drain_size="1-1/2")
        assert findings(self.rule, by("upc-2021", plan)) == []
        assert len(findings("drain-too-small-past-arm", by("upc-2021", plan))) == 1

    def test_amended_to_be_allowed(self) -> None:
        plan = amended(parted("3", "2"), "fitting.reduces_with_flow", True)
        assert counts(self.rule, plan)[1] == 0

    def test_nothing_drawn(self) -> None:
        assert outcomes(self.rule, replace(parted("3", "2"), drains=(), fixtures=(), risers=())) == []


class TestUnderATrap:
    rule = "trap-larger-than-drain"

    @pytest.mark.parametrize(("book", "cites"), [("irc-2021", "IRC 2021 P3201.7"), ("upc-2021", "UPC 2021 310.5")])
    def test_a_two_inch_trap(self, book: str, cites: str) -> None:
        found = broken(self.rule, by(book, single("shower", size="1-1/2", trap="2")))
        assert (found.elements, found.measured, found.limit, found.cites) == (("d", "f1"), 1.5, 2, cites)
        assert findings(self.rule, by(book, single("shower", size="2", trap="2"))) == []

    def test_the_next_size_of_trap(self) -> None:
        assert findings(self.rule, in_wall("lavatory", size="1-1/4", drain_size="1-1/4")) == []
        found = findings(self.rule, in_wall("lavatory", size="1-1/4", drain_size="1-1/4", trap="1-1/2"))
        assert [one.elements for one in found] == [("d", "f1"), ("r1", "f1")]

    def test_a_closet_has_its_trap_inside(self) -> None:
        assert DoesNotApply("d") in outcomes(self.rule, single("water_closet", size="2"))

    def test_amended_to_be_allowed(self) -> None:
        plan = amended(single("shower", size="1-1/2", trap="2"), "trap.larger_than_drain", True)
        assert counts(self.rule, plan)[1] == 0

    def test_a_washer_s_arm_into_a_smaller_riser(self) -> None:
        """IRC 2021 P3005.4.1 (from memory) says it of a stack and its branch as well; it is told once."""
        plan = in_wall("washer_standpipe", size="1-1/2")
        assert [one.elements for one in findings(self.rule, plan)] == [("r1", "f1")]
        assert findings("drain-gets-smaller", plan) == []
