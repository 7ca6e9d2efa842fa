"""Measured take-offs against the geometry of the fitting's own pipes: at the least, a sixteenth under it, past judging."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest

from engine.checks.records import Finding, NotJudged
from engine.plan.records import MeasuredTakeOff, Plan
from engine.study import Study, study

Floor = Callable[..., Plan]
RULE = "take-off-too-short"


def judged(plan: Plan, *rows: tuple[str, str, str, float]) -> Study:
    measured = tuple(MeasuredTakeOff(kind, size, leg, length) for kind, size, leg, length in rows)  # type: ignore[arg-type]
    return study(msgspec.structs.replace(plan, takeoffs=measured))


def found(answer: Study) -> list[Finding]:
    return [finding for finding in answer.findings if finding.rule == RULE]


def unjudged(answer: Study) -> list[NotJudged]:
    return [case for rule, case in answer.not_judged if rule == RULE]


def test_nothing_measured_nothing_asked(hand_floor: Floor) -> None:
    assert study(hand_floor()).looked_at[RULE] == {"holds": 0, "broken": 0, "not_judged": 0, "does_not_apply": 0}


@pytest.mark.parametrize(
    ("kind", "size", "leg", "least"),
    [
        # a bend's corner: 3.500 / 2 x tan 45 = 1.75 (outside: ASTM D1785 table), worked by hand
        ("quarter_bend", "3", "run_in", 1.75),
        # an eighth bend: 1.900 / 2 x tan 22.5 = 0.3935
        ("eighth_bend", "1-1/2", "run_out", 0.3935),
        # a 45 degree wye: 3.042 / 2 + 0.7071 x 1.592 = 2.6467 up, 0.7071 x 3.042 + 1.592 / 2 = 2.9470 out
        ("wye", "3x3x1-1/2", "run_in", 2.6467),
        ("wye", "3x3x1-1/2", "branch", 2.9470),
        # a tee's branch clears half the bore of its run
        ("sanitary_tee", "1-1/2", "branch", 0.796),
    ],
)
def test_at_the_least_and_a_sixteenth_under(hand_floor: Floor, kind: str, size: str, leg: str, least: float) -> None:
    assert found(judged(hand_floor(), (kind, size, leg, least + 1e-3))) == []
    (short,) = found(judged(hand_floor(), (kind, size, leg, least - 1.0 / 16.0)))
    assert short.weight == "look"
    assert short.limit == pytest.approx(least, abs=1e-3)
    assert short.measured == pytest.approx(least - 1.0 / 16.0)
    assert short.cites == "geometry of the fitting's own pipes, no section"
    assert "socket's depth" in short.mend


def test_it_lies_where_the_fitting_is(hand_floor: Floor) -> None:
    (short,) = found(judged(hand_floor(), ("wye", "3x3x1-1/2", "run_in", 1.0)))
    assert short.at[:2] == (36.0, 62.0)
    assert short.elements == ("d1", "d2")


def test_a_trap_inlet_has_no_least(hand_floor: Floor) -> None:
    answer = judged(hand_floor(), ("p_trap", "2", "run_in", -1.0))
    assert found(answer) == []
    (case,) = unjudged(answer)
    assert case.missing == "geometry sets no least length for the run in of a P-trap"


@pytest.mark.parametrize(
    ("row", "why"),
    [
        (("knee", "3", "run_in", 2.0), "there is no fitting called 'knee'"),
        (("quarter_bend", "9", "run_in", 2.0), "no quarter bend has a leg of 9 in"),
        (("quarter_bend", "3", "branch", 2.0), "a quarter bend has no branch"),
        (("wye", "moon", "run_in", 2.0), "'moon' is no pipe size"),
    ],
)
def test_a_row_that_no_cut_uses_is_told(hand_floor: Floor, row: tuple[str, str, str, float], why: str) -> None:
    answer = judged(hand_floor(), row)
    (odd,) = found(answer)
    assert why in odd.text
    assert "is used for no cut" in odd.text
    assert odd.limit is None
    cuts = [piece.cut for piece in answer.model.joinery.pieces]
    assert cuts == [piece.cut for piece in study(hand_floor()).model.joinery.pieces]


def test_each_row_is_counted_once(hand_floor: Floor) -> None:
    answer = judged(
        hand_floor(),
        ("quarter_bend", "3", "run_in", 3.0),
        ("quarter_bend", "3", "run_out", 1.0),
        ("p_trap", "2", "run_in", -2.0),
    )
    assert answer.looked_at[RULE] == {"holds": 1, "broken": 1, "not_judged": 1, "does_not_apply": 0}
