"""Cleanouts and hatches on the plan sheet: where their marks stand, which way they open, what is written at them."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.drawings.linetypes import WIDE
from engine.drawings.plan import plan_drawing
from engine.drawings.strokes import Arc, Drawing, Line, Text
from engine.drawings.ways_in import EDGE, RADIUS
from engine.plan.records import Cleanout, Hatch, Plan
from engine.study import study
from tests.engine.checks.judged_plans import armed


def drawn(plan: Plan, content: str = "drains") -> Drawing:
    return plan_drawing(study(plan), 15.0, 10.0, content)  # type: ignore[arg-type]


def words(drawing: Drawing) -> str:
    return " ".join(stroke.text for stroke in drawing.strokes if isinstance(stroke, Text))


def rings(drawing: Drawing) -> list[Arc]:
    return [stroke for stroke in drawing.strokes if isinstance(stroke, Arc) and stroke.radius == RADIUS]


@pytest.fixture
def house() -> Plan:
    """A kitchen sink's riser at (240, 240), its drain west to the exit."""
    return armed("kitchen_sink", 8.0)


def test_a_cleanout_in_a_riser_looks_where_it_opens(house: Plan) -> None:
    for turn, way in ((0.0, (1.0, 0.0)), (90.0, (0.0, 1.0))):
        drawing = drawn(replace(house, cleanouts=(Cleanout("k1", (240.0, 240.0), above_floor=9.0, turn=turn),)))
        (ring,) = rings(drawing)
        stub = next(
            stroke
            for stroke in drawing.strokes
            if isinstance(stroke, Line)
            and stroke.weight == WIDE
            and len(stroke.points) == 2
            and abs(stroke.points[1][0] + RADIUS * way[0] - ring.centre[0]) < 1e-9
            and abs(stroke.points[1][1] + RADIUS * way[1] - ring.centre[1]) < 1e-9
        )
        assert stub.points[1] != stub.points[0]
        assert 'CO k1, 9" OVER FLOOR' in words(drawing)


def test_one_at_a_drains_end_looks_against_the_flow(house: Plan) -> None:
    plan = replace(house, fixtures=(), risers=(), cleanouts=(Cleanout("k1", (240.0, 240.0), size="2"),))
    drawing = drawn(plan)
    (ring,) = rings(drawing)
    assert 'CO k1 2"' in words(drawing)
    bare = drawn(replace(plan, cleanouts=()))
    assert rings(bare) == []
    ends = [stroke.points[0] for stroke in drawing.strokes if isinstance(stroke, Line) and stroke.weight == WIDE]
    assert any(abs(end[1] - ring.centre[1]) < 1e-9 and end[0] < ring.centre[0] for end in ends)


def test_a_hatch_is_a_broken_square_of_its_clear_width(house: Plan) -> None:
    drawing = drawn(replace(house, hatches=(Hatch("h1", (100.0, 100.0), clear=30.0, name="crawl door"),)))
    (square,) = [stroke for stroke in drawing.strokes if isinstance(stroke, Line) and stroke.dashes == EDGE]
    across = square.points[1][0] - square.points[0][0]
    assert across * drawing.scale_ratio == pytest.approx(30.0)
    assert 'CRAWL DOOR 30" CLEAR' in words(drawing)
    assert "HATCH 24" in words(drawn(replace(house, hatches=(Hatch("h1", (100.0, 100.0)),))))


def test_water_sheets_show_neither(house: Plan) -> None:
    plan = replace(
        house,
        hatches=(Hatch("h1", (100.0, 100.0)),),
        cleanouts=(Cleanout("k1", (240.0, 240.0), above_floor=9.0),),
    )
    assert rings(drawn(plan, "water")) == []
    assert "CLEAR" not in words(drawn(plan, "water"))


def test_the_exit_tells_of_the_cleanout_outside(house: Plan) -> None:
    assert "CO OUTSIDE" not in words(drawn(house))
    outside = replace(house, exits=(replace(house.exits[0], cleanout_outside=True),))
    assert "CO OUTSIDE" in words(drawn(outside))
