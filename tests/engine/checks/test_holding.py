"""Pipe past the joists. Spacings: IRC 2021 Table P2605.1 and UPC 2021 Table 313.3 (PVC 4 ft, PEX to 1 in 32 in)."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.checks.records import NotJudged
from engine.plan.records import Exit, JoistField, Plan, Point, Supply
from tests.engine.checks.judged_plans import amended, bare, broken, counts, drain, outcomes

RULE = "support-has-nothing-to-hold-to"
FIELD = JoistField("f", (0.0, 0.0), (120.0, 120.0))
HOLDS, BROKEN = (1, 0, 0, 0), (0, 1, 0, 0)


def run(*points: Point, book: str = "irc-2021", fields: tuple[JoistField, ...] = (FIELD,)) -> Plan:
    return bare(rulebook=book, fields=fields, drains=(drain(*points, size="3"),), exits=(Exit("x1", points[-1]),))


@pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
@pytest.mark.parametrize(("past", "found"), [(48.0, HOLDS), (48.0625, BROKEN)])
def test_past_the_floors_edge(book: str, past: float, found: tuple[int, int, int, int]) -> None:
    assert counts(RULE, run((60.0, 60.0), (120.0 + past, 60.0), book=book)) == found


def test_what_the_finding_says() -> None:
    found = broken(RULE, run((60.0, 60.0), (180.0, 60.0)))
    assert (found.weight, found.measured, found.limit, found.at) == ("look", 60.0, 48.0, (150.0, 60.0, 0.0))
    assert found.cites == "IRC 2021 Table P2605.1"
    assert found.elements == ("d1",)


@pytest.mark.parametrize(("apart", "found"), [(48.0, HOLDS), (48.0625, BROKEN)])
def test_between_two_fields(apart: float, found: tuple[int, int, int, int]) -> None:
    other = JoistField("g", (120.0 + apart, 0.0), (120.0, 120.0))
    assert counts(RULE, run((60.0, 60.0), (230.0, 60.0), fields=(FIELD, other))) == found


def test_a_stretch_goes_on_round_a_corner() -> None:
    # 30 in past the edge, then 18 or 20 in along it
    assert counts(RULE, run((60.0, 60.0), (150.0, 60.0), (150.0, 78.0))) == HOLDS
    assert broken(RULE, run((60.0, 60.0), (150.0, 60.0), (150.0, 80.0))).measured == 50.0


def test_two_bare_stretches_are_not_one() -> None:
    # 30 in past the edge and back under the floor, then out again
    points = ((60.0, 60.0), (150.0, 60.0), (60.0, 90.0), (60.0, 150.0))
    assert counts(RULE, run(*points))[:2] in ((0, 1), (1, 0))
    assert broken(RULE, run(*points)).measured == pytest.approx(30.0 + 30.0 * (8100 + 900) ** 0.5 / 90.0)


def test_water_is_held_more_often() -> None:
    def tube(past: float) -> Plan:
        return bare(fields=(FIELD,), supplies=(Supply("c1", "cold", ((60.0, 60.0), (120.0 + past, 60.0))),))

    assert counts(RULE, tube(32.0)) == HOLDS
    assert broken(RULE, tube(32.0625)).limit == 32.0


def test_a_floor_without_joists_is_not_judged() -> None:
    (found,) = outcomes(RULE, run((60.0, 60.0), (100.0, 60.0), fields=()))
    assert isinstance(found, NotJudged)
    assert "joists" in found.missing


def test_a_place_with_its_own_spacing() -> None:
    plan = run((60.0, 60.0), (168.0, 60.0))
    assert counts(RULE, amended(plan, "support.horizontal.PVC", 36)) == BROKEN
    assert counts(RULE, replace(plan, material="ABS")) == HOLDS
