"""Waste stacks and circuit-vented branches: IRC 2021 P3109, Table P3109.4 and P3110 (from memory); UPC 2021 911."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.checks.records import NotJudged
from engine.checks.stacks_and_circuits import stack_too_small
from engine.piping import network
from engine.plan.records import Fixture
from tests.engine.checks.judged_plans import amended, armed, broken, counts, findings, model_of, not_judged
from tests.engine.checks.vented_plans import by, column, level_branch

SINKS = (("lavatory", 30.0), ("kitchen_sink", 22.0), ("lavatory", 14.0))


class TestWasteStack:
    """2 in: 2 units at one place, 4 in all; 1-1/2 in: 1 and 2."""

    rule = "waste-stack-too-small"

    def test_two_inches_takes_four(self) -> None:
        """1 + 2 + 1 = 4 units, exactly the most."""
        assert findings(self.rule, column(*SINKS, size="2", vent="2")) == []
        assert counts(self.rule, column(*SINKS, size="2", vent="2"))[0] == 4

    def test_and_no_more(self) -> None:
        five = (("kitchen_sink", 30.0), ("kitchen_sink", 22.0), ("lavatory", 14.0))
        found = broken(self.rule, column(*five, size="2", vent="2"))
        assert (found.measured, found.limit, found.cites) == (5, 4, "IRC 2021 Table P3109.4")

    def test_a_sink_at_one_place_of_a_smaller_one(self) -> None:
        found = findings(self.rule, column(*SINKS, size="1-1/2", vent="1-1/2"))
        assert [(one.measured, one.limit) for one in found] == [(4, 2), (2, 1)]

    def test_what_drains_through_a_trap_comes_in_at_its_place(self) -> None:
        """A sink with a dishwasher is a kitchen group of 2 units; two laundry tubs give 2 + 2 at one place (Table P3004.1)."""
        plan = column(("lavatory", 30.0), ("laundry_tub", 22.0), ("lavatory", 14.0), size="2", vent="2")
        tub = Fixture("f4", "laundry_tub", (240.0, 270.0), through="f2")
        found = findings(self.rule, replace(plan, fixtures=(*plan.fixtures, tub)))
        assert (4, 2) in [(one.measured, one.limit) for one in found if one.elements[-1] == "f2"]
        sinks = column(*SINKS, size="2", vent="2")
        washed = Fixture("f4", "dishwasher", (240.0, 270.0), through="f2")
        assert findings(self.rule, replace(sinks, fixtures=(*sinks.fixtures, washed))) == []

    def test_not_judged_for_what_has_no_units(self) -> None:
        plan = column(*SINKS, size="2", vent="2")
        model = model_of(plan, lacking="dfu.kitchen_sink")
        model.network = network.build(plan, model.book)
        found = [one for one in stack_too_small(model) if isinstance(one, NotJudged)]
        assert [(one.elements, "no fixture units" in one.missing) for one in found] == [(("f2",), True)]

    def test_it_does_not_apply_to_others(self) -> None:
        assert counts(self.rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)

    def test_not_judged_without_its_row(self) -> None:
        assert not_judged(self.rule, column(*SINKS, size="2", vent="2"), lacking="stack_vent.total.2") != []

    def test_a_place_that_allows_more(self) -> None:
        five = (("kitchen_sink", 30.0), ("kitchen_sink", 22.0), ("lavatory", 14.0))
        plan = column(*five, size="2", vent="2")
        assert findings(self.rule, amended(plan, "stack_vent.total.2", 6)) == []


class TestStackVent:
    """The vent is as wide as the stack."""

    rule = "stack-vent-narrower"

    def test_as_wide(self) -> None:
        assert counts(self.rule, column(*SINKS, size="2", vent="2")) == (1, 0, 0, 0)

    def test_a_size_less(self) -> None:
        found = broken(self.rule, column(*SINKS, size="2", vent="1-1/2"))
        assert (found.measured, found.limit) == (1.5, 2.0)
        assert findings(self.rule, amended(column(*SINKS, size="2", vent="1-1/2"), "stack_vent.same_size", False)) == []

    def test_it_does_not_apply_to_others(self) -> None:
        assert counts(self.rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)


class TestCircuitSlope:
    """At most one in twelve, 1 in per ft."""

    rule = "circuit-branch-too-steep"

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_an_inch_a_foot_and_more(self, book: str) -> None:
        kinds = ("floor_drain", "floor_drain", "floor_drain")
        assert findings(self.rule, by(book, level_branch(*kinds, slope=1.0))) == []
        found = findings(self.rule, by(book, level_branch(*kinds, slope=1.0625)))
        assert {(one.measured, one.limit, one.unit) for one in found} == {(1.0625, 1.0, "in per ft")}
        assert (
            findings(self.rule, amended(by(book, level_branch(*kinds, slope=1.0625)), "circuit_vent.slope_most", 2))
            == []
        )

    def test_it_does_not_apply_to_others(self) -> None:
        assert counts(self.rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)


class TestCircuitSize:
    """The branch has over its whole length the size that all of its load asks for, IRC 2021 Table P3005.4.1."""

    rule = "circuit-branch-too-small"

    def test_all_along(self) -> None:
        """By the UPC a floor drain gives 2 units (Table 702.1): four give 8, the most for 2 in (Table 703.2)."""
        kinds = ["floor_drain"] * 4
        assert findings(self.rule, by("upc-2021", level_branch(*kinds, size="2"))) == []
        five = findings(self.rule, by("upc-2021", level_branch(*kinds, "floor_drain", size="2")))
        assert {(one.measured, one.limit) for one in five} == {(10, 8)}
        assert findings(self.rule, by("upc-2021", level_branch(*kinds, "floor_drain", size="3"))) == []

    def test_it_does_not_apply_to_others(self) -> None:
        assert counts(self.rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)
