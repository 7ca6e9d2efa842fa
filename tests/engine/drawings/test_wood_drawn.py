"""The floor's wood on paper: beams under the joists and among them, and the numbers of pieces that lap."""

from __future__ import annotations

import itertools

import pytest

from engine.drawings import Drawing, Fill, Line, Text, plan_drawing
from engine.drawings.linetypes import BEAM_FILL, MEDIUM
from engine.drawings.wood import BEAM
from engine.plan.records import Beam, Floor, JoistField, Plan
from engine.study import study


def drawn(beam: Beam | None = None, **given: object) -> Drawing:
    field = JoistField(**({"id": "j1", "corner": (0.0, 0.0), "size": (120.0, 300.0)} | given))  # type: ignore[arg-type]
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 300.0), (0.0, 300.0))
    plan = Plan(floor=Floor(outline=outline), fields=(field,), beams=() if beam is None else (beam,))
    return plan_drawing(study(plan), 9.0, 7.5, "everything")


@pytest.mark.parametrize(("top", "flush"), [(0.0, True), (None, False)])
def test_a_beam_among_the_joists_is_filled_and_drawn_in_full(top: float | None, flush: bool) -> None:
    strokes = drawn(Beam("b1", (0.0, 150.0), (120.0, 150.0), top_z=top)).strokes
    sides = [
        one for one in strokes if isinstance(one, Line) and one.closed and one.weight == MEDIUM and one.grey == 0.35
    ]
    assert [one.dashes for one in sides] == [() if flush else BEAM]
    assert any(isinstance(one, Fill) and one.grey == BEAM_FILL for one in strokes) == flush


def test_each_piece_has_its_number_at_both_ends_and_none_covers_another() -> None:
    strokes = drawn(bearings=(150.0,), laps=(150.0,), lap=12.0).strokes
    numbers = [one for one in strokes if isinstance(one, Text) and one.text[0].isdigit() and one.text[-1] in "ab"]
    assert sorted(one.text for one in numbers) == sorted(f"{n}{letter}" for n in range(1, 8) for letter in "aabb")
    for one, other in itertools.combinations(numbers, 2):
        apart = abs(one.at[0] - other.at[0]), abs(one.at[1] - other.at[1])
        assert apart[0] > one.height or apart[1] > one.height, (one.text, other.text)
