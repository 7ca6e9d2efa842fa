"""Sketches of fittings: every leg that is to be measured has its letter, and nothing leaves the paper."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from engine.drawings.gauging import sketch
from engine.drawings.gauging.outlines import outline
from engine.drawings.strokes import Arc, Drawing, Fill, Line, Text
from engine.plan.file import read
from engine.plan.records import Point
from engine.study import work_out
from engine.takeoff.gauge import Gauge, gauge
from engine.trade.fittings import KINDS, sizes

SAMPLES = sorted((Path(__file__).parents[3] / "samples").glob("*.jway"))
FOUND = [gauged for path in SAMPLES for gauged in gauge(work_out(read(path)))]
LETTERING = 0.08


def points(drawing: Drawing) -> list[Point]:
    found: list[Point] = []
    for stroke in drawing.strokes:
        if isinstance(stroke, Line | Fill):
            found += stroke.points
        elif isinstance(stroke, Arc):
            (x, y), r = stroke.centre, stroke.radius
            found += [(x - r, y - r), (x + r, y + r)]
        elif isinstance(stroke, Text):
            found.append(stroke.at)
    return found


@pytest.mark.parametrize("gauged", FOUND, ids=lambda gauged: gauged.name)
def test_each_leg_has_its_letter_once(gauged: Gauge) -> None:
    drawing = sketch(gauged, 1.62, 1.3, LETTERING)
    letters = [stroke.text for stroke in drawing.strokes if isinstance(stroke, Text)]
    assert letters == [leg.letter for leg in gauged.legs]


@pytest.mark.parametrize("size", [(1.62, 1.3), (2.4, 1.8), (1.0, 1.0)])
@pytest.mark.parametrize("gauged", FOUND, ids=lambda gauged: gauged.name)
def test_nothing_leaves_the_paper(gauged: Gauge, size: tuple[float, float]) -> None:
    drawing = sketch(gauged, *size, LETTERING)
    for x, y in points(drawing):
        assert -0.02 <= x <= size[0] + 0.02
        assert -0.02 <= y <= size[1] + 0.02


@pytest.mark.parametrize("kind", [kind for kind in KINDS if sizes(kind) and not kind.startswith("pex")])
def test_every_kind_of_fitting_can_be_drawn(kind: str) -> None:
    for size in sizes(kind):
        shape = outline(kind, size) if len(KINDS[kind].legs) > 1 else None
        if shape is not None:
            assert shape.barrels
            assert all(math.isfinite(value) for barrel in shape.barrels for point in barrel.line for value in point)


def test_a_dimension_is_as_long_as_its_leg() -> None:
    """A 3 in wye: upstream leg 3-7/16 against its branch's 3-11/16, as assumed for a 2 in branch."""
    wye = next(gauged for gauged in FOUND if gauged.name == "wye 3x3x2")
    spans = outline(wye.kind, wye.size).spans
    assert math.dist(spans["run_in"].start, spans["run_in"].end) == pytest.approx(3.4375)
    assert math.dist(spans["branch"].start, spans["branch"].end) == pytest.approx(3.6875)


def test_a_bend_turns_by_its_angle() -> None:
    for kind, turn in (("quarter_bend", 90.0), ("eighth_bend", 45.0), ("sixteenth_bend", 22.5)):
        spans = outline(kind, (2.0, 2.0)).spans
        (ax, ay), (bx, by) = spans["run_in"].end, spans["run_out"].end
        between = math.degrees(math.acos((ax * bx + ay * by) / math.hypot(ax, ay) / math.hypot(bx, by)))
        assert between == pytest.approx(180.0 - turn)
