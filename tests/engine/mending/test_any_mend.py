"""No mend that is offered ever fails its promise: over random baths with faults in them, and over plain junk."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from engine.checks.records import Finding
from engine.mending import Mend, mends_for
from engine.mending.makers import MAKERS
from engine.plan.records import Plan
from engine.study import study
from tests.engine.coarse_plans import bathrooms, plans
from tests.engine.mending.promises import held

slow = settings(deadline=None, max_examples=30, suppress_health_check=[HealthCheck.too_slow])
BOOKS = st.sampled_from(("irc-2021", "upc-2021"))


def some(plan: Plan, draw: st.DrawFn) -> list[tuple[Finding, Mend]]:
    """The mends of a few of a plan's findings, each held to its promise."""
    before = study(plan)
    found = [finding for finding in before.findings if finding.rule in MAKERS]
    if not found:
        return []
    chosen = draw(st.lists(st.sampled_from(found), min_size=1, max_size=3, unique_by=id))
    mends = [(finding, mend) for finding in chosen for mend in mends_for(before, finding)]
    for finding, mend in mends:
        held(before, finding, mend)
    return mends


@given(bathrooms(), BOOKS, st.data())
@slow
def test_in_any_bath(plan: Plan, book: str, data: st.DataObject) -> None:
    some(replace(plan, rulebook=book), data.draw)


@given(plans(), BOOKS, st.data())
@settings(slow, max_examples=20)
def test_in_any_junk(plan: Plan, book: str, data: st.DataObject) -> None:
    some(replace(plan, rulebook=book, amendments=()), data.draw)


def test_the_random_baths_meet_mends_of_many_kinds() -> None:
    """A strategy on which nothing could be mended would prove nothing."""
    mended: set[str] = set()

    @given(bathrooms(), st.data())
    @settings(slow, max_examples=25, phases=[Phase.generate], derandomize=True, database=None)
    def gather(plan: Plan, data: st.DataObject) -> None:
        mended.update(finding.rule for finding, _ in some(plan, data.draw))

    gather()
    assert len(mended) >= 6, mended


@pytest.mark.parametrize("number", range(3))
def test_the_same_is_offered_twice(number: int) -> None:
    """What is offered hangs on the plan alone."""
    from pathlib import Path

    from engine.plan.file import read

    path = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))[number]
    plan = replace(read(path), rulebook="upc-2021")
    first, second = study(plan), study(plan)
    for one, other in zip(first.findings, second.findings, strict=True):
        assert [m.words for m in mends_for(first, one)] == [m.words for m in mends_for(second, other)]
