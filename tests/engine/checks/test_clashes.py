"""Two pipes in one place (common practice, no source: the sums are worked by hand beside each plan)."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest

from engine.checks.records import Finding
from engine.plan.records import Plan, Supply
from engine.study import Study, study

Floor = Callable[..., Plan]
RULE = "pipes-in-one-place"


def found(plan: Plan) -> tuple[Study, list[Finding]]:
    answer = study(plan)
    return answer, [finding for finding in answer.findings if finding.rule == RULE]


def with_water(plan: Plan, down: float, y: float = 50.0, insulation: float = 0.0, **more: object) -> Plan:
    """A 1/2 in cold line (0.625 outside) square across the closet's 3 in main, at x 36."""
    line = Supply(id="c1", water="cold", points=((34.0, y), (46.0, y)), down=down, insulation=insulation, **more)  # type: ignore[arg-type]
    return msgspec.structs.replace(plan, supplies=(line,))


# the main's axis at y 50: -5.6875 - (92 - 50) / 48 = -6.5625; half of 3.5 and half of 0.625 make 2.0625
MAIN = 6.5625
ROOM = 1.75 + 0.3125


def test_a_line_through_a_drain_is_a_stop(hand_floor: Floor) -> None:
    _, findings = found(with_water(hand_floor(lavatory=False), MAIN))
    assert [(f.weight, f.elements) for f in findings] == [("stop", ("c1", "d1"))]
    assert findings[0].limit == pytest.approx(ROOM)
    assert findings[0].measured == pytest.approx(0.0, abs=0.05)


def test_a_line_that_just_clears_holds(hand_floor: Floor) -> None:
    # the drain leans 1.19 degrees, so its outside stands off by 1 / cos: 1.75 x 1.000217
    answer, findings = found(with_water(hand_floor(lavatory=False), MAIN - ROOM * 1.00025))
    assert findings == []
    assert answer.looked_at[RULE]["holds"] > 0


def test_a_sixteenth_into_the_drain_is_a_stop(hand_floor: Floor) -> None:
    _, findings = found(with_water(hand_floor(lavatory=False), MAIN - ROOM + 1 / 16))
    assert [f.weight for f in findings] == ["stop"]


def test_squeezed_insulation_is_looked_at(hand_floor: Floor) -> None:
    _, findings = found(with_water(hand_floor(lavatory=False), MAIN - ROOM - 1 / 16, insulation=0.5))
    assert [f.weight for f in findings] == ["look"]


def test_water_lines_that_meet_are_joined(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    lines = (
        Supply(id="c1", water="cold", points=((40.0, 50.0), (46.0, 50.0)), down=3.0),
        Supply(id="c2", water="cold", points=((46.0, 50.0), (46.0, 60.0)), down=3.5),
    )
    assert found(msgspec.structs.replace(plan, supplies=lines))[1] == []


def test_hot_across_cold_is_told_once(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    lines = (
        Supply(id="c1", water="cold", points=((40.0, 44.0), (40.0, 56.0), (44.0, 56.0)), down=3.0),
        Supply(id="h1", water="hot", points=((38.5, 50.0), (46.0, 50.0)), down=3.0),
    )
    assert [f.elements for f in found(msgspec.structs.replace(plan, supplies=lines))[1]] == [("c1", "h1")]


def test_a_drain_of_unknown_height_is_not_judged(hand_floor: Floor) -> None:
    plan = with_water(hand_floor(lavatory=False), MAIN)
    answer, findings = found(msgspec.structs.replace(plan, exits=()))
    assert findings == []
    assert [missing.missing for rule, missing in answer.not_judged if rule == RULE] == [
        "the height of d1, which crosses c1"
    ]


def test_a_riser_over_a_water_line(hand_floor: Floor) -> None:
    plan = hand_floor()
    line = Supply(id="c1", water="cold", points=((66.0, 69.5), (78.0, 69.5)), down=3.0, insulation=0.0)
    _, findings = found(msgspec.structs.replace(plan, supplies=(line,)))
    assert [f.elements for f in findings] == [("c1", "r1")]
    # axes 0.5 apart in plan, half of 1.9 and half of 0.625 make 1.2625
    assert (findings[0].measured, findings[0].limit) == (pytest.approx(0.5), pytest.approx(1.2625))
