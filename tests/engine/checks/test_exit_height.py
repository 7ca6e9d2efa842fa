"""Whether a height of the exit suits every limit above it: arithmetic of the falls (common practice, no source).

The hand floor's window is [-7.3729, -7.0625]: joist 48 wants -6.1875 there, which is 1.1854 above the exit; the closet
wants its bend at 0.5 - 3 - 3.0625 = -5.5625, which is 1.5 above it. With a street bend it stands at 0.5 - 4.5625 -
1.5 = -5.5625 and nowhere else.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.plan.records import Exit, MeasuredTakeOff, Plan
from tests.engine.checks.judged_plans import amended, bare, broken, counts, drain, model_of, not_judged

Floor = Callable[..., Plan]
RULE = "no-height-fits"
SIXTEENTH = 1.0 / 16.0
LOW = -6.1875 - (7.0 * 2**0.5 + 5.0 + 42.0) / 48.0
HIGH = -7.0625


def test_left_open_the_height_lies_in_the_window(hand_floor: Floor) -> None:
    assert counts(RULE, hand_floor(pinned=None)) == (1, 0, 0, 0)
    (window,) = model_of(hand_floor(pinned=None)).windows
    assert (window.low, window.high) == pytest.approx((LOW, HIGH))
    assert window.chosen == pytest.approx((LOW + HIGH) / 2.0)


@pytest.mark.parametrize("pinned", [LOW, -7.25, HIGH])
def test_pinned_inside_or_on_an_end_holds(hand_floor: Floor, pinned: float) -> None:
    assert counts(RULE, hand_floor(pinned=pinned)) == (1, 0, 0, 0)


@pytest.mark.parametrize(
    ("pinned", "limit", "by", "side"),
    [(LOW - SIXTEENTH, LOW, "f1.3", "too low"), (HIGH + SIXTEENTH, HIGH, "wc1", "too high")],
)
def test_pinned_a_sixteenth_outside_is_a_stop(
    hand_floor: Floor, pinned: float, limit: float, by: str, side: str
) -> None:
    found = broken(RULE, hand_floor(pinned=pinned))
    assert (found.weight, found.elements, found.unit) == ("stop", ("x1",), "in")
    assert found.measured == pytest.approx(pinned)
    assert found.limit == pytest.approx(limit)
    assert found.at == pytest.approx((36.0, 20.0, pinned))
    assert found.cites == "common practice"
    assert by in found.text and side in found.text


def test_pinned_where_a_street_bend_makes_it_holds(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False, pinned=-5.5625)
    assert counts(RULE, plan) == (1, 0, 0, 0)
    assert {part.kind for part in model_of(plan).joinery.parts} >= {"street_quarter_bend"}


def test_between_stub_and_street_bend_nothing_can_be_built(hand_floor: Floor) -> None:
    assert broken(RULE, hand_floor(lavatory=False, pinned=-6.25)).limit == pytest.approx(HIGH)


def test_limits_that_exclude_each_other(hand_floor: Floor) -> None:
    """A sewer whose invert lies at -7: the 3 in axis there is 3.042 / 2 higher, -5.479, and the stub wants -7.0625."""
    plan = hand_floor(lavatory=False, pinned=None)
    shallow = replace(plan, exits=(replace(plan.exits[0], sewer_invert_z=-7.0),))
    found = broken(RULE, shallow)
    assert (found.weight, found.elements, found.unit) == ("stop", ("x1",), "in")
    assert found.measured == pytest.approx(-7.0 + 1.521 + 7.0625)
    assert found.limit == 0.0
    assert "sewer's invert at exit x1" in found.text and "wc1" in found.text
    # a height is chosen all the same: the middle, which breaks both least
    (window,) = model_of(shallow).windows
    assert window.chosen == pytest.approx((-7.0 + 1.521 - 7.0625) / 2.0)


@pytest.mark.parametrize(("deeper", "holds"), [(0.0, True), (SIXTEENTH, False)])
def test_the_ends_may_meet(hand_floor: Floor, deeper: float, holds: bool) -> None:
    """With a long sweep, which has no street height: -8.0625 is the highest, and the sewer's the lowest."""
    plan = amended(hand_floor(lavatory=False, pinned=None), "closet.quarter_bend_under_flange", False)
    invert = -8.0625 - 3.042 / 2.0 + deeper
    meeting = replace(plan, exits=(replace(plan.exits[0], sewer_invert_z=invert),))
    if holds:
        assert counts(RULE, meeting) == (1, 0, 0, 0)
    else:
        assert broken(RULE, meeting).measured == pytest.approx(SIXTEENTH)


def test_a_street_bend_opens_a_window_that_was_shut(hand_floor: Floor) -> None:
    """At -5.5625 the sewer's invert may lie at -5.5625 - 1.521 or lower: the only height left, free or pinned."""
    for pinned in (None, -5.5625):
        plan = hand_floor(lavatory=False, pinned=pinned)
        shallow = replace(plan, exits=(replace(plan.exits[0], sewer_invert_z=-5.5625 - 1.521),))
        assert counts(RULE, shallow) == (1, 0, 0, 0)
        (window,) = model_of(shallow).windows
        assert window.chosen == pytest.approx(-5.5625)


def test_measured_take_offs_move_the_window(hand_floor: Floor) -> None:
    """A long-bodied quarter bend of 4 in: 0.5 - 3 - 4 - 1.5 = -8 is the highest, and -7.1875 is too high."""
    plan = replace(hand_floor(lavatory=False), takeoffs=(MeasuredTakeOff("quarter_bend", "3", "run_in", 4.0),))
    assert broken(RULE, plan).limit == pytest.approx(-8.0)


def test_the_books_word_on_the_closets_bend_moves_it_too(hand_floor: Floor) -> None:
    """Where no short bend may stand under a closet it is a long sweep of 4.0625: 0.5 - 3 - 4.0625 - 1.5 = -8.0625."""
    plan = amended(hand_floor(lavatory=False), "closet.quarter_bend_under_flange", False)
    assert broken(RULE, plan).limit == pytest.approx(-8.0625)


def test_not_judged_where_nothing_holds_the_height() -> None:
    plan = bare(drains=(drain((200.0, 100.0), (100.0, 100.0), size="3"),), exits=(Exit("x1", (100.0, 100.0)),))
    (found,) = not_judged(RULE, plan)
    assert found.elements == ("x1",)
    assert counts(RULE, plan) == (0, 0, 1, 0)


def test_every_exit_and_every_open_rise_is_looked_at(hand_floor: Floor) -> None:
    plan = hand_floor(pinned=None)
    other = (drain((100.0, 90.0), (100.0, 20.0), id="d9", size="3"),)
    two = replace(plan, drains=(*plan.drains, *other), exits=(*plan.exits, Exit("x2", (100.0, 20.0))))
    assert counts(RULE, two) == (1, 0, 1, 0)
    dropping = replace(plan, drains=(plan.drains[0], replace(plan.drains[1], join="drop")))
    assert counts(RULE, dropping) == (2, 0, 0, 0)


def test_without_an_exit_there_is_nothing_to_judge(hand_floor: Floor) -> None:
    assert counts(RULE, replace(hand_floor(), exits=())) == (0, 0, 0, 0)
