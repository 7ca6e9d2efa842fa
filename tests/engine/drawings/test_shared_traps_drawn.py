"""On the floor plan: a dotted line from what drains through another fixture to that one, and bowls as they are."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from engine.drawings.fixtures import HOSE
from engine.drawings.legend import legend
from engine.drawings.plan import plan_drawing
from engine.drawings.strokes import Line, Text
from engine.plan.records import Fixture, Plan
from engine.study import study
from tests.engine.checks.judged_plans import armed


def sink(through: str | None, **given: Any) -> Plan:
    plan = armed("kitchen_sink", 12.0, **given)
    other = Fixture("f2", "dishwasher", (240.0, 275.0), turn=0.0, through=through)
    return replace(plan, fixtures=(*plan.fixtures, other))


@pytest.mark.parametrize(("content", "count"), [("overview", 1), ("drains", 1), ("water", 0)])
def test_a_line_to_the_trap(content: str, count: int) -> None:
    """Both face east with their backs in one line: 35 in from middle to middle."""
    drawing = plan_drawing(study(sink("f1")), 10.0, 7.0, content)  # type: ignore[arg-type]
    lines = [stroke for stroke in drawing.strokes if isinstance(stroke, Line) and stroke.dashes == HOSE]
    assert len(lines) == count
    for line in lines:
        (x0, y0), (x1, y1) = line.points
        assert x0 == pytest.approx(x1)
        assert abs(y1 - y0) * drawing.scale_ratio == pytest.approx(35.0)


def test_none_where_it_has_a_drain_of_its_own() -> None:
    drawing = plan_drawing(study(sink(None)), 10.0, 7.0, "overview")
    assert not [stroke for stroke in drawing.strokes if isinstance(stroke, Line) and stroke.dashes == HOSE]


def test_each_bowl_is_drawn() -> None:
    strokes = [len(plan_drawing(study(sink("f1", bowls=n)), 10.0, 7.0, "water").strokes) for n in (1, 2, 3)]
    assert strokes == [strokes[0], strokes[0] + 1, strokes[0] + 2]


def test_the_legend_tells_it() -> None:
    words = [stroke.text for stroke in legend(4.0, 0.08, "drains").strokes if isinstance(stroke, Text)]
    assert "drains through another" in words
