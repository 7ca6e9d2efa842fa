"""Each rule that has a mend, on the smallest plan that breaks it: a mend is offered, and every one holds its promise.

The plans lie beside this test, one a rule and named by it. They are the least that the rules' own tests break, so that a
new mend is shown by one more plan and nothing else.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.checks import ALL_RULES
from engine.mending import WITHOUT, mends_for
from engine.mending.makers import MAKERS
from engine.plan.file import read
from engine.study import study
from tests.engine.mending.promises import held

PLANS = {path.stem: path for path in sorted((Path(__file__).parent / "broken").glob("*.jway"))}
RULES = {rule.id for rule in ALL_RULES}


def test_each_rule_has_a_mend_or_a_reason_why_it_has_none() -> None:
    assert set(MAKERS) | set(WITHOUT) == RULES
    assert set(MAKERS) & set(WITHOUT) == set()
    assert all(len(reason.split()) > 4 for reason in WITHOUT.values())


def test_each_rule_with_a_mend_has_a_plan_that_shows_it() -> None:
    assert set(PLANS) == set(MAKERS)


@pytest.mark.parametrize("rule", PLANS)
def test_the_mends_of_a_rule_hold_what_they_promise(rule: str) -> None:
    before = study(read(PLANS[rule]))
    broken = [finding for finding in before.findings if finding.rule == rule]
    assert broken, f"the plan named {rule} no longer breaks it: draw another"
    mends = [(finding, mend) for finding in broken for mend in mends_for(before, finding)]
    assert mends, f"nothing mends {[finding.text for finding in broken]}"
    for finding, mend in mends:
        held(before, finding, mend)


@pytest.mark.parametrize("rule", PLANS)
def test_no_more_than_three_are_offered_and_no_two_alike(rule: str) -> None:
    before = study(read(PLANS[rule]))
    for finding in before.findings:
        mends = mends_for(before, finding)
        assert len(mends) <= 3
        assert len({mend.words for mend in mends}) == len({mend.plan for mend in mends}) == len(mends)
        assert [mend.cost for mend in mends] == sorted(mend.cost for mend in mends)
