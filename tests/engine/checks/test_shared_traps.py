"""One trap to a fixture, but for what may share: IRC 2021 P3201.6 and P2717, UPC 2021 1001.2 and 807.3."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from engine.plan.records import Fixture, Plan
from engine.study import study
from tests.engine.checks.judged_plans import amended, armed, broken, counts, findings, not_judged
from tests.engine.checks.vented_plans import by

BOOKS = ("irc-2021", "upc-2021")


def beside(kind: str, *guests: tuple[str, float], book: str = "irc-2021", **given: Any) -> Plan:
    """A fixture f1 whose trap takes the waste of others (kind, inches north of it) besides its own."""
    plan = armed(kind, 12.0, **given)
    more = tuple(
        Fixture(f"f{number}", other, (240.0, 240.0 + away), turn=0.0, through="f1")  # type: ignore[arg-type]
        for number, (other, away) in enumerate(guests, 2)
    )
    return by(book, replace(plan, fixtures=(*plan.fixtures, *more)))


class TestShared:
    """IRC 2021 P3201.6 (from memory), UPC 2021 1001.2: three bowls, outlets within 30 in."""

    rule = "trap-shared-by-too-many"

    @pytest.mark.parametrize("book", BOOKS)
    def test_two_bowls(self, book: str) -> None:
        plan = by(book, armed("kitchen_sink", 12.0, bowls=2, bowls_apart=16.0))
        assert counts(self.rule, plan) == (1, 0, 0, 0)

    def test_three_at_thirty_and_past_it(self) -> None:
        assert counts(self.rule, armed("kitchen_sink", 12.0, bowls=3, bowls_apart=30.0)) == (1, 0, 0, 0)
        found = broken(self.rule, armed("kitchen_sink", 12.0, bowls=3, bowls_apart=30.0625))
        assert (found.measured, found.limit, found.unit) == (30.0625, 30.0, "in")

    def test_four(self) -> None:
        found = broken(self.rule, armed("kitchen_sink", 12.0, bowls=4, bowls_apart=20.0))
        assert (found.measured, found.limit, found.unit) == (4.0, 3.0, "bowls")

    def test_not_judged_without_a_measure(self) -> None:
        assert len(not_judged(self.rule, armed("kitchen_sink", 12.0, bowls=2))) == 1

    def test_one_bowl_does_not_apply(self) -> None:
        assert counts(self.rule, armed("kitchen_sink", 12.0)) == (0, 0, 0, 1)

    @pytest.mark.parametrize("book", BOOKS)
    def test_like_fixtures_side_by_side(self, book: str) -> None:
        assert counts(self.rule, beside("lavatory", ("lavatory", 30.0), book=book)) == (1, 0, 0, 0)
        found = broken(self.rule, beside("lavatory", ("lavatory", 30.0625), book=book))
        assert (found.measured, found.limit, found.elements) == (30.0625, 30.0, ("f1", "f2"))

    def test_bowls_of_both_count(self) -> None:
        """Two bowls 16 in apart and one sink 20 in from their middle: 20 + 16 / 2 = 28 in at the most."""
        plan = beside("kitchen_sink", ("kitchen_sink", 20.0), bowls=2, bowls_apart=16.0)
        assert counts(self.rule, plan) == (1, 0, 0, 0)
        plan = beside("kitchen_sink", ("kitchen_sink", 22.0625), bowls=2, bowls_apart=16.0)
        assert broken(self.rule, plan).measured == 30.0625
        plan = beside("kitchen_sink", ("kitchen_sink", 20.0), ("kitchen_sink", -4.0), bowls=2, bowls_apart=16.0)
        assert (broken(self.rule, plan).measured, broken(self.rule, plan).unit) == (4.0, "bowls")
        unmeasured = beside("kitchen_sink", ("kitchen_sink", 20.0), bowls=2)
        assert len(not_judged(self.rule, unmeasured)) == 1

    def test_a_dishwasher_is_no_bowl(self) -> None:
        assert counts(self.rule, beside("kitchen_sink", ("dishwasher", 30.0))) == (0, 0, 0, 1)

    def test_a_place_that_takes_less(self) -> None:
        plan = armed("kitchen_sink", 12.0, bowls=3, bowls_apart=20.0)
        assert broken(self.rule, amended(plan, "trap.shared.outlets_most", 2)).limit == 2.0


class TestMiddle:
    """The trap of three hangs under the middle one: IRC 2021 P3201.6 (from memory), UPC 2021 1001.2."""

    rule = "trap-not-in-the-middle"

    @pytest.mark.parametrize("book", BOOKS)
    def test_three_in_a_row(self, book: str) -> None:
        assert counts(self.rule, beside("lavatory", ("lavatory", 15.0), ("lavatory", -15.0), book=book)) == (1, 0, 0, 0)
        found = broken(self.rule, beside("lavatory", ("lavatory", 14.0), ("lavatory", 28.0), book=book))
        assert (found.weight, found.elements) == ("stop", ("f1", "f2", "f3"))

    def test_as_far_as_from_each_other_is_the_limit(self) -> None:
        """A sixteenth past it one of the others lies between."""
        assert findings(self.rule, beside("lavatory", ("lavatory", 0.0), ("lavatory", 15.0))) == []
        assert len(findings(self.rule, beside("lavatory", ("lavatory", 0.0625), ("lavatory", 15.0)))) == 1

    def test_two_or_a_place_that_does_not_ask(self) -> None:
        assert counts(self.rule, beside("lavatory", ("lavatory", 15.0))) == (0, 0, 0, 1)
        plan = beside("lavatory", ("lavatory", 14.0), ("lavatory", 28.0))
        assert findings(self.rule, amended(plan, "trap.shared.middle_of_three", False)) == []


class TestThroughAnother:
    """One trap to a fixture, but for what the books name: IRC 2021 P3201.6, UPC 2021 1001.2."""

    rule = "trap-takes-another"

    def through(self, host: str, kind: str, book: str = "irc-2021") -> Plan:
        return beside(host, (kind, 20.0), book=book)

    @pytest.mark.parametrize("book", BOOKS)
    def test_a_dishwasher_through_the_sink(self, book: str) -> None:
        assert counts(self.rule, self.through("kitchen_sink", "dishwasher", book)) == (1, 0, 0, 1)

    @pytest.mark.parametrize("book", BOOKS)
    def test_a_washer_through_the_tub_and_not_the_sink(self, book: str) -> None:
        assert counts(self.rule, self.through("laundry_tub", "washer_standpipe", book)) == (1, 0, 0, 1)
        found = broken(self.rule, self.through("kitchen_sink", "washer_standpipe", book))
        assert found.elements == ("f2", "f1")

    def test_a_tub_into_the_standpipe_by_one_book(self) -> None:
        assert findings(self.rule, self.through("washer_standpipe", "laundry_tub")) == []
        assert len(findings(self.rule, self.through("washer_standpipe", "laundry_tub", "upc-2021"))) == 1

    @pytest.mark.parametrize("book", BOOKS)
    @pytest.mark.parametrize("kind", ["lavatory", "kitchen_sink", "bar_sink", "laundry_tub"])
    def test_a_like_fixture(self, book: str, kind: str) -> None:
        assert counts(self.rule, self.through(kind, kind, book)) == (1, 0, 0, 1)

    @pytest.mark.parametrize("book", BOOKS)
    def test_an_unlike_one(self, book: str) -> None:
        assert broken(self.rule, self.through("kitchen_sink", "lavatory", book)).elements == ("f2", "f1")

    def test_a_place_that_does_not_let_it(self) -> None:
        plan = amended(self.through("kitchen_sink", "dishwasher"), "trap.takes.kitchen_sink.dishwasher", False)
        assert "amended" in broken(self.rule, plan).cites

    def test_a_closet_through_anything_is_trapped_twice(self) -> None:
        found = broken(self.rule, self.through("kitchen_sink", "water_closet"))
        assert "two traps" in found.text

    def test_it_has_no_drain_of_its_own(self) -> None:
        answer = study(self.through("kitchen_sink", "dishwasher"))
        assert [trap.fixture for trap in answer.model.network.traps] == ["f1"]
        assert [f for f in answer.findings if f.rule == "fixture-not-drained"] == []


class TestHose:
    """How far a machine's hose reaches: common practice, no source."""

    rule = "hose-too-short"

    @pytest.mark.parametrize(("host", "kind"), [("kitchen_sink", "dishwasher"), ("laundry_tub", "washer_standpipe")])
    def test_four_feet(self, host: str, kind: str) -> None:
        assert counts(self.rule, beside(host, (kind, 48.0))) == (1, 0, 0, 1)
        found = broken(self.rule, beside(host, (kind, 48.0625)))
        assert (found.weight, found.measured, found.limit, found.cites) == ("look", 48.0625, 48.0, "common practice")

    def test_what_has_none(self) -> None:
        assert counts(self.rule, beside("lavatory", ("lavatory", 100.0))) == (0, 0, 0, 2)
