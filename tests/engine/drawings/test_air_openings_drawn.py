"""Windows, doors and intakes on the plan sheet, and the reach of a vent over the roof where one comes too near."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace

from engine.drawings.air_openings import REACH
from engine.drawings.legend import legend
from engine.drawings.plan import plan_drawing
from engine.drawings.strokes import Drawing, Line, Text
from engine.plan.records import AirOpening, Plan
from engine.study import study
from tests.engine.checks.judged_plans import armed

WIDTH, HEIGHT = 16.0, 10.0


def house(*openings: AirOpening) -> Plan:
    """A vent over the roof at (240, 240) that ends 132 in above the floor."""
    return replace(armed("kitchen_sink", 12.0), air_openings=openings)


def drawn(*openings: AirOpening, content: str = "everything") -> Drawing:
    return plan_drawing(study(house(*openings)), WIDTH, HEIGHT, content)  # type: ignore[arg-type]


def reaches(drawing: Drawing) -> list[Line]:
    return [stroke for stroke in drawing.strokes if isinstance(stroke, Line) and stroke.dashes == REACH]


def words(drawing: Drawing) -> set[str]:
    return {stroke.text for stroke in drawing.strokes if isinstance(stroke, Text)}


def test_it_has_its_name_and_the_height_of_its_top() -> None:
    text = " ".join(words(drawn(AirOpening("a1", (0.0, 240.0), (0.0, 270.0), 84.0, "east door"))))
    assert "EAST DOOR" in text and "TOP 7'-0\"" in text


def test_its_sides_and_jambs_are_drawn_at_scale() -> None:
    """30 in wide and as deep as a 2x4 wall, 3-1/2 in, though it stands in none."""
    plain, with_it = drawn(), drawn(AirOpening("a1", (100.0, 300.0), (130.0, 300.0), 60.0))
    assert plain.scale_ratio == with_it.scale_ratio
    ratio = with_it.scale_ratio
    boxes = [
        stroke
        for stroke in with_it.strokes
        if isinstance(stroke, Line) and stroke.closed and len(stroke.points) == 4 and _is(stroke, 30.0, 3.5, ratio)
    ]
    assert len(boxes) == 1


def _is(box: Line, wide: float, deep: float, ratio: float) -> bool:
    a, b, c, _ = box.points
    return math.dist(a, b) == pytest.approx(wide / ratio) and math.dist(b, c) == pytest.approx(deep / ratio)


def test_a_vent_that_is_far_enough_or_high_enough_shows_no_reach() -> None:
    assert reaches(drawn(AirOpening("a1", (240.0, 360.0), (260.0, 360.0), 130.0))) == []
    assert reaches(drawn(AirOpening("a1", (240.0, 300.0), (260.0, 300.0), 96.0))) == []


def test_the_reach_is_the_circle_of_the_distance_to_keep() -> None:
    """IRC 2021 P3103.5: 10 ft."""
    drawing = drawn(AirOpening("a1", (240.0, 300.0), (260.0, 300.0), 110.0))
    (circle,) = reaches(drawing)
    across = [x for x, _ in circle.points]
    assert max(across) - min(across) == pytest.approx(240.0 / drawing.scale_ratio, rel=1e-3)
    assert reaches(drawn(AirOpening("a1", (240.0, 300.0), (260.0, 300.0), 110.0), content="drains")) == []


def test_the_legend_names_both() -> None:
    told = " ".join(stroke.text for stroke in legend(8.0, 0.08).strokes if isinstance(stroke, Text))
    assert "window, door or intake" in told and "vent too near an opening" in told
