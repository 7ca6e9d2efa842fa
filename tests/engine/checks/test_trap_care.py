"""What keeps a trap in order: IRC 2021 P3201.2.1 and P2704.1, UPC 2021 1007 and 402.10."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Exit, Fixture, Hatch, Plan, Riser
from tests.engine.checks.judged_plans import amended, bare, broken, counts, drain, findings
from tests.engine.checks.vented_plans import by

BOOKS = ("irc-2021", "upc-2021")


def floor(kind: str, **given: object) -> Plan:
    """Something that drains into the floor, vented, with its way to an exit."""
    at = (100.0, 40.0)
    trap_at = (94.0, 40.0) if kind == "bathtub" else None
    return bare(
        fixtures=(Fixture("fx", kind, at, trap_at=trap_at),),  # type: ignore[arg-type]
        drains=(drain(trap_at or at, (60.0, 40.0), (20.0, 40.0), size="2"),),
        risers=(Riser("r1", (60.0, 40.0)),),
        exits=(Exit("x1", (20.0, 40.0)),),
        **given,
    )


class TestFloorDrain:
    """IRC 2021 P3201.2.1, UPC 2021 1007: a floor drain's trap is kept full."""

    rule = "floor-drain-dries"

    @pytest.mark.parametrize("book", BOOKS)
    def test_it_is_to_be_looked_at(self, book: str) -> None:
        plan = by(book, floor("floor_drain"))
        assert broken(self.rule, plan).weight == "look"
        assert counts(self.rule, by(book, floor("shower"))) == (0, 0, 0, 1)
        assert findings(self.rule, amended(plan, "trap.floor_drain_primed", False)) == []


class TestSlipJoints:
    """IRC 2021 P2704.1; UPC 2021 402.10 (from memory): an opening of 12 in or more."""

    rule = "slip-joint-closed-in"

    @pytest.mark.parametrize("book", BOOKS)
    @pytest.mark.parametrize(("clear", "found"), [(12.0, 0), (11.9375, 1), (24.0, 0)])
    def test_a_way_in_under_the_floor(self, book: str, clear: float, found: int) -> None:
        plan = by(book, floor("bathtub", hatches=(Hatch("h1", (10.0, 10.0), clear=clear),)))
        assert counts(self.rule, plan) == (1 - found, found, 0, 0)

    @pytest.mark.parametrize("book", BOOKS)
    def test_without_one_it_is_to_be_known(self, book: str) -> None:
        found = broken(self.rule, by(book, floor("bathtub")))
        assert (found.weight, found.limit, found.at[:2]) == ("note", 12.0, (94.0, 40.0))

    def test_a_shower_has_none(self) -> None:
        assert counts(self.rule, floor("shower")) == (0, 0, 0, 1)

    def test_a_place_that_asks_for_more(self) -> None:
        plan = replace(floor("bathtub"), hatches=(Hatch("h1", (10.0, 10.0), clear=14.0),))
        assert broken(self.rule, amended(plan, "clearance.slip_joint.access", 18)).limit == 18.0
