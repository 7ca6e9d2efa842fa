"""Letters of water runs drawn side by side: each stands on its own side, so that nobody takes one for the other."""

from __future__ import annotations

import math

import pytest

from engine.drawings.plan import plan_drawing
from engine.drawings.strokes import Text
from engine.drawings.twins import bare_side
from engine.plan.records import Floor, JoistField, Plan, Point, Supply
from engine.study import study

EAST = ((0.0, 0.0), (10.0, 0.0))


@pytest.mark.parametrize(
    ("others", "side"),
    [
        ((), 0.0),
        ((((0.0, 0.1), (10.0, 0.1)),), -1.0),
        ((((10.0, -0.1), (0.0, -0.1)),), 1.0),
        # on both sides, farther off than near, past its end, across it, along it at its end, on it
        ((((0.0, 0.1), (10.0, 0.1)), ((0.0, -0.1), (10.0, -0.1))), 0.0),
        ((((0.0, 0.3), (10.0, 0.3)),), 0.0),
        ((((11.0, 0.1), (20.0, 0.1)),), 0.0),
        ((((5.0, -1.0), (5.0, 1.0)),), 0.0),
        ((((10.0, 0.0), (20.0, 0.0)),), 0.0),
        (((EAST[0], EAST[1]),), 0.0),
    ],
)
def test_the_side_on_which_nothing_runs(others: tuple[tuple[Point, Point], ...], side: float) -> None:
    assert bare_side(*EAST, others, 0.2) == side


@pytest.mark.parametrize("turn", [0, 45, 90, 135, 180, 225, 270, 315])
def test_each_tube_has_its_letters_on_its_own_side(turn: int) -> None:
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def path(off: float) -> tuple[Point, Point]:
        ends = ((-50.0, off), (50.0, off))
        first, last = ((60.0 + x * c - y * s, 60.0 + x * s + y * c) for x, y in ends)
        return first, last

    supplies = (
        Supply("s1", "cold", path(0.0), insulation=0.0),
        Supply("s2", "hot", path(0.625), insulation=0.0),
    )
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 120.0), (0.0, 120.0))
    plan = Plan(floor=Floor(outline=outline), fields=(JoistField("F", (0.0, 0.0), (120.0, 120.0)),), supplies=supplies)
    drawing = plan_drawing(study(plan), 10.0, 7.0, "water")
    words = [
        one for one in drawing.strokes if isinstance(one, Text) and one.text in ('1/2" CW', '1/2" HW') and one.halo
    ]
    assert {one.text for one in words} == {'1/2" CW', '1/2" HW'}
    middles = {}
    for one in words:
        angle = math.radians(one.angle)
        # from the foot of the letters to their middle
        x, y = one.at[0] - math.sin(angle) * one.height / 2, one.at[1] + math.cos(angle) * one.height / 2
        middles[one.text] = -x * s + y * c
    # the lines lie 0.625 in apart; the letters stand 0.13 in of paper off each, on the far side
    apart = middles['1/2" HW'] - middles['1/2" CW']
    assert apart == pytest.approx(0.625 / drawing.scale_ratio + 2 * 0.13, abs=0.01)
