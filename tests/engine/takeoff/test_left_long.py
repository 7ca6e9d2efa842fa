"""What a step leaves long is what the cut list says: no more than the longest stick for sale leaves."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Plan, StickForSale
from engine.study import work_out
from engine.takeoff.assembly import assembly
from engine.takeoff.trimming import trims
from tests.engine.checks.vented_plans import column

BASIN: Plan = column(("lavatory", 18.0), size="1-1/2", vent="1-1/2")


def vent_of(plan: Plan) -> tuple[float, str]:
    """The extra length of the vent through the roof, and the step that sets it."""
    model = work_out(plan)
    mark = next(piece.mark for piece in model.joinery.pieces if piece.system == "vent" and piece.cut > 100.0)
    return trims(model)[mark].extra, next(step.text for step in assembly(model) if mark in step.pieces)


def test_six_inches_where_the_stick_gives_them() -> None:
    """Roof at 133 in, tee at 19 less 1.0625: 112 15/16 in final, 118 15/16 at first."""
    extra, text = vent_of(BASIN)
    assert extra == 6.0
    assert "Leave it 6 in long (118 15/16 in)" in text


@pytest.mark.parametrize(("stick", "extra"), [(115.0, 115.0 - 112.9375), (113.0, 0.0625)])
def test_what_the_stick_leaves(stick: float, extra: float) -> None:
    plan = replace(BASIN, sticks=(StickForSale("1-1/2", stick, 10.0), StickForSale("2", 240.0, 10.0)))
    found, text = vent_of(plan)
    assert found == pytest.approx(extra)
    assert f"({stick:g} in)" in text


def test_none_is_not_spoken_of() -> None:
    plan = replace(BASIN, sticks=(StickForSale("1-1/2", 112.9375, 10.0), StickForSale("2", 240.0, 10.0)))
    found, text = vent_of(plan)
    assert found == pytest.approx(0.0)
    assert "Leave it" not in text
