"""What brings further bowls and a dishwasher to one trap: common practice, no source; the air gap from memory (UPC 807.3)."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Fixture, Plan
from engine.study import study
from engine.takeoff.answers import parts_answer
from tests.engine.checks.judged_plans import armed


def listed(plan: Plan) -> dict[str, int]:
    names = ("continuous waste", "branch tailpiece", "hose clamp", "air gap")
    lines = parts_answer(study(plan))["parts"]
    return {name: sum(line["count"] for line in lines if name in line["part"]) for name in names}


def with_dishwasher(disposer: bool = False) -> Plan:
    plan = armed("kitchen_sink", 12.0, disposer=disposer)
    return replace(plan, fixtures=(*plan.fixtures, Fixture("dw", "dishwasher", (260.0, 240.0), through="f1")))


def test_two_and_three_bowls() -> None:
    for bowls in (1, 2, 3):
        assert listed(armed("kitchen_sink", 12.0, bowls=bowls))["continuous waste"] == bowls - 1


@pytest.mark.parametrize(("book", "gaps"), [("irc-2021", 0), ("upc-2021", 1)])
def test_a_dishwasher_through_the_sink(book: str, gaps: int) -> None:
    found = listed(replace(with_dishwasher(), rulebook=book))
    assert (found["branch tailpiece"], found["hose clamp"], found["air gap"]) == (1, 1, gaps)


def test_by_a_disposer_it_needs_no_tailpiece() -> None:
    assert listed(with_dishwasher(disposer=True))["branch tailpiece"] == 0
