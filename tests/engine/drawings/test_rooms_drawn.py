"""Room that is kept clear about fixtures, dashed on the floor plan and told in its legend; on no other sheet."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.drawings.plan import plan_drawing
from engine.drawings.rooms import KEPT
from engine.drawings.strokes import Line
from engine.plan.file import read
from engine.study import study

SAMPLES = Path(__file__).resolve().parents[3] / "samples"


@pytest.mark.parametrize(("content", "rooms"), [("overview", 7), ("drains", 0)])
def test_closet_lavatory_and_shower(content: str, rooms: int) -> None:
    """Three sides of the closet and of the lavatory, and the way into the shower (IRC 2021 P2705.1, R307.1)."""
    drawing = plan_drawing(study(read(SAMPLES / "one-bath-cottage.jway")), 10.0, 7.0, content)  # type: ignore[arg-type]
    kept = [stroke for stroke in drawing.strokes if isinstance(stroke, Line) and stroke.dashes == KEPT]
    assert len(kept) == rooms
