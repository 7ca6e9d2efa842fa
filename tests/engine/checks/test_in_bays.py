"""How far pipe may run along a bay before it hangs out below: worked by hand, the fall being the length over 48 at 1/4 in per ft."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from engine.checks.in_bays import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.plan.records import Drain, Exit, Floor, JoistField, Plan, Supply
from engine.study import work_out


def along_a_bay(length: float, low: float | None, size: Any = "3", lumber: Any = "2x10", **given: Any) -> Plan:
    """A drain south along the bay between joists 3 and 4, its axis `low` in under the joists' top at the exit."""
    points = ((56.0, 20.0 + length), (56.0, 20.0))
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 420.0), (0.0, 420.0)), belly=given.pop("belly", None)),
        fields=(JoistField("f", (0.0, 0.0), (120.0, 420.0), lumber=lumber),),
        drains=(Drain("d", points, size=size, passing=given.pop("passing", None)),),
        exits=() if low is None else (Exit("x", (56.0, 20.0), pinned_z=-low),),
        **given,
    )


def outcomes(plan: Plan) -> list[Outcome]:
    return list(RULES[0].judge(work_out(plan)))


def found(plan: Plan) -> list[Finding]:
    return [one for one in outcomes(plan) if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("lumber", "size", "outside", "depth", "feet"),
    [
        # no depth lost above: (depth - outside) x 48
        ("2x6", "1-1/2", 1.900, 5.5, 14.4),
        ("2x6", "3", 3.500, 5.5, 8.0),
        ("2x8", "2", 2.375, 7.25, 19.5),
        ("2x8", "3", 3.500, 7.25, 15.0),
        ("2x10", "3", 3.500, 9.25, 23.0),
        ("2x10", "4", 4.500, 9.25, 19.0),
        ("2x12", "4", 4.500, 11.25, 27.0),
    ],
)
def test_as_far_as_the_bay_is_deep(lumber: str, size: str, outside: float, depth: float, feet: float) -> None:
    """The upper end right under the subfloor, its axis half the outside down; then 1/16 in farther down than that."""
    length = feet * 12.0
    low = outside / 2.0 + length / 48.0
    assert low + outside / 2.0 == pytest.approx(depth)
    assert [type(one) for one in outcomes(along_a_bay(length, low, size, lumber))] == [Holds]
    (one,) = found(along_a_bay(length, low + 0.0625, size, lumber))
    assert (one.rule, one.weight, one.limit) == ("pipe-leaves-bay", "note", 0.0)
    assert one.measured == pytest.approx(0.0625)


def test_three_inches_lost_under_a_closet_leave_eleven_feet() -> None:
    """2x10: 9.25 - 3.5 - 3 = 2.75 of fall, 132 in. Over 13 ft the axis goes from 4.75 to 8.0: out by 0.5 at the exit."""
    assert found(along_a_bay(132.0, 7.5)) == []
    (one,) = found(along_a_bay(156.0, 8.0))
    assert (one.elements, one.at) == (("d",), (56.0, 20.0, -8.0))
    assert one.measured == pytest.approx(0.5)
    assert "lies 1/2 in below their bottom edge; down to 11'-0\" from its upper end it lies within them" in one.text


def test_a_run_with_a_corner_on_its_way_is_counted_through() -> None:
    """48 in and then 108: out where the axis is 7.5 down, 2.75 x 48 = 132 in from the upper end at 4.75."""
    plan = along_a_bay(156.0, 8.0)
    (one,) = found(replace(plan, drains=(Drain("d", ((56.0, 176.0), (56.0, 128.0), (56.0, 20.0)), size="3"),)))
    assert "down to 11'-0\" from its upper end" in one.text
    (low,) = found(replace(plan, exits=(Exit("x", (56.0, 20.0), pinned_z=-12.0),)))
    assert "upper end" not in low.text


def test_what_is_to_pass_under_or_lies_in_a_belly_or_off_the_joists_does_not_apply() -> None:
    for plan in (
        along_a_bay(120.0, 14.0, passing="under"),
        along_a_bay(120.0, 9.0, belly=6.0),
        replace(along_a_bay(120.0, 9.0), fields=()),
    ):
        assert [type(one) for one in outcomes(plan)] == [DoesNotApply]


def test_a_run_across_the_joists_is_for_the_rules_on_crossings() -> None:
    plan = along_a_bay(60.0, 9.0)
    across = replace(
        plan, drains=(Drain("d", ((100.0, 40.0), (20.0, 40.0)), size="3"),), exits=(Exit("x", (20.0, 40.0)),)
    )
    assert [type(one) for one in outcomes(across)] == [DoesNotApply]


def test_water_by_its_own_depth() -> None:
    """3/4 in tube in 1/2 in of foam is 1.875 wide: at 8.3125 down its underside lies at 9.25."""
    tube = Supply("c", "cold", ((56.0, 200.0), (56.0, 20.0)), "3/4", 8.3125)
    plan = replace(along_a_bay(60.0, 4.0), drains=(), exits=(), supplies=(tube,))
    assert [type(one) for one in outcomes(plan)] == [Holds]
    (one,) = found(replace(plan, supplies=(replace(tube, down=8.375),)))
    assert one.measured == pytest.approx(0.0625)
    assert [type(one) for one in outcomes(replace(plan, supplies=(replace(tube, down=None),)))] == [Holds]


def test_not_judged_without_a_height() -> None:
    (one,) = outcomes(along_a_bay(120.0, None))
    assert isinstance(one, NotJudged) and "height of d" in one.missing
