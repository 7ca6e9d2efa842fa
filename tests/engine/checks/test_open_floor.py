"""What lies in the clear way of an opening whose floor is left out. Common practice, no source."""

from __future__ import annotations

import pytest

from engine.checks.open_floor import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome
from engine.plan.records import Fixture, Floor, FloorOpening, JoistField, Plan, Supply, Wall
from engine.study import work_out

JUDGE = {rule.id: rule.judge for rule in RULES}["in-an-open-floor"]
OPENING = FloorOpening("o1", (33.0, 40.0), (63.0, 76.0), open=True, name="ladder")


def said(opening: FloorOpening = OPENING, **things: object) -> list[Outcome]:
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    field = JoistField("j1", (0.0, 0.0), (120.0, 108.0))
    return list(
        JUDGE(work_out(Plan(floor=Floor(outline=outline), fields=(field,), floor_openings=(opening,), **things)))
    )  # type: ignore[arg-type]


# 1/2 in tube is 5/8 in wide: clear at 5/16 in from the clear way's side
@pytest.mark.parametrize(("y", "expected"), [(39.6875, Holds), (39.75, Finding), (60.0, Finding)])
def test_pipe_keeps_out(y: float, expected: type[Outcome]) -> None:
    (found,) = said(supplies=(Supply("s1", "cold", ((10.0, y), (110.0, y)), size="1/2", down=4.0, insulation=0.0),))
    assert type(found) is expected
    if isinstance(found, Finding):
        assert (found.weight, found.elements) == ("stop", ("s1", "o1"))
        assert found.measured == pytest.approx(min(0.625, y + 0.3125 - 40.0))


def test_floor_that_goes_on_over_it_takes_pipe() -> None:
    supply = Supply("s1", "cold", ((10.0, 60.0), (110.0, 60.0)), size="1/2", down=4.0, insulation=0.0)
    over = FloorOpening("o1", (33.0, 40.0), (63.0, 76.0))
    assert [type(one) for one in said(over, supplies=(supply,))] == [DoesNotApply]


def test_neither_wall_nor_fixture_stands_in_it() -> None:
    wall = Wall("w1", (0.0, 60.0), (120.0, 60.0))
    closet = Fixture("f1", "water_closet", (48.0, 58.0), width=20.0, depth=28.0)
    drain = Fixture("f2", "floor_drain", (62.0, 75.0))
    found = [one for one in said(walls=(wall,), fixtures=(closet, drain)) if isinstance(one, Finding)]
    assert [one.elements[0] for one in found] == ["w1", "f1", "f2"]
    assert "stands in the clear way of ladder" in found[1].text


@pytest.mark.parametrize(("north", "expected"), [(108.0, Holds), (108.0625, Finding), (150.0, Finding)])
def test_an_opening_ends_on_the_floor(north: float, expected: type[Outcome]) -> None:
    past = {rule.id: rule.judge for rule in RULES}["opening-past-the-floor"]
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    opening = FloorOpening("o1", (33.0, 40.0), (63.0, north))
    field = JoistField("j1", (0.0, 0.0), (120.0, 108.0))
    (found,) = past(work_out(Plan(floor=Floor(outline=outline), fields=(field,), floor_openings=(opening,))))
    assert type(found) is expected
    if isinstance(found, Finding):
        assert (found.weight, found.measured) == ("stop", north - 108.0)
