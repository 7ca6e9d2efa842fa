"""How wide the main vent is: IRC 2021 P3102.3 (read in the 2018 edition), half of what the building drain must be."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.checks import judge
from engine.plan.records import Exit, Fixture, Plan, Riser, Vent
from engine.rulebooks import RuleBook
from engine.study import work_out
from tests.engine.checks.judged_plans import amended, bare, broken, counts, drain, findings, not_judged

RULE = "main-vent-too-small"
FOOT = (60.0, 100.0)


def closet(vent: str | None = None, main: str = "3", **given: object) -> Plan:
    """A closet, whose building drain must be 3 in, on a drain that a riser vents in the size given."""
    plan = bare(
        fixtures=(Fixture("wc1", "water_closet", (100.0, 100.0)),),
        drains=(drain((100.0, 100.0), FOOT, (20.0, 100.0), size=main),),
        risers=(Riser("r1", FOOT, vent=vent),),  # type: ignore[arg-type]
        exits=(Exit("x1", (20.0, 100.0)),),
    )
    return replace(plan, **given)


def test_half_of_three_inches_is_enough() -> None:
    assert counts(RULE, closet("1-1/2")) == (1, 0, 0, 0)
    assert counts(RULE, closet()) == (1, 0, 0, 0), "an open size is"


def test_the_next_size_down_is_not() -> None:
    found = broken("main-vent-too-small", closet("1-1/4"))
    assert (found.measured, found.limit, found.unit, found.weight) == (1.25, 1.5, "in", "stop")
    assert (found.elements, found.cites) == (("x1", "r1"), "IRC 2021 P3102.3")
    assert "The widest vent from the building drain of x1 to the open air is 1-1/4 in" in found.text


def test_it_goes_by_what_the_drain_must_be_and_not_by_what_was_bought() -> None:
    assert counts(RULE, closet("1-1/2", main="4")) == (1, 0, 0, 0)


def test_a_lavatory_alone_asks_for_less() -> None:
    """Its building drain must be 1-1/2 in by Table P3005.4.2, and half of that is under the smallest vent."""
    at = (240.0, 240.0)
    plan = bare(
        fixtures=(Fixture("lav1", "lavatory", at),),
        drains=(drain(at, (200.0, 240.0), size="3"),),
        risers=(Riser("r1", at, vent="1-1/4"),),
        exits=(Exit("x1", (200.0, 240.0)),),
    )
    assert counts(RULE, plan) == (1, 0, 0, 0)


def test_a_vent_that_is_drawn_narrower_on_the_way() -> None:
    far = (60.0, 160.0)
    plan = closet(
        risers=(Riser("r1", FOOT, vent="2", top="none"), Riser("r2", far, vent="2")),
        vents=(Vent("v1", (FOOT, far), above_floor=60.0, size="1-1/4"),),
    )
    assert (broken(RULE, plan).measured, broken(RULE, plan).limit) == (1.25, 1.5)
    wide = replace(plan, vents=(replace(plan.vents[0], size="1-1/2"),))
    assert counts(RULE, wide) == (1, 0, 0, 0)


def test_one_wide_vent_is_enough_beside_narrow_ones() -> None:
    two = closet(risers=(Riser("r1", FOOT, vent="1-1/4"), Riser("r2", (40.0, 100.0), vent="2")))
    two = replace(two, drains=(drain((100.0, 100.0), FOOT, (40.0, 100.0), (20.0, 100.0), size="3"),))
    assert counts(RULE, two) == (1, 0, 0, 0)


@pytest.mark.parametrize("top", ["valve", "capped"])
def test_a_drain_without_an_open_vent_is_another_rule_s(top: str) -> None:
    plan = closet(risers=(Riser("r1", FOOT, vent="1-1/4", top=top, above_floor=40.0),))  # type: ignore[arg-type]
    assert counts(RULE, plan) == (0, 0, 0, 1)
    assert findings("no-vent-outdoors", plan) != []


def test_an_exit_that_nothing_drains_to_does_not_apply() -> None:
    plan = bare(drains=(drain((50.0, 50.0), (20.0, 50.0)),), exits=(Exit("x1", (20.0, 50.0)),))
    assert counts(RULE, plan) == (0, 0, 0, 1)


def test_an_exit_off_its_drain_is_nothing_to_it() -> None:
    assert not_judged(RULE, closet("1-1/4", exits=(Exit("x1", (20.0, 90.0)),))) == []


def test_a_place_that_asks_for_more() -> None:
    """Two thirds of 3 in."""
    plan = amended(closet("1-1/2"), "vent.main_fraction", "2/3")
    found = broken(RULE, plan)
    assert (found.measured, found.limit, found.cites) == (1.5, 2.0, "IRC 2021 P3102.3, amended")
    assert counts(RULE, amended(closet("2"), "vent.main_fraction", "2/3")) == (1, 0, 0, 0)


def test_the_uniform_code_measures_all_together() -> None:
    """UPC 2021 904.1: no main vent, but an area."""
    model = work_out(closet("1-1/4", rulebook="upc-2021"))
    assert judge(model)[2][RULE] == {"holds": 0, "broken": 0, "not_judged": 0, "does_not_apply": 1}


def test_a_book_that_does_not_tell_is_not_judged() -> None:
    model = work_out(closet("1-1/4"))
    kept = {value.key: value for value in model.book if value.key != "vent.main_fraction"}
    model.book = RuleBook(model.book.name, model.book.title, model.book.short, model.book.notice, kept)
    _, missing, looked_at = judge(model)
    assert looked_at[RULE]["not_judged"] == 1
    assert (RULE, "the book gives no vent.main_fraction") in [(name, one.missing) for name, one in missing]
